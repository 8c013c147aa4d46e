"""Names that may be referred to: which there are, and what is said of one that is not among them."""

from functools import cached_property

from models.reading.faults import nearest

MOST_HINTS = 50
"""So many names that nobody knows get a hint at the nearest: each is held against every name there is."""
LISTED = 8
"""So many of the names there are stand in a sentence."""


class Known:
    """Names of some kinds."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self._names = names
        self._every = frozenset(names)
        self._hints: dict[str, str] = {}

    def __contains__(self, name: str) -> bool:
        return name in self._every

    def hint(self, name: str) -> str:
        """The nearest of the names; empty where none is near, or where very many were asked for."""
        if name not in self._hints and len(self._hints) < MOST_HINTS:
            self._hints[name] = nearest(name, self._names)
        return self._hints.get(name, "")

    @property
    def every_listed(self) -> str:
        """All of the names."""
        return ", ".join(name[:40] for name in sorted(self._every))

    @cached_property
    def listed(self) -> str:
        """The first of the names; empty where there is none."""
        unique = [name[:40] for name in sorted(self._every)]
        more = f" and {len(unique) - LISTED} more" if len(unique) > LISTED else ""
        return ", ".join(unique[:LISTED]) + more
