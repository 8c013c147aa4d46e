"""Why here and not there: what is promised appears when the plan that was tried is judged."""

from dataclasses import replace
from typing import Any

import pytest

from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.rules import Rule
from solver import Explanation, Options, Proposal, Row, Status, how_much, price_of, why_home, why_not, with_more
from solver.contrast import about
from tests.chances import rows
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

PLENTY = Options(effort=0.1, seconds=600.0)


def plan_at(**places: Any) -> Plan:
    """Cubes of 200 mm at corners, by name; `_2` at the end is the second copy."""
    made = []
    for name, (space, corner) in places.items():
        thing, _, number = name.partition("_")
        made.append(
            {"thing": thing, "copy": int(number or 1), "space": space, "corner_mm": corner, "size_mm": (200, 200, 200)}
        )
    return Plan.model_validate({"trip": "trip.yaml", "placements": tuple(made)})


def height(case: Case, plan: Plan | None) -> float:
    assert plan is not None
    found = check(case, plan).totals["go"].cg_mm[2]
    assert found is not None
    return found


def row_of(found: Explanation, space: str) -> Row:
    (row,) = [one for one in found.rows if one.space == space]
    return row


LOW = ("low", (2000, 0, 500))
BESIDE = ("low", (2200, 0, 500))


def test_a_space_at_a_price_promises_what_the_verifier_finds(pair):
    case, plan = pair.case(), plan_at(one=LOW, two=BESIDE)
    found = why_not(case, plan, Copy("one", 1), PLENTY)
    assert (found.space, found.locks, [row.space for row in found.rows]) == ("low", (), ["high"])
    row = row_of(found, "high")
    assert row.kind == "could"
    assert row.plan is not None
    assert check(case, row.plan).broken == ()
    assert {copy_of(p): p.space for p in row.plan.placements} == {Copy("one", 1): "high", Copy("two", 1): "low"}
    # 10 kg lifted by 400 mm in a vehicle of 2020 kg
    assert height(case, row.plan) - height(case, plan) == pytest.approx(10 * 400 / 2020)
    assert row.higher_mm == pytest.approx(height(case, row.lowest) - height(case, found.lowest), abs=0.01)
    assert row.moves == ()


@pytest.mark.parametrize(
    ("mm", "word"),
    [(-0.2, "better"), (-0.04, "hardly matters"), (0.99, "hardly matters"), (1.0, "1 to 5 mm"), (5.1, "more")],
)
def test_how_much_it_matters(mm, word):
    assert how_much(mm) == word


@pytest.mark.parametrize(
    ("found_mm", "relaxed_mm", "told_mm"),
    [(1.4, 0.6, 0.6), (0.4, 0.9, 0.4), (0.2, -0.3, 0.0), (-1.3, -1.5, None), (-0.04, 0.2, 0.0), (1.4, None, None)],
)
def test_what_is_told_as_about_lies_between_nothing_and_what_was_found(found_mm, relaxed_mm, told_mm):
    assert about(found_mm, relaxed_mm) == told_mm


def test_what_a_row_is_told_to_cost_and_in_which_words():
    row = Row("bay", "could", higher_mm=1.4, about_mm=0.6)
    assert (row.told_mm, row.word) == (0.6, "hardly matters")
    assert replace(row, about_mm=None).word == "1 to 5 mm"
    assert replace(row, about_mm=None, higher_mm=-1.3).word == "better"


def test_a_rule_that_forbids_a_space_is_told_with_its_figures_for_any_plan(pair):
    pair.vehicle["spaces"][1] |= {"limit_kg": 8, "weather": "exposed"}
    pair.things[0]["weather"] = "dry"
    row = row_of(why_not(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("one", 1), PLENTY), "high")
    assert (row.kind, row.in_any_plan, row.plan) == ("cannot", True, None)
    assert row.rules == (
        (Rule.SPACE_MASS, "it weighs 10.0 kg and high holds 8 kg"),
        (Rule.WEATHER, "high is exposed and it needs dry"),
    )


def test_what_stands_in_the_way_moves_along(pair):
    pair.vehicle["spaces"][1] |= {"size_mm": [200, 200, 200]}
    plan = plan_at(one=LOW, two=("high", (2600, 0, 900)))
    row = row_of(why_not(pair.case(), plan, Copy("one", 1), PLENTY), "high")
    assert row.moves == ((Copy("two", 1), "high", "low"),)
    assert height(pair.case(), row.plan) == pytest.approx(height(pair.case(), plan))
    # the lowest as it is has both below; with one of them above that is 10 kg lifted by 400 mm in 2020 kg
    assert row.higher_mm == pytest.approx(10 * 400 / 2020)


