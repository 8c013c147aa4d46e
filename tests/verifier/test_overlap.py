"""overlap: no shared room, no thing in another's air, no thing in a slide's way."""


def test_two_things_share_a_millimetre(world):
    world.put("water jug #2", (3199, -640, 900))
    assert world.broken() == {("overlap", "water jug #1 and water jug #2")}


def test_touching_is_no_overlap(world):
    world.put("water jug #2", (3200, -640, 900))
    assert world.broken() == set()


def test_a_thing_in_the_air_of_another(world):
    world.put("tool box", (3099, 100, 900))
    world.put("food box", (3100, 100, 1100))
    assert world.broken() == {("overlap", "fridge and tool box")}
    world.put("tool box", (3100, 100, 900))
    assert world.broken() == set()


def test_only_what_is_in_a_space_of_a_thing_may_share_its_room(world):
    # The sleeping bag lies in the folded tent; jackets in the same room, but not in that space, overlap both.
    world.put("jackets", (1900, -400, 1980), space="roof place")
    overlaps = {subject for rule, subject in world.broken() if rule == "overlap"}
    assert overlaps == {"jackets and roof tent", "sleeping bag #2 and jackets"}


def test_a_slide_meets_a_thing_of_another_space(world):
    holder = world.space("can holder")
    holder["corner_mm"] = [4000, -100, 900]
    world.put("petrol can", (4000, -100, 900))
    assert world.broken() == {("overlap", "left drawer and petrol can")}
    world.put("petrol can", (4000, -80, 900))
    assert world.broken() == set()


def test_a_slide_ends_where_it_ends(world):
    world.vehicle["outline_mm"]["rear"] = 6000
    world.space("can holder")["corner_mm"] = [4899, -200, 900]
    world.put("petrol can", (4899, -200, 900))
    assert ("overlap", "left drawer and petrol can") in world.broken()
    world.put("petrol can", (4900, -200, 900))
    assert not any(rule == "overlap" for rule, _ in world.broken())


def test_air_counts_whichever_thing_the_plan_names_first(world):
    world.places["fridge"] = world.places.pop("fridge")
    world.put("tool box", (3099, 100, 900))
    world.put("food box", (3100, 100, 1100))
    assert world.broken() == {("overlap", "tool box and fridge")}


def test_a_space_in_a_thing_slides_out_of_it(world):
    world.space("in the tent")["slides"] = {"to": "left", "mm": 300}
    assert world.broken() == set()


def test_what_is_in_a_thing_slides_with_it(world):
    world.space("roof place")["slides"] = {"to": "left", "mm": 300}
    assert world.broken() == set()
