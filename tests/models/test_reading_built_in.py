"""What is built in: solids that a slide would run into, and spaces that are part of a thing."""

from typing import Any

import pytest

ARCH = "{corner_mm: [2860, -720, 850], size_mm: [680, 220, 230]}"
"""The wheel arch of the starter's left bay; its top is 20 mm below the drawer on the other side."""


def with_drawer(trip: Any, *, to: str, mm: int, arch_mm: int) -> Any:
    """The starter with another travel of its drawer, and an arch so high."""
    trip.change("vehicle.yaml", "{to: rear, mm: 900}", f"{{to: {to}, mm: {mm}}}")
    return trip.change("vehicle.yaml", ARCH, ARCH.replace("230]", f"{arch_mm}]"))


def test_a_slide_that_runs_into_a_solid_of_another_space_is_refused(trip):
    (fault,) = with_drawer(trip, to="left", mm=581, arch_mm=251).faults()
    where, told = fault.split(": found ")
    assert where.startswith("vehicle.yaml, line ")
    assert "spaces[1].slides.mm" in where
    assert told == (
        '581 mm to the left, into the solid of "left bay" from [2860, -720, 850] to [3540, -500, 1101]; '
        "allowed: at most 580 mm, where that begins."
    )


@pytest.mark.parametrize(("to", "mm", "arch_mm"), [("left", 580, 251), ("left", 581, 250), ("rear", 900, 251)])
def test_a_slide_that_ends_at_a_solid_or_runs_over_it_is_read(trip, to, mm, arch_mm):
    with_drawer(trip, to=to, mm=mm, arch_mm=arch_mm).notes()


def test_what_is_built_into_a_sliding_space_moves_with_it(trip):
    solid = "solid: [{corner_mm: [3900, 80, 1100], size_mm: [60, 60, 60]}]"
    trip.change("vehicle.yaml", "slides: {to: rear, mm: 900}", f"slides: {{to: rear, mm: 900}}\n    {solid}")
    assert trip.notes() == []


@pytest.mark.parametrize(("part_of", "faults"), [("", 1), (", inside_of: tent", 0)])
def test_what_is_built_into_a_thing_stands_in_the_way_only_where_the_thing_lies(trip, part_of, faults):
    solid = "solid: [{corner_mm: [4000, 100, 1100], size_mm: [50, 50, 50]}]"
    walls = "corner_mm: [4000, 100, 1100], size_mm: [200, 200, 200]"
    hold = f"name: hold, {walls}, opening: tailgate, air: canopy, {solid}"
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    trip.write("vehicle.yaml", text.replace("spaces:\n", f"spaces:\n  - {{{hold}{part_of}}}\n", 1))
    told = trip.faults() if faults else trip.notes()
    assert len([one for one in told if "into the solid" in one]) == faults


def with_pocket(trip: Any, turns: str, size: str) -> Any:
    """The starter with a space that is part of its tent, of 700 x 250 x 250 mm, which may be turned so."""
    trip.change("gear.yaml", "- name: tent\n", f"- name: tent\n  turns: {turns}\n")
    pocket = f"{{name: pocket, corner_mm: [2460, 100, 1100], size_mm: {size}, opening: tailgate, air: canopy"
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    return trip.write("vehicle.yaml", text.replace("spaces:\n", f"spaces:\n  - {pocket}, inside_of: tent}}\n", 1))


@pytest.mark.parametrize(
    ("turns", "size"),
    [
        ("any", "[250, 250, 700]"),
        ("any", "[100, 700, 250]"),
        ("upright", "[250, 700, 250]"),
        ("fixed", "[700, 250, 250]"),
    ],
)
def test_a_space_that_a_thing_can_lie_around_is_read(trip, turns, size):
    assert with_pocket(trip, turns, size).notes() == []


@pytest.mark.parametrize(
    ("turns", "size"),
    [
        ("any", "[250, 250, 701]"),
        ("any", "[251, 700, 251]"),
        ("upright", "[250, 250, 251]"),
        ("fixed", "[250, 700, 250]"),
        ("any", "[1600, 500, 500]"),
    ],
)
def test_a_space_larger_than_the_thing_it_is_part_of_is_refused(trip, turns, size):
    (fault,) = with_pocket(trip, turns, size).faults()
    where, told = fault.split(": found ")
    assert where.startswith("vehicle.yaml, line ")
    assert "spaces[0].size_mm (pocket)" in where
    assert told == (
        f'{size[1:-1].replace(", ", " x ")} mm in "tent", which has 700 x 250 x 250 mm; '
        "allowed: a space no larger than the thing it is part of, as that may be turned."
    )


def test_a_thing_given_by_volume_takes_any_shape_around_a_space(trip):
    pocket = "{name: pocket, corner_mm: [2460, 100, 1100], size_mm: [1400, 600, 250], opening: tailgate, air: canopy"
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    trip.write("vehicle.yaml", text.replace("spaces:\n", f"spaces:\n  - {pocket}, inside_of: clothes bag}}\n", 1))
    assert trip.notes() == []
