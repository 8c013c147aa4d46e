"""A small set of demands that masses, volumes and pairs alone show to be impossible, with words and figures."""

from collections.abc import Collection, Iterator, Sequence

from models.gear import Thing
from models.locks import locks_on
from models.trip import Lock
from solver.answers import Conflict, Demand
from solver.asking import OF_THE_VEHICLE, Asked
from solver.clock import Clock
from solver.pieces import Piece
from solver.relaxed import Key, Relaxed
from solver.wording import all_or_none, kit_together, limit_holds, lock_demand, must_come, reserve_kept

MOST_APART = 4
"""So many things that must come are told and tried one by one; more are told together."""
MOST_NAMED = 8
"""So many things that must come are picked out of all that must; where more take part, all are told."""
FEW_ROOMS = 2
"""Of a thing that so many spaces at most may take, they are told."""
RELAXED_S = 2.0
"""Seconds to see whether a case can be at all."""
ONE_S = 1.0
"""Seconds to see whether it can be with one demand less, and for the figures that are told."""
MUSTS_S = 1.0
"""Seconds to pick out few of the things that must come."""
FEW_SHARE = 0.25
"""Share of the time left for a first guess at the few: where that finds nothing, demands are dropped all the same."""
TELL_S = 1.0
"""Least seconds to pick out few demands of a proof that is there, late or not: all that is asked tells nobody why."""


def by_sums(asked: Asked, clock: Clock) -> Conflict | None:
    """Demands that are impossible by masses, volumes and pairs; those that do not need the reserve are seen first."""
    relaxed = asked.relaxed
    kept = ("reserve", "reserve")
    for on in (set(relaxed.switches) - {kept}, set(relaxed.switches)):
        if kept in on and not asked.use_reserve:
            continue
        if relaxed.impossible(on, clock.left()) is True:
            telling = clock.at_least(TELL_S)
            core = shrunk(relaxed, on, telling)
            demands = tuple(_demands(asked, core))
            return Conflict(demands, tuple(_says(asked, relaxed, set(core), on, telling)))
    return None


def impossible_by_sums(asked: Asked, clock: Clock) -> bool:
    """Whether masses, volumes and pairs alone show that there is no plan."""
    relaxed = asked.relaxed
    on = relaxed.asked_for(asked.use_reserve)
    return relaxed.impossible(on, clock.left()) is True


def shrunk(relaxed: Relaxed, on: set[Key], clock: Clock) -> list[Key]:
    """Drop demands while the rest stays impossible: limits, the reserve, locks, kits, copies, then what must come.

    Only a proof drops a member: a test that stays open keeps it. Things that must come go last, so that nobody's lock
    is told where the musts alone are too much.
    """
    seen = relaxed.few(on, min(ONE_S, clock.left() * FEW_SHARE))
    core = {key for key in on if key in seen or key[0] == "must come"}
    for kind in ("limit", "reserve", "lock", "together", "all or none"):
        core = _fewer(relaxed, core, sorted(key for key in core if key[0] == kind), clock)
    musts = sorted((key for key in core if key[0] == "must come"), key=lambda key: (_mass_kg(relaxed, key), key))
    within = clock.part(MUSTS_S / max(MUSTS_S, clock.left()))
    few = _fewer(relaxed, core, musts, within)
    return sorted(few if sum(key[0] == "must come" for key in few) <= MOST_NAMED else core)


def _mass_kg(relaxed: Relaxed, key: Key) -> float:
    thing: Thing = relaxed.free.case.thing_named[key[1]]
    return thing.mass_kg.most * thing.count


def _fewer(relaxed: Relaxed, core: set[Key], group: Sequence[Key], clock: Clock) -> set[Key]:
    """A set without those of a group that can be dropped, many at a time first, the first of the group first."""
    group, size = list(group), max(1, len(group))
    while group and size >= 1:
        for start in range(0, len(group), size):
            part = set(group[start : start + size])
            if not clock.late() and relaxed.impossible(core - part, min(ONE_S, clock.left())) is True:
                core = core - part
        group = [key for key in group if key in core]
        size = 0 if size == 1 else size // 2
    return core


def _demands(asked: Asked, core: Sequence[Key]) -> Iterator[Demand]:
    case = asked.case
    things = tuple(subject for kind, subject in core if kind == "must come")
    yield from (lock_demand(asked.every_lock[int(n)]) for kind, n in core if kind == "lock")
    yield from (kit_together(case, kit) for kind, kit in core if kind == "together")
    yield from (all_or_none(case, name) for kind, name in core if kind == "all or none")
    for names in [things] if len(things) > MOST_APART else [(name,) for name in things]:
        yield must_come(case, names)
    yield from (reserve_kept(case) for kind, _ in core if kind == "reserve")
    yield from (limit_holds(case, subject) for kind, subject in core if kind == "limit")


