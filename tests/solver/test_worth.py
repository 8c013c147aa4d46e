"""How much value could come at most: a bound that no lawful plan passes."""

import pytest

from models.plan import Placement
from solver import Options, propose
from verifier import check


@pytest.mark.usefixtures("no_bound")
def test_what_a_soft_thing_in_another_shape_would_bring_is_not_proven_impossible(tiny):
    tiny.space("loft", (500, -950, 1000), size_mm=[1900, 1900, 500])
    tiny.thing("duvet", 50, volume_l=100, shape="soft", carry=40)
    tiny.trip["choose_within_mm"] = 9
    found = propose(tiny.case(), Options(effort=0.01, seconds=600.0))
    value = next(level for level in found.levels if level.name == "value carried")
    assert (value.value, value.bound, value.state) == (0, 40, "found")
    assert found.plan is not None
    flat = {"thing": "duvet", "space": "loft", "corner_mm": (500, -950, 1000), "size_mm": (1900, 1900, 80)}
    laid = found.plan.model_copy(update={"placements": (Placement.model_validate(flat),), "left_at_home": ()})
    verdict = check(tiny.case(), laid)
    height = verdict.totals["go"].cg_height_mm
    assert verdict.holds
    assert height is not None
    assert height < 700 + 9


@pytest.mark.usefixtures("no_bound")
@pytest.mark.parametrize(("litres", "value", "state"), [(0.25, 80, "proven"), (0.26, 40, "proven")])
def test_what_one_air_may_hold_of_a_hazard_bounds_what_can_come(tiny, litres, value, state):
    """Aerosols in people's air: half a litre in all."""
    tiny.space("glovebox", (1500, 300, 900), air="cabin", opening="door")
    for name in ("paint", "cleaner"):
        tiny.thing(name, 1, carry=40, hazard="aerosol", holds_l=litres)
    found = propose(tiny.case(), Options(effort=0.01, seconds=600.0))
    level = found.levels[0]
    assert (level.value, level.bound, level.state) == (value, value, state)
