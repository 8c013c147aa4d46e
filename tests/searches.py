"""Searches that are shorter than those of the commands, for tests that are about other things."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest


@contextmanager
def without_bound() -> Iterator[None]:
    """Searches end before the bound, which has a second in each."""
    from solver.bound import Bound  # noqa: PLC0415 - most modules need no search

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("solver.better.height_bound", lambda *_: Bound(None))
        yield


@contextmanager
def with_less_search() -> Iterator[None]:
    """What comes is chosen once, and models and searches for few minutes are short."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("solver.better.LOOKS", ())
        patch.setattr("solver.exact.WORK", 0.02)
        patch.setattr("solver.few.AGAIN", 0)
        patch.setattr("solver.few.ROUNDS", 2)
        yield


@contextmanager
def with_little_search() -> Iterator[None]:
    """Besides, a first layout is soon given up, and a layout is hardly made lower."""
    with with_less_search(), pytest.MonkeyPatch.context() as patch:
        patch.setattr("solver.attempt.FIRST_STEPS", 800)
        patch.setattr("solver.search.LESS_STEPS", 250)
        patch.setattr("solver.near.LONG_STEPS", 800)
        patch.setattr("solver.leaving.STEPS", 150)
        patch.setattr("solver.improve.CORNERS", 0.4e6)
        patch.setattr("solver.improve.TURNS", 2)
        patch.setattr("solver.handling.CORNERS", 0.3e6)
        yield
