"""Who and what is aboard at a stage."""

import pytest


def test_people_who_got_off_weigh_nothing(world):
    # Mara 70 and Ilko 80 kg are aboard on the track; in camp 150 kg are on the rack instead.
    totals = world.verdict().totals
    assert totals["camp"].mass_without_load_kg == pytest.approx(totals["track"].mass_without_load_kg)
    world.stage("track")["people"] = ["Ilko"]
    assert world.verdict().totals["track"].mass_without_load_kg == pytest.approx(
        totals["track"].mass_without_load_kg - 70
    )


def test_the_ball_presses_only_where_the_trailer_is_on(world):
    world.tow()
    world.stage("track")["towing"] = False
    assert {name: totals.ball_kg for name, totals in world.verdict().totals.items()} == {
        "leaving": 120, "track": 0, "camp": 120
    }  # fmt: skip


@pytest.mark.parametrize(("part", "stages"), [("seats", ["leaving", "track"]), ("racks", ["camp"])])
def test_people_on_a_seat_or_a_rack_that_is_not_there_are_at_an_unknown_place(world, part, stages):
    found = world.verdict(world.made(**{part: ()})).totals
    assert [name for name, totals in found.items() if totals.rear_axle_kg is None] == stages
    assert found["track"].mass_kg == pytest.approx(world.verdict().totals["track"].mass_kg)
