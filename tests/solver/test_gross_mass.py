"""gross_mass: the solver's side."""

from solver.rules import gross_mass


def test_the_total_is_kept(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2020
    both = {"one": "low", "two": "high"}
    assert pair.allows(gross_mass.add)
    assert pair.allows(gross_mass.add, places=both)
    pair.vehicle["limits"]["gvm_kg"] = 2019.999
    assert not pair.allows(gross_mass.add, places=both)
    assert pair.allows(gross_mass.add, places={"one": "low"}, home=("two",))


def test_the_reserve_is_kept_free(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2030
    pair.trip["reserve_kg"] = 10
    assert pair.allows(gross_mass.add, places={"one": "low", "two": "high"})
    pair.trip["reserve_kg"] = 10.5
    assert not pair.allows(gross_mass.add, places={"one": "low", "two": "high"})


def test_ball_and_trailer_count(pair):
    pair.vehicle["limits"] |= {"gvm_kg": 2120, "gcm_kg": 3520, "tow_ball_kg": 100, "tow_ball_behind_rear_axle_mm": 1000}
    pair.trip["towing"] = {"ball_kg": 100, "trailer_kg": 1500}
    assert pair.allows(gross_mass.add, places={"one": "low", "two": "high"})
    pair.trip["towing"] = {"ball_kg": 100.1, "trailer_kg": 1500}
    assert not pair.allows(gross_mass.add, places={"one": "low", "two": "high"})
    pair.trip["towing"] = {"ball_kg": 100, "trailer_kg": 1500.1}
    assert not pair.allows(gross_mass.add, places={"one": "low", "two": "high"})


def test_ball_and_trailer_of_a_stage_count_there(pair):
    pair.vehicle["limits"] |= {"gvm_kg": 2120, "gcm_kg": 3520, "tow_ball_kg": 200, "tow_ball_behind_rear_axle_mm": 1000}
    pair.trip["towing"] = {"ball_kg": 90, "trailer_kg": 1400}
    (stage,) = pair.trip["stages"]
    both = {"one": "low", "two": "high"}
    for ball_kg, trailer_kg, held in ((100, 1500, True), (100.1, 1500, False), (100, 1500.1, False)):
        stage["towing"] = {"ball_kg": ball_kg, "trailer_kg": trailer_kg}
        assert pair.allows(gross_mass.add, places=both) is held
    pair.trip["towing"] = {"ball_kg": 190, "trailer_kg": 1600}
    stage["towing"] = {"ball_kg": 100, "trailer_kg": 1500}
    assert pair.allows(gross_mass.add, places=both), "the trip's is not that of the stage"
    stage["towing"] = True
    assert not pair.allows(gross_mass.add, places=both)