def test_a_space_that_has_no_mass_left_is_told_and_proven_when_looked_at_closely(pair):
    pair.vehicle["spaces"][1]["limit_kg"] = 15
    pair.trip["locks"] = [{"thing": "two", "in": "high"}]
    plan = plan_at(one=LOW, two=("high", (2600, 0, 900)))
    row = row_of(why_not(pair.case(), plan, Copy("one", 1), PLENTY), "high")
    assert (row.kind, row.in_any_plan) == ("none found", False)
    assert (row.about_mm, row.told_mm, row.word) == (None, None, "none found")
    assert row.rules == ((Rule.SPACE_MASS, "high has 5.0 kg left and it weighs 10.0 kg"),)
    deep = row_of(why_not(pair.case(), plan, Copy("one", 1), PLENTY, only="high"), "high")
    assert (deep.kind, deep.in_any_plan) == ("cannot", True)
    assert deep.conflict is not None
    assert {demand.subject for demand in deep.conflict.demands} >= {"two", "space high"}


def test_a_better_plan_is_offered_and_is_better(pair):
    case, plan = pair.case(), plan_at(one=("high", (2600, 0, 900)), two=("high", (2800, 0, 900)))
    pair.trip["locks"] = [{"thing": "one", "in": "high"}]
    found = why_not(pair.case(), plan, Copy("one", 1), PLENTY)
    row = row_of(found, "low")
    assert row.word == "better"
    assert height(case, row.lowest) < height(case, found.lowest) - 1


def test_what_would_be_lower_elsewhere_is_compared_with_where_it_is(pair):
    """Without a lock too: another space is not told to cost nothing because it is the lowest of all."""
    plan = plan_at(one=("high", (2600, 0, 900)), two=("high", (2800, 0, 900)))
    found = why_not(pair.case(), plan, Copy("one", 1), PLENTY)
    row = row_of(found, "low")
    assert (row.word, row.about_mm) == ("better", None)
    # the lowest with it where it is has the other below; 10 kg brought down by 400 mm in 2020 kg
    assert {place.thing: place.space for place in found.lowest.placements} == {"one": "high", "two": "low"}
    assert row.higher_mm == pytest.approx(-10 * 400 / 2020)


@pytest.mark.parametrize("one", [1, 2])
def test_copies_that_change_names_stay_where_they_are(pair, one):
    pair.things[0]["count"] = 2
    pair.things.pop()
    places = {f"one_{one}": LOW, f"one_{3 - one}": ("high", (2600, 0, 900))}
    row = row_of(why_not(pair.case(), plan_at(**places), Copy("one", one), PLENTY), "high")
    assert row.word != "better"


def test_a_thing_that_has_no_lawful_place_stays_for_that(pair):
    pair.thing("ladder", size_mm=[900, 100, 100], carry=40)
    found = why_home(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("ladder", 1), PLENTY)
    assert (found.lawful, found.ways) == ((), ())
    assert [space for space, _ in found.rules] == ["high", "low"]


def test_a_thing_for_which_there_is_room(pair):
    pair.thing("three", carry=40)
    plan = plan_at(one=LOW, two=BESIDE)
    found = why_home(pair.case(), plan, Copy("three", 1), PLENTY)
    (way,) = found.ways
    assert (way.leave, way.limit) == (None, None)
    assert check(pair.case(), way.plan).broken == ()
    assert "three" in {place.thing for place in way.plan.placements}


@pytest.mark.parametrize("space", ["low", "high"])
def test_a_thing_at_home_is_taken_into_the_one_space_that_was_asked_about(pair, space):
    pair.thing("three", carry=40)
    found = why_home(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("three", 1), PLENTY, space)
    (way,) = found.ways
    assert {place.space for place in way.plan.placements if place.thing == "three"} == {space}
    assert check(pair.case(), way.plan).broken == ()


