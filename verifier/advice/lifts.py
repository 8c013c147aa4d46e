"""What is lifted from the ground to where it stands: what is recommended for one, and how many people it takes."""

from collections.abc import Mapping
from dataclasses import dataclass

from models.case import Copy
from models.gear import Thing
from models.geometry import AXIS_OF_FACE, Box, box
from models.rulebook import RuleBook
from models.spaces import Space
from models.stages import aboard, mass_kg, present
from models.trip import Stage, Trip
from verifier.layout import Layout, Placed
from verifier.lifting import LEAST_TRAVEL_MM, Hands, recommended_kg, turned_kg, zone_kg

OPPOSITE = {"left": "right", "right": "left", "rear": "front", "front": "rear"}
"""Each side wall of a space with the one across."""


@dataclass(frozen=True, slots=True)
class TooFew:
    """A stage at which fewer people travel than lift a thing there."""

    stage: str
    people: int
    """How many it takes there."""
    travel: int


@dataclass(frozen=True, slots=True)
class Lift:
    """One copy lifted by one person, with its mass at the heaviest stage."""

    copy: Copy
    name: str
    space: str
    kg: float
    recommended_kg: float
    """By the lifting equation, at the ground or where it stands, whichever is less; 0 beyond its reach."""
    ground: Hands
    """Hands at the ground."""
    there: Hands
    """Hands where it stands, or at the face through which it is then pushed in."""
    two_person: bool
    """It is marked so."""
    elsewhere_helps: bool
    """Whether one person is recommended to lift it from the ground to a better place."""
    women_kg: float | None
    """Second opinion for the weaker: the figure of the zones, less what turning takes off. None: above all zones."""
    men_kg: float | None

    unreached_kg: float
    """Up to this mass it is not told where the equation does not reach."""
    people: int
    """How many lift it at its heaviest stage, at the least."""
    each_kg: float
    """What is reckoned for each of more than two, in kg."""
    too_few: TooFew | None
    """Where the most people are missing, the first such stage. None: enough travel, or nobody is named."""

    @property
    def in_reach(self) -> bool:
        """Whether the equation reaches to where it stands."""
        return self.recommended_kg > 0

    @property
    def too_heavy(self) -> bool:
        """Whether to tell it: it takes more than one, and more than its mark says where it is marked for two."""
        return self.people > (2 if self.two_person else 1) or self.too_few is not None

    @property
    def over_kg(self) -> float:
        """How much heavier it is than recommended for one."""
        return self.kg - self.recommended_kg


def lifts(layout: Layout) -> tuple[Lift, ...]:
    """Every carried copy that is heavy enough to be looked at, those first that are most over what is recommended."""
    trip, least = layout.case.trip, layout.case.rulebook.lifting.least_kg
    travel = {stage.name: _travelling(trip, stage) for stage in trip.stages}
    found = (
        _lift(layout, one, space, kg, travel)
        for one, space in layout.located
        if (kg := max(mass_kg(one.thing, stage, "most") for stage in trip.stages)) >= least
    )
    return tuple(sorted(found, key=lambda one: -one.over_kg))


def _lift(layout: Layout, one: Placed, space: Space, kg: float, travel: Mapping[str, int]) -> Lift:
    book = layout.case.rulebook
    ground, there = _at_the_ground(one, book), _where_it_stands(layout, one, space)
    alone = [_recommended_kg(one, at, there.up_mm - ground.up_mm, book) for at in (ground, there)]
    women, men = _by_zones(ground, there, book) or (None, None)
    most_kg = min(alone) or book.lifting.unreached_kg
    return Lift(
        one.copy, one.name, space.name, kg, min(alone), ground, there, one.thing.two_person,
        elsewhere_helps=kg <= _recommended_kg(one, ground, LEAST_TRAVEL_MM, book), women_kg=women, men_kg=men,
        unreached_kg=book.lifting.unreached_kg, people=_people(one.thing, kg, most_kg, book),
        each_kg=book.handling.single_person_kg, too_few=_too_few(layout, one, most_kg, travel),
    )  # fmt: skip


