"""What all tries of a question share: forced relaxed choices, filled rooms, and the lowest of the plan itself."""

import copy
import os
from itertools import permutations
from random import Random

import pytest

from benchmarks.generate import Wanted, made_case
from models.case import Copy, copy_of
from solver import Options, propose, why_not
from solver.answers import SILENT
from solver.clock import Clock
from solver.elsewhere import Elsewhere
from solver.filling import fill
from solver.geometry import allowed
from solver.halves import Half
from solver.limits import room_for_mass
from solver.master import exactly, holding, master
from solver.patterns import Patterns
from solver.prices import Pricing
from solver.recombine import Relaxed, height_aim
from solver.state import State
from solver.trying import Trial
from tests.solver.test_explain import BESIDE, LOW, PLENTY, height, plan_at, row_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

HIGH = ("high", (2600, 0, 900))


def priced_columns(patterns: Patterns, layout: State) -> tuple[Pricing, Relaxed]:
    whole = master(patterns, exactly(patterns, layout.at))
    pricing, aim = Pricing(whole, height_aim(layout)), height_aim(layout)
    found = pricing.prices()
    assert found is not None
    return pricing, Relaxed(whole, aim, found)


@pytest.fixture
def seen(pair):
    """A trial with one thing low and seen high as well, in two layouts of the same things."""
    trial = Trial(pair.case(), plan_at(one=LOW, two=BESIDE), PLENTY)
    work = Elsewhere(trial, trial.problem.piece_of[Copy("one", 1)])
    work.patterns.gather(Trial(pair.case(), plan_at(one=HIGH, two=BESIDE), PLENTY).now)
    return trial, work


def test_a_forced_choice_costs_what_the_thing_is_lifted_and_is_forgotten_after_it(seen):
    trial, work = seen
    pricing, relaxed = priced_columns(work.patterns, trial.now)
    target = work.target(trial.problem.room_of["high"])
    one_of = holding(relaxed.master, target.room, target.asked)
    forced = pricing.prices(one_of)
    assert forced is not None
    # 10 kg lifted by 400 mm in a vehicle of 2020 kg
    assert forced.least - relaxed.prices.least == pytest.approx(10 * 400 / 2020)
    assert forced.chosen is not None
    assert set(one_of) & set(forced.chosen)
    again = pricing.prices()
    assert again is not None
    assert again.least == pytest.approx(relaxed.prices.least)
    assert pricing.prices([]) is None


def test_a_whole_choice_tells_its_columns(seen):
    trial, work = seen
    _, relaxed = priced_columns(work.patterns, trial.now)
    assert relaxed.prices.chosen is not None
    rooms = {relaxed.master.columns[j].room for j in relaxed.prices.chosen}
    assert rooms == {trial.problem.room_of["low"]}


