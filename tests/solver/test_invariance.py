"""Whole proposals, the question changed in a way whose answer is known."""

from copy import deepcopy
from typing import Any

import pytest

from models.trip import Lock
from solver import Options, Proposal, Status, propose, revise
from tests.solver.conftest import Tiny
from verifier import check

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = Options(effort=0.02, seconds=600)


@pytest.fixture
def shelves(tiny: Tiny) -> Tiny:
    """Three spaces, one of them high, and five things that fill the low ones."""
    tiny.space("left bay", (1600, -500, 600))
    tiny.space("right bay", (2000, 100, 650))
    tiny.space("loft", (2600, -200, 1400))
    for name, kg, size in (
        ("anvil", 31, [200, 200, 200]),
        ("box", 17, [300, 200, 200]),
        ("crate", 12, [400, 200, 200]),
        ("drum", 9, [200, 200, 400]),
        ("easel", 2, [400, 200, 100]),
    ):
        tiny.thing(name, kg, size_mm=size, turns="upright")
    return tiny


def answer(tiny: Tiny) -> Proposal:
    case = tiny.case()
    proposal = propose(case, QUICK)
    assert proposal.plan is not None
    assert check(case, proposal.plan).holds is True
    return proposal


def height_mm(proposal: Proposal) -> float:
    assert proposal.height is not None
    return proposal.height.value


def spaces_of(proposal: Proposal) -> dict[str, str]:
    assert proposal.plan is not None
    return {placement.thing: placement.space for placement in proposal.plan.placements}


def test_a_mirror_keeps_the_height(shelves):
    straight = answer(shelves)
    for space in shelves.vehicle["spaces"]:
        x, y, z = space["corner_mm"]
        space["corner_mm"] = [x, -y - space["size_mm"][1], z]
    assert height_mm(answer(shelves)) == pytest.approx(height_mm(straight), abs=1e-6)


@pytest.mark.long
def test_twice_the_mass_keeps_the_height(shelves):
    once = answer(shelves)
    kerb, limits = shelves.vehicle["kerb"], shelves.vehicle["limits"]
    shelves.vehicle["kerb"] |= {name: 2 * kerb[name] for name in ("front_kg", "rear_kg")}
    shelves.vehicle["limits"] |= {name: 2 * limits[name] for name in ("gvm_kg", "front_axle_kg", "rear_axle_kg")}
    for thing in shelves.things:
        thing["mass_kg"] *= 2
    for space in shelves.vehicle["spaces"]:
        space["limit_kg"] *= 2
    # Places may differ: within what easier access may cost, heavier things take longer to lift out of the way.
    assert height_mm(answer(shelves)) == pytest.approx(height_mm(once), abs=1e-6)


def test_no_gear_at_all(shelves):
    shelves.things.clear()
    empty = answer(shelves)
    assert empty.plan is not None
    assert empty.plan.placements == ()
    assert height_mm(empty) == pytest.approx(700)


def test_everything_optional_and_no_mass_left(shelves):
    shelves.vehicle["limits"]["gvm_kg"] = 2001
    for thing in shelves.things:
        thing["carry"] = 50
    nothing = answer(shelves)
    assert nothing.plan is not None
    assert nothing.plan.placements == ()
    assert len(nothing.plan.left_at_home) == 5


@pytest.mark.long
def test_an_empty_space_may_go(shelves):
    shelves.space("spare", (3400, -200, 1900))
    with_spare = answer(shelves)
    assert "spare" not in spaces_of(with_spare).values()
    shelves.vehicle["spaces"].pop()
    assert height_mm(answer(shelves)) == pytest.approx(height_mm(with_spare), abs=1e-6)


def test_a_lock_where_a_thing_already_is_moves_nothing(shelves):
    before = answer(shelves).plan
    assert before is not None
    lock: Any = {"thing": "crate", "in": spaces_of(answer(shelves))["crate"]}
    revision = revise(shelves.case(), before, QUICK, extra_locks=(Lock.model_validate(lock),))
    assert revision.proposal.status is Status.FOUND
    assert revision.moved == ()


@pytest.mark.long
def test_a_lock_elsewhere_is_kept_and_lifts_no_less(shelves):
    free = answer(shelves)
    locked = deepcopy(shelves)
    locked.trip["locks"] = [{"thing": "anvil", "in": "loft"}]
    bound = answer(locked)
    assert spaces_of(bound)["anvil"] == "loft"
    assert height_mm(bound) > height_mm(free)
