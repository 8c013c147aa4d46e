"""Getting at a thing: what is opened, what is moved first, how long it takes."""

from collections.abc import Iterable

from models.case import Case
from models.geometry import box, meets, swept
from models.rulebook import Handling
from models.spaces import Space
from models.stages import opening_chain, opening_seconds, present, stuck_conditions
from models.trip import Stage
from verifier.layout import Layout, Placed


def not_opened(case: Case, space: Space, conditions: Iterable[str]) -> str | None:
    """Say what of a space's chain does not open in a set of conditions, and by which of them. None: all of it opens."""
    given = frozenset(conditions)
    for opening in opening_chain(case.vehicle, space.opening):
        stuck = sorted(stuck_conditions(opening, case.rulebook) & given)
        if stuck:
            return f"{opening.name} does not open ({', '.join(stuck)})"
    return None


def opening_time_s(case: Case, space: Space) -> float:
    """Seconds to open all that must be open, each once."""
    chain = opening_chain(case.vehicle, space.opening)
    return sum(opening_seconds(opening, case.rulebook) for opening in chain)


def lifting_s(most_kg: float, handling: Handling) -> float:
    """Seconds to lift one thing out of the way."""
    steps = sorted(handling.steps, key=lambda step: float("inf") if step.up_to_kg is None else step.up_to_kg)
    for step in steps:
        if step.up_to_kg is None or most_kg <= step.up_to_kg:
            return step.seconds
    return steps[-1].seconds


def _directly_before(layout: Layout, one: Placed, space: Space) -> tuple[Placed, ...]:
    if one not in layout.directly_before:
        way_out = swept(one.box, space.face, box(space.corner_mm, space.size_mm))
        in_the_way = (other for other in layout.by_space[space.name] if meets(other.box, way_out))
        layout.directly_before[one] = (*in_the_way, *layout.above(one))
    return layout.directly_before[one]


def moved_first(layout: Layout, one: Placed, space: Space, stage: Stage | None) -> tuple[Placed, ...]:
    """Give all that must be moved before one thing can be taken out, each once and after what must go before it.

    At a stage only what is present there stands in the way; with none, all that is carried.
    """
    here = layout.by_space[space.name]
    gone = frozenset(other for other in here if stage is not None and not present(other.thing, stage))
    if (one, gone) not in layout.moved_first:
        layout.moved_first[one, gone] = _each_once(layout, one, space, gone)
    return layout.moved_first[one, gone]


def most_moved_first(layout: Layout, one: Placed, space: Space, stages: Iterable[Stage | None]) -> tuple[Placed, ...]:
    """The same at that of some stages at which the most must be moved, the first of like ones."""
    return max((moved_first(layout, one, space, stage) for stage in stages), key=len, default=())


def _each_once(layout: Layout, one: Placed, space: Space, gone: frozenset[Placed]) -> tuple[Placed, ...]:
    lifted, met = list[Placed](), {one, *gone}
    # A thing is laid by until all that must go before it is lifted; where things block each other, no order is right.
    waiting = [(other, False) for other in reversed(_directly_before(layout, one, space))]
    while waiting:
        other, freed = waiting.pop()
        if freed:
            lifted.append(other)
        elif other not in met:
            met.add(other)
            waiting.append((other, True))
            waiting += [(over, False) for over in reversed(_directly_before(layout, other, space))]
    return tuple(lifted)


def seconds_to_hand(layout: Layout, one: Placed, space: Space, stage: Stage | None) -> float:
    """Seconds from standing ready to holding the thing at a stage; with none, with all in its way that is carried."""
    handling = layout.case.rulebook.handling
    lifted = sum(lifting_s(other.thing.mass_kg.most, handling) for other in moved_first(layout, one, space, stage))
    return opening_time_s(layout.case, space) + lifted
