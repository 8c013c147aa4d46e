"""What all tests share: drawn examples are the same in every run, and the clock decides nothing."""

from collections.abc import Iterator

import pytest
from hypothesis import settings

settings.register_profile("lowstow", derandomize=True, deadline=None, database=None, print_blob=True)
settings.load_profile("lowstow")


@pytest.fixture(scope="module")
def no_bound() -> Iterator[None]:
    """Searches end before the bound, which has a second in each: for modules about what is found alone."""
    from solver.bound import Bound  # noqa: PLC0415 - most modules need no search

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("solver.better.height_bound", lambda *_: Bound(None))
        yield
