"""Kits that stay in one space and copies that come all or none are demands of a person: told, and ways out."""

import pytest

from models.plan import Plan
from solver import SILENT, Conflict, propose
from solver.asking import Asked, dropped
from solver.clock import Clock
from solver.company import company_asked
from solver.conflict import not_brought_together
from solver.problem import Problem
from solver.relaxed import Relaxed
from solver.repack import Cost
from solver.search import quick_plan
from tests.solver.conftest import QUICK, conflict_of
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")


def told(conflict: Conflict) -> list[tuple[str, str, bool]]:
    return [(one.kind, one.subject, one.shown) for one in conflict.demands]


def offered(conflict: Conflict, begins: str) -> Plan:
    """The plan of the way out that begins so."""
    plan = next(way.plan for way in conflict.ways_out if way.says.startswith(begins))
    assert plan is not None
    return plan


def quickly(
    problem: Problem, clock: Clock, near: Plan | None = None, cost: Cost | None = None, *, keenly: bool = False
) -> Plan | None:
    return quick_plan(problem, None, clock, near, cost, keenly=keenly)


@pytest.fixture
def heavy_kit(pair):
    """Two things of a kit, 10 kg each, and two spaces that hold 15 kg."""
    for thing in pair.things:
        thing |= {"kit": "heavy", "together": True}
    for space in pair.vehicle["spaces"]:
        space["limit_kg"] = 15
    return pair


def test_a_kit_that_no_space_holds_is_told_and_may_be_parted(heavy_kit):
    conflict = conflict_of(heavy_kit)
    assert ("together", "heavy", True) in told(conflict)
    (kit,) = (one for one in conflict.demands if one.kind == "together")
    assert kit.says == "one and two are in one space (kit heavy: together)"
    assert len({place.space for place in offered(conflict, "Without keeping kit heavy in one space").placements}) == 2


def test_a_kit_that_takes_no_part_is_not_told(heavy_kit):
    heavy_kit.vehicle["limits"]["gvm_kg"] = 2012.5
    assert "together" not in [kind for kind, _, _ in told(conflict_of(heavy_kit))]


def test_with_one_thing_less_the_kit_is_no_proof(heavy_kit):
    del heavy_kit.things[1]
    asked = Asked(heavy_kit.case(), (), True)
    relaxed = Relaxed(asked.free_problem(), asked.problem())
    assert relaxed.impossible(relaxed.asked_for(True), 60.0) is False


@pytest.fixture
def crates(pair):
    """Three crates of 10 kg that come all or none, one of which is asked for, beside 20 kg that must come."""
    pair.thing("crate", carry=5, count=3, all_or_none=True)
    pair.trip["locks"] = [{"thing": "crate", "copy": 1, "carried": True, "by": "Ada"}]
    return pair


@pytest.mark.long
def test_copies_that_one_of_them_brings_along_over_the_total(crates):
    crates.vehicle["limits"]["gvm_kg"] = 2035
    conflict = conflict_of(crates)
    assert ("all or none", "crate", True) in told(conflict)
    (copies,) = (one for one in conflict.demands if one.kind == "all or none")
    assert copies.says == "all 3 of crate come or none (10 kg each, 30 kg together)"
    assert sum(place.thing == "crate" for place in offered(conflict, "Taking only some of crate").placements) == 1


@pytest.mark.long
def test_copies_that_one_of_them_brings_along_by_sums(crates):
    for space in crates.vehicle["spaces"]:
        space["limit_kg"] = 20
    assert ("all or none", "crate", True) in told(conflict_of(crates))


@pytest.mark.long
def test_copies_that_are_all_asked_for_are_not_told(crates):
    crates.trip["locks"] = [{"thing": "crate", "carried": True}]
    crates.vehicle["limits"]["gvm_kg"] = 2035
    assert "all or none" not in [kind for kind, _, _ in told(conflict_of(crates))]


def test_where_nothing_is_proven_the_kit_is_tried_too(heavy_kit):
    asked = Asked(heavy_kit.case(), (), True)

    conflict = not_brought_together(asked, Clock(60.0, SILENT), quickly)
    assert ("together", "heavy", True) in told(conflict)


def test_dropping_one_leaves_the_other(crates):
    for thing in crates.things:
        thing |= {"kit": "k", "together": True}
    asked = Asked(crates.case(), (), True)
    relaxed = Relaxed(asked.free_problem(), asked.problem())
    assert {key for key in relaxed.switches if key[0] in ("together", "all or none")} == {
        ("together", "k"),
        ("all or none", "crate"),
    }
    parted = dropped(asked, next(company_asked(asked.problem())))
    things = {thing.name: thing for thing in parted.case.things}
    assert not things["crate"].together
    assert things["crate"].all_or_none


def test_where_nothing_is_proven_every_way_out_holds(tiny):
    """A kit of 22 kg in spaces of 15 kg: a must is never left so that more of the optional things come."""
    for n, corner in enumerate(((2000, 0, 500), (2600, 0, 500))):
        tiny.space(f"space {n}", corner, limit_kg=15)
    for name, kg in (("one", 10), ("two", 10), ("three", 1), ("four", 1)):
        more = {"carry": 5} if kg == 1 else {}
        tiny.thing(name, kg, kit="k", together=True, **more)

    conflict = not_brought_together(Asked(tiny.case(), (), True), Clock(60.0, SILENT), quickly)
    assert conflict.ways_out
    for way in conflict.ways_out:
        assert way.case is not None
        assert way.plan is not None
        assert check(way.case, way.plan).holds is not False, way.says


@pytest.mark.long
def test_copies_of_which_all_come_are_no_way_out(crates):
    asked = Asked(crates.case(), (), True)

    def feasible(problem, *_, **__):
        return propose(problem.case, QUICK).plan

    conflict = not_brought_together(asked, Clock(60.0, SILENT), feasible)
    assert not any(way.says.startswith("Taking only some") for way in conflict.ways_out)


def test_a_lock_that_is_enough_by_itself_is_told_beside_two_that_are_not(tiny):
    tiny.space("low", size_mm=[1000, 210, 210])
    tiny.space("large", (2000, 600, 500), size_mm=[1200, 600, 600])
    tiny.thing("long", size_mm=[900, 200, 200], carry=1)
    for name in "ab":
        tiny.thing(name, carry=1)
    tiny.trip["locks"] = [{"thing": name, "in": "low"} for name in ("long", "a", "b")]
    says = [way.says for way in conflict_of(tiny).ways_out]
    assert "Without this lock: long is locked in low." in says
    assert any(way.startswith("Without these 2 locks") for way in says)


def test_copies_brought_along_are_told_with_their_size(pair):
    pair.things = []
    pair.thing("crate", carry=5, count=3, all_or_none=True, size_mm=[300, 300, 300])
    pair.trip["locks"] = [{"thing": "crate", "copy": 1, "carried": True}]
    conflict = conflict_of(pair)
    assert ("all or none", "crate", True) in told(conflict)
    assert "crate #3 300 x 300 x 300 mm" in conflict.says[0]
