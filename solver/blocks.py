"""What takes up room in the exact model: pieces that may move, pieces that lie still, and fixed boxes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from solver.library import cp_model, cp_model_helper
from solver.pieces import Piece, Six
from solver.state import Lying, State

Expr = cp_model.LinearExpr | int
"""A whole number, decided or still open."""
Literal = cp_model_helper.Literal | bool
"""Yes or no, decided or still open; a Python bool when decided."""
Three = tuple[Expr, Expr, Expr]
"""Along x, y and z."""


@dataclass(frozen=True)
class Block:
    """A box by its least and greatest corner in mm, and where it is in a layout."""

    name: str
    low: Three
    high: Three
    seen: Callable[[State], Six | None] = field(compare=False)
    """The box in a layout; None where it is not carried."""


@dataclass(frozen=True)
class Body:
    """A piece in the model, moving or still."""

    piece: Piece
    rooms: Mapping[int, Literal]
    """By room it may be in: whether it is there."""
    box: Block
    big: Block
    """The box with air gaps; the box itself where there are none."""
    still: Lying | None = None
    """Where it lies, for a piece that does not move."""

    @property
    def airy(self) -> bool:
        """Whether it needs free air around it."""
        return self.big is not self.box


def fixed_block(name: str, six: tuple[int, ...]) -> Block:
    """A box that never moves."""
    a, b, c, d, e, f = six
    return Block(name, (a, b, c), (d, e, f), lambda _: (a, b, c, d, e, f))


def still_body(piece: Piece, it: Lying) -> Body:
    """A piece that lies still."""
    box = fixed_block(f"box {piece.index}", it.box)
    big = box if it.big == it.box else fixed_block(f"big {piece.index}", it.big)
    return Body(piece, {it.room: True}, box, big, it)


def opposite(literal: Literal) -> Literal:
    """The other answer."""
    return not literal if isinstance(literal, bool) else ~literal
