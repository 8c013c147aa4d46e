"""The reserve that a plan is held to: what the trip asks for now, or the part of it that could be kept."""

from pathlib import Path

import pytest

from cli.outputs import plan_for
from models.reading import read_plan


def told_by(run, path: Path, command: str = "check") -> tuple[int, str]:
    found = run(command, path / "plan.yaml")
    return found.exit_code, " ".join(found.stdout.split())


def made(path: Path, kept: str, digest: str = "sha256:other", asks: int = 20) -> None:
    """A plan that keeps so much, of files with some digest, and a trip that asks for so much now."""
    plan, trip = path / "plan.yaml", path / "trip.yaml"
    plan.write_text(f"trip_digest: {digest}\n{kept}\n{plan.read_text('utf-8')}", "utf-8")
    trip.write_text(trip.read_text("utf-8").replace("reserve_kg: 20", f"reserve_kg: {asks}"), "utf-8")


@pytest.mark.parametrize("command", ["check", "sheet"])
def test_a_reserve_that_was_raised_and_is_free_was_not_given_up(run, trip, command):
    made(trip, "reserve_kept_kg: 20", asks=50)
    code, told = told_by(run, trip, command)
    assert code == 0
    assert "This plan was made with 20 kg of reserve; the trip now asks for 50 kg, and by that it is judged." in told
    assert "GIVEN UP" not in told
    assert "Whether more can be kept" not in told


def test_a_reserve_that_was_raised_beyond_what_is_free_is_broken(run, trip):
    made(trip, "reserve_kept_kg: 20", asks=1000)
    code, told = told_by(run, trip)
    assert code == 1
    assert "The total with its reserve of 1000 kg is" in told
    assert "GIVEN UP" not in told


def test_a_reserve_that_was_lowered_is_judged_as_it_is_asked_now(run, trip):
    made(trip, "reserve_kept_kg: 20", asks=5)
    code, told = told_by(run, trip)
    assert code == 0
    assert "made with 20 kg of reserve; the trip now asks for 5 kg" in told
    assert "what is left of the limit after 5 kg of reserve" in told


def test_what_was_given_up_of_the_reserve_stays_given_up_while_the_trip_asks_the_same(run, trip):
    made(trip, "reserve_kept_kg: 5\nreserve_asked_kg: 20")
    code, told = told_by(run, trip)
    assert code == 0
    assert "THE RESERVE WAS GIVEN UP: 5 kg of 20 kg are kept free" in told


def test_a_plan_by_hand_keeps_what_it_says(run, trip):
    plan = trip / "plan.yaml"
    plan.write_text(f"reserve_kept_kg: 5\n{plan.read_text('utf-8')}", "utf-8")
    assert "THE RESERVE WAS GIVEN UP: 5 kg of 20 kg" in told_by(run, trip)[1]


@pytest.mark.parametrize(("kept_kg", "asked_kg"), [(5, 20), (20, None), (None, None)])
def test_a_plan_is_written_with_what_was_asked_for_where_less_is_kept(trip, kept_kg, asked_kg):
    read = read_plan(trip / "plan.yaml")
    plan = read.plan.model_copy(update={"reserve_kept_kg": kept_kg})
    assert plan_for(trip / "trip.yaml", read.case, None, plan).reserve_asked_kg == asked_kg
