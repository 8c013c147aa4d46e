"""Runs one measurement in a process of its own, so that its memory is its own."""

import multiprocessing
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from typing import NamedTuple, ParamSpec, TypeVar

from benchmarks.table import busy_s, peak_mb

Given = ParamSpec("Given")
Answer = TypeVar("Answer")


class Measured(NamedTuple):
    """What a measurement took."""

    seconds: float
    busy_s: float
    """Seconds that it kept the processors busy; other work on the machine does not count."""
    peak_mb: float


def _run(function: Callable[..., Answer], args: tuple[object, ...]) -> tuple[Answer, Measured]:
    began, used = time.monotonic(), busy_s()
    answer = function(*args)
    return answer, Measured(time.monotonic() - began, busy_s() - used, peak_mb())


def in_own_process(function: Callable[..., Answer], *args: object) -> tuple[Answer, Measured]:
    """The answer of a function of a module, and what it took; the interpreter's own start is not counted in seconds."""
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("spawn")) as pool:
        return pool.submit(_run, function, args).result()
