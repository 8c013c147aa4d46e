"""A reckoning beside the search gives what it would give here, and nothing that befalls it stops the rest."""

import os
import signal
import time

import pytest

from solver.beside import NICER, Beside, GiveWay

pytestmark = pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
"""Those who run the tests have threads of their own; a user's process has none."""
LONG_S = 60.0


def process(_: GiveWay[int]) -> int:
    """The process that it is reckoned in."""
    return os.getpid()


def niceness(give_way: GiveWay[tuple[int, int]]) -> tuple[int, int]:
    """How nice its process is before it gives way, and after."""
    before = os.nice(0)
    give_way((before, before))
    return before, os.nice(0)


@pytest.mark.usefixtures("two_cores")
def test_it_is_reckoned_in_another_process():
    found = Beside(process)
    assert (found.alone, found.result(LONG_S) != os.getpid()) == (False, True)
    found.end()


@pytest.mark.usefixtures("two_cores")
def test_it_gives_way_when_it_says_so():
    here = os.nice(0)
    found = Beside(niceness)
    assert (found.result(LONG_S), os.nice(0)) == ((here, min(here + NICER, 19)), here)
    found.end()


def test_with_one_core_nothing_gives_way(monkeypatch):
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    here = os.nice(0)
    assert Beside(niceness).result(0.0) == (here, here)


def test_with_one_core_it_is_reckoned_here_when_it_is_asked_for(monkeypatch):
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0}, raising=False)
    found = Beside(process)
    assert (found.alone, found.result(0.0)) == (True, os.getpid())
    found.end()


@pytest.mark.usefixtures("two_cores")
def test_beside_other_threads_it_is_reckoned_here(monkeypatch):
    monkeypatch.setattr("threading.active_count", lambda: 2)
    assert Beside(process).result(0.0) == os.getpid()


@pytest.mark.usefixtures("two_cores")
def test_where_a_process_is_refused_it_is_reckoned_here(monkeypatch):
    def refused(_: object) -> None:
        raise BlockingIOError

    monkeypatch.setattr("multiprocessing.context.ForkProcess.start", refused)
    assert Beside(process).result(0.0) == os.getpid()


@pytest.mark.usefixtures("two_cores")
def test_one_that_takes_too_long_gives_nothing_and_is_ended():
    found = Beside(lambda _: time.sleep(LONG_S))
    assert found.result(0.01) is None
    found.end()
    assert found.alone


@pytest.mark.long
@pytest.mark.usefixtures("two_cores")
def test_one_that_takes_too_long_gives_what_it_told_when_it_gave_way():
    def slow(give_way: GiveWay[int]) -> int:
        give_way(7)
        time.sleep(LONG_S)
        return 8

    found = Beside(slow)
    assert found.result(1.0) == 7
    found.end()


@pytest.mark.usefixtures("two_cores")
def test_one_that_is_killed_gives_nothing():
    def killed(_: GiveWay[int]) -> int:
        os.kill(os.getpid(), signal.SIGKILL)
        return 1

    found = Beside(killed)
    assert found.result(LONG_S) is None
    found.end()


@pytest.mark.usefixtures("two_cores")
def test_what_goes_wrong_in_it_is_raised(capfd):
    def wrong(give_way: GiveWay[int]) -> int:
        give_way(1)
        raise ZeroDivisionError

    found = Beside(wrong)
    with pytest.raises(ZeroDivisionError):
        found.result(LONG_S)
    found.end()
    assert capfd.readouterr().err == ""


class UnsendableError(Exception):
    """It holds what no pipe takes."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.held = lambda: text


class UnreadableError(Exception):
    """It is sent, and cannot be made again from what was sent."""

    def __init__(self, text: str, more: int) -> None:
        super().__init__(f"{text} {more}")


@pytest.mark.usefixtures("two_cores")
@pytest.mark.parametrize(
    ("error", "said"),
    [
        (UnsendableError("no floor"), "UnsendableError: no floor"),
        (UnreadableError("no floor", 2), "UnreadableError: no floor 2"),
    ],
)
def test_what_goes_wrong_and_cannot_be_sent_is_raised_with_its_text(capfd, error, said):
    def wrong(_: GiveWay[int]) -> int:
        raise error

    found = Beside(wrong)
    with pytest.raises(RuntimeError, match=f"^{said}$"):
        found.result(LONG_S)
    found.end()
    assert capfd.readouterr().err == ""


@pytest.mark.usefixtures("two_cores")
def test_an_answer_that_cannot_be_sent_is_an_error(capfd):
    found = Beside(lambda _: lambda: 1)
    with pytest.raises(Exception, match="pickle"):
        found.result(LONG_S)
    found.end()
    assert capfd.readouterr().err == ""
