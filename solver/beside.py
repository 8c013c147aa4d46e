"""A reckoning in a process of its own, begun now and asked for later: the search goes on meanwhile."""

import os
import pickle
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, TypeVar

from solver.processes import begun, can_part, ended, sendable

T = TypeVar("T")
GiveWay = Callable[[T], object]
"""Tells what is known so far. From now on the rest goes first: only what it leaves of the cores is taken. Nothing where
there is one process."""
NICER = 10
"""By so much a process that gives way is nicer."""


class Beside(Generic[T]):
    """What a function gives, a plain value, reckoned beside whatever else is done. It is ended after use.

    The function is given how it can give way when what is most wanted of it is known.
    """

    def __init__(self, reckon: Callable[[GiveWay[T]], T]) -> None:
        self._reckon = reckon
        self._other: tuple[BaseProcess, Connection] | None = None
        if can_part():
            with suppress(OSError):  # refused: too many processes, or too little memory
                self._other = begun(partial(_reckoned, reckon))

    @property
    def alone(self) -> bool:
        """Whether there is no other process: `result` then takes as long as the function does."""
        return self._other is None

    def result(self, seconds: float) -> T | None:
        """What it gives, waited for so long at most, else what it has told so far; None where that is nothing.

        Raises what the function raises; of an error that cannot be sent, a RuntimeError with its kind and text.
        """
        if self._other is None:
            return self._reckon(lambda _: None)
        found: _Said[T] = _Said(None)
        ends = time.monotonic() + seconds
        with suppress(EOFError, OSError):
            while not found.last and self._other[1].poll(max(0.0, ends - time.monotonic())):
                found = self._other[1].recv()
        if found.error is not None:
            raise found.error
        return found.value

    def end(self) -> None:
        """End the other process, whatever it is at."""
        if self._other is not None:
            ended(*self._other)
            self._other = None


@dataclass(frozen=True)
class _Said(Generic[T]):
    value: T | None
    error: Exception | None = None
    last: bool = False


def _reckoned(reckon: Callable[[GiveWay[T]], T], there: Connection) -> None:
    def give_way(so_far: T) -> None:
        there.send(_Said(so_far))
        os.nice(NICER)

    try:
        said = pickle.dumps(_Said(reckon(give_way), last=True))
    except Exception as error:  # noqa: BLE001 - whatever it is, the first raises it
        told = sendable(error) or RuntimeError(f"{type(error).__name__}: {error}")
        said = pickle.dumps(_Said(None, told, last=True))
    there.send_bytes(said)
