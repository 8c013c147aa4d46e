"""Shapes by chance: what each by itself would lie lower in is not what packs best."""

from random import Random

import pytest

from solver import SILENT
from solver.clock import Clock
from solver.drawn import drawn
from solver.filling import fill
from solver.grow import grow
from solver.insert import put, put_all
from solver.patterns import patterns_of
from solver.recombine import lowest
from solver.repack import Repacker
from solver.state import State

LONG = Clock(600, SILENT)


def chance(seed: int = 0) -> Random:
    return Random(seed)  # noqa: S311 - by chance, not a secret


@pytest.fixture
def bench(tiny):
    """A low drawer for two boards on edge, and a high shelf."""
    tiny.space("drawer", (2000, 0, 500), size_mm=[400, 200, 400])
    tiny.space("shelf", (2000, 500, 1500), size_mm=[400, 400, 400])
    tiny.thing("board", size_mm=[400, 200, 100], turns="any", count=2)
    return tiny.problem()


def shape(problem, size) -> int:
    return next(n for n, s in enumerate(problem.pieces[0].shapes) if s.size == size)


def test_a_thing_is_put_down_in_the_shape_that_was_drawn(bench):
    on_edge, state = shape(bench, (400, 100, 200)), State(bench)
    shapes = {0: on_edge}
    assert put(state, bench.pieces[0], drawn=shapes)
    assert state.at[0].shape == on_edge
    assert shapes == {0: on_edge}


def test_without_a_shape_drawn_it_lies_flat(bench):
    state = State(bench)
    assert put(state, bench.pieces[0])
    assert state.at[0].box[5] - state.at[0].box[2] == 100


def test_a_shape_that_finds_no_place_is_given_up(bench):
    standing = shape(bench, (100, 200, 400))
    state, shapes, room = State(bench), {0: standing}, bench.room_of["drawer"]
    assert put(state, bench.pieces[0], [room])
    assert put(state, bench.pieces[1], [room], drawn=shapes)
    assert shapes == {}
    assert state.at[1].box[2] == 600


def test_a_room_that_takes_no_such_shape_takes_others(bench):
    across, room = shape(bench, (200, 400, 100)), bench.room_of["drawer"]
    assert across not in bench.fits[0][room].shapes
    state, shapes = State(bench), {0: across}
    assert put(state, bench.pieces[0], drawn=shapes)
    assert (state.at[0].room, state.at[0].shape) == (room, shape(bench, (400, 200, 100)))
    assert shapes == {0: across}


def test_all_pieces_of_a_kind_have_the_shape_that_was_drawn(bench):
    on_edge, state = shape(bench, (400, 100, 200)), State(bench)
    assert put_all(state, bench.pieces, drawn={0: on_edge}) == []
    assert [it.shape for it in state.at.values()] == [on_edge, on_edge]


def test_shapes_are_drawn_once_for_a_kind_and_for_as_many_kinds_as_asked(bench):
    room = bench.room_of["drawer"]
    assert drawn(bench, bench.pieces, 0.0, chance()) == {}
    seen = {drawn(bench, bench.pieces, 1.0, chance(seed), room)[0] for seed in range(50)}
    assert seen == set(bench.fits[0][room].shapes)
    everywhere = {drawn(bench, bench.pieces, 1.0, chance(seed))[0] for seed in range(50)}
    assert everywhere == set(range(len(bench.pieces[0].shapes)))
    assert 20 < sum(bool(drawn(bench, bench.pieces, 0.5, chance(seed))) for seed in range(100)) < 80


@pytest.fixture
def bags(tiny):
    """Four bags, a drawer that takes all of them only where none lies flat, and a shelf."""
    tiny.space("drawer", (2600, -500, 600), size_mm=[960, 500, 235])
    tiny.space("shelf", (2600, -500, 1300), size_mm=[960, 1000, 235])
    tiny.thing("bag", volume_l=26, shape="soft", count=4)
    state = State(tiny.problem())
    assert put_all(state, state.problem.pieces) == []
    return state


def test_each_as_low_as_it_goes_four_bags_do_not_go_into_the_drawer(bags):
    rooms = [bags.problem.rooms[it.room].space.name for it in bags.at.values()]
    assert sorted(rooms) == ["drawer", "drawer", "shelf", "shelf"]


def test_a_room_is_filled_in_shapes_by_chance(bags):
    patterns, relaxed = patterns_of(bags), lowest(bags)
    room, number = bags.problem.room_of["drawer"], patterns.classes[0]
    assert relaxed is not None
    for seed in range(30):
        fill(relaxed, room, {}, State(bags.problem), chance(seed))
    assert patterns.lowest(patterns.key(room, (), *[number] * 4)) is not None


def test_new_patterns_keep_some_shapes_and_draw_others(bags):
    patterns, relaxed = patterns_of(bags), lowest(bags)
    room, number = bags.problem.room_of["drawer"], patterns.classes[0]
    assert relaxed is not None
    for seed in range(30):
        patterns.try_again()
        grow(relaxed, 1e9, chance(seed), LONG, 1e5)
        relaxed = lowest(bags)
        assert relaxed is not None
    assert patterns.lowest(patterns.key(room, (), *[number] * 4)) is not None


def test_repacking_draws_shapes_now_and_then(bags):
    work = Repacker(bags, bags.problem.pieces, State.height_mm, chance(), 0.0)
    work.run(200, lambda: False)
    assert {it.room for it in work.best.at.values()} == {bags.problem.room_of["drawer"]}
