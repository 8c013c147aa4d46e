"""A second search of the same problem, in a process of its own: two searches in one process hold each other up.

What comes back depends on nothing but what was asked, so a seed gives the same plan on one core and on two. Where no
process can be started, or it ends too soon, the same work is done in this one.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Thread
from typing import IO, Any, NamedTuple

from models.case import Case
from models.plan import Plan
from models.trip import Lock
from solver.problem import Problem
from solver.side import Job, Side

SERVE = "from solver.aside import serve; serve()"
"""What the other process runs."""


class Asked(NamedTuple):
    """What a problem is made of."""

    case: Case
    use_reserve: bool
    locks: tuple[Lock, ...]
    before: Plan | None

    def side(self) -> Side:
        """A side that searches it."""
        return Side(Problem(self.case, use_reserve=self.use_reserve, locks=self.locks, before=self.before))


class Aside:
    """The second search, as the first sees it. One job at a time; to be closed."""

    def __init__(self, problem: Problem, before: Plan | None) -> None:
        self.side = Side(problem)
        """This end."""
        own = problem.locks[len(problem.case.trip.locks) :]
        self._asked = Asked(problem.case, problem.use_reserve, own, before)
        self._here: Side | None = None
        """The other end, where it has to be in this process."""
        self._process = started()
        self._telling = Thread(target=self._send, args=(self._asked,), daemon=True)
        self._telling.start()  # beside the search, as it has to wait until the other process is up

    def begin(self, job: Job) -> Callable[[], Any]:
        """Have something done beside what goes on here; what comes back waits for it."""
        self._telling.join()
        sent = self._send(job)
        return lambda: self._result(job) if sent else self._done_here(job)

    def close(self) -> None:
        """End the other process, whatever it is at."""
        process, self._process = self._process, None
        if process is not None:
            process.kill()
            self._telling.join()
            with suppress(OSError):  # what was not read yet is not wanted any more
                process.communicate()

    def _send(self, what: object) -> bool:
        process = self._process
        if process is None or process.stdin is None:
            return False
        try:
            _write(process.stdin, what)
        except (OSError, ValueError):
            return False
        return True

    def _result(self, job: Job) -> Any:
        if self._process is not None and self._process.stdout is not None:
            with suppress(EOFError, OSError, pickle.UnpicklingError):
                return _read(self._process.stdout)
            self.close()
        return self._done_here(job)

    def _done_here(self, job: Job) -> Any:
        self._here = self._here or self._asked.side()
        return job.run(self._here)


def started() -> subprocess.Popen[bytes] | None:
    """Another process that finds what this one finds and answers; None where none can be started."""
    root = str(Path(__file__).resolve().parents[1])
    paths = os.pathsep.join([root, *(path for path in sys.path if path)])
    try:
        return subprocess.Popen(  # noqa: S603 - our own module by our own interpreter
            [sys.executable, "-P", "-c", SERVE],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # where it fails the work is done in this process, and may fail aloud there
            env={**os.environ, "PYTHONPATH": paths},
        )
    except (OSError, ValueError, TypeError):
        return None


def serve() -> None:
    """Answer one job after the other, until the first search closes the pipe."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever cuts in cuts into the first search, which ends this one
    answers, questions = os.fdopen(os.dup(1), "wb"), sys.stdin.buffer
    os.dup2(2, 1)  # what a library says does not get into the answers
    with suppress(EOFError, OSError):
        side = _read(questions).side()
        while True:
            _write(answers, _read(questions).run(side))


def _write(pipe: IO[bytes], what: object) -> None:
    pickle.dump(what, pipe, protocol=pickle.HIGHEST_PROTOCOL)
    pipe.flush()


def _read(pipe: IO[bytes]) -> Any:
    return pickle.load(pipe)  # noqa: S301 - written by our own process alone
