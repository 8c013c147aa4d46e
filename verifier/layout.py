"""A plan laid beside its case: what is carried, where it is, what stands on what."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from models.case import Case, Copy, copy_of
from models.gear import Thing
from models.geometry import Box, box, contact_mm2, contains, enlarged, gaps_as_placed, placed_box
from models.plan import Placement, Plan, reserve_of
from models.spaces import Space
from models.stages import mass_kg
from models.trip import Stage


@dataclass(frozen=True, eq=False)
class Placed:
    """A carried copy of a thing that the list knows."""

    copy: Copy
    thing: Thing
    placement: Placement
    space: Space | None
    """None: the plan names a space that the vehicle does not have."""
    box: Box

    @property
    def name(self) -> str:
        """The copy as people call it."""
        return self.copy.called(self.thing.count)

    @cached_property
    def with_air(self) -> Box:
        """Its box with the free air it needs."""
        return enlarged(self.box, gaps_as_placed(self.thing.air_gap_mm, self.placement.facing))


@dataclass(frozen=True)
class Layout:
    """A case, a plan and the copies that the plan places."""

    case: Case
    plan: Plan
    placed: tuple[Placed, ...]
    directly_before: dict[Placed, tuple[Placed, ...]] = field(default_factory=dict, compare=False, repr=False)
    """What is known to stand in the way of a copy or to rest on it: asked for each that is behind it, reckoned once."""
    moved_first: dict[tuple[Placed, frozenset[Placed]], tuple[Placed, ...]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """What is known to be moved before a copy once others are gone: asked at every stage, reckoned once."""

    @cached_property
    def by_space(self) -> dict[str, tuple[Placed, ...]]:
        """What lies directly in each space of the vehicle."""
        return {
            space.name: tuple(one for one in self.placed if one.placement.space == space.name)
            for space in self.case.vehicle.spaces
        }

    def within(self, space: Space) -> tuple[Placed, ...]:
        """What lies in a space, directly or in a space that is part of what lies there."""
        return self._within.get(space.name, ())

    @cached_property
    def _within(self) -> dict[str, tuple[Placed, ...]]:
        found: dict[str, list[Placed]] = {}
        for one, own in self.located:
            for space in (own, *self.case.around(own)):
                found.setdefault(space.name, []).append(one)
        return {name: tuple(here) for name, here in found.items()}

    @cached_property
    def by_rack(self) -> dict[str, tuple[Placed, ...]]:
        """What each rack of the vehicle bears, directly or through others."""
        found: dict[str, list[Placed]] = {rack.name: [] for rack in self.case.vehicle.racks}
        for one, space in self.located:
            for name in self.case.racks_under(space):
                found[name].append(one)
        return {name: tuple(here) for name, here in found.items()}

    def shared(self, one: Space, other: Space) -> Space | None:
        """The space that two spaces are, or both lie within; None where there is none."""
        theirs = {space.name for space in (other, *self.case.around(other))}
        return next((space for space in (one, *self.case.around(one)) if space.name in theirs), None)

    @cached_property
    def located(self) -> tuple[tuple[Placed, Space], ...]:
        """Copies in spaces that the vehicle has."""
        return tuple((one, one.space) for one in self.placed if one.space is not None)

    @property
    def reserve_kg(self) -> float:
        """The reserve that the plan keeps, or else the trip's, in kg."""
        return reserve_of(self.plan, self.case.reserve_kg)

    def copies_of(self, name: str) -> tuple[Placed, ...]:
        """Carried copies of a thing."""
        return self._by_thing.get(name, ())

    @cached_property
    def _by_thing(self) -> dict[str, tuple[Placed, ...]]:
        found: dict[str, list[Placed]] = {}
        for one in self.placed:
            found.setdefault(one.thing.name, []).append(one)
        return {name: tuple(copies) for name, copies in found.items()}

    def above(self, one: Placed) -> tuple[Placed, ...]:
        """Things of the same space that rest directly on one, with any contact at all."""
        return self._above.get(one, ())

    @cached_property
    def _above(self) -> dict[Placed, tuple[Placed, ...]]:
        return {one: over for here in self.by_space.values() for one, over in _resting(here)}

    def hosts(self, space: Space | None) -> frozenset[Placed]:
        """Copies that lie around a space that is part of them, directly or through others: where they stand decides."""
        found: set[Placed] = set()
        waiting = [space]
        while waiting:
            inner = waiting.pop()
            if inner is not None and inner.inside_of is not None:
                around = [one for one in self._holding(inner) if one not in found]
                found.update(around)
                waiting += (one.space for one in around)
        return frozenset(found)

    def exists(self, space: Space) -> bool:
        """Whether a space is there: one that is part of a thing is only where the thing, not in it itself, holds it."""
        return space.inside_of is None or any(not self._lies_in(one, space) for one in self._holding(space))

    def _holding(self, space: Space) -> tuple[Placed, ...]:
        """Copies that lie around a space that is part of them."""
        room = box(space.corner_mm, space.size_mm)
        return tuple(one for one in self.copies_of(space.inside_of or "") if contains(one.box, room))

    def _lies_in(self, one: Placed, space: Space) -> bool:
        """Whether a copy lies in a space, or in one that is part of what does."""
        seen, waiting = set[Placed](), [one]
        while waiting:
            inner = waiting.pop()
            if inner.placement.space == space.name:
                return True
            if inner not in seen and inner.space is not None and inner.space.inside_of is not None:
                seen.add(inner)
                waiting += self._holding(inner.space)
        return False

    def loaded_kg(self, one: Placed, stage: Stage) -> float:
        """Kilograms of a copy at a stage, at the most, with all that lies in the spaces that are part of it."""
        return sum(mass_kg(each.thing, stage, "most") for each in self._with_contents(one))

    def _with_contents(self, one: Placed) -> list[Placed]:
        found, waiting = list[Placed](), [one]
        while waiting:
            outer = waiting.pop()
            if outer not in found:
                found.append(outer)
                parts = (space for space in self._parts.get(outer.thing.name, ()) if outer in self._holding(space))
                waiting += (inner for space in parts for inner in self.by_space[space.name])
        return found

    @cached_property
    def _parts(self) -> dict[str, tuple[Space, ...]]:
        """Spaces by the thing that they are part of."""
        spaces = [space for space in self.case.vehicle.spaces if space.inside_of is not None]
        return {name: tuple(s for s in spaces if s.inside_of == name) for name in (s.inside_of or "" for s in spaces)}


def _resting(here: Iterable[Placed]) -> Iterator[tuple[Placed, tuple[Placed, ...]]]:
    """Things of one space, each with those whose bottoms are level with its top and over it."""
    level: dict[int, list[Placed]] = {}
    for one in here:
        level.setdefault(one.box.low[2], []).append(one)
    for one in here:
        over = level.get(one.box.high[2], ())
        yield one, tuple(other for other in over if contact_mm2(other.box, one.box) > 0)


def _placed(case: Case, placements: Iterable[Placement]) -> Iterator[Placed]:
    for placement in placements:
        thing = case.thing_named.get(placement.thing)
        if thing is not None:
            space = case.space_named.get(placement.space)
            yield Placed(copy_of(placement), thing, placement, space, placed_box(placement))


def layout_of(case: Case, plan: Plan) -> Layout:
    """Lay a plan beside its case; things that the list does not know are left to the rule `carried`."""
    return Layout(case, plan, tuple(_placed(case, plan.placements)))