def test_a_room_is_filled_with_what_is_asked_and_nothing_unlawful(pair):
    pair.vehicle["spaces"][1]["limit_kg"] = 25
    for number in range(4):
        pair.thing(f"more {number}", mass_kg=4 + number)
    case = pair.case()
    corners = {f"more {n}": ("low", (2000 + 200 * (n % 2), 200, 500 + 200 * (n // 2))) for n in range(4)}
    plan = plan_at(one=LOW, two=BESIDE, **corners)
    trial = Trial(case, plan, PLENTY)
    work = Elsewhere(trial, trial.problem.piece_of[Copy("one", 1)])
    _, relaxed = priced_columns(work.patterns, trial.now)
    target, before = work.target(trial.problem.room_of["high"]), len(relaxed.master.columns)
    random = Random(0)  # noqa: S311
    for _ in range(10):
        fill(relaxed, target.room, target.asked, State(work.problem), random)
    after = master(work.patterns, exactly(work.patterns, trial.now.at))
    new = [after.columns[j] for j in holding(after, target.room, target.asked)]
    assert new
    assert len(after.columns) == before + len(new)
    for column in new:
        state = State(work.problem)
        for it in column.lying:
            piece = work.problem.pieces[it.piece]
            assert room_for_mass(state, piece, it.room)
            assert allowed(state, it)
            state.add(it)


def test_a_locked_thing_stays_where_it_is_locked_in_the_lowest_of_the_plan(pair):
    pair.trip["locks"] = [{"thing": "one", "in": "high"}]
    found = why_not(pair.case(), plan_at(one=HIGH, two=BESIDE), Copy("one", 1), PLENTY)
    assert {copy_of(p): p.space for p in found.lowest.placements}[Copy("one", 1)] == "high"
    assert row_of(found, "low").word == "better"


def test_by_less_than_matters_no_space_is_better_than_the_lowest_of_a_plan_that_may_use_it(pair):
    pair.things[0]["mass_kg"] = 4  # brought down by 400 mm in 2014 kg that is 0.8 mm
    case = pair.case()
    found = why_not(case, plan_at(one=HIGH, two=("high", (2800, 0, 900))), Copy("one", 1), PLENTY)
    assert [row.space for row in found.rows] == ["low"]
    assert row_of(found, "low").higher_mm == pytest.approx(0.0)
    assert height(case, found.lowest) == pytest.approx(height(case, plan_at(one=LOW, two=BESIDE)))


def chosen_about(trial: Trial, name: str) -> float | None:
    """About what it costs to have `one` in a space, after all rooms were searched."""
    work = Elsewhere(trial, trial.problem.piece_of[Copy("one", 1)])
    target = work.target(trial.problem.room_of[name])
    work.grow([target], Clock(600, SILENT))
    work.choose([target], Clock(600, SILENT))
    return target.about_mm


@pytest.mark.parametrize(
    ("lock", "lifted_mm"),
    [
        (None, 600),
        ({"thing": "two", "in": "low"}, 600),
        ({"thing": "one", "carried": True}, 600),
        ({"thing": "one", "not_in": "low"}, 200),
        ({"thing": "one", "in": "high"}, 200),
        ({"thing": "one", "at_mm": [2600, 0, 900], "in": "high"}, None),
    ],
)
def test_about_is_the_difference_to_the_best_that_the_locks_on_the_thing_allow(three, lock, lifted_mm):
    """10 kg in a vehicle of 2020 kg may lie at 500, 900 or 1100 mm; of a corner a choice of spaces knows nothing."""
    three.trip["locks"] = [] if lock is None else [lock]
    found = chosen_about(Trial(three.case(), plan_at(one=HIGH, two=BESIDE), PLENTY), "higher")
    assert found == (None if lifted_mm is None else pytest.approx(10 * lifted_mm / 2020))


@pytest.mark.parametrize("name", ["high", "higher"])
def test_about_is_what_trying_everything_finds(three, name):
    """Two things of 10 and 14 kg, and three spaces that each take one of them."""
    three.things[1]["mass_kg"] = 14
    for space in three.vehicle["spaces"]:
        space["size_mm"] = [200, 200, 200]
    lifts = {"low": 500, "high": 900, "higher": 1100}
    every = [(10 * lifts[one] + 14 * lifts[two], one) for one, two in permutations(lifts, 2)]
    price_mm = (min(moment for moment, one in every if one == name) - min(every)[0]) / 2024
    found = chosen_about(Trial(three.case(), plan_at(one=LOW, two=("higher", (2000, 600, 1100))), PLENTY), name)
    assert found == pytest.approx(price_mm)


def test_what_is_put_together_names_the_copy_that_was_asked_for(pair):
    pair.things[0]["count"] = 3
    plan = plan_at(one=LOW, one_2=BESIDE, one_3=HIGH, two=("low", (2000, 200, 500)))
    trial = Trial(pair.case(), plan, PLENTY)
    index = trial.problem.piece_of[Copy("one", 1)]
    work = Elsewhere(trial, index)
    work.patterns.gather(Trial(pair.case(), plan_at(one_2=("high", (2800, 0, 900)), one_3=HIGH), PLENTY).now)
    work.patterns.gather(Trial(pair.case(), plan_at(one=LOW, two=("low", (2000, 200, 500))), PLENTY).now)
    target = work.target(trial.problem.room_of["high"])
    work.choose([target], Clock(600, SILENT))
    assert target.lowest is not None
    named = {str(trial.problem.pieces[it.piece].copy) for it in target.lowest.inside[target.room]}
    assert named == {str(Copy("one", 1)), str(Copy("one", 3))}


@pytest.fixture(scope="module")
def many():
    """A made trip with things in many spaces, and a thing to ask for."""
    case = made_case(2, Wanted(16, 6, 3))
    plan = propose(case, Options(effort=0.05, seconds=600.0)).plan
    assert plan is not None
    return case, plan, copy_of(plan.placements[8])


@pytest.fixture
def parted(request, monkeypatch):
    """Counts the second processes that are begun."""
    request.getfixturevalue("two_cores")
    begun = list[int]()
    fork = os.fork

    def counted() -> int:
        begun.append(fork())
        return begun[-1]

    monkeypatch.setattr("os.fork", counted)
    return begun


@pytest.mark.long
@pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
def test_the_same_seed_gives_the_same_prices_in_two_processes_and_in_one(many, parted, monkeypatch):
    case, plan, thing = many
    asked = (case, plan, thing, Options(effort=0.05, seconds=600.0, seed=3))
    first, again = why_not(*asked), why_not(*asked)
    assert len(parted) == 2
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    in_turn = why_not(*asked)
    assert len(parted) == 2
    assert len([row for row in first.rows if row.word != "cannot"]) > 2
    assert first == again == in_turn


def test_no_two_halves_of_any_seeds_share_their_chances(pair, monkeypatch):
    drawn: list[float] = []
    monkeypatch.setattr("solver.elsewhere.Random", lambda seed: drawn.append(Random(seed).random()))  # noqa: S311
    for seed in range(3):
        for half in (Half(0, "beside"), Half(1, "beside")):
            Elsewhere(Trial(pair.case(), plan_at(one=LOW, two=BESIDE), Options(seed=seed)), 0).begin(half)
    assert len(set(drawn)) == len(drawn) == 6


def test_a_twin_begins_where_the_search_is_and_changes_by_itself(three):
    trial = Trial(three.case(), plan_at(one=LOW, two=BESIDE), PLENTY)
    work = Elsewhere(trial, trial.problem.piece_of[Copy("one", 1)])
    trial.settle(60.0)
    rooms = [trial.problem.room_of[name] for name in ("high", "higher")]
    twin, targets = work.twin([work.target(room) for room in rooms])
    assert twin.trial.lowest.at == trial.lowest.at
    assert twin.patterns.heights() == (before := work.patterns.heights())
    assert twin.problem.levels == (levels := copy.deepcopy(work.problem.levels))
    assert twin.trial.problem.levels is twin.problem.levels
    assert twin.trial.case is trial.case
    assert twin.grow(targets, Clock(600.0, SILENT))
    assert twin.patterns.heights() != before
    assert twin.problem.levels != levels
    assert work.patterns.heights() == before
    assert work.problem.levels == levels


def test_what_problems_remember_together_is_copied_once(pair):
    problem, copied = pair.problem(), list[int]()

    class Remembered(dict[tuple[int, int, int], list[tuple[int, int, int, int]]]):
        def items(self):
            copied.append(len(self))
            return super().items()

    problem.levels = Remembered({(0, 0, 0): [(1, 2, 3, 4)]})
    others = copy.deepcopy([copy.copy(problem) for _ in range(3)])
    assert copied == [1]
    assert len({id(other.levels) for other in others}) == 1
    assert others[0].levels == {(0, 0, 0): [(1, 2, 3, 4)]}
    assert others[0].levels[0, 0, 0] is not problem.levels[0, 0, 0]


@pytest.fixture
def three(pair):
    """A third space, so that there are two to look into."""
    pair.space("higher", (2000, 600, 1100))
    return pair


@pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
@pytest.mark.usefixtures("two_cores")
@pytest.mark.parametrize("threads", [1, 2], ids=["two processes", "one process"])
def test_two_processes_find_what_one_finds(three, monkeypatch, threads):
    monkeypatch.setattr("threading.active_count", lambda: threads)
    case = three.case()
    found = why_not(case, plan_at(one=LOW, two=BESIDE), Copy("one", 1), PLENTY)
    # 10 kg lifted by 400 and by 600 mm in a vehicle of 2020 kg
    assert row_of(found, "high").higher_mm == pytest.approx(10 * 400 / 2020)
    assert row_of(found, "higher").higher_mm == pytest.approx(10 * 600 / 2020)
    for row in found.rows:
        assert row.plan is not None
        assert row.about_mm == pytest.approx(row.higher_mm)
        assert check(case, row.plan).broken == ()
        assert {copy_of(p): p.space for p in row.plan.placements} == {Copy("one", 1): row.space, Copy("two", 1): "low"}


def test_a_half_hears_of_patterns_and_of_layouts(three):
    trial = Trial(three.case(), plan_at(one=HIGH, two=BESIDE), PLENTY)
    index = trial.problem.piece_of[Copy("one", 1)]
    teller, hearer = Elsewhere(trial, index), Elsewhere(Trial(three.case(), trial.plan, PLENTY), index)
    for half in (teller, hearer):
        half.begin(Half())
    low = Trial(three.case(), plan_at(one=LOW, two=BESIDE), PLENTY).now
    told, heard = (half.target(trial.problem.room_of["low"]) for half in (teller, hearer))
    teller.patterns.gather(low)
    told.keep(low)
    told.about_mm = 1.5
    trial.lower_still(low, index)
    hearer.hear(teller.tell([told]), [heard])
    assert (heard.few, heard.about_mm) == (None, 1.5)
    assert heard.lowest is not None
    assert heard.lowest.height_mm() == hearer.trial.lowest.height_mm() == low.height_mm()
    assert hearer.patterns.heights() == teller.patterns.heights()
    assert teller.tell([]).patterns
    teller.begin(Half())
    assert not teller.tell([]).patterns
