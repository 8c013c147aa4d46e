"""Pairs of things that may not ride together, space by space."""

from dataclasses import dataclass
from functools import cached_property

from models.case import Case
from models.gear import Thing
from models.rules import Rule
from models.spaces import Space


@dataclass(frozen=True)
class Veto:
    """Two kinds that may not share something."""

    rule: Rule
    level: str
    """space, locker, air or wall; locker: one space, and all the spaces of one locker are one."""


@dataclass(frozen=True)
class Vetoes:
    """Vetoes by kind, and which rooms share air or a wall."""

    of: tuple[dict[int, tuple[Veto, ...]], ...]
    """By kind: other kinds with the vetoes between them."""
    same_air: tuple[tuple[bool, ...], ...]
    """By pair of rooms: one volume of air that is not open air."""
    walls: tuple[tuple[bool, ...], ...]
    """By pair of rooms: one wall between them."""
    lockers: tuple[tuple[bool, ...], ...]
    """By pair of rooms: both in one locker."""
    within_one: tuple[tuple[bool, ...], ...]
    """By pair of rooms: one space, or both are or lie within one, as what is part of a thing does."""
    open_air: tuple[bool, ...]
    """By room: open air."""

    @cached_property
    def forbidden(self) -> tuple[tuple[tuple[int, tuple[int, ...]], ...], ...]:
        """By kind: other kinds, each with a number by room whose bytes say in which rooms the other may not be."""
        rooms = range(len(self.open_air))
        known: dict[tuple[frozenset[str], int], int] = {}  # what a veto forbids depends on its level alone

        def bytes_of(found: tuple[Veto, ...], room: int) -> int:
            key = (frozenset(veto.level for veto in found), room)
            if key not in known:
                known[key] = sum(0xFF << 8 * o for o in rooms if any(self.apart(veto, room, o) for veto in found))
            return known[key]

        return tuple(
            tuple((kind, tuple(bytes_of(found, room) for room in rooms)) for kind, found in sorted(against.items()))
            for against in self.of
        )

    def apart(self, veto: Veto, room: int, other: int) -> bool:
        """Whether a veto forbids the pair of rooms."""
        if self.within_one[room][other]:
            return True
        if veto.level == "air":
            return self.same_air[room][other] or (
                self.open_air[room] and self.open_air[other] and self.walls[room][other]
            )
        if veto.level == "locker":
            return self.lockers[room][other]
        return veto.level == "wall" and self.walls[room][other]


def vetoes(case: Case, things: tuple[Thing, ...], spaces: list[Space]) -> Vetoes:
    """All vetoes of a case."""
    of: list[dict[int, tuple[Veto, ...]]] = [{} for _ in things]
    locker = [space.air if case.vehicle.air[space.air] == "locker" else None for space in spaces]
    lockers = tuple(tuple(air is not None and air == other for other in locker) for air in locker)
    several = any(sum(row) > 1 for row in lockers)
    for i, one in enumerate(things):
        for j in range(i, len(things)):
            found = tuple(_pair(case, one, things[j], "locker" if several else "space"))
            if found:
                of[i][j] = found
                of[j][i] = found
    kind = [case.vehicle.air[space.air] for space in spaces]
    same = tuple(tuple(a.air == b.air and case.vehicle.air[a.air] != "open" for b in spaces) for a in spaces)
    walls = tuple(tuple(a.name != b.name and neighbours(case, a, b) for b in spaces) for a in spaces)
    whole = [{space.name, *(outer.name for outer in case.around(space))} for space in spaces]
    within_one = tuple(tuple(not a.isdisjoint(b) for b in whole) for a in whole)
    return Vetoes(tuple(of), same, walls, lockers, within_one, tuple(k == "open" for k in kind))


def _words(thing: Thing) -> set[str]:
    words = {thing.hazard} if thing.hazard else set()
    if thing.eaten:
        words.add("food")
    if thing.slept_in:
        words.add("bedding")
    if thing.clothes:
        words.add("clothes")
    return {word for word in words if word}


def _pair(case: Case, one: Thing, other: Thing, space_level: str) -> list[Veto]:
    """What keeps two things apart, or two copies of one thing; `space_level`: what the rule book's space is here."""
    found = []
    mine, theirs = _words(one), _words(other)
    pairs = {(a, b) for a in mine for b in theirs} if one.name != other.name else set()
    for apart in case.rulebook.segregation if pairs else ():
        if any(pair in pairs or pair[::-1] in pairs for pair in apart.pairs):
            level = space_level if apart.level == "space" else apart.level
            found.append(Veto(Rule.SEGREGATION, level))
    if one.name == other.name and one.count == 1:
        return found
    if (one.wet and _dry_or_food(other)) or (other.wet and _dry_or_food(one)):
        found.append(Veto(Rule.WEATHER, "space"))
    named = ({one.name, one.kit}, {other.name, other.kit})
    for a, b in case.trip.apart:
        if (a in named[0] and b in named[1]) or (b in named[0] and a in named[1]):
            found.append(Veto(Rule.APART, "space"))
    return found


def _dry_or_food(thing: Thing) -> bool:
    return thing.weather == "dry" or thing.eaten


def neighbours(case: Case, one: Space, other: Space) -> bool:
    """Whether two spaces share a wall that is not declared solid."""
    if other.name in one.solid_wall_between or one.name in other.solid_wall_between:
        return False
    gap_mm = case.rulebook.neighbours.gap_mm
    gaps = []
    for i in range(3):
        low = max(one.corner_mm[i], other.corner_mm[i])
        high = min(one.corner_mm[i] + one.size_mm[i], other.corner_mm[i] + other.size_mm[i])
        gaps.append(low - high)
    return sum(gap < 0 for gap in gaps) == 2 and max(gaps) <= gap_mm
