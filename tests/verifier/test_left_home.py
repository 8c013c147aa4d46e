"""A plan that leaves all that the list has for a fire or an injury is asked about."""

from typing import Any


def leave(world: Any, name: str, *places: str, carry: int | None = 50) -> None:
    if carry is not None:
        world.gear[name]["carry"] = carry
    for place in places:
        del world.places[place]
    world.plan["left_at_home"] = (*world.plan.get("left_at_home", ()), {"thing": name})


def test_no_extinguisher_aboard_is_asked_about(world):
    world.gear["extinguisher"]["spread"] = 1
    leave(world, "extinguisher", "extinguisher", "extinguisher #2")
    (told,) = world.questions()
    assert told.startswith("Nothing aboard is for a fire: extinguisher stays at home. What helps then?")
    world.gear["jackets"]["needed_when"] = ["fire"]
    assert world.questions() == ()


def test_nothing_for_an_injury_is_asked_about_once_with_all_that_stays(world):
    world.gear["camp oven"]["needed_when"] = ["injury"]
    leave(world, "first aid", "first aid")
    (told,) = world.questions()
    assert told.startswith("Nothing aboard is for an injury: first aid, camp oven stay at home.")


def test_what_is_for_less_is_not_asked_about(world):
    leave(world, "recovery kit", "recovery kit")
    assert world.questions() == ()


def test_what_has_to_come_and_does_not_is_broken_and_not_asked_about(world):
    leave(world, "first aid", "first aid", carry=None)
    assert world.questions() == ()
    assert ("carried", "first aid") in world.broken()


def test_a_list_that_has_nothing_for_it_is_not_asked_about(world):
    world.gear["first aid"]["needed_when"] = []
    assert world.questions() == ()
