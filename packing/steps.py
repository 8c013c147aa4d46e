"""A step of loading: which copy goes where, through what, on what, and whether lifting it asks for care."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from models.case import Case, Copy
from models.gear import Thing
from models.geometry import Box, contact_mm2, placed_box
from models.plan import Placement
from models.stages import Which, mass_kg, opening_chain, present, stuck_conditions, towing


@dataclass(frozen=True)
class LoadStep:
    """One copy goes in."""

    copy: Copy
    space: str
    placement: Placement
    openings: tuple[str, ...]
    """What must be open, in the order in which it is opened."""
    rests_on: tuple[Copy, ...]
    """Copies it stands on; empty where it stands on the floor or on a solid alone."""
    two_person: bool
    """The list says that two lift it."""
    heavy: bool
    """As it is loaded, heavier than the rule book's lift of one person."""
    people: int
    """How many lift it, at the least: by the rule book's lift of one person, and two where the list says so."""
    above_shoulder: bool
    """As it is loaded, heavier than the rule book's lift above the shoulder, and its middle is above the shoulder."""
    packer: str | None
    """Who packs it. None: anybody."""


@dataclass(frozen=True)
class Tangle:
    """Things that no order of loading fits: each must be in before the next, and the last before the first."""

    space: str
    copies: tuple[Copy, ...]
    names: tuple[str, ...]
    """The copies as people call them."""

    def __str__(self) -> str:
        return f"In {self.space} these block each other, so no order of loading works: {', '.join(self.names)}."


def loaded_kg(case: Case, thing: Thing, which: Which) -> float:
    """Mass of one copy in kg as it is loaded: at the first stage at which it is there; full where it never is."""
    first = next((stage for stage in case.trip.stages if present(thing, stage)), None)
    full: float = getattr(thing.mass_kg, which)
    return full if first is None else mass_kg(thing, first, which)


def step_for(case: Case, placement: Placement, copy: Copy, beside: Mapping[Copy, Box]) -> LoadStep:
    """The step of one copy; `beside` holds the boxes of all copies in its space."""
    thing, lifts, at = case.thing_named[copy.thing], case.rulebook.handling, placed_box(placement)
    kg = loaded_kg(case, thing, "most")
    space = case.space_named[placement.space]
    return LoadStep(
        copy=copy,
        space=space.name,
        placement=placement,
        openings=opened_in_order(case, space.opening),
        rests_on=tuple(o for o, under in beside.items() if o != copy and contact_mm2(at, under) > 0),
        two_person=thing.two_person,
        heavy=kg > lifts.single_person_kg,
        people=lifts.people(kg, at_least=2 if thing.two_person else 1),
        above_shoulder=kg > lifts.above_shoulder_kg and at.centre_mm[2] > lifts.shoulder_mm,
        packer=thing.packer,
    )


def shut_by_trailer(case: Case, spaces: Iterable[str]) -> tuple[str, ...]:
    """Openings on the way into some spaces that do not open with the trailer on; none where no stage has it on."""
    if not any(towing(case.trip, stage) for stage in case.trip.stages):
        return ()
    names = dict.fromkeys(case.space_named[space].opening for space in spaces)
    chains = (opened_in_order(case, name) for name in names)
    opened = dict.fromkeys(name for chain in chains for name in chain)
    return tuple(n for n in opened if "trailer on" in stuck_conditions(case.opening_named[n], case.rulebook))


def opened_in_order(case: Case, opening: str) -> tuple[str, ...]:
    """Openings from the first that is opened to the one that the hand goes through."""
    names = [one.name for one in opening_chain(case.vehicle, opening)]
    done: dict[str, None] = {}
    while len(done) < len(names):
        free = [n for n in names if n not in done and done.keys() >= set(case.opening_named[n].after)]
        done[(free or [n for n in names if n not in done])[-1]] = None
    return tuple(done)
