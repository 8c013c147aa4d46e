"""In a hurry: what the page tells of openings that the state of the vehicle keeps shut."""

from typing import Any

import pytest

STATES = ["tail blocked", "sills down", "on its left side", "on its right side"]


def columns(made: Any) -> tuple[list[str], dict[str, bool], bool]:
    """The states that the table of a wound has columns for, and what it says of the first aid kit in each."""
    (incident,) = [one for one in made.sheet.hurry.incidents if one.name == "Injury"]
    (needed,) = incident.things
    heads = [one.text for one in made.page.named("th") if one.get("class") == "narrow"]
    return heads[: len(needed.still)], dict(needed.still), incident.holds


def test_no_tent_is_told_where_nobody_sleeps_on_a_rack(made):
    heads, still, _ = columns(made)
    assert heads == list(still) == STATES


@pytest.mark.parametrize("stuck", [True, False])
def test_a_tent_has_its_column_where_somebody_sleeps_on_a_rack(folder, make, stuck):
    roof = "  - {name: roof, limits: {any_kg: 200}, at_mm: [2000, 0, 1900], source: plate}\n"
    folder.change("vehicle.yaml", "racks: ", f"racks:\n{roof}# ")
    folder.change("trip.yaml", "surface: parked,", "surface: parked, on_racks: {roof: 80},")
    if stuck:
        folder.change(
            "vehicle.yaml", "{name: tailgate, side: rear,", "{name: tailgate, side: rear, stuck_when: [tent up],"
        )
    heads, still, holds = columns(make(folder.told))
    assert heads == list(still) == [*STATES, "tent up"]
    assert (still["tent up"], holds) == (not stuck, not stuck)