def test_a_thing_at_home_has_no_way_into_a_space_that_may_not_hold_it(pair):
    pair.thing("three", carry=40, weather="dry")
    pair.vehicle["spaces"][1]["weather"] = "exposed"
    found = why_home(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("three", 1), PLENTY, "high")
    assert (found.lawful, found.ways, found.bars) == (("low",), (), ())
    assert dict(found.rules)["high"][0][0] is Rule.WEATHER


def test_what_lifts_the_load_comes_with_the_lowest_of_what_must_come_alone_and_with_it(pair):
    """What may come has to stay dry and goes above; one of the others need not be there."""
    pair.thing("three", carry=40, weather="dry")
    pair.vehicle["spaces"][0]["weather"] = "exposed"
    case, plan = pair.case(), plan_at(one=("high", (2600, 0, 900)), two=BESIDE)
    found = why_home(case, plan, Copy("three", 1), PLENTY)
    assert found.alone is not None
    assert found.lowest is not None
    assert [place.thing for place in found.alone.placements] == ["one", "two"]
    assert [place.thing for place in found.lowest.placements] == ["one", "two", "three"]
    assert height(case, found.alone) < height(case, plan)
    alone_mm = height(case, found.alone)
    # 10 kg at 1000 mm come to 2020 kg
    assert height(case, found.lowest) == pytest.approx(alone_mm + 10 * (1000 - alone_mm) / 2030, abs=0.01)


@pytest.mark.long
def test_ways_to_take_a_thing_where_the_total_is_used_up(pair):
    pair.thing("dear", carry=90)
    pair.thing("cheap", carry=20)
    pair.vehicle["limits"]["gvm_kg"] = 2034
    case = pair.case()
    plan = plan_at(one=LOW, two=BESIDE, cheap=("low", (2000, 200, 500)))
    instead, more = why_home(case, plan, Copy("dear", 1), PLENTY).ways
    assert instead.leave == Copy("cheap", 1)
    assert check(case, instead.plan).broken == ()
    assert (more.limit, more.more_kg) == ("total", 10)
    assert check(with_more(case, "total", 10), more.plan).broken == ()


@pytest.mark.parametrize(
    ("kg", "more_kg"),
    rows([(15.5, 20), (10, 10), (15, 15), (11, 15), (22, 25), (31, 35), (36, 40)], 1),
)
def test_of_a_limit_as_little_more_is_told_as_will_do_in_steps_of_five_kg(pair, kg, more_kg):
    pair.thing("dear", kg, carry=90)
    pair.vehicle["limits"]["gvm_kg"] = 2020
    (way,) = why_home(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("dear", 1), PLENTY).ways
    assert (way.limit, way.more_kg) == ("total", more_kg)
    assert check(with_more(pair.case(), "total", more_kg), way.plan).broken == ()


def test_what_does_not_come_without_another_takes_it_along(pair):
    pair.thing("panel", carry=40, **{"with": ["pack"]})
    pair.thing("pack", carry=20, count=2, all_or_none=True)
    case = pair.case()
    (way,) = why_home(case, plan_at(one=LOW, two=BESIDE), Copy("panel", 1), PLENTY).ways
    assert way.along == (Copy("pack", 1), Copy("pack", 2))
    assert check(case, way.plan).broken == ()
    assert "panel" in {place.thing for place in way.plan.placements}


@pytest.mark.parametrize("because", ["a lock", "no place"])
def test_what_would_come_along_and_cannot_leaves_no_way(pair, because):
    pair.thing("panel", carry=40, **{"with": ["pack"]})
    pair.thing("pack", carry=20, **({} if because == "a lock" else {"size_mm": [900, 100, 100]}))
    if because == "a lock":
        pair.trip["locks"] = [{"thing": "pack", "at_home": True}]
    found = why_home(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("panel", 1), PLENTY)
    assert (found.ways, found.lacks) == ((), Copy("pack", 1))


def test_what_something_aboard_needs_is_not_left_instead(pair):
    pair.thing("dear", carry=90)
    pair.thing("panel", carry=60, **{"with": ["pack"]})
    pair.thing("pack", carry=20)
    pair.vehicle["limits"]["gvm_kg"] = 2044
    case = pair.case()
    places = {"panel": ("low", (2000, 200, 500)), "pack": ("low", (2200, 200, 500))}
    ways = why_home(case, plan_at(one=LOW, two=BESIDE, **places), Copy("dear", 1), PLENTY).ways
    assert [(way.leave, way.limit) for way in ways] == [(Copy("panel", 1), None), (None, "total")]
    assert check(case, ways[0].plan).broken == ()


