"""What people read of revise, explain and conflicts, at 80 columns."""

from dataclasses import replace
from typing import Any

import pytest

from models.case import Copy, copy_of
from packing import MoveList, moves_between
from report.explained import Explained, Figures, HomeExplained, LimitTold, LockTold, Offer, RowTold, WayTold
from report.terminal import refusal_report
from report.terminal.explanation import change_sentences, explain_report, signed_mm, signed_s
from report.terminal.explanation_home import home_report
from report.terminal.limits import limit_report
from report.terminal.revision import revision_report
from report.terminal.typed import command, quoted
from solver import Conflict, Demand, WayOut

NOW = Figures("leaving", 702.04, 265.0, 219.4, 695.2, 806.0)
TENT = Copy("tent", 1)


def moved(told: Any, **spaces: tuple[str, tuple[int, int, int]]) -> MoveList:
    """The moves that bring things to corners."""

    def there(place: Any) -> Any:
        space, corner = spaces.get(place.thing.replace(" ", "_"), (place.space, place.corner_mm))
        return place.model_copy(update={"space": space, "corner_mm": corner})

    after = told.plan.model_copy(update={"placements": tuple(map(there, told.plan.placements))})
    return moves_between(told.case, told.plan, after)


@pytest.fixture
def offer(told):
    """The tent on the shelf, 1.6 mm higher."""
    then = replace(NOW, height_mm=703.66, getting_at_s=283.2, rear_left_kg=690.1)
    return Offer(told.plan, NOW, then, moved(told, tent=("right shelf", (3300, 260, 1380))))


@pytest.fixture
def shelf(offer):
    return RowTold(
        "right shelf", "could", offer=offer, about_mm=1.24, found_mm=1.62, lowest_mm=(702.04, 703.66), word="1 to 5 mm"
    )


BAY = RowTold("left bay", "none found", ("overlap: water can, food box lie in left bay and leave no room for it",))
BRACKET = RowTold(
    "cabin bracket",
    "cannot",
    ("inside: cabin bracket takes only: extinguisher", "space_mass: it weighs 12.0 kg and cabin bracket holds 6 kg"),
    in_any_plan=True,
)


def explained(*rows: RowTold, **more: Any) -> Explained:
    plain: dict[str, Any] = {"locks": (), "plan_file": "plan.yaml"}
    return Explained(TENT, "right drawer", rows=rows, **{**plain, **more})


def standing(offer: Offer, higher_mm: float) -> Offer:
    """An offer that stands so much higher than the plan in hand."""
    now = offer.now.height_mm
    assert now is not None
    return replace(offer, then=replace(offer.then, height_mm=now + higher_mm))


def test_what_moves_within_its_space_is_told_so(told, shelf, offer):
    """The tent goes to the shelf, and the tool box aside in the drawer for it."""
    moves = moved(told, tent=("right shelf", (3300, 260, 1380)), tool_box=("right drawer", (3160, 460, 1100)))
    row = replace(shelf, offer=replace(offer, moves=moves))
    text = " ".join(explain_report(told.case, explained(row)).split())
    assert "moves also: tool box within right drawer" in text


def test_what_comes_along_into_the_same_space_is_told(told, shelf, offer):
    moves = moved(told, tent=("right shelf", (3300, 260, 1380)), tool_box=("right shelf", (4300, 400, 1380)))
    row = replace(shelf, offer=replace(offer, moves=moves))
    text = " ".join(explain_report(told.case, explained(row)).split())
    assert "moves also: tool box to right shelf" in text


def test_a_row_for_every_other_space(told, golden, shelf):
    golden("explain.txt", explain_report(told.case, explained(BRACKET, shelf, BAY)))


def test_what_hardly_matters_comes_with_its_lock(told, golden, shelf):
    near = replace(shelf, about_mm=0.4, found_mm=1.1, word="hardly matters", offer=standing(shelf.offer, 0.6))
    golden("explain_hardly.txt", explain_report(told.case, explained(near, BAY)))


