"""High piles laid by hand: what stands on the lowest counts once, however many ways lead down, and is summed once."""

from typing import Any

import pytest

from models.geometry import Box, meets
from models.plan import Plan
from models.reading import case_from
from verifier.layout import layout_of
from verifier.rules.support import stands_on_kg

MOST = 200
"""Most copies of one thing."""


def tower(bench: Any, layers: int, *, crossed: bool, bears_kg: float = 100_000) -> None:
    """A base with layers on it: two planks each, laid across those below, or one plate each; 1 kg a piece."""
    each = 2 if crossed else 1
    bench.space("bay", [1000, -500, 300], [400, 400, 3000])
    bench.thing("base", 10, [200, 200, 100], bears_kg=bears_kg)
    bench.put("base", "bay", (1000, -500, 300))
    for kind in range(each * layers // MOST + 1):
        bench.thing(f"piece {kind}", 1, [200, 200 // each, 4], count=MOST, carry=1)
    for number in range(each * layers):
        layer, second = divmod(number, each)
        across = crossed and layer % 2 == 1
        x, y = (100 * second, 0) if across else (0, 100 * second)
        size = (100, 200, 4) if across else (200, 200 // each, 4)
        bench.places.append(
            {"thing": f"piece {number // MOST}", "copy": number % MOST + 1, "space": "bay",
             "corner_mm": (1000 + x, -500 + y, 400 + 4 * layer), "size_mm": size, "turn": "wlh" if across else "lwh"}
        )  # fmt: skip


@pytest.mark.parametrize("spared_kg", [0, 0.001])
@pytest.mark.parametrize("layers", [1, 2, 3, 40])
def test_planks_laid_crosswise(bench, layers, spared_kg):
    # Each plank rests on both below and counts whole on each: by 2 to the power of the layers ways down, and once.
    tower(bench, layers, crossed=True, bears_kg=2 * layers - spared_kg)
    (found,) = [
        one for one in bench.verdict().findings if (one.rule, one.subject, one.unit) == ("support", "base", "kg")
    ]
    assert found.value == pytest.approx(2 * layers, rel=1e-12)
    assert found.holds is (spared_kg == 0)


def test_six_hundred_plates_on_each_other(bench):
    tower(bench, 600, crossed=False)
    case = case_from(bench.vehicle, bench.things, bench.trip)
    layout = layout_of(case, Plan.model_validate({"trip": "t.yaml", "placements": tuple(bench.places)}))
    (base,) = layout.copies_of("base")
    assert stands_on_kg(layout, base, case.trip.stages[0]) == pytest.approx(600, rel=1e-12)


def test_a_row_is_looked_through_once_for_each_thing_however_many_stages_there_are(bench, monkeypatch):
    """Forty plates one behind the other, each in the way of all that are behind it, at two stages."""
    row, looked = 40, []

    def counted(one: Box, other: Box) -> bool:
        looked.append(one)
        return meets(one, other)

    monkeypatch.setattr("verifier.access.meets", counted)
    bench.space("bay", [1000, -500, 300], [400, 200, 200], face="rear")
    bench.thing("plate", 0.1, [10, 200, 200], count=row, carry=1, access="each_stop")
    for number in range(row):
        bench.put("plate", "bay", (1000 + 10 * number, -500, 300), copy=number + 1)
    first = bench.trip["stages"][0]
    bench.trip["stages"] = [first, {**first, "name": "and on"}]
    found = {one.value for one in bench.verdict().findings if (one.rule, one.subject) == ("reach", "plate #1")}
    assert found == {8 + 6 * (row - 1)}
    assert len(looked) <= row * row
