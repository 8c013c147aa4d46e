"""Which limit is meant by what is typed; what is told of one with nothing on it."""

import pytest

import cli.limits
from cli.answering import BadInput
from cli.limits import limit_meant, limit_told, tightest, uses
from models.reading import read_plan
from models.rules import Rule
from solver import Options, Price
from verifier import check


@pytest.fixture
def meant(trip):
    """The limit that is meant where a space is called as a rack is."""

    def meaning(typed: str) -> str:
        for name in ("vehicle.yaml", "plan.yaml"):
            text = (trip / name).read_text("utf-8")
            (trip / name).write_text(text.replace("right shelf", "drawer frame"), "utf-8")
        read = read_plan(trip / "plan.yaml")
        return limit_meant(read.case, check(read.case, read.plan), typed)

    return meaning


def test_a_rack_and_a_space_of_one_name_are_asked_back(meant):
    with pytest.raises(BadInput, match='"rack drawer frame" or "space drawer frame": say which limit'):
        meant("drawer frame")


@pytest.mark.parametrize(
    ("typed", "limit"),
    [
        ("rack drawer frame", "rack drawer frame"),
        ("space drawer frame", "space drawer frame"),
        ("left bay", "space left bay"),
    ],
)
def test_a_limit_by_its_name(meant, typed, limit):
    assert meant(typed) == limit


LOFT = "racks:\n  - {name: loft, limits: {sealed_road_kg: 30, off_road_kg: 20}}\n"
ATTIC = """
  - name: attic
    corner_mm: [2460, -720, 1750]
    size_mm: [400, 400, 150]
    limit_kg: 12
    on: [loft]
    air: canopy
    opening: tailgate
    face: rear
    holds: enclosed
"""


@pytest.mark.parametrize(
    ("typed", "name", "kg", "stage"), [("attic", "space attic", 12, None), ("loft", "rack loft", 20, "halfway")]
)
def test_a_limit_with_nothing_on_it_is_told_with_its_figure_and_priced(trip, monkeypatch, typed, name, kg, stage):
    monkeypatch.setattr(cli.limits, "price_of", lambda _, plan, limit, __: Price(limit, 10.0, plan, plan))
    text = (trip / "vehicle.yaml").read_text("utf-8")
    assert text.count("racks: ") == 1
    head, _, rest = text.partition("racks: ")
    (trip / "vehicle.yaml").write_text(f"{head}{LOFT}{rest.partition(chr(10))[2].rstrip()}\n{ATTIC}", "utf-8")
    told = limit_told(read_plan(trip / "plan.yaml"), typed, Options())
    assert (told.name, told.stage, told.value_kg, told.limit_kg, told.left_kg) == (name, stage, 0, kg, kg)
    assert (told.uses, told.more_kg, told.found) == ((), 10, True)


def test_an_axle_whose_load_is_unknown_is_told_with_its_limit_and_not_priced(trip, monkeypatch):
    monkeypatch.setattr(cli.limits, "price_of", lambda *_: pytest.fail("a price was looked for"))
    text = (trip / "vehicle.yaml").read_text("utf-8")
    assert text.count("  front_kg: 1190\n  rear_kg: 960\n") == 1
    axles = text.replace("  front_kg: 1190\n  rear_kg: 960\n", "  total_kg: 2150\n")
    (trip / "vehicle.yaml").write_text(axles, "utf-8")
    told = limit_told(read_plan(trip / "plan.yaml"), "rear axle", Options())
    assert (told.value_kg, told.limit_kg, told.left_kg, told.more_kg) == (None, 1850, None, 0)


def test_what_uses_up_a_limit_is_asked_of_its_rule_alone(trip, monkeypatch):
    read = read_plan(trip / "plan.yaml")
    verdict = check(read.case, read.plan)
    at = tightest(verdict, (Rule.GROSS_MASS, "total"))
    assert at is not None
    monkeypatch.setattr("cli.limits.judge", lambda *_: pytest.fail("every rule was asked"))
    found = dict(uses(read.case, read.plan, at))
    assert found.keys() == {place.thing for place in read.plan.placements}
    for thing, kg in found.items():
        copies = sum(place.thing == thing for place in read.plan.placements)
        assert 0 <= kg <= copies * read.case.thing_named[thing].mass_kg.most + 1e-6
    assert max(found.values()) > 0


SOME_UNKNOWN = "limits: {parked_kg: unknown, sealed_road_kg: 120, off_road_kg: 25}"


@pytest.mark.parametrize("typed", ["rack", "drawer frame", "rack drawer frame"])
def test_a_limit_that_is_passed_is_told_before_one_that_is_unknown(trip, monkeypatch, typed):
    """The frame carries 56 kg, of 25 kg at 'halfway', and of nobody knows how much at 'last camp'."""
    monkeypatch.setattr(cli.limits, "price_of", lambda _, plan, limit, __: Price(limit, 10.0, plan, plan))
    vehicle = trip / "vehicle.yaml"
    text = vehicle.read_text("utf-8")
    assert text.count("limits: {any_kg: 120}") == 1
    vehicle.write_text(text.replace("limits: {any_kg: 120}", SOME_UNKNOWN), "utf-8")
    told = limit_told(read_plan(trip / "plan.yaml"), typed, Options())
    assert (told.name, told.stage, told.limit_kg, told.left_kg) == ("rack drawer frame", "halfway", 25, -31)
    assert told.holds is False
    vehicle.write_text(text.replace("limits: {any_kg: 120}", SOME_UNKNOWN.replace("25", "unknown")), "utf-8")
    told = limit_told(read_plan(trip / "plan.yaml"), typed, Options())
    assert (told.stage, told.limit_kg, told.left_kg, told.holds) == ("leaving", 120, 64, True)
    vehicle.write_text(text.replace("limits: {any_kg: 120}", "limits: {any_kg: unknown}"), "utf-8")
    told = limit_told(read_plan(trip / "plan.yaml"), typed, Options())
    assert (told.value_kg, told.limit_kg, told.left_kg, told.holds) == (56, None, None, None)


def test_the_tightest_space_is_one_whose_limit_is_known(trip):
    (trip / "vehicle.yaml").write_text(
        (trip / "vehicle.yaml").read_text("utf-8").replace("    limit_kg: 150\n", "    limit_kg: unknown\n"), "utf-8"
    )
    read = read_plan(trip / "plan.yaml")
    judged = check(read.case, read.plan)
    assert {one.limit for one in judged.findings if (one.rule, one.subject) == (Rule.SPACE_MASS, "left bay")} == {None}
    least = judged.tightest(Rule.SPACE_MASS)
    assert least is not None
    assert limit_meant(read.case, judged, "space_mass") == f"space {least.subject}"