@pytest.mark.parametrize(("higher_mm", "says"), [(0.9, False), (1.1, True), (4.2, True)])
def test_what_hardly_matters_and_is_higher_with_few_moves_is_told_so(told, shelf, higher_mm, says):
    """The price is that of the lowest layouts; the plan on offer is another."""
    near = replace(shelf, about_mm=0.4, found_mm=1.1, word="hardly matters", offer=standing(shelf.offer, higher_mm))
    text = " ".join(explain_report(told.case, explained(near)).split())
    assert f"right shelf +0.4 +1.1 {higher_mm:+.1f} +20" in text
    assert (f"but with few moves it stands {higher_mm:.1f} mm higher." in text) is says
    assert ("Put it there if you like:" in text, "If you want it there:" in text) == (not says, says)


def test_a_better_plan_is_offered(told, golden, shelf):
    better = replace(shelf, about_mm=None, found_mm=-1.3, word="better", offer=standing(shelf.offer, -1.3))
    golden("explain_better.txt", explain_report(told.case, explained(better)))


def test_a_price_of_which_no_more_is_known_than_was_found(told, shelf):
    text = " ".join(explain_report(told.case, explained(replace(shelf, about_mm=None))).split())
    assert "right shelf, would cost 1.6 mm of height at 'leaving' (found 1.6 mm: 702.0 to 703.7)." in text
    assert "right shelf - +1.6 +1.6 +20" in text


def test_one_space_looked_at_closely(told, golden, shelf):
    golden("explain_instead.txt", explain_report(told.case, explained(replace(shelf, under_kg=7.4), deep=True)))


@pytest.mark.parametrize(("word", "says"), [("hardly matters", "it hardly matters"), ("better", "a better plan")])
def test_looked_at_closely_what_it_comes_to_is_said_once(told, shelf, word, says):
    text = explain_report(told.case, explained(replace(shelf, word=word), deep=True))
    assert f"- {says}" in text
    assert (text.count("hardly matters") + text.count("better plan"), text.count("nothing else moves")) == (1, 1)


def test_a_space_that_is_proven_not_to_be(told, golden):
    row = replace(BAY, kind="cannot", in_any_plan=True, demands=("food box is locked in left bay (Ada)",))
    golden("explain_proven.txt", explain_report(told.case, explained(row, deep=True)))


def test_what_is_asked_for_and_what_has_no_other_place(told):
    asked = explain_report(told.case, explained(BRACKET, locks=(LOCKED,)))
    assert asked.startswith("tent is in right drawer because that was asked for: tent is locked in right")
    alone = explain_report(told.case, explained(BRACKET))
    assert alone.startswith("tent is in right drawer: no other space may hold it.")
    unknown = explain_report(told.case, explained(BRACKET, BAY))
    assert unknown.startswith("tent is in right drawer: no plan was found with it in another space.")


LOCKED = LockTold("tent is locked in right drawer (Ada: wet)", "trip.yaml", of_trip=True)
OUT = LockTold("tent is kept out of right shelf (Ada: dust)", "trip.yaml", of_trip=True, out=True)
OWN = LockTold(
    "tent is kept out of right shelf", "plan.yaml", of_trip=False, out=True, unlock=("--not-in", "right shelf")
)
HOME = LockTold("camp chair stays at home (Ada)", "trip.yaml", of_trip=True)


def test_a_space_that_a_lock_of_the_trip_forbids(told, golden, shelf):
    """Nobody is told to write a plan that the trip's lock is against."""
    row, bay = replace(shelf, lifted=(OUT,), word="hardly matters", about_mm=0.4), replace(shelf, space="left bay")
    text = explain_report(told.case, explained(row, bay, BRACKET, locks=(OUT,)))
    golden("explain_locked.txt", text)
    assert ("unlock" in text, "-o FILE" in text) == (False, False)


