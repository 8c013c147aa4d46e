"""A reckoning in a process of its own, begun now and asked for later: the search goes on meanwhile.

Python runs on one core however many threads there are; two processes use two. The other is a copy of this one at the
moment when they part, so that nothing has to be read or made twice. Where there can be none, it is reckoned when it is
asked for.
"""

import contextlib
import multiprocessing
import os
import signal
import threading
import warnings
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, TypeVar

T = TypeVar("T")


class Beside(Generic[T]):
    """What a function gives, a plain value, reckoned beside whatever else is done. It is ended after use."""

    def __init__(self, reckon: Callable[[], T]) -> None:
        self._reckon = reckon
        self._other: tuple[BaseProcess, Connection] | None = None
        if _can_part():
            with contextlib.suppress(OSError):  # refused: too many processes, or too little memory
                self._other = _begun(reckon)

    @property
    def alone(self) -> bool:
        """Whether there is no other process: `result` then takes as long as the function does."""
        return self._other is None

    def result(self, seconds: float) -> T | None:
        """What it gives, waited for so long at most; None where that has not come by then or came to grief."""
        if self._other is None:
            return self._reckon()
        try:
            here = self._other[1]
            found: T | None = here.recv() if here.poll(max(0.0, seconds)) else None
        except (EOFError, OSError):
            return None
        return found

    def end(self) -> None:
        """End the other process, whatever it is at."""
        if self._other is not None:
            process, here = self._other
            here.close()
            process.kill()
            process.join()
            self._other = None


def _begun(reckon: Callable[[], T]) -> tuple[BaseProcess, Connection]:
    here, there = multiprocessing.Pipe(duplex=False)
    process = multiprocessing.get_context("fork").Process(target=_reckoned, args=(reckon, here, there), daemon=True)
    try:
        with warnings.catch_warnings():
            # Later versions of Python warn where a library keeps threads of its own; those of numpy stand a copy.
            warnings.simplefilter("ignore", DeprecationWarning)
            process.start()
    except OSError:
        here.close()
        raise
    finally:
        there.close()
    return process, here


def _reckoned(reckon: Callable[[], T], here: Connection, there: Connection) -> None:
    here.close()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # it ends with the first
    with contextlib.suppress(OSError):  # the first has ended, and nobody listens
        there.send(reckon())


def _can_part() -> bool:
    """Whether this process may be copied: with other threads at work a copy may wait for ever for what they hold."""
    return (
        "fork" in multiprocessing.get_all_start_methods()
        and _cores() > 1
        and threading.active_count() == 1
        and not multiprocessing.current_process().daemon
    )


def _cores() -> int:
    """Cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
