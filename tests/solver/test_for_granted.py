"""What a proof may take for granted: only what holds in every plan that `check` takes."""

from typing import Any

import pytest

from models.plan import Plan
from solver import Status, propose
from solver.answers import SILENT
from solver.asking import Asked
from solver.clock import Clock
from solver.together import too_full
from tests.solver.conftest import QUICK
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

HALF = [200, 200, 200]


def lies(thing: str, space: str, corner: list[int], size: Any = HALF, copy: int = 1) -> dict[str, Any]:
    """A copy as it is listed, at a corner in mm."""
    return {"thing": thing, "copy": copy, "space": space, "corner_mm": corner, "size_mm": size, "turn": "lwh"}


def by_hand(made: Any, *placements: dict[str, Any]) -> None:
    """A plan by hand that holds every limit."""
    plan = Plan.model_validate({"trip": "t", "placements": list(placements)})
    assert [one.says for one in check(made.case(), plan).findings if one.holds is not True] == []


@pytest.fixture
def chest(tiny):
    """A chest in a bay of its size, with two tins that may be in the chest alone."""
    tiny.space("bay", size_mm=[800, 400, 400])
    tiny.space("in the chest", (2000, 0, 500), size_mm=[400, 200, 200], inside_of="chest", accepts=["tin"])
    tiny.thing("chest", size_mm=[800, 400, 400])
    tiny.thing("tin", 2, holder="tin", count=2)
    return tiny


def full(made: Any) -> bool:
    """Whether it is proven that more is sent into one space than goes in."""
    return too_full(Asked(made.case(), (), True, None), Clock(20.0, SILENT)) is not None


def test_a_room_that_is_part_of_a_thing_takes_what_goes_in(chest):
    by_hand(
        chest,
        lies("chest", "bay", [2000, 0, 500], [800, 400, 400]),
        lies("tin", "in the chest", [2000, 0, 500]),
        lies("tin", "in the chest", [2200, 0, 500], copy=2),
    )
    assert not full(chest)


def test_a_room_that_is_part_of_a_thing_takes_no_more(chest):
    chest.things[1]["size_mm"] = [201, 200, 200]
    assert full(chest)
    found = propose(chest.case(), QUICK)
    assert found.status is Status.IMPOSSIBLE
    assert found.conflict is not None
    assert "in the chest" in found.conflict.says[0]


def test_other_rooms_are_not_told_for_it(chest):
    chest.space("tray", (3000, 0, 500), size_mm=[200, 200, 300], accepts=["tray"])
    for name in ("pan", "pot"):
        chest.thing(name, 2, holder="tray")
    found = propose(chest.case(), QUICK)
    assert found.conflict is not None
    assert "tray" in found.conflict.says[0]
    assert not any("tin" in one.says for one in found.conflict.demands)
