"""What must be moved before a thing can be taken out, and the seconds until it is in hand."""

from collections.abc import Callable, Iterable, Mapping
from math import inf

from models.case import Case, Copy
from models.geometry import Box, box, contact_mm2, placed_box, swept
from models.plan import Placement
from models.rulebook import HandlingStep, RuleBook
from models.spaces import Space
from models.stages import opening_chain, opening_seconds, stuck_conditions


def by_space(placed: Mapping[Copy, Placement]) -> dict[str, dict[Copy, Box]]:
    """Boxes in mm of the copies in each space that holds any."""
    found: dict[str, dict[Copy, Box]] = {}
    for copy, placement in placed.items():
        found.setdefault(placement.space, {})[copy] = placed_box(placement)
    return found


def moved_before(boxes: Mapping[Copy, Box], copy: Copy, face: str, wall: Box) -> tuple[Copy, ...]:
    """Copies of one space that must be moved before `copy` comes out by `face`, as they are lifted, without `copy`.

    In the way of a thing is what its box meets when swept straight to the wall at `face`, and what rests on it; the
    same holds for each of those in turn. Each is told once, and after what must be moved before it; where things block
    each other, no order is right.
    """
    return _chain(lambda one: directly_before(boxes, one, face, wall), copy)


def directly_before(boxes: Mapping[Copy, Box], copy: Copy, face: str, wall: Box) -> tuple[Copy, ...]:
    """Copies of one space that stand in a thing's way out or rest on it."""
    # Written out, as the search asks this thousands of times: no box is made and no generator runs for a far neighbour.
    own = boxes[copy]
    top = own.high[2]
    (ax, ay, az), (bx, by, bz) = swept(own, face, wall)
    found = []
    for other, ((cx, cy, cz), (dx, dy, dz)) in boxes.items():
        if other == copy:
            continue
        in_way = cx < bx and ax < dx and cy < by and ay < dy and cz < bz and az < dz
        if in_way or (cz == top and contact_mm2(boxes[other], own) > 0):
            found.append(other)
    return tuple(found)


def _chain(before: Callable[[Copy], Iterable[Copy]], copy: Copy) -> tuple[Copy, ...]:
    """What is before a copy, directly or through others, each after all that is before itself."""
    found: dict[Copy, None] = {}
    met = {copy}
    way = [(copy, iter(before(copy)))]
    while way:
        one, rest = way[-1]
        other = next((other for other in rest if other not in met), None)
        if other is None:
            found[one] = None
            way.pop()
        else:
            met.add(other)
            way.append((other, iter(before(other))))
    del found[copy]
    return tuple(found)


def wall_of(space: Space) -> Box:
    """The walls of a space as a box in mm."""
    return box(space.corner_mm, space.size_mm)


def to_move_first(case: Case, placed: Mapping[Copy, Placement], copy: Copy) -> tuple[Copy, ...]:
    """Copies that must be moved before a placed copy can be taken out, each once, in the order in which they go.

    Raises
    ------
    KeyError
        The copy is not placed, or its space is none of the vehicle's.
    """
    name = placed[copy].space
    space = case.space_named[name]
    boxes = {other: placed_box(place) for other, place in placed.items() if place.space == name}
    return moved_before(boxes, copy, space.face, wall_of(space))


def handling_seconds(kg: float, rulebook: RuleBook) -> float:
    """Seconds to lift one thing of so many kg out of the way: the first step of the rule book that holds it."""
    steps = rulebook.handling.steps
    fitting = [step for step in steps if step.up_to_kg is None or kg <= step.up_to_kg]
    heaviest = max(steps, key=_reaches_kg)
    return min(fitting, key=_reaches_kg, default=heaviest).seconds


def lift_s(case: Case, copy: Copy) -> float:
    """Seconds to lift one copy out of the way, at the most that it may weigh."""
    return handling_seconds(case.thing_named[copy.thing].mass_kg.most, case.rulebook)


def _reaches_kg(step: HandlingStep) -> float:
    return inf if step.up_to_kg is None else step.up_to_kg


def chain_seconds(case: Case, opening: str, conditions: frozenset[str] = frozenset()) -> float:
    """Seconds to open an opening and all before it; infinite where one of them is stuck in the conditions."""
    chain = opening_chain(case.vehicle, opening)
    if any(stuck_conditions(one, case.rulebook) & conditions for one in chain):
        return inf
    return sum(opening_seconds(one, case.rulebook) for one in chain)


def seconds_to_hand(
    case: Case, placed: Mapping[Copy, Placement], copy: Copy, conditions: frozenset[str] = frozenset()
) -> float:
    """Seconds until a placed copy is in hand; infinite where its opening is stuck in the conditions."""
    opening_s = chain_seconds(case, case.space_named[placed[copy].space].opening, conditions)
    if opening_s == inf:
        return inf
    before = to_move_first(case, placed, copy)
    return opening_s + sum(lift_s(case, other) for other in before)
