"""Beside the answer: light steering on a climb, and one side that carries noticeably more."""

import math
from typing import Any

import pytest

from models.case import Case
from verifier import Verdict


def with_climb(world: Any, light: float, degrees: tuple[float, ...] = (15, 25)) -> Verdict:
    """The verdict by a rule book in which so small a share on the front wheels is light."""
    case: Case = world.case()
    climb = case.rulebook.climb.model_copy(update={"light_front_share": light, "degrees": degrees, "source": "club"})
    told: Verdict = world.verdict(
        case.model_copy(update={"rulebook": case.rulebook.model_copy(update={"climb": climb})})
    )
    return told


def test_the_front_share_on_a_climb_by_hand(world):
    totals = world.verdict().totals["track"]
    x, _, z = totals.cg_mm
    assert list(totals.climb_front_share) == [15, 25]
    for deg, share in totals.climb_front_share.items():
        angle = math.radians(deg)
        assert share == pytest.approx(((3200 - x) * math.cos(angle) - z * math.sin(angle)) / 3200, rel=1e-12)
    (back,) = with_climb(world, 0.25, (totals.tip_back_deg,)).totals["track"].climb_front_share.values()
    assert back == pytest.approx(0, abs=1e-12)


def test_light_steering_is_told_below_the_figure_at_the_worst_driving_stage(world):
    shares = {n: one.climb_front_share[25] for n, one in world.verdict().totals.items() if one.driving}
    worst = min(shares, key=lambda name: shares[name])
    assert world.verdict().climbing is None
    assert with_climb(world, shares[worst]).climbing is None
    told = with_climb(world, shares[worst] + 1e-6).climbing
    first, second = world.verdict().totals[worst].climb_front_share.values()
    assert told is not None
    little, more = (f"{math.floor(1000 * share) / 10:.1f}%" for share in (second, first))
    assert told.startswith(
        f"Light steering: on a climb of 15 and 25 degrees the front wheels carry {more} and {little} of the weight at "
        f"'{worst}'; below {100 * shares[worst]:.4g}% is little (club)."
    )
    assert f"tips back at {world.verdict().totals[worst].tip_back_deg:.0f} degrees, real ones sooner" in told


def test_a_parked_stage_is_on_no_climb(world):
    shares = {n: one.climb_front_share[25] for n, one in world.verdict().totals.items()}
    world.stage("camp")["on_racks"] = {"cab rack": 190}
    driving = min(share for name, share in shares.items() if name != "camp")
    assert world.verdict().totals["camp"].climb_front_share[25] < driving
    assert with_climb(world, driving).climbing is None


def test_with_a_load_on_the_ball_no_climb_is_reckoned(world):
    world.tow()
    totals = world.verdict().totals["track"]
    assert (totals.climb_front_share, totals.tip_back_deg) == ({}, None)
    assert with_climb(world, 1.0).climbing is None


def test_where_the_middle_is_not_known_no_climb_is_reckoned(world):
    world.stage("camp")["on_racks"] = {world.vehicle["racks"][0]["name"]: 80}
    assert world.verdict().totals["camp"].climb_front_share == {}


def side_told(world: Any, share: float) -> str | None:
    case: Case = world.case()
    figure = case.rulebook.side_difference_told.model_copy(update={"value": share})
    book = case.rulebook.model_copy(update={"side_difference_told": figure})
    told: str | None = world.verdict(case.model_copy(update={"rulebook": book})).leaning
    return told


def test_a_side_that_carries_noticeably_more_is_told(world):
    assert world.verdict().leaning is None
    totals = {name: one for name, one in world.verdict().totals.items() if one.driving}
    lean = {name: (one.right_kg - one.left_kg) / one.mass_kg for name, one in totals.items()}
    worst = max(lean, key=lambda name: abs(lean[name]))
    assert side_told(world, abs(lean[worst]) + 1e-9) is None
    told = side_told(world, abs(lean[worst]))
    assert told is not None
    assert told.startswith(f"The right wheels carry more by {100 * lean[worst]:.1f}% of the mass at '{worst}'")
    world.vehicle["kerb"]["right_of_centre_mm"] = -40
    assert (world.verdict().leaning or "").startswith("The left wheels carry more by ")
