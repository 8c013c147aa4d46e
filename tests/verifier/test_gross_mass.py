"""gross_mass: total, ball and train within their limits; the sums by hand."""

import pytest

from models.case import Case
from models.rulebook import SourcedKg
from models.rules import Rule

BARE = 1190 + 960 - 80 * 0.835
LOAD = 30 + 18 + 10 + 5 + 14 + 2 + 4 + 20 + 22 + 3 + 1 + 55
LEAVING = BARE + 150 + 80 * 0.835 + 60 + LOAD


def test_the_total_by_hand(world):
    assert world.verdict().totals["leaving"].mass_kg == pytest.approx(LEAVING, rel=1e-12)
    assert world.found("gross_mass", "total", "leaving").value == pytest.approx(LEAVING + 20, rel=1e-12)


def test_exactly_the_limit_holds(world):
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 20
    assert world.broken() == set()
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 19.99
    assert world.broken() == {("gross_mass", "total")}


def test_the_plan_says_which_reserve_it_keeps(world):
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 5
    assert world.broken() == {("gross_mass", "total")}
    world.plan["reserve_kept_kg"] = 5
    assert world.broken() == set()


def with_book_reserve(world, kg: float) -> Case:
    """The world's case with so much reserve in its rule book."""
    case: Case = world.case()
    book = case.rulebook.model_copy(update={"reserve_kg": SourcedKg(value=kg, source="our club")})
    return case.model_copy(update={"rulebook": book})


@pytest.mark.parametrize(("over", "holds"), [(0, True), (0.01, False)])
def test_a_trip_that_gives_no_reserve_keeps_the_rule_book_s(world, over, holds):
    del world.trip["reserve_kg"]
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 35 - over
    found = world.verdict(with_book_reserve(world, 35))
    assert found.holds is holds
    assert [one.value for one in found.findings if (one.rule, one.subject, one.stage) == (
        Rule.GROSS_MASS, "total", "leaving")] == [pytest.approx(LEAVING + 35, rel=1e-12)]  # fmt: skip


@pytest.mark.parametrize("own", [20, 0])
def test_a_reserve_of_the_trip_comes_before_the_rule_book_s(world, own):
    world.trip["reserve_kg"] = own
    world.vehicle["limits"]["gvm_kg"] = LEAVING + own
    assert world.verdict(with_book_reserve(world, 35)).holds is True


def test_without_a_figure_of_ones_own_20_kg_are_kept(world):
    del world.trip["reserve_kg"]
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 20
    assert world.broken() == set()
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 19.99
    assert world.broken() == {("gross_mass", "total")}


def test_parked_stages_are_not_asked(world):
    world.stage("camp")["on_racks"] = {"cab rack": 190}
    world.vehicle["limits"]["gvm_kg"] = LEAVING + 20
    assert world.broken() == set()


def test_the_ball_is_part_of_the_total(world):
    world.tow(gvm_kg=LEAVING + 140)
    assert world.broken() == set()
    world.trip["towing"]["ball_kg"] = 120.1
    assert world.broken() == {("gross_mass", "total")}


def test_the_ball_has_its_own_limit(world):
    world.tow(tow_ball_kg=119)
    assert world.broken() == {("gross_mass", "tow ball")}


def test_the_train_is_without_the_ball(world):
    # The trailer's mass holds its ball's download already.
    world.tow(gcm_kg=LEAVING + 1400)
    assert world.broken() == set()
    world.vehicle["limits"]["gcm_kg"] = LEAVING + 1399
    assert world.broken() == {("gross_mass", "with trailer")}


def test_towing_without_figures_is_unknown(world):
    world.tow(gcm_kg="unknown", tow_ball_kg="unknown")
    assert world.unknown() == {("gross_mass", "with trailer"), ("gross_mass", "tow ball")}


def test_a_stage_without_the_trailer(world):
    world.tow(tow_ball_kg=100)
    for stage in world.trip["stages"]:
        stage["towing"] = False
    assert world.broken() == set()


def test_a_stage_may_have_the_trailer_otherwise(world):
    """Food is eaten out of its front: less on the ball and in the train at the track, more of both than the trip's."""
    world.tow(gvm_kg=LEAVING + 140)
    world.stage("track")["towing"] = {"ball_kg": 80, "trailer_kg": 1300}
    assert world.broken() == set()
    assert world.found("gross_mass", "tow ball", "leaving").value == 120
    assert world.found("gross_mass", "tow ball", "track").value == 80
    own = world.verdict().totals["track"]
    assert own.ball_kg == 80
    assert world.found("gross_mass", "with trailer", "track").value == pytest.approx(own.mass_kg + 1300)
    # Rear: the ball and what it lifts off the front, 1200 mm behind a wheelbase of 3200 mm.
    rear_kg = own.rear_axle_kg
    world.stage("track")["towing"] = True
    more = world.verdict().totals["track"]
    assert more.rear_axle_kg - rear_kg == pytest.approx(40 * (1 + 1200 / 3200))
    assert more.ball_kg == 120


@pytest.mark.parametrize(("ball_kg", "holds"), [(150, True), (150.1, False)])
def test_the_ball_of_a_stage_is_held_to_its_limit(world, ball_kg, holds):
    world.tow(tow_ball_kg=150)
    world.stage("track")["towing"] = {"ball_kg": ball_kg, "trailer_kg": 1400}
    assert (world.broken() == set()) is holds
    assert world.found("gross_mass", "tow ball", "track").holds is holds
    assert world.found("gross_mass", "tow ball", "leaving").holds


@pytest.mark.parametrize(("trailer_kg", "holds"), [(1500, True), (1500.1, False)])
def test_the_train_of_a_stage_is_held_to_its_limit(world, trailer_kg, holds):
    world.tow()
    world.stage("track")["towing"] = {"ball_kg": 120, "trailer_kg": trailer_kg}
    own_kg = world.found("gross_mass", "with trailer", "track").value - trailer_kg
    world.vehicle["limits"]["gcm_kg"] = own_kg + 1500
    assert world.found("gross_mass", "with trailer", "track").holds is holds
