"""What must fit together once every field is sound by itself."""

from collections.abc import Callable, Iterator

from models.reading.draft import Draft
from models.reading.faults import Fault


def check_all(draft: Draft) -> Iterator[Fault | str]:
    """Faults, and remarks on what is merely odd, of all files held together."""
    for check in CHECKS:
        yield from check(draft)


CHECKS: tuple[Callable[[Draft], Iterator[Fault | str]], ...] = ()
