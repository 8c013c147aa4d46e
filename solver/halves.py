"""One search in two halves: what they come upon they tell each other at fixed points.

Where no second process can be had (`processes.py`) they take turns in this one, and find the same: only the clock can
tell the difference.
"""

import copy
import threading
import traceback
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any, Literal, TypeVar

from solver.clock import Clock
from solver.processes import begun, can_part, ended, sendable

T = TypeVar("T")
A = TypeVar("A")
Search = Generator[T, T | None, A]
"""A half of a search: it yields what it tells, is sent what it hears, and returns what it came upon."""
HALVES = 0.5
"""Effort from which on short searches are done in halves: below it, a second process takes longer than it saves."""
LATE_S = 3.0
"""Seconds after the end of its time that a second process is waited for; what is begun by then takes about one."""


@dataclass(frozen=True)
class Half:
    """One of two who search, or one who searches alone."""

    side: Literal[0, 1] = 0
    other: Literal["none", "beside", "in turn"] = "none"
    """The other half: none, in a process beside this one, or in this process, taking turns."""

    def mine(self, everything: Sequence[T]) -> list[T]:
        """Every second one; all where there is no other half."""
        return list(everything) if self.other == "none" else list(everything[self.side :: 2])

    def own(self, given: T) -> T:
        """What it may change: the second half gets a copy where both are in one process."""
        return copy.deepcopy(given) if self.side == 1 and self.other == "in turn" else given

    def told(self, clock: Clock) -> Clock:
        """The clock by which it goes: people hear of the first half alone."""
        return clock.silent() if self.side == 1 else clock

    def part(self, clock: Clock, share: float) -> Clock:
        """A clock that stops after a share of the time left, of which each half gets as much where they take turns."""
        if self.other == "in turn":  # the second comes when the first has had its half
            share = share / (2 - share) if self.side else share / 2
        return clock if share >= 1 else clock.part(share)


Begin = Callable[[Half], Search[T, A]]


def in_halves(first: Begin[T, A], second: Begin[T, A] | None, seconds: float) -> list[A]:
    """What the halves of a search came upon; one answer where there is no second half.

    Nothing that one half changes may be seen by the other: where they take turns, `second` begins from a copy of its
    own. They hear of each other what both tell, and what the second tells and answers has to be of plain values.
    `seconds`: the time that the search has; a second process that is ended from outside, or hangs past this, is done
    without: its half is searched here. What goes wrong in a half is raised.
    """
    if second is None:
        return [_alone(first(Half()))]
    other = _Second(second)
    try:
        beside = other.part(seconds)
        if not beside:
            other.here()  # before the first changes anything
        return _both(first(Half(0, "beside" if beside else "in turn")), other)
    finally:
        other.end()


def at_once(find: Callable[[], A]) -> Search[Any, A]:
    """A half that tells and hears nothing on its way."""
    yield from ()
    return find()


@dataclass(frozen=True)
class _Told:
    value: Any


@dataclass(frozen=True)
class _Done:
    answer: Any


@dataclass(frozen=True)
class _Fault:
    error: Exception


def _step(search: Search[Any, Any], heard: object) -> _Told | _Done:
    """What a half says when it has heard something: what it tells, or its answer."""
    try:
        return _Told(search.send(heard))
    except StopIteration as end:
        return _Done(end.value)


def _alone(search: Search[T, A]) -> A:
    said = _step(search, None)
    while isinstance(said, _Told):
        said = _step(search, None)
    answer: A = said.answer
    return answer


def _both(first: Search[T, A], second: "_Second") -> list[A]:
    """The answers of both; one whose other has answered hears nothing more."""
    mine = _step(first, None)
    theirs = second.said()
    while isinstance(mine, _Told) or isinstance(theirs, _Told):
        told, heard = (said.value if isinstance(said, _Told) else None for said in (mine, theirs))
        going_on = isinstance(theirs, _Told)
        if going_on:
            second.hear(told)
        if isinstance(mine, _Told):
            mine = _step(first, heard)
        if going_on:
            theirs = second.said()
    return [mine.answer, theirs.answer]


class _Second:
    """The second half: in a process of its own as long as there is one, else in this."""

    def __init__(self, begin: Begin[Any, Any]) -> None:
        self._begin = begin
        self._heard: list[object] = [None]
        """All that it has heard: when its process is lost, its search is done again here, and hears the same.

        What it finds may differ a little, as the first has remembered more of the problem by then.
        """
        self._turns = 0
        """How much of that was heard by the search in this process."""
        self._search: Search[Any, Any] | None = None
        self._pipe: Connection | None = None
        self._process: BaseProcess | None = None
        self._watch: threading.Timer | None = None

    def part(self, seconds: float) -> bool:
        """Begin in another process, a copy of this one; False where there can be none."""
        if not can_part():
            return False
        try:
            self._start(seconds)
        except (OSError, RuntimeError):  # refused: too many open files, processes or threads
            self.end()
            return False
        return True

    def _start(self, seconds: float) -> None:
        self._process, self._pipe = begun(partial(_beside, self._begin))
        # A killed process says nothing more, and takes nothing: neither side of the pipe waits for ever.
        self._watch = threading.Timer(min(seconds + LATE_S, threading.TIMEOUT_MAX), self._process.kill)
        self._watch.daemon = True
        self._watch.start()

    def here(self) -> Search[Any, Any]:
        """Begin in this process, from what is there now."""
        self._search = self._begin(Half(1, "in turn"))
        return self._search

    def said(self) -> _Told | _Done:
        """What it says to what it heard last. Raises what went wrong in it."""
        if self._pipe is not None:
            try:
                said: _Told | _Done | _Fault = self._pipe.recv()
            except (EOFError, OSError):
                self.end()
            else:
                if isinstance(said, _Fault):
                    raise said.error
                return said
        return self._said_here()

    def _said_here(self) -> _Told | _Done:
        search = self._search or self.here()
        for heard in self._heard[self._turns :]:
            said = _step(search, heard)
            if isinstance(said, _Done):
                break  # done again where time has run out, it may be over sooner
        self._turns = len(self._heard)
        return said

    def hear(self, told: object) -> None:
        """Tell it what the first tells."""
        self._heard.append(told)
        if self._pipe is not None:
            try:
                self._pipe.send(told)
            except OSError:
                self.end()

    def end(self) -> None:
        """End its process, if there is one."""
        if self._watch is not None and self._watch.ident is not None:
            self._watch.cancel()
            self._watch.join()
        if self._process is not None and self._pipe is not None:
            ended(self._process, self._pipe)
        self._watch = self._process = self._pipe = None


def _beside(begin: Begin[Any, Any], there: Connection) -> None:
    """The second half in its own process: it tells, hears and answers through the pipe."""
    search = begin(Half(1, "beside"))
    said = _step_or_fault(search, None)
    while isinstance(said, _Told):
        there.send(said)
        said = _step_or_fault(search, there.recv())
    if said is not None:
        there.send(said)


def _step_or_fault(search: Search[Any, Any], heard: object) -> _Told | _Done | _Fault | None:
    """What a half says, or what went wrong in it; None where that cannot be told: the first will come upon it too."""
    try:
        return _step(search, heard)
    except Exception as error:  # noqa: BLE001 - whatever it is, the first raises it
        error.add_note("In the second process:\n" + "".join(traceback.format_exception(error)))
        sent = sendable(error)
        return None if sent is None else _Fault(sent)
