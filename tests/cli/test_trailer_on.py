"""What the trailer keeps shut is told before moves and before the order of loading."""

import json
from pathlib import Path


def towing(trip: Path, stages: str = "") -> None:
    """The trailer is on, or off at the stages that are named."""
    text = (trip / "trip.yaml").read_text("utf-8")
    for stage in stages.split():
        text = text.replace(f"name: {stage},", f"name: {stage}, towing: false,")
    (trip / "trip.yaml").write_text(
        text.replace("locks: []", "towing: {ball_kg: 80, trailer_kg: 900}\nlocks: []", 1), "utf-8"
    )
    vehicle = (trip / "vehicle.yaml").read_text("utf-8")
    assert "gcm_kg" not in vehicle
    more = "  gcm_kg: 5950\n  tow_ball_kg: 300\n  tow_ball_behind_rear_axle_mm: 1220"
    (trip / "vehicle.yaml").write_text(vehicle.replace("\nseats:", f"\n{more}\n\nseats:", 1), "utf-8")


def without(trip: Path, thing: str) -> Path:
    """The plan without a thing."""
    lines = (trip / "plan.yaml").read_text("utf-8").splitlines()
    (trip / "fewer.yaml").write_text(
        "\n".join(line for line in lines if f"thing: {thing}," not in line) + "\n", "utf-8"
    )
    return trip / "fewer.yaml"


def compared(run, trip: Path, thing: str) -> str:
    found = run("compare", trip / "plan.yaml", without(trip, thing))
    return " ".join(found.stdout.split())


def test_moves_name_what_the_trailer_keeps_shut(run, trip):
    towing(trip)
    told = compared(run, trip, "tent")
    assert "Where the trailer is on, it comes off first: it keeps tailgate and drawer front shut. 1. tent" in told
    view = json.loads(run("compare", trip / "plan.yaml", trip / "fewer.yaml", "--json").stdout)
    assert view["shut_by_trailer"] == ["tailgate", "drawer front"]


def test_moves_that_need_nothing_of_it_do_not(run, trip):
    towing(trip)
    told = compared(run, trip, "shovel")
    assert "shovel: out of left bay" in told
    assert "the trailer" not in told.split("From A to B")[1]


def test_without_a_trailer_nothing_is_told_of_it(run, trip):
    assert "the trailer" not in compared(run, trip, "tent").split("From A to B")[1]


def test_the_sheet_says_to_load_before_the_trailer_is_on(run, trip):
    towing(trip)
    says = "Load before the trailer is on: it keeps tailgate and drawer front shut."
    assert says in " ".join(run("sheet", trip / "plan.yaml").stdout.split())
    run("sheet", trip / "plan.yaml", "-o", trip / "sheet.html")
    assert says in (trip / "sheet.html").read_text("utf-8")


def test_the_sheet_says_nothing_of_a_trailer_that_is_off_at_first(run, trip):
    towing(trip, "leaving")
    assert "Load before the trailer" not in run("sheet", trip / "plan.yaml").stdout
    assert "Where the trailer is on, it comes off first" in compared(run, trip, "tent")