@pytest.mark.parametrize("locks", [(OUT,), (OUT, OWN)], ids=["the trip's", "the trip's and the plan's"])
def test_a_lock_of_the_trip_comes_out_of_its_file_first(told, shelf, locks):
    text = explain_report(told.case, explained(replace(shelf, lifted=locks), locks=locks, deep=True))
    assert "-o FILE" not in text
    assert ("lowstow unlock plan.yaml tent" in text) == (OWN in locks)
    assert "If you want it there, once the lock is out of trip.yaml:" in text
    assert "The lock has to come out of trip.yaml first" in text


def test_a_space_that_a_lock_of_the_plan_forbids_looked_at_closely(told, golden, shelf):
    row = replace(shelf, lifted=(OWN,))
    golden("explain_instead_locked.txt", explain_report(told.case, explained(row, locks=(OWN,), deep=True)))


def test_of_several_locks_those_are_named_that_stand_against_a_space(told, shelf):
    """What is not locked comes first, then what the plan locks, then what the trip locks."""
    other = LockTold("tent is kept out of left bay", "trip.yaml", of_trip=True, out=True)
    rows = (
        replace(shelf, space="left bay", about_mm=0.1, lifted=(other,)),
        replace(shelf, about_mm=0.2, lifted=(OWN,)),
        replace(shelf, space="right bay", about_mm=0.9),
    )
    text = " ".join(explain_report(told.case, explained(*rows, locks=(OWN, other))).split())
    own = "Could be, at a price, once this lock is lifted: tent is kept out of right shelf, says plan.yaml"
    trip = "Could be, at a price, once this lock is lifted: tent is kept out of left bay, says trip.yaml"
    assert text.startswith("tent is in right drawer: the next best place, right bay, would cost about 0.9 mm")
    assert text.index("Could be, at a price space") < text.index(own) < text.index(trip)


def test_where_its_locks_leave_no_space_open(told, shelf):
    locked = replace(shelf, lifted=(OUT,))
    text = " ".join(explain_report(told.case, explained(locked, BRACKET, locks=(OUT,))).split())
    assert text.startswith(
        "tent is in right drawer: no other space that its locks leave open may hold it. tent is kept"
    )
    text = " ".join(explain_report(told.case, explained(locked, BAY, locks=(OUT,))).split())
    assert "no plan was found with it in another space that its locks leave open." in text


def test_a_lock_that_the_plan_does_not_keep(told):
    text = explain_report(told.case, explained(BRACKET, locks=(replace(LOCKED, kept=False),)))
    assert "asked for" not in text
    assert "This plan does not keep a lock: tent is locked in right drawer (Ada: wet), says trip.yaml" in " ".join(
        text.split()
    )


CORNER = LockTold("tent is locked in right shelf at its corner", "plan.yaml", of_trip=False, kept=False)
TAKEN = "overlap: shovel, which stays where it is for a lock, lies at [3300, 260, 1380]"


@pytest.mark.parametrize("deep", [False, True])
def test_a_corner_that_the_plan_does_not_keep_is_only_revised(told, shelf, deep):
    text = explain_report(told.case, explained(replace(shelf, at_corner=True), locks=(CORNER,), deep=deep))
    flat = " ".join(text.split())
    assert "This plan does not keep a lock: tent is locked in right shelf at its corner, says plan.yaml." in flat
    assert ("In right shelf at the corner of its lock: allowed." in flat) == deep
    assert ("the next best place, right shelf at the corner of its lock, would cost about 1.2 mm" in flat) != deep
    offered = [line.split() for line in text.splitlines() if line.startswith("  lowstow")]
    assert offered[0] == ["lowstow", "revise", "plan.yaml"]
    assert "Put it where its lock wants it:" in flat