def _people(thing: Thing, kg: float, most_kg: float, book: RuleBook) -> int:
    """How many lift so many kg: two where it is more than `most_kg` or marked so, more by the figure for one."""
    return book.handling.people(kg, at_least=2 if thing.two_person or kg > most_kg else 1)


def _too_few(layout: Layout, one: Placed, most_kg: float, travel: Mapping[str, int]) -> TooFew | None:
    trip, book = layout.case.trip, layout.case.rulebook
    found = [
        TooFew(at.name, _people(one.thing, mass_kg(one.thing, at, "most"), most_kg, book), travel[at.name])
        for at in trip.stages
        if present(one.thing, at) and travel[at.name] > 0
    ]
    worst = max(found, key=lambda at: at.people - at.travel, default=None)
    return worst if worst is not None and worst.people > worst.travel else None


def _travelling(trip: Trip, stage: Stage) -> int:
    """How many travel at a stage: where the vehicle stands, those of the drive to it, else of the next; 0: none named.

    Who is aboard of a vehicle that stands says only who sits in it.
    """
    at = trip.stages.index(stage)
    near = [*reversed(trip.stages[: at + 1]), *trip.stages[at + 1 :]]
    drive = next((one for one in near if one.driving), None)
    return len(trip.people) if drive is None else len(aboard(trip, drive))


def _recommended_kg(one: Placed, at: Hands, travel_mm: float, book: RuleBook) -> float:
    figures = book.lifting
    return recommended_kg(at, abs(travel_mm), figures.grips[one.thing.shape], figures.load_kg, figures.frequency)


def _at_the_ground(one: Placed, book: RuleBook) -> Hands:
    """It stands on the ground as it will stand aboard, its longer side across the body, held at its middle."""
    along, across, height = one.box.size_mm
    return Hands(_body_mm(height / 2, book) + min(along, across) / 2, height / 2)


def _where_it_stands(layout: Layout, one: Placed, space: Space) -> Hands:
    book, up = layout.case.rulebook, one.box.centre_mm[2]
    side = layout.case.opening_named[space.opening].side
    out = _body_mm(up, book) + _reach_mm(one.box, space, side)
    return Hands(out, up, book.lifting.turned_deg.get(side, 0.0))


def _body_mm(up_mm: float, book: RuleBook) -> float:
    return book.lifting.low_body_mm if up_mm < book.lifting.low_mm else book.lifting.body_mm


def _reach_mm(at: Box, space: Space, side: str) -> float:
    """How far beyond the wall that one stands at the hands are when they let the weight down.

    From above, and in what slides out, it is let down in its place. On the floor it is let down at the face and then
    pushed in; on anything else it is carried to its place.
    """
    room = box(space.corner_mm, space.size_mm)
    if space.face == "top" or space.slides is not None:
        return min(_depth_mm(at, room, wall) for wall in _walls(side))
    axis, _ = AXIS_OF_FACE[space.face]
    return at.size_mm[axis] / 2 if at.low[2] == room.low[2] else _depth_mm(at, room, space.face)


def _walls(side: str) -> tuple[str, ...]:
    """Walls one may stand at to reach in from above: all but the one opposite to the opening."""
    return tuple(wall for wall in OPPOSITE if OPPOSITE[wall] != side)


def _depth_mm(at: Box, room: Box, wall: str) -> float:
    """From a wall of a space to the middle of a thing."""
    axis, outward = AXIS_OF_FACE[wall]
    edge = room.high[axis] if outward > 0 else room.low[axis]
    return abs(edge - at.centre_mm[axis])


def _by_zones(ground: Hands, there: Hands, book: RuleBook) -> tuple[float, float] | None:
    close = max(ground.out_mm, there.out_mm) <= book.lifting.close_mm
    low, high = sorted((ground.up_mm, there.up_mm))
    found = zone_kg(low, high, close, book.lifting)
    if found is None:
        return None
    return turned_kg(found.women, there.turned_deg, book.lifting), turned_kg(found.men, there.turned_deg, book.lifting)
