"""One search in two processes, each with half of it: what they come upon they tell each other at fixed points.

Python runs on one core however many threads there are; two processes use two. The second is a copy of the first at the
moment when they part, so that nothing has to be read or made twice; where that cannot be had, one does it all.
"""

import multiprocessing
import signal
import threading
import warnings
from collections.abc import Callable, Sequence
from multiprocessing.connection import Connection
from typing import Any, TypeVar

T = TypeVar("T")


class Half:
    """One of two who search, or one who searches alone."""

    def __init__(self, side: int = 0, other: Connection | None = None) -> None:
        self.side = side
        """0 or 1."""
        self._other = other

    @property
    def alone(self) -> bool:
        """Whether there is no other half."""
        return self._other is None

    def mine(self, everything: Sequence[T]) -> list[T]:
        """Every second one; all where there is no other half."""
        return list(everything) if self._other is None else list(everything[self.side :: 2])

    def swap(self, told: T) -> T | None:
        """Tell the other half something and wait for what it tells; None where there is none.

        Raises EOFError or OSError where the other half has ended before.
        """
        if self._other is None:
            return None
        if self.side:  # the first tells first: two that both tell would wait for each other to listen
            heard: T = self._other.recv()
            self._other.send(told)
        else:
            self._other.send(told)
            heard = self._other.recv()
        return heard


def in_halves(search: Callable[[Half], T], *, worth_it: bool) -> list[T]:
    """What a search came upon, half by half: one answer, or two where `worth_it` and there can be a second process.

    What the second changes is its own; only its answer comes back, and has to be of plain values.
    """
    if not (worth_it and _can_part()):
        return [search(Half())]
    here, there = multiprocessing.Pipe()
    part = multiprocessing.get_context("fork").Process(target=_second, args=(search, here, there), daemon=True)
    with warnings.catch_warnings():
        # Later versions of Python warn where a library keeps threads of its own; those of numpy stand a copy.
        warnings.simplefilter("ignore", DeprecationWarning)
        part.start()
    there.close()
    try:
        return [search(Half(0, here)), here.recv()]
    except (EOFError, OSError):  # the second was ended from outside
        return [search(Half())]
    finally:
        here.close()
        part.kill()
        part.join()


def _second(search: Callable[[Half], Any], here: Connection, there: Connection) -> None:
    here.close()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # it ends with the first
    try:
        there.send(search(Half(1, there)))
    except (EOFError, OSError):  # the first has ended, and nobody listens
        return


def _can_part() -> bool:
    """Whether this process may be copied: with other threads at work a copy may wait for ever for what they hold."""
    return (
        "fork" in multiprocessing.get_all_start_methods()
        and multiprocessing.cpu_count() > 1
        and threading.active_count() == 1
        and not multiprocessing.current_process().daemon
    )
