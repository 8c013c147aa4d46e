"""What all tests share: drawn examples are the same in every run, and the clock decides nothing."""

import gc
import os
from collections.abc import Iterator

import pytest
from hypothesis import settings
from xdist.remote import Producer
from xdist.scheduler import LoadScopeScheduling

from tests.searches import with_less_search, with_little_search, without_bound

EXAMPLES = int(os.environ.get("LOWSTOW_EXAMPLES", "25"))
"""Drawn examples of each test: few in every run, more where `.ci/run` asks for them."""
settings.register_profile(
    "lowstow", derandomize=True, deadline=None, database=None, print_blob=True, max_examples=EXAMPLES
)
settings.load_profile("lowstow")


def pytest_collection() -> None:
    """What is read and collected stays to the end: to look through it for garbage takes a quarter of the time."""
    gc.disable()


def pytest_collection_finish() -> None:
    """From here on there is garbage; what was collected is none of it."""
    gc.freeze()
    gc.enable()


ONE_SEARCH_FOR_EACH_ID = "tests/scenarios/test_scenarios.py"
MADE_ONCE_FOR_ALL = {
    "tests/solver/test_whole.py": "bases",
    "tests/solver/test_revise.py": "herd",
    "tests/solver/test_few.py": "herd",
    "tests/outside/test_broken_plans.py": "broken",
}
"""Files whose tests share what takes long to make, and what that is."""


class Together(LoadScopeScheduling):  # type: ignore[misc] # it comes without types
    """Tests that share what takes long to make go to one worker, every other test to the next that is free."""

    def _split_scope(self, nodeid: str) -> str:
        file, _, name = nodeid.partition("::")
        if file == ONE_SEARCH_FOR_EACH_ID:
            return file + name[name.find("[") :]
        return MADE_ONCE_FOR_ALL.get(file, nodeid)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> Together:
    return Together(config, log)


@pytest.fixture(scope="module")
def no_bound() -> Iterator[None]:
    """For modules about what is found alone."""
    with without_bound():
        yield


@pytest.fixture(scope="module")
def searched_less() -> Iterator[None]:
    """For modules about plans that are to be good ones."""
    with with_less_search():
        yield


@pytest.fixture(scope="module")
def searched_little() -> Iterator[None]:
    """For modules about other things."""
    with with_little_search():
        yield


@pytest.fixture
def no_ways_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Searches that find no plan look for no ways out: for tests of what is found, or that nothing is."""
    monkeypatch.setattr("solver.search._explained", lambda found, *_: found)


@pytest.fixture
def soon_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """A first layout is given up soon: for tests of what follows where none is found."""
    monkeypatch.setattr("solver.attempt.FIRST_STEPS", 500)
