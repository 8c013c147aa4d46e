"""Sums over the carried pieces as rows of the model, in grams and in grams times half millimetres."""

from collections.abc import Callable

from solver.blocks import Expr
from solver.build import Build
from solver.pieces import Piece


def mass_g(build: Build, grams: Callable[[Piece], int]) -> Expr:
    """Grams of all free pieces that come."""
    return sum(grams(p) * build.carried(p) for p in build.free if grams(p))


def inside_g(build: Build, room: int, grams: Callable[[Piece], int]) -> Expr:
    """Grams of free pieces in a room."""
    return sum(grams(p) * build.inside(p, room) for p in build.free if room in build.body(p).rooms and grams(p))


def moment2(build: Build, axis: int, grams: Callable[[Piece], int]) -> Expr:
    """Moment of all free pieces along an axis, in grams times half millimetres."""
    return sum(grams(p) * build.middle2(p, axis) for p in build.free if grams(p))


def at_most(build: Build, value: Expr, limit: int) -> None:
    """A limit on a sum; a sum without open parts is compared at once."""
    build.when((), value <= limit)
