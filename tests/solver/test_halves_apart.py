"""What may go wrong with a second process, and what goes wrong in either half of a search."""

import multiprocessing
import os
import signal
import subprocess
import sys
import threading
import time

import pytest

from solver.halves import Half, Search, in_halves
from tests.chances import some

pytestmark = [
    pytest.mark.filterwarnings("ignore:This process:DeprecationWarning"),
    pytest.mark.usefixtures("two_cores"),
]
LONG_S = 600.0
HERE = os.getpid()
MUCH = "much " * 1_000_000
"""More than a pipe holds."""
BOTH = [[0, 0, 10, 20], [1, 0, 10, 20]]
"""What the halves answer when all goes well."""


def counting(half: Half) -> Search[tuple[int, str], list[int]]:
    """The side, and the numbers that the other tells."""
    heard: list[int] = [half.side]
    for turn in range(3):
        other = yield turn * 10, MUCH
        assert other is not None
        heard.append(other[0])
    return heard


def cut_short(at: int, how: int, half: Half) -> Search[tuple[int, str], list[int]]:
    """The same; in a second process it is cut short at some turn."""
    search, heard = counting(half), None
    for turn in range(4):
        if os.getpid() != HERE and turn == at:
            os.kill(os.getpid(), how)
        try:
            told = search.send(heard)
        except StopIteration as end:
            return list(end.value)
        heard = yield told
    raise AssertionError


@pytest.mark.parametrize("at", some([0, 1, 2, 3], 2))
def test_where_the_second_process_is_killed_the_answers_are_the_same(at):
    assert in_halves(counting, lambda half: cut_short(at, signal.SIGKILL, half), LONG_S) == BOTH


@pytest.mark.parametrize("at", some([0, 1, 2, 3], 1))
def test_a_second_process_that_hangs_is_not_waited_for_when_the_time_is_over(at, monkeypatch):
    monkeypatch.setattr("solver.halves.LATE_S", 0.2)
    assert in_halves(counting, lambda half: cut_short(at, signal.SIGSTOP, half), 0.0) == BOTH
    assert multiprocessing.active_children() == []


@pytest.mark.parametrize("after", [1, 2])
def test_a_half_that_is_done_again_may_be_over_sooner_than_it_was(after):
    """As where the machine slept in between: what is done again finds that the time is over."""

    def patient(half: Half) -> Search[tuple[int, str], list[int]]:
        for turn in range(4):
            yield turn, MUCH
        return [half.side]

    def over(half: Half) -> Search[tuple[int, str], list[int]]:
        for turn in range(0 if os.getpid() == HERE else after):
            yield turn, MUCH
        if os.getpid() != HERE:
            os.kill(os.getpid(), signal.SIGKILL)
        return [half.side]

    assert in_halves(patient, over, LONG_S) == [[0], [1]]


@pytest.mark.parametrize("what", ["os.fork", "multiprocessing.Pipe", "threading.Timer.start"])
def test_where_no_second_process_can_be_had_the_answers_are_the_same(what, monkeypatch):
    def refuse(*_: object) -> None:
        if what == "threading.Timer.start":
            raise RuntimeError("can't start new thread")
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(what, refuse)
    assert in_halves(counting, counting, LONG_S) == BOTH
    assert multiprocessing.active_children() == []


class CannotTravelError(Exception):
    """It cannot be told through a pipe."""

    def __init__(self, what: str, _more: str = "") -> None:
        super().__init__(what)
        self.lock = threading.Lock()


@pytest.mark.parametrize("side", [0, 1])
@pytest.mark.parametrize("early", [True, False])
@pytest.mark.parametrize(
    "error", some([OSError, EOFError, CannotTravelError, KeyError, ZeroDivisionError, StopAsyncIteration], 3)
)
def test_what_goes_wrong_in_a_half_is_raised_once(side, early, error, capfd):
    def wrong(half: Half) -> Search[tuple[int, str], list[int]]:
        if half.side == side and early:
            raise error("a mistake")
        yield 0, MUCH
        yield 1, MUCH
        if half.side == side:
            raise error("a mistake")
        return []

    with pytest.raises(error, match="a mistake") as raised:
        in_halves(wrong, wrong, LONG_S)
    assert raised.value.__context__ is None
    assert capfd.readouterr() == ("", "")
    assert multiprocessing.active_children() == []


def test_a_mistake_that_only_the_second_process_makes_is_raised_with_its_place():
    def wrong(half: Half) -> Search[tuple[int, str], list[int]]:
        if os.getpid() != HERE:
            raise KeyError(half.side)
        yield 0, ""
        return []

    with pytest.raises(KeyError) as raised:
        in_halves(wrong, wrong, LONG_S)
    assert "in wrong" in raised.value.__notes__[0]


def test_people_who_cut_in_are_heard_and_the_second_process_ends(capfd):
    def busy(half: Half) -> Search[tuple[int, str], list[int]]:
        yield 0, ""
        if half.side == 0:
            raise KeyboardInterrupt
        time.sleep(LONG_S)
        return []

    with pytest.raises(KeyboardInterrupt):
        in_halves(busy, busy, LONG_S)
    assert multiprocessing.active_children() == []
    assert capfd.readouterr() == ("", "")


BUSY = """
import os, signal, sys, time
from solver.halves import in_halves

def busy(half):
    yield half.side
    if half.side:
        os.kill(os.getpid(), signal.SIGINT)  # as a terminal does to both
        print("begun", flush=True)
    ends = time.monotonic() + 120
    while time.monotonic() < ends:
        pass
    return half.side

os.sched_getaffinity = lambda _: {0, 1}
in_halves(busy, busy, 600.0)
"""


@pytest.mark.parametrize("how", [signal.SIGKILL, pytest.param(signal.SIGTERM, marks=pytest.mark.long)])
def test_the_second_process_ends_with_the_first_whatever_ended_that(how):
    with subprocess.Popen([sys.executable, "-c", BUSY], stdout=subprocess.PIPE, text=True) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "begun\n"
        first.send_signal(how)
        # Both hold the other end of what is read here: it ends when both have. A busy one goes on for two minutes.
        rest, _ = first.communicate(timeout=60)
    assert rest == ""
    assert first.returncode == -how