@pytest.mark.parametrize("deep", [False, True])
def test_what_stands_against_the_corner_of_a_lifted_lock(told, shelf, deep):
    row = replace(shelf, lifted=(CORNER,), against_corner=(TAKEN,))
    text = " ".join(explain_report(told.case, explained(row, locks=(CORNER,), deep=deep)).split())
    assert f"does without. At the corner of its lock no plan was found: {TAKEN}." in text


def test_what_stands_against_the_corner_of_what_stays_at_home(told, offer):
    ways = (WayTold("there is room for it as it is", offer, lifted=(CORNER,), against_corner=(TAKEN,)),)
    asked = HomeExplained(Copy("camp chair", 2), (CORNER,), (), ("bay",), ways)
    assert f"At the corner of its lock no plan was found: {TAKEN}." in " ".join(home_report(told.case, asked).split())


def test_what_was_not_found_without_its_lock_either(told):
    row = replace(BAY, lifted=(OUT,))
    text = " ".join(explain_report(told.case, explained(row, locks=(OUT,), deep=True)).split())
    assert "No plan was found with it there, also without its lock; one may exist." in text


def test_a_thing_that_a_lock_keeps_at_home(told, golden, offer):
    ways = (WayTold("there is room for it as it is", offer, lifted=(HOME,)),)
    golden("home_locked.txt", home_report(told.case, HomeExplained(Copy("camp chair", 2), (HOME,), (), ("bay",), ways)))


def test_each_way_to_take_it_says_its_own_locks(told, offer):
    """One way needs the trip's lock lifted, another the plan's, a third none."""
    own = replace(HOME, words="camp chair is kept out of bay", file="plan.yaml", of_trip=False, out=True)
    ways = tuple(
        WayTold(says, offer, lifted=lifted) for says, lifted in (("one", (HOME,)), ("two", (own,)), ("three", ()))
    )
    asked = HomeExplained(Copy("camp chair", 2), (HOME, own), (), ("bay",), ways)
    text = " ".join(home_report(told.case, asked).split())
    of_trip = "Ways to take it once this lock is lifted: camp chair stays at home (Ada), says trip.yaml, each"
    of_plan = "Ways to take it once this lock is lifted: camp chair is kept out of bay, says plan.yaml, each"
    parts = [of_trip, "- one:", "The lock has to come out of trip.yaml first", of_plan, "- two:"]
    parts += ["The lock is this plan's own", "Ways to take it, each tried", "- three:"]
    places = [text.index(part) for part in parts]
    assert places == sorted(places)


def test_why_a_thing_stays_at_home(told, golden, offer):
    ways = (
        WayTold("leave camp chair at home instead (worth 30 of 100 to you)", offer),
        WayTold("with 10 kg more of the limit of the total", offer, writable=False),
    )
    against = (("cabin bracket", BRACKET.why),)
    golden("home.txt", home_report(told.case, HomeExplained(Copy("camp chair", 2), (), against, ("left bay",), ways)))
    none = home_report(told.case, HomeExplained(Copy("camp chair", 2), (), against, (), ()))
    assert "no space of this vehicle may hold it" in " ".join(none.split())
    assert "cabin bracket takes only: extinguisher" in none
    assert " more" not in none


@pytest.mark.parametrize(("lifts", "says"), [(13.4, True), (5.0, False)])
def test_what_lifts_the_height_is_told_with_how_far_that_may_go(told, offer, lifts, says):
    higher = replace(offer, then=replace(NOW, height_mm=NOW.height_mm + lifts))
    ways = (WayTold("there is room for it as it is", higher),)
    text = home_report(told.case, HomeExplained(Copy("camp chair", 2), (), (), ("bay",), ways))
    allowed = "while the height stays within 5 mm of that of what must come alone (`choose_within_mm` of the trip)."
    assert (allowed in " ".join(text.split())) is says


