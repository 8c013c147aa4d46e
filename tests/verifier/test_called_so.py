"""What is called bedding, clothes or food and not marked so is asked about where such may not be, and nowhere else."""

from typing import Any

import pytest

HARMFUL = ["oil", "oxidiser", "toxic", "corrosive", "clinical_waste", "diesel"]


def jackets(world: Any, name: str, **more: Any) -> None:
    """The jackets become a thing of another name, in the space of the food box, which becomes oil."""
    world.not_food("food box")
    world.gear["food box"] |= {"hazard": "oil", "name": "tin"}
    world.gear["stove"]["with"] = []
    world.places["food box"]["thing"] = "tin"
    world.gear["jackets"] |= {"name": name, "volume_l": 6, **more}
    world.gear["jackets"].pop("size_mm", None)
    world.places["jackets"]["thing"] = name
    world.put("jackets", (2600, 450, 1050), space="right bay", size_mm=(300, 180, 120))


def asked(world: Any) -> list[str]:
    return [says for says in world.questions() if "is not marked as" in says]


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("Sleeping-bag", "bedding"), ("pillows", "bedding"), ("wool blanket", "bedding"), ("swag", "bedding"),
        ("bedroll", "bedding"), ("clothes duffel", "clothes"), ("Duffle", "clothes"), ("warm clothing", "clothes"),
        ("rain jackets", "clothes"), ("box of food", "food"), ("groceries", "food"), ("snacks", "food"),
    ],
)  # fmt: skip
def test_a_name_beside_oil_is_asked_about(world, name, word):
    jackets(world, name)
    (told,) = asked(world)
    assert told.startswith(f"{name} is not marked as ")
    assert f"lies where {word} may not, too near tin: " in told


@pytest.mark.parametrize(
    "name", ["fire blanket", "life jackets", "clothes pegs", "clothesline", "socket set", "food processor", "swagger"]
)
def test_what_only_sounds_so_is_left_alone(world, name):
    jackets(world, name)
    assert asked(world) == []


@pytest.mark.parametrize(
    ("name", "more", "broken"),
    [
        ("sleeping bag 3", {"suits": ["bedding"]}, True),
        ("sleeping bag 3", {"clothes": True}, True),
        ("sleeping bag 3", {"clothes": False}, False),
        ("duffel", {"clothes": True}, True),
        ("duffel", {"suits": ["bedding"]}, True),
        ("duffel", {"clothes": False}, False),
        ("snacks", {"food": True}, True),
        ("picnic blanket", {"clothes": False}, None),
        ("picnic blanket", {"clothes": False, "food": False}, False),
        ("snacks", {"food": False}, False),
        ("duffel", {"hazard": "none"}, None),
        ("duffel", {"suits": ["pocket"]}, None),
    ],
)
def test_a_word_answers_the_question(world, name, more, broken):
    jackets(world, name, **more)
    assert len(asked(world)) == (broken is None)
    assert any(rule == "segregation" for rule, _ in world.broken()) is (broken is True)


def test_it_is_asked_only_where_the_word_would_break_the_rule(world):
    jackets(world, "duffel")
    assert len(asked(world)) == 1
    world.gear["food box"]["hazard"] = "lithium"
    assert asked(world) == []


def test_several_things_and_copies_are_told_once(world):
    jackets(world, "duffel")
    world.gear["tool box"]["hazard"] = "toxic"
    (told,) = asked(world)
    assert "too near tin and tool box: is it none?" in told
