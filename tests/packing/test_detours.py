"""A lift that is undone is left out, unless something had to rest on it meanwhile."""

import pytest

from models.plan import Placement
from packing.detours import without_detours
from packing.roadside import Step

SIZE = (300, 300, 300)


@pytest.fixture
def crates(bay):
    """Two crates, and a place on the floor for each and one on top of the other."""
    tent, oven = bay.put("tent", (0, 0, 0), SIZE), bay.put("oven", (600, 0, 0), SIZE)
    tent_then = bay.placed[tent].model_copy(update={"corner_mm": (2600, 0, 600)})
    on_it = bay.placed[oven].model_copy(update={"corner_mm": (2600, 0, 900)})
    return bay.case, (tent, bay.placed[tent], tent_then), (oven, bay.placed[oven], on_it)


def test_what_would_come_out_again_waits_on_the_ground(crates):
    case, (tent, old, new), (oven, beside, _) = crates
    steps = [Step(tent, old, new), Step(oven, beside, None), Step(tent, new, None), Step(tent, None, new)]
    assert without_detours(case, steps) == (Step(tent, old, None), steps[1], steps[3])


@pytest.mark.parametrize("from_home", [True, False])
def test_what_stands_outside_is_put_in_once(crates, from_home):
    case, (tent, old, new), (oven, beside, _) = crates
    first = [] if from_home else [Step(tent, old, None)]
    detour = [Step(tent, None, new), Step(oven, beside, None), Step(tent, new, None)]
    assert without_detours(case, [*first, *detour, Step(tent, None, new)]) == (*first, detour[1], Step(tent, None, new))


def test_a_pile_that_is_built_twice_is_built_once(crates):
    # The oven goes on the tent, and both come out again: the oven's detour goes first, then the tent's.
    case, (tent, old, new), (oven, beside, on_it) = crates
    once = [Step(tent, old, new), Step(oven, beside, on_it)]
    again = [Step(oven, on_it, None), Step(tent, new, None), Step(tent, None, new), Step(oven, None, on_it)]
    assert without_detours(case, [*once, *again]) == (Step(tent, old, None), Step(oven, beside, None), *again[2:])


def test_what_something_rests_on_meanwhile_stays_in_its_place(crates):
    case, (tent, old, new), (oven, beside, on_it) = crates
    other = Placement(thing="oven", space="bay", corner_mm=(2900, 0, 600), size_mm=SIZE)
    steps = [
        Step(tent, old, new), Step(oven, beside, on_it), Step(oven, on_it, other),
        Step(tent, new, None), Step(tent, None, new),
    ]  # fmt: skip
    assert without_detours(case, steps) == tuple(steps)
