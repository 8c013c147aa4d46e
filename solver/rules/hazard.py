"""hazard: air, holder, heat and can by the static exclusions; amounts by rows."""

from collections.abc import Callable, Sequence
from math import ceil, floor

from models.rulebook import Totals
from models.rules import Rule
from solver.build import Build
from solver.exclusions import exclude
from solver.pieces import Piece
from solver.rows import at_most


def add(build: Build) -> None:
    """Exclusions, then litres, kilograms and counts in one air and in the vehicle."""
    exclude(build, Rule.HAZARD)
    _upright(build)
    words = sorted({piece.thing.hazard for piece in build.free if piece.thing.hazard})
    for word in words:
        _in_air(build, word)
    for counted, totals in build.problem.totals.values():
        if not set(words).isdisjoint(counted):
            _in_all(build, counted, totals)


def _upright(build: Build) -> None:
    for piece in build.free:
        hazard = build.problem.case.rulebook.hazards.get(piece.thing.hazard or "")
        if hazard is not None and hazard.upright and piece.thing.size_mm is not None:
            for number, shape in enumerate(piece.shapes):
                if not shape.turn.endswith("h"):
                    build.hold(build.form(piece, number), False)


def _litres(piece: Piece) -> int:
    return ceil((piece.thing.holds_l or 0.0) * 1e6 - 1e-3)


def _kilos(piece: Piece) -> int:
    return ceil((piece.thing.net_kg or 0.0) * 1e6 - 1e-3)


def _one(_: Piece) -> int:
    return 1


Amount = Callable[[Piece], int]
"""Millionths of a litre or of a kilogram, or pieces."""


def _of(build: Build, *words: str) -> tuple[list[Piece], list[Piece]]:
    free = [piece for piece in build.free if piece.thing.hazard in words]
    still = [build.problem.pieces[index] for index in sorted(build.fixed.at)]
    return free, [piece for piece in still if piece.thing.hazard in words]


def _row(build: Build, free: Sequence[Piece], rooms: Sequence[int], amount: Amount, left: int) -> None:
    held = [amount(p) * build.inside(p, r) for p in free for r in rooms if r in build.body(p).rooms]
    at_most(build, sum(held), left)


def _in_air(build: Build, word: str) -> None:
    case = build.problem.case
    free, still = _of(build, word)
    for air, kind in sorted(case.vehicle.air.items()):
        bound = case.rulebook.hazards[word].air.get(kind)
        rooms = [room.index for room in build.problem.rooms if room.space.air == air]
        if bound is None:
            continue
        for limit, amount in ((bound.up_to_l, _litres), (bound.up_to_kg, _kilos)):
            if limit is not None:
                used = sum(amount(p) for p in still if build.fixed.at[p.index].room in rooms)
                _row(build, free, rooms, amount, floor(limit * 1e6 + 1e-3) - used)


def _in_all(build: Build, words: tuple[str, ...], totals: Totals) -> None:
    free, still = _of(build, *words)
    bounds: list[tuple[int | None, Amount]] = [
        (_millionths(totals.total_l), _litres),
        (_millionths(totals.total_kg), _kilos),
        (totals.total_count, _one),
    ]
    for limit, amount in bounds:
        if limit is not None:
            carried = [amount(piece) * build.carried(piece) for piece in free]
            at_most(build, sum(carried), limit - sum(amount(piece) for piece in still))


def _millionths(limit: float | None) -> int | None:
    return None if limit is None else floor(limit * 1e6 + 1e-3)
