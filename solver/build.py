"""The exact model: room, shape and corner of the free pieces decided together, everything else constant.

Corners are whole millimetres on the vehicle's axes. Only pieces in one room can be in each other's way, so every pair
has one literal `together` that asks for room between them; six literals tell on which side.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from solver.blocks import Block, Body, Expr, Literal, Three, opposite, still_body
from solver.library import cp_model
from solver.literals import Literals
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import Lying, State, lying

WIDE_MM = 3000
"""How far outside all rooms a corner may be where rules are tried one by one."""


class Build(Literals):
    """Variables of a model under names of the trade; the rules add what must hold."""

    def __init__(
        self,
        problem: Problem,
        free: Sequence[Piece],
        rooms: Sequence[int],
        fixed: State | None = None,
        *,
        all_come: bool = False,
        every_room: bool = False,
    ) -> None:
        """`all_come`: every free piece is carried. `every_room`: also rooms that some rule keeps a piece out of."""
        super().__init__()
        self.problem = problem
        self.free = tuple(free)
        self.rooms = tuple(rooms)
        self.fixed = State(problem) if fixed is None else fixed
        self.every_room = every_room
        self._carried: dict[int, Literal] = {}
        self._forms: dict[int, dict[int, Literal]] = {}
        moving = [self._body(piece, all_come) for piece in self.free]
        here = [it for room in self.rooms for it in self.fixed.inside[room]]
        self.still = tuple(still_body(problem.pieces[it.piece], it) for it in here)
        self.moving = tuple(moving)
        self.bodies = (*self.moving, *self.still)
        self._of = {body.piece.index: body for body in self.bodies}

    # What is decided.

    def body(self, piece: Piece) -> Body:
        """A piece in the model."""
        return self._of[piece.index]

    def carried(self, piece: Piece) -> Literal:
        """Whether a piece comes along."""
        return self._carried.get(piece.index, piece.index in self.fixed.at)

    def inside(self, piece: Piece, room: int) -> Literal:
        """Whether a piece is in a room."""
        body = self._of.get(piece.index)
        if body is not None:
            return body.rooms.get(room, False)
        it = self.fixed.at.get(piece.index)
        return it is not None and it.room == room

    def form(self, piece: Piece, shape: int) -> Literal:
        """Whether a piece lies in one of its shapes."""
        return self._forms[piece.index].get(shape, False)

    def corner(self, piece: Piece) -> Three:
        """Least x, y and z of a piece in mm; 0 where it is not carried."""
        return self._of[piece.index].box.low

    def size(self, piece: Piece) -> Three:
        """Sides of a piece in mm; 0 where it is not carried."""
        box = self._of[piece.index].box
        return (box.high[0] - box.low[0], box.high[1] - box.low[1], box.high[2] - box.low[2])

    def middle2(self, piece: Piece, axis: int) -> Expr:
        """Twice the middle of a piece in mm; 0 where it is not carried."""
        box = self._of[piece.index].box
        return box.low[axis] + box.high[axis]

    # Making it.

    def _body(self, piece: Piece, comes: bool) -> Body:
        fits = self.problem.fits[piece.index]
        rooms = [room for room in self.rooms if self.every_room or room in fits]
        carried: Literal = True if comes else self.flag(("carried", piece.index), lambda s: piece.index in s.at)
        self._carried[piece.index] = carried
        inside = self._one_of(carried, [(r, self._is_in(piece, r)) for r in rooms], f"inside {piece.index}")
        shapes = self._shapes(piece, rooms)
        forms = self._one_of(carried, [(i, self._is_shaped(piece, i)) for i in shapes], f"form {piece.index}")
        self._forms[piece.index] = forms
        low = self._corner(piece, rooms, carried)
        sides = [piece.shapes[i] for i in forms]
        literals = list(forms.values())

        def total(values: Iterable[int]) -> Expr:
            return sum(value * literal for value, literal in zip(values, literals, strict=True) if literal is not False)

        def three(of: Callable[[int], Expr]) -> Three:
            return (of(0), of(1), of(2))

        high = three(lambda k: low[k] + total(s.size[k] for s in sides))
        box = Block(f"box {piece.index}", low, high, lambda s: s.at[piece.index].box if piece.index in s.at else None)
        if not any((*s.before, *s.behind) != (0,) * 6 for s in sides):
            return Body(piece, inside, box, box)
        big = Block(
            f"big {piece.index}",
            three(lambda k: low[k] - total(s.before[k] for s in sides)),
            three(lambda k: high[k] + total(s.behind[k] for s in sides)),
            lambda s: s.at[piece.index].big if piece.index in s.at else None,
        )
        return Body(piece, inside, box, big)

    def _shapes(self, piece: Piece, rooms: Sequence[int]) -> list[int]:
        if self.every_room:
            return list(range(len(piece.shapes)))
        fits = self.problem.fits[piece.index]
        return sorted({shape for room in rooms for shape in fits[room].shapes})

    @staticmethod
    def _is_in(piece: Piece, room: int) -> Callable[[State], bool]:
        return lambda s: piece.index in s.at and s.at[piece.index].room == room

    @staticmethod
    def _is_shaped(piece: Piece, shape: int) -> Callable[[State], bool]:
        return lambda s: piece.index in s.at and s.at[piece.index].shape == shape

    def _one_of(
        self, carried: Literal, choices: Sequence[tuple[int, Callable[[State], bool]]], name: str
    ) -> dict[int, Literal]:
        """One literal a choice, of which one is true where the piece is carried."""
        if len(choices) == 1:
            return {choices[0][0]: carried}
        made: dict[int, Literal] = {key: self.flag((name, key), meaning) for key, meaning in choices}
        if carried is True:
            self.model.add_exactly_one(made.values()) if made else self.model.add_bool_or([False])
        else:
            self.model.add(sum(made.values()) == carried)
        return made

    def _corner(self, piece: Piece, rooms: Sequence[int], carried: Literal) -> Three:
        return (
            self._place(piece, rooms, carried, 0),
            self._place(piece, rooms, carried, 1),
            self._place(piece, rooms, carried, 2),
        )

    def _place(self, piece: Piece, rooms: Sequence[int], carried: Literal, axis: int) -> Expr:
        spare = WIDE_MM if self.every_room else 0
        least = min((shape.size[axis] for shape in piece.shapes), default=0)
        spans = []
        for index in rooms:
            room = self.problem.rooms[index]
            spans.append([room.low[axis] - spare, max(room.low[axis], room.high[axis] - least) + spare])
        domain = cp_model.Domain.from_intervals(spans or [[0, 0]])
        if carried is not True:
            domain = domain.union_with(cp_model.Domain(0, 0))
        place = self.model.new_int_var_from_domain(domain, f"corner {piece.index} {axis}")
        if carried is not True:
            self.model.add(place == 0).only_enforce_if(opposite(carried))
        self._meanings.append((place, lambda s: s.at[piece.index].box[axis] if piece.index in s.at else 0))
        return place

    # Pairs.

    def pairs(self) -> Iterable[tuple[Body, Body]]:
        """Pairs of which one at least may move and that may be in one room."""
        for i, one in enumerate(self.moving):
            for other in (*self.moving[i + 1 :], *self.still):
                if not one.rooms.keys().isdisjoint(other.rooms):
                    yield one, other

    def together(self, one: Body, other: Body) -> Literal:
        """True whenever two bodies are in one room."""
        common = [(one.rooms[r], other.rooms[r]) for r in one.rooms if r in other.rooms]
        if not common:
            return False
        if len(common) == 1 and any(literal is True for literal in common[0]):
            return common[0][1] if common[0][0] is True else common[0][0]
        a, b = sorted((one.piece.index, other.piece.index))
        name = ("together", a, b)
        made = self.knows(name)
        flag = self.flag(name, lambda s: a in s.at and b in s.at and s.at[a].room == s.at[b].room)
        if not made:
            for here, there in common:
                self.clause(flag, opposite(here), opposite(there))
        return flag

    # Layouts.

    def fix(self, state: State) -> None:
        """Hold the free pieces where they are in a layout; what follows from it stays open."""
        for piece in self.free:
            it = state.at.get(piece.index)
            self.hold(self.carried(piece), it is not None)
            if it is not None:
                self.put(piece, it)

    def put(self, piece: Piece, it: Lying) -> None:
        """Hold a carried piece at a place."""
        self.hold(self.inside(piece, it.room))
        self.hold(self.form(piece, it.shape))
        for axis, place in enumerate(self.corner(piece)):
            self.model.add(place == it.box[axis])

    def read(self, solver: cp_model.CpSolver) -> State:
        """The layout that a search has found."""
        state = self.fixed.copy()
        for body in self.moving:
            piece = body.piece
            room = _told(solver, body.rooms)
            shape = _told(solver, self._forms[piece.index])
            if room is not None and shape is not None:
                x, y, z = (solver.value(place) for place in body.box.low)
                state.add(lying(self.problem, piece.index, room, shape, x, y, z))
        return state


def _told(solver: cp_model.CpSolver, choices: Mapping[int, Literal]) -> int | None:
    for key, literal in choices.items():
        if literal is True or (literal is not False and solver.boolean_value(literal)):
            return key
    return None
