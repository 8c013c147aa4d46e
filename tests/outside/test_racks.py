"""Racks: each limit has its own list of what hangs on it."""

from typing import Any

import pytest


def roof(bench: Any, *, factor: float = 1.0) -> None:
    limits = {
        name: {"off_road_kg": kg * factor, "parked_kg": 300}
        for name, kg in (("roof", 100), ("bars", 75), ("rack", 120))
    }
    bench.vehicle["racks"] = [
        {"name": "roof", "limits": limits["roof"]},
        {"name": "bars", "on": "roof", "own_mass_kg": 6, "at_mm": [1500, 0, 1900], "limits": limits["bars"]},
        {"name": "rack", "on": "bars", "own_mass_kg": 22, "at_mm": [1500, 0, 1900], "limits": limits["rack"]},
    ]
    bench.space("top", [1000, -500, 1900], [2000, 1000, 500], on=["rack"], air="outside", opening="roof", face="top")
    bench.piece("tent", 55, (1500, 0, 2000), space="top")


def values(bench: Any) -> dict[str, float | None]:
    return {finding.subject: finding.value for finding in bench.verdict().findings if finding.rule == "rack"}


def test_r1_the_bars_fail_while_the_roof_holds(bench):
    # Constructed: roof 55 + 22 + 6 = 83 of 100; bars 55 + 22 = 77 of 75.
    roof(bench)
    assert values(bench) == pytest.approx({"roof": 83, "bars": 77, "rack": 55})
    assert bench.broken() == {("rack", "bars")}


def test_r1_off_the_road_the_roof_fails_too(bench):
    # With 0.667 of the driving limit (practice without a source) the roof holds 66.7.
    roof(bench, factor=0.667)
    assert bench.broken() == {("rack", "bars"), ("rack", "roof")}


def test_r2_parked_with_two_people(bench):
    # Constructed: tent 55 + bedding 10 + people 160 + rack and bars 28 = 253, against the parked limit alone.
    roof(bench)
    bench.piece("bedding", 10, (1800, 0, 2000), space="top")
    bench.trip["stages"] = [{"name": "camp", "surface": "parked", "on_racks": {"rack": 160}}]
    assert values(bench)["roof"] == pytest.approx(253)
    assert bench.broken() == set()
    bench.trip["stages"].append({"name": "go", "surface": "off_road"})
    assert ("rack", "bars") in bench.broken()
