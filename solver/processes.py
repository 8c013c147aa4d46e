"""A second process that begins as a copy of this one: nothing has to be read or made twice.

Python runs on one core however many threads there are; two processes use two.
"""

import multiprocessing
import os
import pickle
import signal
import threading
import warnings
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess


def can_part() -> bool:
    """Whether this process may be copied: with other threads at work a copy may wait for ever for what they hold."""
    return (
        "fork" in multiprocessing.get_all_start_methods()
        and _cores() > 1
        and threading.active_count() == 1
        and not multiprocessing.current_process().daemon
    )


def _cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def begun(work: Callable[[Connection], None]) -> tuple[BaseProcess, Connection]:
    """A copy of this process that does some work, and a pipe to it; the work has the pipe's other end.

    Raises OSError where it is refused: too many processes or open files, or too little memory.
    """
    here, there = multiprocessing.Pipe()
    process = multiprocessing.get_context("fork").Process(target=_work, args=(work, here, there), daemon=True)
    try:
        _start_deaf(process)
    except BaseException:  # refused, or someone cuts in just then
        ended(process, here)
        raise
    finally:
        there.close()
    return process, here


def ended(process: BaseProcess, here: Connection) -> None:
    """End a copy, whatever it is at, and the pipe to it."""
    if process.pid is not None:
        process.kill()
        process.join()
    here.close()


def sendable(error: Exception) -> Exception | None:
    """An error as it comes out of a pipe, for the first to raise; None where no pipe takes it."""
    with suppress(Exception):  # whatever keeps it from being sent
        found: Exception = pickle.loads(pickle.dumps(error))  # noqa: S301 - its own words
        return found
    return None


def _work(work: Callable[[Connection], None], here: Connection, there: Connection) -> None:
    here.close()  # else it would wait for itself when the first has ended
    with suppress(RuntimeError):  # no thread can be had: it ends when it has something to say
        threading.Thread(target=_end_with_the_first, daemon=True).start()
    with suppress(EOFError, OSError):  # the first has ended, and nobody listens
        work(there)


def _start_deaf(part: BaseProcess) -> None:
    """Start a process that does not hear when people cut in: it ends with the first."""
    heard = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})  # a copy keeps what is blocked
    try:
        with warnings.catch_warnings():
            # Later versions of Python warn where a library keeps threads of its own; those of numpy stand a copy.
            warnings.simplefilter("ignore", DeprecationWarning)
            part.start()
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, heard)


def _end_with_the_first() -> None:
    """In the copy, in a thread of its own: wait for the first to end, whatever ended it, and end this one."""
    first = multiprocessing.parent_process()
    if first is not None:
        first.join()
        os._exit(1)