@pytest.mark.parametrize(("heights", "says"), [((700.0, 705.2), True), ((700.0, 705.0), False)])
def test_the_lowest_found_say_whether_it_lifts_too_much(told, offer, heights, says):
    """The way itself is 1.6 mm higher than the plan in hand, which carries other things that may come."""
    ways = (WayTold("there is room for it as it is", offer),)
    asked = HomeExplained(Copy("camp chair", 2), (), (), ("bay",), ways, heights_mm=heights)
    text = " ".join(home_report(told.case, asked).split())
    found = "(`choose_within_mm` of the trip); found: 700.0 mm alone, 705.2 mm with what this plan carries and it."
    assert (found in text) is says
    assert ("choose_within_mm" in text) is says


def commands(text: str) -> list[str]:
    """The commands of a report, each in one line."""
    lines = text.replace("\\\n     ", "").splitlines()
    return [line.strip() for line in lines if line.startswith("  lowstow ")]


def test_the_commands_that_take_it_are_told(told, offer):
    ways = (WayTold("there is room for it as it is", offer, space="left bay"),)
    text = home_report(told.case, HomeExplained(Copy("camp chair", 2), (), (), ("left bay",), ways, plan_file="p.yaml"))
    lock, revise = "lowstow lock p.yaml 'camp chair #2' --in 'left bay'", "lowstow revise p.yaml"
    assert commands(text) == [lock, revise, "lowstow explain p.yaml 'camp chair #2' -o FILE"]
    asked = HomeExplained(Copy("camp chair", 2), (), (), ("left bay",), ways, plan_file="p.yaml", given=("--seed", "3"))
    again = home_report(told.case, asked)
    assert commands(again) == [lock, revise, "lowstow explain p.yaml 'camp chair #2' --seed 3 -o FILE"]


@pytest.mark.parametrize("of_trip", [True, False])
def test_a_lock_that_keeps_it_at_home_goes_first(told, offer, of_trip):
    lock = replace(HOME, of_trip=of_trip, unlock=("--at-home",))
    ways = (WayTold("there is room for it as it is", offer, space="left bay", lifted=(lock,)),)
    asked = HomeExplained(Copy("camp chair", 2), (lock,), (), ("left bay",), ways, plan_file="p.yaml")
    text = home_report(told.case, asked)
    assert ("Take it along if you like, once the lock is out of trip.yaml:" in text) is of_trip
    first = "lowstow unlock p.yaml 'camp chair #2' --at-home"
    assert (commands(text)[0] == first) is not of_trip
    assert any(" -o FILE" in one for one in commands(text)) is not of_trip


def test_what_leaves_another_at_home_is_written_as_it_was_tried(told, offer):
    """No lock says which other thing is to stay."""
    ways = (WayTold("leave shovel at home instead (worth 30 of 100 to you)", offer),)
    text = home_report(told.case, HomeExplained(Copy("camp chair", 2), (), (), ("left bay",), ways, plan_file="p.yaml"))
    assert commands(text) == ["lowstow explain p.yaml 'camp chair #2' -o FILE"]


def test_the_one_space_that_was_asked_about(told, offer):
    asked = HomeExplained(Copy("camp chair", 2), (), (("roof", ("weather: roof gets too warm",)),), ("left bay",), ())
    text = home_report(told.case, replace(asked, instead="roof"))
    assert "In roof: cannot. No plan may have it there.\n  - weather: roof gets too warm" in text
    assert "left bay" not in text
    none = " ".join(home_report(told.case, replace(asked, instead="left bay")).split())
    assert "In left bay: none found. No way to take it there was found in the time given; one may exist" in none
    barred = home_report(told.case, replace(asked, instead="left bay", bars=("left bay bears 3.0 kg of load",)))
    assert "In left bay: cannot. No plan with what must come has it there.\n  - left bay bears 3.0" in barred
    ways = (WayTold("there is room for it as it is", offer, space="left bay"),)
    there = home_report(told.case, replace(asked, instead="left bay", ways=ways))
    assert "Ways to take it in left bay, each tried" in there
    assert commands(there)[-1] == "lowstow explain PLAN 'camp chair #2' --instead 'left bay' -o FILE"