def test_the_price_of_a_limit_names_what_comes_along(pair):
    pair.thing("dear", carry=90)
    pair.vehicle["limits"]["gvm_kg"] = 2025
    case = pair.case()
    price = price_of(case, plan_at(one=LOW, two=BESIDE), "total", Options(effort=0.02, seconds=600.0))
    assert (price.comes, price.leaves) == (("dear",), ())
    assert price.more is not None
    assert check(with_more(case, "total", price.more_kg), price.more).broken == ()


def test_a_total_that_is_passed_before_anything_moves_is_told_as_that(pair):
    pair.vehicle["limits"]["gvm_kg"] = 2025
    pair.trip["reserve_kg"] = 10
    found = why_not(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("one", 1), PLENTY)
    (says,) = (says for _, says in row_of(found, "high").rules)
    assert says == "the total is 5.0 kg over at go, 10 kg of reserve kept, before anything moves"


def test_a_rear_axle_that_would_be_passed_is_told_with_its_figure(pair):
    pair.vehicle["spaces"][1]["corner_mm"] = [5600, 0, 500]
    pair.vehicle["limits"]["rear_axle_kg"] = 920
    found = why_not(pair.case(), plan_at(one=LOW, two=BESIDE), Copy("one", 1), PLENTY)
    (says,) = (says for _, says in row_of(found, "high").rules)
    # 10 kg each at 5700 and 2300 mm behind the front axle, on a wheelbase of 3000 mm: 26.7 kg on 20 that are left
    assert says == "the rear axle would be at least 6.7 kg over at go with it there"


@pytest.fixture
def noisy(monkeypatch):
    """A search from nothing that brings along what it is told to: a set of names for each limit of the total in kg."""
    names: dict[float, set[str]] = {}

    def found(case: Case, *_: Any, **__: Any) -> Proposal:
        places = {"one": LOW, "two": BESIDE, "dear": ("low", (2000, 200, 500)), "rug": ("low", (2200, 200, 500))}
        plan = plan_at(**{name: places[name] for name in names[case.vehicle.limits.gvm_kg.kg or 0.0]})
        return Proposal(Status.FOUND, plan=plan, must_only_height_mm=0.0)

    monkeypatch.setattr("solver.price.propose", found)
    return names


def test_more_of_a_limit_is_never_told_as_a_loss(pair, noisy):
    pair.thing("dear", carry=90)
    pair.vehicle["limits"]["gvm_kg"] = 2030
    noisy |= {2030: {"one", "two", "dear"}, 2040: {"one", "two"}}
    plan = plan_at(one=LOW, two=BESIDE, dear=("low", (2000, 200, 500)))
    price = price_of(pair.case(), plan, "total", Options(effort=0.02, seconds=600.0))
    assert (price.better, price.comes, price.leaves) == (False, (), ())


def test_more_of_a_limit_does_not_bring_along_what_is_aboard(pair, noisy):
    pair.thing("dear", carry=90)
    pair.vehicle["limits"]["gvm_kg"] = 2030
    pair.trip["choose_within_mm"] = 0
    noisy |= {2030: {"one", "two"}, 2040: {"one", "two", "dear"}}
    plan = plan_at(one=LOW, two=BESIDE, dear=("low", (2000, 200, 500)))
    price = price_of(pair.case(), plan, "total", Options(effort=0.02, seconds=600.0))
    assert (price.better, price.comes, price.leaves) == (False, (), ())


def test_more_of_a_limit_buys_nothing_that_holds_without_it(pair, noisy):
    pair.thing("dear", carry=90)
    pair.vehicle["kerb"]["cg_height_mm"] = 400  # so that what comes along lifts it, and a search may not choose it
    pair.vehicle["limits"]["gvm_kg"] = 2100
    pair.trip["choose_within_mm"] = 0
    noisy |= {2100: {"one", "two"}, 2110: {"one", "two", "dear"}}
    price = price_of(pair.case(), plan_at(one=LOW, two=BESIDE), "total", Options(effort=0.02, seconds=600.0))
    assert (price.better, price.comes, price.leaves) == (False, (), ())
    assert price.base is not None
    assert check(pair.case(), price.base).broken == ()


