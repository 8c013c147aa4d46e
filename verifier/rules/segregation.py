"""segregation: pairs that may not share a space, an air volume or a wall."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import product

from models.case import Case
from models.gear import Thing
from models.geometry import Box, box
from models.rules import Rule
from models.spaces import Space
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout


def _words(thing: Thing) -> Iterator[str]:
    """The words of the rule book that speak of a thing."""
    if thing.hazard is not None:
        yield thing.hazard
    also = {"food": thing.eaten, "bedding": thing.slept_in, "clothes": thing.clothes}
    yield from (word for word, is_so in also.items() if is_so)


def _gap_mm(one: Box, other: Box, axis: int) -> int:
    return max(other.low[axis] - one.high[axis], one.low[axis] - other.high[axis])


def neighbours(case: Case, one: Space, other: Space) -> bool:
    """Whether two spaces lie so close that only a thin wall, if any, is between them."""
    if other.name in one.solid_wall_between or one.name in other.solid_wall_between:
        return False
    boxes = (box(one.corner_mm, one.size_mm), box(other.corner_mm, other.size_mm))
    gaps = [_gap_mm(*boxes, axis) for axis in range(3)]
    most = case.rulebook.neighbours.gap_mm
    return any(gaps[i] <= most and all(gaps[j] < 0 for j in range(3) if j != i) for i in range(3))


def _together(layout: Layout, level: str, one: Space, other: Space) -> str | None:
    """How two spaces are together in the sense of a level; None: they are not."""
    case, shared = layout.case, layout.shared(one, other)
    if shared is not None:
        return f"are both in {shared.name}"
    same_air = one.air == other.air
    kind = case.vehicle.air.get(one.air)
    if level == "space":
        one_locker = same_air and kind == "locker"
        return f"are both in the locker of {one.air}, which serves one purpose" if one_locker else None
    in_open = same_air and kind == "open"
    if level == "air" and same_air and not in_open:
        return f"share the air of {one.air}"
    if (level == "wall" or in_open) and neighbours(case, one, other):
        return f"have only a wall between them, {one.name} and {other.name}"
    return None


Kind = tuple[str, Space]
"""A thing's name and a space that it is in."""


def _kinds(layout: Layout) -> dict[str, tuple[Kind, ...]]:
    """What there is of each word, each thing once in each space."""
    found: dict[str, dict[tuple[str, str], Kind]] = {}
    for one, space in layout.located:
        for word in _words(one.thing):
            found.setdefault(word, {})[one.thing.name, space.name] = (one.thing.name, space)
    return {word: tuple(kinds.values()) for word, kinds in found.items()}


@dataclass
class _Broken:
    """Two things in two spaces that are together in a way that entries of the rule book forbid."""

    names: tuple[str, str]
    how: str
    """By the first entry that forbids it."""
    words: dict[str, None] = field(default_factory=dict)
    """What must be apart, each once."""
    sources: dict[str, None] = field(default_factory=dict)
    """Of all entries that forbid it, each once."""

    def told(self) -> Finding:
        """One finding, by however many entries."""
        both, sources = " and ".join(self.names), "; ".join(self.sources)
        says = f"{both} {self.how}; {', '.join(self.words)} must be apart."
        return plain(Rule.SEGREGATION, both, False, says, source=sources)


def _broken(layout: Layout) -> Iterator[Finding]:
    pairs = [(words, apart) for apart in layout.case.rulebook.segregation for words in apart.pairs]
    kinds = _kinds(layout)
    found: dict[frozenset[tuple[str, str]], _Broken] = {}
    for words, apart in pairs:
        for (name, space), (other_name, other) in product(*(kinds.get(word, ()) for word in words)):
            how = None if name == other_name else _together(layout, apart.level, space, other)
            if how is not None:
                key = frozenset({(name, space.name), (other_name, other.name)})
                one = found.setdefault(key, _Broken((name, other_name), how))
                one.words[" and ".join(words)] = None
                one.sources[apart.source] = None
    yield from (one.told() for one in found.values())


def kept_from(layout: Layout, word: str) -> Callable[[str, Space], Iterator[str]]:
    """Of a word of the rule book: what a thing in a space, by its name, would be too near if it were of that word."""
    kinds = _kinds(layout)
    others = [
        (apart.level, kind)
        for apart in layout.case.rulebook.segregation
        for words in apart.pairs
        for other in [words[1 - side] for side in (0, 1) if words[side] == word]
        for kind in kinds.get(other, ())
    ]

    def near(name: str, space: Space) -> Iterator[str]:
        for level, (other_name, other) in others:
            if name != other_name and _together(layout, level, space, other) is not None:
                yield other_name

    return near


def find(layout: Layout) -> Iterator[Finding]:
    """Judge all pairs of the rule book."""
    return or_held(_broken(layout), Rule.SEGREGATION, "Nothing is beside what it must be apart from.")
