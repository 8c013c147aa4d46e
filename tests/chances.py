"""How many trips made by chance a test looks at: few in every run, more where `.ci/run` asks for them."""

import os

TIMES = int(os.environ.get("LOWSTOW_CHANCES", "1"))
"""So many times as many as in every run (LOWSTOW_CHANCES=4)."""


def seeds(few: int, first: int = 0) -> range:
    """So many seeds, or a multiple of them, from the first."""
    return range(first, first + few * TIMES)
