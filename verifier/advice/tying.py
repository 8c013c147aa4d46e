"""How to tie what has to be tied: forces, straps, what tips, and why straps that only press are not counted."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate

from models.case import Copy
from models.rulebook import Restraint, RuleBook
from models.spaces import Space
from models.stages import mass_kg
from models.trip import Stage
from verifier.finding import at_most
from verifier.layout import Layout, Placed
from verifier.securing import braking_n, held_n, required_restraint_n
from verifier.strapping import (
    energy_j,
    fewest_straps,
    pressed_kg,
    pressing_straps,
    straps_by_length,
    tips,
)
from verifier.tied import loose_in, tied_in

BLOCKING = ("enclosed", "barrier")
"""How a space holds its load that also stops it forward."""


@dataclass(frozen=True, slots=True)
class Tie:
    """How one copy is tied. A strap goes from a point of the space to the thing."""

    copy: Copy
    name: str
    kg: float
    """Most mass at the heaviest stage, with all that lies in it."""
    in_it_kg: float
    """How much of that lies in it; 0 where nothing does."""
    forward_n: float
    rearward_n: float
    sideways_n: float
    upward_n: float
    by_strength: int | None
    """Fewest straps to the weakest point of the space, half of its rating counted. None: there is none that counts."""
    by_length: int
    """Fewest straps by length and mass, a second opinion."""
    straps: int | None
    """The greater of both, and for a hard thing as many as keep it from turning. None: no point counts."""
    tips: tuple[str, ...]
    """Ways a hard thing tips when it is only kept from sliding: it has to be tied above its middle."""
    pressing_forward: int | None
    """Straps that hold it by pressing from above alone, in braking: told, never counted."""
    pressing_sideways: int | None


@dataclass(frozen=True, slots=True)
class TiedSpace:
    """A space with things that have to be tied."""

    space: str
    points_dan: tuple[float, ...]
    """Ratings of its points, strongest first."""
    ties: tuple[Tie, ...]
    straps_together: int | None
    """Fewest straps when all is lashed together. None: its points do not hold it."""
    straps_apart: int | None
    """Straps when each thing has its own. None: no point counts."""
    pressed_forward_kg: float | None
    """What a strap of its weakest point that only presses from above holds by friction, in braking. None: no point."""
    pressed_sideways_kg: float | None


@dataclass(frozen=True, slots=True)
class Barrier:
    """The heaviest thing behind the cargo barrier, in the crash that a barrier is made for."""

    name: str
    kg: float
    """Most mass at its heaviest stage, with all that lies in it."""
    in_it_kg: float
    """How much of that lies in it; 0 where nothing does."""
    rated_kg: float
    force_n: float
    energy_j: float


@dataclass(frozen=True, slots=True)
class Tying:
    """All advice on tying."""

    spaces: tuple[TiedSpace, ...]
    barrier: Barrier | None
    """None: no barrier, or nothing behind it."""
    loose: tuple[tuple[Copy, str], ...] = ()
    """What nothing at all holds, with its name in the plan: light soft things among people, where every rule holds."""

    @property
    def straps_together(self) -> int | None:
        """Fewest straps of all spaces. None: some space has none that hold."""
        return _sum(tuple(one.straps_together for one in self.spaces))

    @property
    def straps_apart(self) -> int | None:
        """Straps of all spaces when each thing has its own. None: some space has no point."""
        return _sum(tuple(one.straps_apart for one in self.spaces))


def tying(layout: Layout) -> Tying:
    """Tell how everything is tied that has to be."""
    spaces = ((space, tied_in(layout, space)) for space in layout.case.vehicle.spaces)
    told = tuple(_space(layout, space, tied) for space, tied in spaces if tied)
    return Tying(told, _barrier(layout), tuple((one.copy, one.name) for one in loose_in(layout)))


def _sum(counts: tuple[int | None, ...]) -> int | None:
    known = [count for count in counts if count is not None]
    return sum(known) if len(known) == len(counts) else None


def _loaded_kg(layout: Layout, things: tuple[Placed, ...], stage: Stage) -> float:
    return sum(layout.loaded_kg(one, stage) for one in things)


def _heaviest(layout: Layout, *things: Placed) -> Stage:
    """The stage at which things weigh most, with all that lies in them: a tie pulls on what it holds as a whole."""
    return max(layout.case.trip.stages, key=lambda stage: _loaded_kg(layout, things, stage))


def _heaviest_kg(layout: Layout, *things: Placed) -> float:
    return _loaded_kg(layout, things, _heaviest(layout, *things))


def _in_it_kg(layout: Layout, one: Placed) -> float:
    stage = _heaviest(layout, one)
    return layout.loaded_kg(one, stage) - mass_kg(one.thing, stage, "most")


def _space(layout: Layout, space: Space, tied: tuple[Placed, ...]) -> TiedSpace:
    book = layout.case.rulebook
    points = tuple(sorted((tie.rated_dan for tie in space.tie_downs), reverse=True))
    ties = tuple(_tie(layout, one, space, points) for one in tied)
    forward, sideways = _pressed(book, points) or (None, None)
    return TiedSpace(
        space=space.name,
        points_dan=points,
        ties=ties,
        straps_together=_together(layout, tied, points),
        straps_apart=_sum(tuple(tie.straps for tie in ties)),
        pressed_forward_kg=forward,
        pressed_sideways_kg=sideways,
    )


def _together(layout: Layout, tied: tuple[Placed, ...], points: tuple[float, ...]) -> int | None:
    """Fewest points, the strongest first, that hold all together in braking, as the rule `restraint` reckons it."""
    book = layout.case.rulebook
    pull = braking_n(_heaviest_kg(layout, *tied), book.restraint)
    least = max(_least_of(one, book) for one in tied)
    held = accumulate(held_n([dan], book.restraint) for dan in points)
    enough = (count for count, force in enumerate(held, start=1) if at_most(pull, force))
    first = next(enough, None)
    return None if first is None else max(first, least)


def _least_of(one: Placed, book: RuleBook) -> int:
    return book.strapping.hard_least if one.thing.shape == "hard" else 1


def _tie(layout: Layout, one: Placed, space: Space, points: tuple[float, ...]) -> Tie:
    book, kg = layout.case.rulebook, _heaviest_kg(layout, one)
    forward, rearward, sideways, upward = pulls = _pulls_n(kg, book.restraint)
    by_strength = fewest_straps(max(pulls), held_n(points[-1:], book.restraint))
    by_length = straps_by_length(kg, max(one.box.size_mm[:2]), space.holds in BLOCKING, book.strapping)
    pressed = _pressed(book, points) or (0.0, 0.0)
    return Tie(
        copy=one.copy, name=one.name, kg=kg, in_it_kg=_in_it_kg(layout, one),
        forward_n=forward, rearward_n=rearward, sideways_n=sideways, upward_n=upward,
        by_strength=by_strength, by_length=by_length,
        straps=None if by_strength is None else max(by_strength, by_length, _least_of(one, book)),
        tips=tuple(_tips(one, book)),
        pressing_forward=pressing_straps(kg, pressed[0]),
        pressing_sideways=pressing_straps(kg, pressed[1]),
    )  # fmt: skip


def _pulls_n(kg: float, book: Restraint) -> tuple[float, float, float, float]:
    """Forces in N forward, rearward, sideways and upward."""
    shares, gravity = (book.forward_g, book.rearward_g, book.sideways_g, book.upward_g), book.gravity_m_s2
    forward, rearward, sideways, upward = (required_restraint_n(kg, share, gravity) for share in shares)
    return forward, rearward, sideways, upward


def _tips(one: Placed, book: RuleBook) -> Iterator[str]:
    """Ways in which a hard thing tips; a soft one slumps instead."""
    along, across, height = one.box.size_mm
    ways = (
        ("forward", along, book.restraint.forward_g),
        ("rearward", along, book.restraint.rearward_g),
        ("sideways", across, book.strapping.sideways_tip_g),
    )
    for way, depth, share in ways:
        if one.thing.shape == "hard" and tips(depth, height, share, book.pressing.downward_g):
            yield way


def _pressed(book: RuleBook, points: tuple[float, ...]) -> tuple[float, float] | None:
    """What a strap of the weakest point holds by pressing, in braking and sideways. None: no point."""
    if not points:
        return None
    held, press = book.restraint, book.pressing
    tension = points[-1] * held.newton_per_dan * press.tension_share
    return (
        pressed_kg(tension, held.forward_g, press.safety_forward, held.gravity_m_s2, press),
        pressed_kg(tension, held.sideways_g, press.safety_sideways, held.gravity_m_s2, press),
    )


def _barrier(layout: Layout) -> Barrier | None:
    barrier, book = layout.case.vehicle.cargo_barrier, layout.case.rulebook
    behind = [one for one, space in layout.located if space.holds == "barrier"]
    if barrier is None or not behind:
        return None
    one = max(behind, key=lambda one: _heaviest_kg(layout, one))
    kg, crash = _heaviest_kg(layout, one), book.crash
    force = required_restraint_n(kg, crash.deceleration_g, book.restraint.gravity_m_s2)
    return Barrier(one.name, kg, _in_it_kg(layout, one), barrier.rated_kg, force, energy_j(kg, crash.speed_km_h))
