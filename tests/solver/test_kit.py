"""kit: the solver's side."""

from models.rules import Rule
from solver.against import whole
from solver.repack import Score
from solver.rules import kit
from solver.state import State, lying
from solver.staying import told


def test_a_kit_that_insists(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    assert pair.allows(kit.add)
    assert not pair.allows(kit.add, places={"one": "low", "two": "high"})
    assert pair.allows(kit.add, places={"one": "high", "two": "high"})


def test_a_kit_that_only_wishes(pair):
    pair.things[0] |= {"kit": "kitchen", "together": True}
    pair.things[1] |= {"kit": "kitchen"}
    assert pair.allows(kit.add, places={"one": "low", "two": "high"})


def test_what_stays_at_home_is_not_apart(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    assert pair.allows(kit.add, places={"one": "low"}, home=("two",))


def test_a_kit_that_would_be_parted_is_named(pair):
    for thing in pair.things:
        thing |= {"kit": "kitchen", "together": True}
    pair.thing("rug", carry=5)
    problem = pair.problem()
    state = State(problem)
    for piece, room in ((0, 0), (1, 0), (2, 1)):  # one, rug, two
        corner = problem.rooms[room].low
        shape = problem.fits[piece][room].shapes[0]
        state.add(lying(problem, piece, room, shape, corner[0] + 200 * (piece == 1), corner[1], corner[2]))
    assert told(state, state, [problem.pieces[1]], Score(0, 1.0, 0.0), 0.0) == (
        "the best layout found with it parts the kit kitchen"
    )
    assert whole(state) == [(Rule.KIT, "the layout that came closest parts the kit kitchen")]
