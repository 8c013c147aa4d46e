"""What has to come: because a person says so, or because what has to come does not come without it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from solver.pieces import Piece
    from solver.problem import Problem

Coming = Mapping[int, int | None]
"""By piece that has to come: the piece that brings it along; None where somebody asks for it itself."""


def coming(problem: Problem, *, musts: bool = True) -> Coming:
    """Every piece that has to come, what it does not come without included, as far as no lock keeps that at home.

    With `musts` False, for locks alone.
    """
    found: dict[int, int | None] = {p.index: None for p in problem.pieces if _asked_for(problem, p, musts=musts)}
    waiting = sorted(found)
    for index in waiting:  # it grows while it is gone through
        for other in brought(problem, index, found):
            found[other] = index
            waiting.append(other)
    return found


def _asked_for(problem: Problem, piece: Piece, *, musts: bool) -> bool:
    fixed = problem.fixed[piece.index]
    return not fixed.at_home and ((musts and piece.thing.must) or fixed.carried)


def brought(problem: Problem, index: int, found: Collection[int]) -> Iterator[int]:
    """What a piece does not come without and is not there yet: copies that come all or none, one of each companion."""
    thing = problem.pieces[index].thing
    if thing.all_or_none:
        yield from (i for i in free_copies(problem, thing.name) if i not in found)
    for name in thing.with_:
        if not any(i in found for i in copies_of(problem, name)):
            # One without a place comes too, so that it is told that there is none.
            yield from (companions(problem, name) or free_copies(problem, name))[:1]


def copies_of(problem: Problem, name: str) -> list[int]:
    """All copies of a thing."""
    return [piece.index for piece in problem.pieces if piece.thing.name == name]


def free_copies(problem: Problem, name: str) -> list[int]:
    """Copies of a thing that no lock keeps at home."""
    return [index for index in copies_of(problem, name) if not problem.fixed[index].at_home]


def companions(problem: Problem, name: str) -> list[int]:
    """Copies of a thing that may come along and have a place by themselves; first what a plan before carries."""
    able = [index for index in free_copies(problem, name) if problem.fits[index]]
    return sorted(able, key=lambda index: (problem.pieces[index].copy not in problem.aboard, index))
