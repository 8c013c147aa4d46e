"""gross_mass: total, ball and train within their limits; the sums by hand."""

import pytest

BARE = 1190 + 960 - 80 * 0.835
LOAD = 30 + 18 + 10 + 5 + 14 + 2 + 4 + 20 + 22 + 3 + 4 + 55
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