def test_of_many_spaces_that_may_not_hold_it_the_nearest_are_told_and_how_many_more(told):
    against = tuple((f"shelf {n}", ("it is 50 mm too long",)) for n in range(8))
    text = home_report(told.case, HomeExplained(Copy("camp chair", 2), (), against, (), ()))
    assert "shelf 4" in text
    assert "shelf 5" not in text
    assert "\n  and 3 more\n" in text


def test_what_sums_alone_bar_is_told_and_not_that_a_way_may_exist(told):
    barred = HomeExplained(Copy("camp chair", 2), (), (), ("left bay",), (), bars=("left bay bears 3.0 kg of load",))
    text = " ".join(home_report(told.case, barred).split())
    assert "No plan with what must come takes it: left bay bears 3.0 kg of load." in text
    assert "may exist" not in text


def test_what_stays_for_lack_of_something_else_names_it(told):
    lacking = HomeExplained(Copy("camp chair", 2), (), (), ("left bay",), (), lacks=Copy("camp chair", 1))
    text = home_report(told.case, lacking)
    assert "It does not come without camp chair #1, which has no place" in text
    assert "found in the time given" not in text


def test_what_uses_up_a_limit(golden):
    uses = tuple((f"thing {n}", 20.0 - n) for n in range(15))
    told = LimitTold(
        "rear axle", "leaving", 1844.6, 1850, -14.6 + 20, True, 20.0, uses, 10.0, 1.27, ("camp chair",), (), True
    )
    golden("limit.txt", limit_report(told))


def test_things_that_put_nothing_on_a_limit_are_not_counted_among_the_rest():
    uses = (*((f"thing {n}", 20.0 - n) for n in range(14)), *((f"far {n}", 0.0) for n in range(9)))
    told = LimitTold("rack roof", "leaving", 189.0, 200.0, 11.0, True, 0.0, uses)
    assert "and 2 more, 15.0 kg together" in limit_report(told)


def test_what_no_thing_puts_on_a_limit_is_told_too():
    told = LimitTold("rack roof", "leaving", 73.0, 75.0, 2.0, True, 0.0, (("tent", 30.0), ("shovel", 19.0)))
    assert "racks themselves, what is bolted on there, and people on them: 24.0 kg" in limit_report(told)
    alone = replace(told, name="space bay", value_kg=49.0)
    assert "themselves" not in limit_report(alone)


@pytest.mark.parametrize(
    ("left_kg", "holds", "says"),
    [(-4e-16, True, "3 of 3 kg at 'go', 0 kg left."), (-4e-3, False, "3 of 3 kg at 'go', over 0.004 kg.")],
)
def test_whether_a_limit_is_met_is_what_the_verifier_says(left_kg, holds, says):
    told = LimitTold("space tub", "go", 3.3 - left_kg, 3.3, left_kg, holds, 0.0, ())
    assert limit_report(told) == f"space tub: {says}\n"


@pytest.mark.parametrize(("limit_kg", "says"), [(1600.0, "its limit is 1600 kg"), (None, "as is its limit")])
def test_what_nobody_knows_to_be_on_a_limit_is_not_told_as_an_unknown_limit(limit_kg, says):
    told = LimitTold("rear axle", "leaving", None, limit_kg, None, None, 20.0, ())
    text = " ".join(limit_report(told).split())
    assert text.startswith(f"rear axle: what it carries at 'leaving' is unknown, {says}. What is left of it")
    assert "would buy nothing" not in text


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        (27.83, 23.4, "front axle: 27 to 23 kg left at its tightest stage"),
        (27.83, 27.1, None),  # told alike
        (27.1, 26.8, None),  # under half a kilogram
        (-4.2, 3.9, "front axle: over 5 kg to 3 kg left at its tightest stage"),
        (3.9, -4.2, "front axle: 3 kg left to over 5 kg at its tightest stage"),
        (-4.2, -9.7, "front axle: over 5 kg to over 10 kg at its tightest stage"),
        (3.9, -1e-9, "front axle: 3 to 0 kg left at its tightest stage"),
    ],
)
def test_what_is_left_is_rounded_down_in_a_change_too(offer, before, after, says):
    now, then = (replace(NOW, front_left_kg=kg) for kg in (before, after))
    told = [text for text in change_sentences(replace(offer, now=now, then=then)) if text.startswith("front axle")]
    assert told == ([] if says is None else [says])


