"""A search in two halves: beside each other in two processes, or in turn in one, with the same answers."""

import multiprocessing
import os
import threading
from functools import partial
from random import Random

import pytest

from solver.answers import SILENT
from solver.clock import Clock
from solver.halves import Half, Search, in_halves

pytestmark = pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
"""Those who run the tests have threads of their own; a user's process has none."""
THINGS = ["a", "b", "c", "d", "e"]
LONG_S = 600.0

Found = tuple[list[str], list[list[str] | None], int]
"""What a half had, what it heard, and its process."""


def talking(half: Half) -> Search[list[str], Found]:
    mine, heard = half.mine(THINGS), list[list[str] | None]()
    for turn in range(3):
        heard.append((yield [f"{thing}{turn}" for thing in mine]))
    return mine, heard, os.getpid()


def guessing(own: Random, half: Half) -> Search[float, list[float]]:
    """What each half guesses depends on what the other guessed before."""
    found = [own.random()]
    for _ in range(5):
        heard = yield found[-1]
        found.append(own.random() + (0.0 if heard is None else 2 * heard))
    return [half.side, *found]


@pytest.fixture(params=["beside", "in turn"])
def runner(request, monkeypatch):
    """Two processes, or one in which there is no second."""
    request.getfixturevalue("two_cores")
    if request.param == "in turn":
        monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    return request.param


def test_one_who_is_alone_has_everything_and_hears_nothing():
    assert in_halves(talking, None, LONG_S) == [(THINGS, [None] * 3, os.getpid())]


def test_two_have_half_each_and_hear_of_each_other(runner):
    (mine, heard, process), (others, told_to_it, other_process) = in_halves(talking, talking, LONG_S)
    assert (mine, others) == (["a", "c", "e"], ["b", "d"])
    assert heard == [[f"{thing}{turn}" for thing in others] for turn in range(3)]
    assert told_to_it == [[f"{thing}{turn}" for thing in mine] for turn in range(3)]
    assert process == os.getpid()
    assert (other_process == process) is (runner == "in turn")


@pytest.mark.usefixtures("runner")
def test_both_runners_find_the_same():
    first, second = Random(1), Random(2)  # noqa: S311
    expected = ([0, first.random()], [1, second.random()])
    for _ in range(5):
        told, heard = expected[0][-1], expected[1][-1]
        expected[0].append(first.random() + 2 * heard)
        expected[1].append(second.random() + 2 * told)
    begun = (partial(guessing, Random(1)), partial(guessing, Random(2)))  # noqa: S311
    assert in_halves(*begun, LONG_S) == list(expected)


@pytest.mark.usefixtures("runner")
@pytest.mark.parametrize("longer", [0, 1])
def test_one_whose_other_has_answered_hears_nothing_more(longer):
    def chatting(half: Half) -> Search[int, list[int | None]]:
        heard: list[int | None] = []
        for turn in range(4 if half.side == longer else 2):
            heard += [(yield turn)]
        return heard

    found = in_halves(chatting, chatting, LONG_S)
    assert found[longer] == [0, 1, None, None]
    assert found[1 - longer] == [0, 1]


@pytest.mark.usefixtures("two_cores")
def test_what_the_second_process_changes_stays_its_own():
    seen: list[int] = []

    def changing(half: Half) -> Search[None, int]:
        yield None
        seen.append(half.side)
        return len(seen)

    assert in_halves(changing, changing, LONG_S) == [1, 1]
    assert seen == [0]


@pytest.mark.usefixtures("two_cores")
@pytest.mark.parametrize("why", ["threads", "cores", "daemon"])
def test_a_process_that_may_not_be_copied_does_both_halves(monkeypatch, why):
    if why == "threads":
        monkeypatch.setattr("threading.active_count", lambda: 2)
    elif why == "cores":  # the machine has more, but they are not for this process
        monkeypatch.setattr("os.sched_getaffinity", lambda _: {3}, raising=False)
        monkeypatch.setattr("os.cpu_count", lambda: 8)
    else:
        monkeypatch.setitem(vars(multiprocessing.current_process())["_config"], "daemon", True)
    (mine, _, process), (others, _, other_process) = in_halves(talking, talking, LONG_S)
    assert sorted(mine + others) == THINGS
    assert process == other_process == os.getpid()


@pytest.fixture
def still(monkeypatch):
    """A clock that somebody moves."""
    now = [1000.0]
    monkeypatch.setattr("time.monotonic", lambda: now[0])
    return now


def spent(half: Half, clock: Clock, share: float, now: list[float]) -> float:
    left = half.part(clock, share).left()
    now[0] += left
    return left


def test_halves_in_turn_get_as_much_time_each(still):
    clock = Clock(100.0, SILENT)
    one, two = Half(0, "in turn"), Half(1, "in turn")
    assert spent(one, clock, 0.6, still) == pytest.approx(30.0)
    assert spent(two, clock, 0.6, still) == pytest.approx(30.0)
    assert spent(one, clock, 1.0, still) == pytest.approx(20.0)
    assert spent(two, clock, 1.0, still) == pytest.approx(20.0)
    assert clock.late()


@pytest.mark.usefixtures("still")
@pytest.mark.parametrize("half", [Half(), Half(0, "beside"), Half(1, "beside")])
def test_one_who_has_a_process_to_itself_has_all_the_time(half):
    clock = Clock(100.0, SILENT)
    assert half.part(clock, 0.6).left() == pytest.approx(60.0)
    assert half.part(clock, 1.0) is clock


@pytest.mark.usefixtures("two_cores")
def test_nothing_is_left_behind():
    before = set(threading.enumerate())
    in_halves(talking, talking, LONG_S)
    assert set(threading.enumerate()) == before
    assert multiprocessing.active_children() == []
