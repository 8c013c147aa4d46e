"""How many trips made by chance a test looks at: few in every run, more among the long tests."""

import os
from collections.abc import Iterable
from typing import Any

import pytest

TIMES = int(os.environ.get("LOWSTOW_CHANCES", "1"))
"""So many times as many among the long tests, once in a while (LOWSTOW_CHANCES=20)."""


def seeds(few: int, of: int, first: int = 0) -> list[Any]:
    """Seeds of a test from the first: so many for every run, and all others up to `of` for the long tests alone."""
    return some(range(first, first + of * TIMES), few)


def some(values: Iterable[Any], few: int) -> list[Any]:
    """Values of a test: the first so many for every run, all others for the long tests alone."""
    return [value if i < few else pytest.param(value, marks=pytest.mark.long) for i, value in enumerate(values)]


def rows(values: Iterable[tuple[Any, ...]], few: int) -> list[Any]:
    """The same of several values each."""
    return [value if i < few else pytest.param(*value, marks=pytest.mark.long) for i, value in enumerate(values)]
