"""What lies in a space that is part of a thing weighs with that thing, wherever a limit looks at it."""

import pytest

BAGS_KG = 1.5
"""The bedding in the tent of the little pickup; the tent has 55 kg."""


def test_a_rack_bears_it_without_being_told_so(world):
    world.space("in the tent").pop("on", None)
    told = world.found("rack", "cab roof", "leaving").value
    del world.places["sleeping bag #2"]
    assert told - world.found("rack", "cab roof", "leaving").value == pytest.approx(BAGS_KG)


def test_it_is_not_borne_twice_where_it_is_told(world):
    world.space("in the tent")["on"] = world.space("roof place")["on"]
    told = world.found("rack", "cab roof", "leaving").value
    del world.space("in the tent")["on"]
    assert world.found("rack", "cab roof", "leaving").value == told


@pytest.mark.parametrize(("limit_kg", "broken"), [(56.5, set()), (56.4, {("space_mass", "roof place")})])
def test_the_space_around_it_holds_it(world, limit_kg, broken):
    world.space("roof place")["limit_kg"] = limit_kg
    assert world.broken() == broken


@pytest.mark.parametrize(("rated_kg", "broken"), [(56.5, set()), (56.4, {("restraint", "roof tent")})])
def test_a_barrier_holds_it(world, rated_kg, broken):
    world.vehicle["cargo_barrier"] = {"behind_seats": [], "rated_kg": rated_kg, "top_z_mm": 3000}
    world.space("roof place")["holds"] = "barrier"
    assert {one for one in world.broken() if one[0] == "restraint"} == broken


@pytest.mark.parametrize(
    ("rated_dan", "broken", "straps"), [(88.69, set(), 2), (88.68, {("restraint", "roof place")}, None)]
)
def test_the_rule_and_the_advice_tie_it_alike(world, rated_dan, broken, straps):
    # 56.5 kg pull with 443.412 N; half of the rating counts. Without the bedding it is 431.64 N, held by 86.4 daN.
    world.space("roof place")["tie_downs"] = [{"rated_dan": rated_dan}]
    assert world.broken() == broken
    (told,) = [one for one in world.verdict().tying.spaces if one.space == "roof place"]
    assert told.straps_together == straps
    pull = next(one for one in world.verdict().findings if one.rule == "restraint" and one.subject == "roof place")
    assert told.ties[0].forward_n == pytest.approx(pull.value)


def test_what_is_light_and_full_is_the_heaviest_behind_a_barrier(world):
    world.vehicle["cargo_barrier"] = {"behind_seats": [], "rated_kg": 70, "top_z_mm": 3000}
    for name in ("roof place", "right bay"):
        world.space(name)["holds"] = "barrier"
    world.gear["fridge"]["mass_kg"] = 56
    barrier = world.verdict().tying.barrier
    assert (barrier.name, barrier.kg, barrier.in_it_kg) == ("roof tent", 56.5, BAGS_KG)
    assert barrier.force_n == pytest.approx(20 * 9.81 * 56.5)


def test_what_lies_under_the_thing_bears_it(world):
    tent = world.places["roof tent"]
    world.gear["board"] = {
        "name": "board",
        "mass_kg": 1,
        "size_mm": [1200, 1000, 20],
        "suits": ["roof tent"],
        "bears_kg": 56.5,
    }
    x, y, z = tent["corner_mm"]
    world.space("roof place")["size_mm"][2] += 20
    tent["corner_mm"] = (x, y, z + 20)
    board = {"thing": "board", "corner_mm": (x, y, z), "size_mm": (1200, 1000, 20)}
    world.places["board"] = tent | board
    assert ("support", "board") not in world.broken()
    world.gear["board"]["bears_kg"] = 56.4
    assert ("support", "board") in world.broken()


def test_nothing_lies_in_what_is_part_of_it(world):
    world.places["roof tent"]["space"] = "in the tent"
    assert ("inside", "sleeping bag #2") in world.broken()
    assert ("inside", "roof tent") in world.broken()


def test_two_things_are_not_in_each_other(world):
    """As large as each other's space, either would hold the other up in the air."""
    space, tent = world.space("in the tent"), world.places["roof tent"]
    other = world.gear["roof tent"] | {"name": "shell", "suits": ["bedding", "roof tent"]}
    world.gear["shell"], world.gear["roof tent"]["suits"] = other, ["bedding", "roof tent"]
    whole = {"corner_mm": list(tent["corner_mm"]), "size_mm": list(tent["size_mm"])}
    space |= whole
    world.vehicle["spaces"].append(space | whole | {"name": "in the shell", "inside_of": "shell"})
    world.places["shell"] = tent | {"thing": "shell", "space": "in the tent"}
    tent["space"] = "in the shell"
    assert {("inside", "shell"), ("inside", "roof tent")} <= world.broken()


@pytest.mark.parametrize(
    ("rule", "other", "trip"),
    [
        ("segregation", {"hazard": "oxidiser"}, {}),
        ("weather", {"wet": True}, {}),
        ("apart", {}, {"apart": [["sleeping bag", "board"]]}),
    ],
)
def test_what_lies_in_a_thing_is_in_the_space_around_it(world, rule, other, trip):
    """A board beside the tent, and in the tent a bag that it is to be apart from."""
    x, y, z = world.places["roof tent"]["corner_mm"]
    board = {"name": "board", "mass_kg": 1, "size_mm": [100, 100, 100], "suits": ["roof tent"], "weather": "any"}
    world.gear["board"] = board | other
    world.gear["sleeping bag"]["weather"] = "dry"
    world.trip |= trip
    assert rule not in {name for name, _ in world.broken()}
    world.space("roof place")["size_mm"][0] += 200
    lies = {"thing": "board", "corner_mm": (x + 1250, y, z), "size_mm": (100, 100, 100)}
    world.places["board"] = world.places["roof tent"] | lies
    assert rule in {name for name, _ in world.broken()}
