"""A reckoning in a process of its own, begun now and asked for later: the search goes on meanwhile."""

import os
import pickle
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, TypeVar

from solver.copies import begun, can_part, ended, sendable

T = TypeVar("T")
GiveWay = Callable[[], object]
"""From now on the rest goes first: only what it leaves of the cores is taken. Nothing where there is one process."""
NICER = 10
"""By so much a process that gives way is nicer."""


class Beside(Generic[T]):
    """What a function gives, a plain value, reckoned beside whatever else is done. It is ended after use.

    The function is given how it can give way when what is most wanted of it is known.
    """

    def __init__(self, reckon: Callable[[GiveWay], T]) -> None:
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
        """What it gives, waited for so long at most; None where that has not come by then, or its process has ended.

        Raises what the function raises; of an error that cannot be sent, a RuntimeError with its kind and text.
        """
        if self._other is None:
            return self._reckon(lambda: None)
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
            ended(*self._other)
            self._other = None


def _reckoned(reckon: Callable[[GiveWay], T], there: Connection) -> None:
    try:
        said = pickle.dumps((reckon(partial(os.nice, NICER)), None))
    except Exception as error:  # noqa: BLE001 - whatever it is, the first raises it
        said = pickle.dumps((None, sendable(error) or RuntimeError(f"{type(error).__name__}: {error}")))
    there.send_bytes(said)