def test_a_limit_without_a_price_says_so():
    told = LimitTold("total", "leaving", 3000.0, 3200.0, 180.0, True, 20.0, (), 10.0)
    assert "is unknown: no two plans to compare were found" in " ".join(limit_report(told).split())


def test_a_limit_of_which_more_buys_nothing_says_so():
    told = LimitTold("total", "leaving", 3000.0, 3200.0, 180.0, True, 20.0, (), 10.0, found=True, better=False)
    text = " ".join(limit_report(told).split())
    assert "10 kg more of it would buy nothing that was found" in text
    assert "height:" not in text


def test_a_revision(told, golden, offer):
    moves = moved(told, tent=("right shelf", (3300, 260, 1380)), first_aid_kit=("right drawer", (3200, 90, 1100)))
    further = [(TENT, "left bay", replace(offer, then=replace(NOW, height_mm=700.0, getting_at_s=245.0)))]
    text = revision_report(told.case, moves, (Copy("camp chair", 1),), (Copy("camp chair", 2),), further)
    golden("revision.txt", text)


CONFLICT = Conflict(
    (
        Demand("limit", "total", "the total may be 2350 kg"),
        Demand("must come", "tent", "tent must come (12 kg)", shown=False),
        Demand("lock", "tent", "tent is locked in right drawer (Ada: it is wet)"),
        Demand("reserve", "reserve", "20 kg are kept free of the total and of each axle"),
    ),
    (),
    (WayOut("Without this lock: tent is locked in right drawer (Ada: it is wet)."), WayOut("Leaving at home: tent.")),
)


def test_a_conflict_in_the_order_of_what_a_person_can_change(told, golden):
    golden("conflict.txt", refusal_report(told.case, True, CONFLICT))


@pytest.mark.parametrize("name", ["explain", "explain_instead", "home", "limit", "revision", "conflict"])
def test_it_fits_eighty_columns_and_has_no_words_of_the_search(name, request):
    text = (request.path.parent / "golden" / f"{name}.txt").read_text("utf-8")
    assert max(map(len, text.splitlines())) <= 80
    assert not any(word in text.lower() for word in ("optimal", "infeasible", "constraint", "slack", "objective"))


def test_a_long_command_goes_on_in_another_line():
    lines = command(["lock", "plan.yaml", quoted("a thing with a very long name " * 2), "--in", quoted("it's")], 60)
    assert all(line.endswith(" \\") for line in lines[:-1])
    assert lines[-1].endswith('"it\'s"')


def test_copies_that_are_elsewhere_are_told(told, shelf):
    others = ((Copy("camp chair", 2), "left bay"),)
    text = explain_report(told.case, Explained(Copy("camp chair", 1), "right shelf", (), (shelf,), "p.yaml", others))
    assert "Copies are alike; the others: camp chair #2 in left bay." in text
    assert copy_of(told.plan.placements[0]) == Copy("recovery kit", 1)


@pytest.mark.parametrize(("mm", "says"), [(0.04, "0.0"), (-0.06, "-0.1"), (3.14, "+3.1")])
def test_differences_in_mm(mm, says):
    assert signed_mm(mm) == says


@pytest.mark.parametrize(("s", "says"), [(0.2, "0"), (-3.0, "-3"), (17.6, "+20")])
def test_differences_in_seconds(s, says):
    assert signed_s(s) == says
