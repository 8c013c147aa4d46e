"""A second process that begins as a copy of this one: nothing has to be read or made twice.

Python runs on one core however many threads there are; two processes use two.
"""

import multiprocessing
import os
import signal
import threading
import warnings
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


def start_deaf(part: BaseProcess) -> None:
    """Start a process that does not hear when people cut in: it ends with the first."""
    heard = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})  # a copy keeps what is blocked
    try:
        with warnings.catch_warnings():
            # Later versions of Python warn where a library keeps threads of its own; those of numpy stand a copy.
            warnings.simplefilter("ignore", DeprecationWarning)
            part.start()
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, heard)


def end_with_the_first() -> None:
    """In the copy, in a thread of its own: wait for the first to end, whatever ended it, and end this one."""
    first = multiprocessing.parent_process()
    if first is not None:
        first.join()
        os._exit(1)
