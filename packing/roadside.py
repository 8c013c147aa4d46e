"""The order in which copies are moved at the roadside, found by moving them one by one."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from models.case import Case, Copy
from models.geometry import contains, placed_box
from models.plan import Placement
from models.spaces import Space
from packing.digging import directly_before, lift_s, wall_of
from packing.matching import Places, same_place
from packing.standing import above_or_before, all_of, in_space, in_the_way_in, would_block

MOST_LIFTS = 4
"""Lifts a copy, on average, after which no order is looked for any more."""


@dataclass(frozen=True)
class Step:
    """One lift. No source: from the ground or from home; no target: to the ground or home."""

    copy: Copy
    source: Placement | None
    target: Placement | None
    makes_way: bool = False
    """It stays where it was and is lifted only because it is in the way."""


@dataclass
class Roadside:
    """What stands where while the moving goes on."""

    case: Case
    here: Places
    """Where each copy stands in the vehicle."""
    goal: Places
    unfinished: dict[Copy, None]
    """Copies that are not yet where they belong."""
    stays: frozenset[Copy]
    """Copies that are in their place from the beginning."""
    steps: list[Step] = field(default_factory=list)

    def lift(self, copy: Copy, target: Placement | None) -> None:
        """Lift a copy to its place, or to the ground."""
        self.steps.append(Step(copy, self.here.pop(copy, None), target, copy in self.stays))
        if target is not None:
            self.here[copy] = target
        if target is not None or copy not in self.goal:
            self.unfinished.pop(copy, None)
        else:
            self.unfinished[copy] = None

    def free(self, copy: Copy) -> bool:
        """Whether nothing must be away before a copy can be lifted."""
        return copy not in self.here or not above_or_before(self.case, self.here, copy)

    def ready(self, copy: Copy) -> bool:
        """Whether a copy can go to where it belongs, and be left there."""
        if not self.free(copy):
            return False
        target = self.goal.get(copy)
        if target is None:
            return True
        if in_the_way_in(self.case, self.here, copy, target) or any(self.waits_for(copy, target)):
            return False
        return not self._comes_out_again(copy, target)

    def _comes_out_again(self, copy: Copy, target: Placement) -> bool:
        """Whether a copy put into its place now would have to be lifted again for an unfinished one."""
        then = replace(self, here={**self.here, copy: target})
        return any(copy in then.in_the_way(other) for other in self.unfinished if other != copy)

    def waits_for(self, copy: Copy, target: Placement) -> Iterator[Copy]:
        """Unfinished copies that must be seen to first: in before it, or out before it shuts them in."""
        space = self.case.space_named[target.space]
        inside = in_space(self.goal, space.name)
        for other in self.unfinished:
            if other == copy:
                continue
            goal, stands = self.goal.get(other), self.here.get(other)
            comes = goal is not None and goal.space == space.name
            before_it = comes and copy in directly_before(inside, other, space.face, wall_of(space))
            places = [place for place in (goal, stands) if place]
            shut_in = any(would_block(self.case, self.here, target, place, place is stands) for place in places)
            if before_it or shut_in or _holds(space, other, goal):
                yield other

    def in_the_way(self, copy: Copy) -> tuple[Copy, ...]:
        """All that must be lifted before a copy can be taken and put where it belongs."""
        target = self.goal.get(copy)
        first = [] if copy not in self.here else list(above_or_before(self.case, self.here, copy))
        if target is not None:
            first += in_the_way_in(self.case, self.here, copy, target)
        return all_of(self.case, self.here, first)

    def lift_s(self, copy: Copy) -> float:
        """Seconds that setting a copy aside costs more: one lift, or two where it would have stayed."""
        once = lift_s(self.case, copy)
        return once if copy in self.unfinished else 2 * once


def _holds(space: Space, copy: Copy, goal: Placement | None) -> bool:
    """Whether a space is part of a copy that is still to be put where it belongs."""
    return copy.thing == space.inside_of and goal is not None and contains(placed_box(goal), wall_of(space))


def in_order(case: Case, before: Places, after: Places) -> tuple[tuple[Step, ...], tuple[Copy, ...]]:
    """Steps from one set of places to another, and copies that no order brings to their place.

    What makes way is lifted to the ground, and from there to where it belongs; nothing holds a copy to doing so once.
    Where that comes to more than `MOST_LIFTS` lifts a copy, no order is looked for any more.
    """
    stays = frozenset(c for c in before if c in after and same_place(case, before[c], after[c]))
    here, goal = _listed(case, before), _listed(case, after)
    changed = [copy for copy in _listed(case, here | goal) if copy not in stays]
    road = Roadside(case, here, goal, dict.fromkeys(changed), stays)
    while road.unfinished:
        copy = next(filter(road.ready, sorted(road.unfinished, key=lambda one: _preference(road, one))), None)
        if copy is not None:
            road.lift(copy, road.goal.get(copy))
            continue
        aside = _to_set_aside(road)
        if aside is None or len(road.steps) > MOST_LIFTS * len(case.copies):
            return tuple(road.steps), tuple(road.unfinished)
        road.lift(aside, None)
    return tuple(road.steps), ()


def _listed(case: Case, places: Places) -> Places:
    """Places in the order of the gear list, so that shuffled plans give the same moves; beyond its count at the end."""
    return {copy: places[copy] for copy in (*(c for c in case.copies if c in places), *sorted(places))}


def _preference(road: Roadside, copy: Copy) -> tuple[bool, bool, int]:
    """What goes next: what leaves the vehicle, then what goes on where the last lift opened something."""
    target, stands = road.goal.get(copy), road.here.get(copy)
    last = road.steps[-1] if road.steps else None
    open_now = {place.space for place in (last.source, last.target) if place} if last else set()
    touches = {place.space for place in (target, stands) if place}
    return (target is not None, not touches & open_now, list(road.unfinished).index(copy))


def _to_set_aside(road: Roadside) -> Copy | None:
    """What goes to the ground for a while: the least work that lets an unfinished copy go where it belongs."""
    found: list[tuple[bool, float, int, Copy]] = []
    for index, copy in enumerate(road.unfinished):
        needed = road.in_the_way(copy)
        lifts = [other for other in needed if road.free(other)]
        if lifts:
            target = road.goal.get(copy)
            waits = target is not None and any(road.waits_for(copy, target))
            found.append((waits, sum(map(road.lift_s, needed)), index, lifts[0]))
    if found:
        return min(found)[-1]
    return next((copy for copy in road.unfinished if copy in road.here and road.free(copy)), None)