def _says(asked: Asked, relaxed: Relaxed, core: set[Key], on: set[Key], clock: Clock) -> Iterator[str]:
    """By how much a limit is passed with all that is asked, where that can be told, else with what is told."""
    limits = sorted(subject for kind, subject in core if kind == "limit")
    others = ", as long as the other limits hold" if len(limits) > 1 else ""
    for subject in limits:
        if clock.late():
            break
        told, every = (relaxed.least_over_g(subject, which, min(ONE_S, clock.left())) for which in (core, on))
        if told > 0 or every > 0:
            whole = " with all that is asked" if every > 0 and _kg(told) != _kg(every) else ""
            more = "more than its tie-downs hold" if subject.startswith("tie-downs ") else "too much"
            least = f"{_kg(every or told)} {more}{whole}"
            yield f"{bearer(subject)} gets at least {least}, wherever things lie{others}{_kept(asked, core)}."
    locks = [asked.every_lock[int(n)] for kind, n in core if kind == "lock"]
    pieces = _pieces(relaxed, locks, core)
    kits = {kit for kind, kit in core if kind == "together"}
    yield from _nowhere_else(relaxed, locks, pieces) if limits else _crowded(relaxed, locks, pieces, kits)


def _kg(grams: int) -> str:
    return f"{grams / 1000:.{1 if grams >= 100 else 3}f} kg"


def bearer(subject: str) -> str:
    """What a limit is of, to begin a sentence with."""
    if subject == "with trailer":
        return "The total of vehicle and trailer"
    return f"The {subject}" if subject in OF_THE_VEHICLE else subject.partition(" ")[2]


def _kept(asked: Asked, core: set[Key]) -> str:
    return f", {asked.case.reserve_kg:g} kg of reserve kept" if ("reserve", "reserve") in core else ""


def _pieces(relaxed: Relaxed, locks: Sequence[Lock], core: set[Key]) -> list[Piece]:
    """The copies that the demands of a core speak of."""
    musts = {name for kind, name in core if kind in ("must come", "all or none")}
    return [piece for piece in relaxed.free.pieces if piece.thing.name in musts or locks_on(locks, piece.copy)]


def _open_to(relaxed: Relaxed, locks: Sequence[Lock], piece: Piece) -> list[int]:
    """Rooms that may take a piece, as far as some locks leave them open."""
    mine = locks_on(locks, piece.copy)
    return [room for room in relaxed.free.fits[piece.index] if all(relaxed.open(lock, room) for lock in mine)]


def _nowhere_else(relaxed: Relaxed, locks: Sequence[Lock], pieces: Sequence[Piece]) -> Iterator[str]:
    """Which of few things have only one or two spaces that may take them."""
    where = {piece.thing.name: _open_to(relaxed, locks, piece) for piece in pieces}
    few = {name: rooms for name, rooms in where.items() if 1 <= len(rooms) <= FEW_ROOMS}
    if few and len(where) <= MOST_NAMED:
        names = {name: " or ".join(relaxed.free.rooms[room].space.name for room in few[name]) for name in few}
        yield f"These may be nowhere else: {'; '.join(f'{name} in {rooms}' for name, rooms in names.items())}."


def _crowded(relaxed: Relaxed, locks: Sequence[Lock], pieces: Sequence[Piece], kits: Collection[str]) -> Iterator[str]:
    """Who may be where, with sizes, where no limit in kilograms takes part."""
    if not 1 <= len(pieces) <= MOST_NAMED:
        return
    apart = [*_apart(relaxed, pieces), *_kits(pieces, kits)]
    if apart:
        yield from apart
        return
    rooms = sorted({room for piece in pieces for room in _open_to(relaxed, locks, piece)})
    names = ", ".join(_sized(piece) for piece in pieces)
    if len(rooms) <= MOST_APART:
        spaces = " and ".join(
            f"{relaxed.free.rooms[room].space.name} ({' x '.join(map(str, relaxed.free.rooms[room].size))} mm)"
            for room in rooms
        )
        yield f"These have to share {spaces}, and by their sizes they do not all go in: {names}."
    else:
        yield f"These do not all find a space: {names}."


def _apart(relaxed: Relaxed, pieces: Sequence[Piece]) -> Iterator[str]:
    """Pairs that a rule keeps apart, with the rule."""
    shared = {
        "space": "one space",
        "locker": "one space or one locker",
        "air": "one volume of air",
        "wall": "neighbouring spaces",
    }
    for n, one in enumerate(pieces):
        for other in pieces[n + 1 :]:
            for veto in relaxed.free.vetoes.of[one.kind].get(other.kind, ()):
                yield f"{veto.rule.value}: {one.name} and {other.name} may not be in {shared[veto.level]}."


def _kits(pieces: Sequence[Piece], kits: Collection[str]) -> Iterator[str]:
    """Things of kits that have to be in one space."""
    for kit in sorted(kits):
        names = [piece.name for piece in pieces if piece.thing.kit == kit and piece.thing.together]
        if len(names) > 1:
            yield f"kit: {' and '.join(names)} stay together in one space, and none that is left open takes them all."


def _sized(piece: Piece) -> str:
    sides = piece.thing.size_mm
    size = f"{piece.thing.volume_l:g} L" if sides is None else f"{' x '.join(map(str, sides))} mm"
    return f"{piece.name} {size}"
