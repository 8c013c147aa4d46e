"""A search in two processes, or in one where there can be no second."""

import os

import pytest

from solver.halves import Half, in_halves

pytestmark = pytest.mark.filterwarnings("ignore:This process:DeprecationWarning")
"""Those who run the tests have threads of their own; a user's process has none."""
THINGS = ["a", "b", "c", "d", "e"]


@pytest.fixture
def two_cores(monkeypatch):
    """As on a machine with two cores that can copy a process."""
    if not hasattr(os, "fork"):
        pytest.skip("processes cannot be copied here")
    monkeypatch.setattr("multiprocessing.cpu_count", lambda: 2)
    monkeypatch.setattr("threading.active_count", lambda: 1)


def told(half: Half) -> tuple[list[str], list[str] | None, int]:
    mine = half.mine(THINGS)
    return mine, half.swap(mine), os.getpid()


def test_one_who_is_alone_has_everything_and_hears_nothing():
    assert in_halves(told, worth_it=False) == [(THINGS, None, os.getpid())]


@pytest.mark.usefixtures("two_cores")
def test_two_have_half_each_and_hear_of_each_other():
    (mine, heard, process), (others, told_to_it, other_process) = in_halves(told, worth_it=True)
    assert sorted(mine + others) == THINGS
    assert (heard, told_to_it) == (others, mine)
    assert process == os.getpid() != other_process


@pytest.mark.usefixtures("two_cores")
def test_what_the_second_changes_stays_its_own():
    seen: list[int] = []

    def changing(half: Half) -> int:
        seen.append(half.side)
        return len(seen)

    assert in_halves(changing, worth_it=True) == [1, 1]
    assert seen == [0]


@pytest.mark.usefixtures("two_cores")
def test_where_the_second_ends_early_the_first_does_it_all():
    def ending(half: Half) -> list[str]:
        if half.side:
            os._exit(1)
        half.swap("much")
        return half.mine(THINGS)

    assert in_halves(ending, worth_it=True) == [THINGS]


@pytest.mark.usefixtures("two_cores")
def test_a_process_with_other_threads_at_work_is_not_copied(monkeypatch):
    monkeypatch.setattr("threading.active_count", lambda: 2)
    assert in_halves(told, worth_it=True) == [(THINGS, None, os.getpid())]


@pytest.mark.usefixtures("two_cores")
def test_what_goes_wrong_in_the_first_is_not_hidden():
    def wrong(half: Half) -> None:
        if half.side == 0:
            raise ZeroDivisionError
        half.swap("nobody listens")

    with pytest.raises(ZeroDivisionError):
        in_halves(wrong, worth_it=True)
