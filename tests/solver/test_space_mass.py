"""space_mass: the solver's side."""

from solver.rules import space_mass
from tests.solver.conftest import piece_named


def test_a_space_holds_its_limit_and_no_more(pair):
    pair.vehicle["spaces"][0]["limit_kg"] = 20
    both = {"one": "low", "two": "low"}
    assert pair.allows(space_mass.add)
    assert pair.allows(space_mass.add, places=both)
    pair.things[0]["mass_kg"] = 10.001
    assert not pair.allows(space_mass.add, places=both)
    assert pair.allows(space_mass.add, places={"one": "low", "two": "high"})


def test_the_heaviest_mass_and_stage_count(pair):
    pair.vehicle["spaces"][0]["limit_kg"] = 12
    pair.things[0] |= {"mass_kg": {"least": 9, "likely": 10, "most": 13}}
    assert not pair.allows(space_mass.add, places={"one": "low"})
    pair.things[0] |= {"fills": {"waste": 5}}
    pair.trip["streams"] = {"waste": {}}
    assert pair.allows(space_mass.add, places={"one": "low"})
    pair.trip["stages"].append({"name": "back", "surface": "sealed_road", "filled": {"waste": 1}})
    assert not pair.allows(space_mass.add, places={"one": "low"})


def test_what_is_left_of_a_thing_may_meet_the_limit_exactly(pair):
    pair.trip["stages"] = [{"name": "go", "surface": "off_road", "left": {"food": 0.3}}]
    pair.things[0] |= {"mass_kg": 5, "uses_up": {"food": 3}}  # 2.9 kg, and in the arithmetic of a machine a trace more
    pair.vehicle["spaces"][0]["limit_kg"] = 2.9
    assert spaces_of_one(pair) == {"high", "low"}
    pair.vehicle["spaces"][0]["limit_kg"] = 2.899
    assert spaces_of_one(pair) == {"high"}


def spaces_of_one(pair) -> set[str]:
    problem = pair.problem()
    return {problem.rooms[room].space.name for room in problem.fits[piece_named(problem, "one").index]}