def test_what_more_of_a_limit_brings_along_comes_on_top_of_the_plan_in_hand(pair, noisy):
    pair.thing("dear", carry=90)
    pair.thing("rug", 8, carry=20)
    pair.vehicle["limits"]["gvm_kg"] = 2030
    noisy |= {2030: {"one", "two", "rug"}, 2040: {"one", "two", "rug"}}
    plan = plan_at(one=LOW, two=BESIDE, dear=("low", (2000, 200, 500)))
    price = price_of(pair.case(), plan, "total", Options(effort=0.02, seconds=600.0))
    assert (price.better, price.comes, price.leaves) == (True, ("rug",), ())
    assert price.more is not None
    assert check(with_more(pair.case(), "total", price.more_kg), price.more).broken == ()


@pytest.mark.parametrize("limit", ["rack roof", "space low"])
def test_more_of_what_a_rack_or_a_space_bears_lets_something_dearer_come_instead(pair, limit):
    pair.vehicle["racks"] = [{"name": "roof", "limits": {"any_kg": 45 if limit == "rack roof" else 500}}]
    pair.vehicle["spaces"] = pair.vehicle["spaces"][:1]
    pair.vehicle["spaces"][0] |= {"on": ["roof"], "limit_kg": 45 if limit == "space low" else 500}
    pair.things = pair.things[:1]
    pair.things[0]["mass_kg"] = 30
    pair.thing("cheap", 15, carry=50)
    pair.thing("dear", 25, carry=90)
    price = price_of(pair.case(), plan_at(one=LOW, cheap=BESIDE), limit, Options(effort=0.02, seconds=600.0))
    assert (price.better, price.comes, price.leaves) == (True, ("dear",), ("cheap",))
    assert price.more is not None
    assert check(with_more(pair.case(), limit, price.more_kg), price.more).broken == ()
    assert price.base is not None
    assert check(pair.case(), price.base).broken == ()


def test_more_of_what_an_empty_space_bears_lowers_the_plan(pair):
    pair.vehicle["spaces"][0]["limit_kg"] = 5
    plan = plan_at(one=("high", (2600, 0, 900)), two=("high", (2800, 0, 900)))
    price = price_of(pair.case(), plan, "space low", Options(effort=0.02, seconds=600.0))
    # 10 kg brought down by 400 mm in a vehicle of 2020 kg
    assert price.better
    assert height(pair.case(), price.base) - height(pair.case(), price.more) == pytest.approx(10 * 400 / 2020)


def test_a_limit_that_is_none_is_refused(pair):
    with pytest.raises(KeyError):
        with_more(pair.case(), "rack moon", 10)


def test_a_copy_does_not_just_change_places_with_one_like_it(pair):
    pair.things[0]["count"] = 2
    pair.things = pair.things[:1]
    pair.vehicle["spaces"][1]["size_mm"] = [200, 200, 200]
    found = why_not(pair.case(), plan_at(one=LOW, one_2=("high", (2600, 0, 900))), Copy("one", 1), PLENTY)
    # There is room for one of the two up there, and it is taken.
    assert row_of(found, "high").kind == "none found"
    pair.vehicle["spaces"][1]["size_mm"] = [400, 200, 200]
    found = why_not(pair.case(), plan_at(one=LOW, one_2=("high", (2600, 0, 900))), Copy("one", 1), PLENTY)
    row = row_of(found, "high")
    assert row.kind == "could"
    assert row.plan is not None
    assert {copy_of(p): p.space for p in row.plan.placements} == {Copy("one", 1): "high", Copy("one", 2): "high"}


def test_the_only_thing_that_leaves_no_room_is_told_as_one(tiny):
    tiny.space("low")
    tiny.space("high", (2600, 0, 900), size_mm=[200, 200, 200])
    tiny.thing("fridge", 30, size_mm=[400, 400, 400])
    tiny.thing("box")
    plan = plan_at(box=("high", (2600, 0, 900)))
    fridge = plan.placements[0].model_copy(
        update={"thing": "fridge", "space": "low", "corner_mm": (2000, 0, 500), "size_mm": (400, 400, 400)}
    )
    plan = plan.model_copy(update={"placements": (*plan.placements, fridge)})
    row = row_of(why_not(tiny.case(), plan, Copy("box", 1), PLENTY), "low")
    assert (Rule.OVERLAP, "fridge lies in low and leaves no room for it") in row.rules
