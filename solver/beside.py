"""A reckoning in a process of its own, begun now and asked for later: the search goes on meanwhile."""

import multiprocessing
import threading
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, TypeVar

from solver.copies import can_part, end_with_the_first, start_deaf

T = TypeVar("T")


class Beside(Generic[T]):
    """What a function gives, a plain value, reckoned beside whatever else is done. It is ended after use."""

    def __init__(self, reckon: Callable[[], T]) -> None:
        self._reckon = reckon
        self._other: tuple[BaseProcess, Connection] | None = None
        if can_part():
            with suppress(OSError):  # refused: too many processes, or too little memory
                self._other = _begun(reckon)

    @property
    def alone(self) -> bool:
        """Whether there is no other process: `result` then takes as long as the function does."""
        return self._other is None

    def result(self, seconds: float) -> T | None:
        """What it gives, waited for so long at most; None where that has not come by then, or its process has ended.

        Raises what the function raises.
        """
        if self._other is None:
            return self._reckon()
        found: tuple[T | None, Exception | None] = None, None
        with suppress(EOFError, OSError):
            here = self._other[1]
            if here.poll(max(0.0, seconds)):
                found = here.recv()
        if found[1] is not None:
            raise found[1]
        return found[0]

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
        start_deaf(process)
    except BaseException:  # refused, or someone cuts in just then
        here.close()
        if process.pid is not None:
            process.kill()
            process.join()
        raise
    finally:
        there.close()
    return process, here


def _reckoned(reckon: Callable[[], T], here: Connection, there: Connection) -> None:
    here.close()
    with suppress(RuntimeError):  # no thread can be had: it ends with its work
        threading.Thread(target=end_with_the_first, daemon=True).start()
    found: tuple[T | None, Exception | None]
    try:
        found = reckon(), None
    except Exception as error:  # noqa: BLE001 - whatever it is, the first raises it
        found = None, error
    with suppress(OSError):  # the first has ended, and nobody listens
        there.send(found)
