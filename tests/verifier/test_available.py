"""available: taken seats and closed spaces are empty."""


def test_somebody_sits_there(world):
    world.trip["people"].append({"name": "Oda", "mass_kg": 55, "seat": "rear left"})
    assert world.broken() == {("available", "jackets")}


def test_somebody_who_is_not_aboard_takes_no_seat(world):
    world.trip["people"].append({"name": "Oda", "mass_kg": 55, "seat": "rear left"})
    for stage in world.trip["stages"]:
        stage["people"] = ["Mara", "Ilko"]
    assert world.broken() == set()


def test_a_closed_space(world):
    world.stage("camp")["closed"] = ["can holder"]
    assert world.broken() == {("available", "petrol can")}


def test_what_is_used_up_by_then_is_not_in_the_way(world):
    world.gear["jackets"]["uses_up"] = {"coats": 1}
    world.trip["streams"]["coats"] = {}
    world.stage("track").update(closed=["rear bench"], left={"food": 0.5, "coats": 0})
    world.stage("camp")["left"]["coats"] = 0
    assert world.broken() == set()
    world.stage("track")["left"]["coats"] = 0.01
    assert world.broken() == {("available", "jackets")}
