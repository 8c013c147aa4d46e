"""Literals and numbers of a model, each with what it is in a given layout: the hint of a model is read off a layout.

A literal that is told `true` forces its meaning; told `false` it forces nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from solver.blocks import Block, Literal, opposite
from solver.library import cp_model
from solver.state import State


class Literals:
    """A model and its named literals."""

    def __init__(self) -> None:
        self.model = cp_model.CpModel()
        self._flags: dict[tuple[object, ...], cp_model.IntVar] = {}
        self._meanings: list[tuple[cp_model.IntVar, Callable[[State], int]]] = []

    def flag(self, name: tuple[object, ...], meaning: Callable[[State], bool]) -> cp_model.IntVar:
        """A literal by name, with what it is in a given layout."""
        found = self._flags.get(name)
        if found is None:
            found = self.model.new_bool_var(" ".join(map(str, name)))
            self._flags[name] = found
            self._meanings.append((found, meaning))
        return found

    def knows(self, name: tuple[object, ...]) -> bool:
        """Whether a literal has been made already."""
        return name in self._flags

    def number(self, name: str, span: tuple[int, int], meaning: Callable[[State], int]) -> cp_model.IntVar:
        """A whole number between two, with what it is in a given layout."""
        made = self.model.new_int_var(*span, name)
        self._meanings.append((made, meaning))
        return made

    def clause(self, *literals: Literal) -> None:
        """At least one of these."""
        if not any(literal is True for literal in literals):
            self.model.add_bool_or([literal for literal in literals if literal is not False])

    def when(self, literals: Iterable[Literal], condition: cp_model.BoundedLinearExpression | bool) -> None:
        """A condition that holds wherever all literals are true."""
        asked = [literal for literal in literals if literal is not True]
        if any(literal is False for literal in asked) or condition is True:
            return
        if condition is False:
            self.clause(*(opposite(literal) for literal in asked))
            return
        row = self.model.add(condition)
        if asked:
            row.only_enforce_if(asked)

    def hold(self, literal: Literal, told: bool = True) -> None:
        """Decide a literal."""
        self.clause(literal if told else opposite(literal))

    def before(self, one: Block, other: Block, axis: int, gap_mm: int = 0) -> Literal:
        """Whether one block ends at least a gap before another begins, along an axis."""
        end, begin = one.high[axis], other.low[axis]
        if isinstance(end, int) and isinstance(begin, int):
            return end + gap_mm <= begin
        name = ("before", one.name, other.name, axis, gap_mm)
        known = self._flags.get(name)
        if known is not None:
            return known

        def meaning(state: State) -> bool:
            a, b = one.seen(state), other.seen(state)
            return a is not None and b is not None and a[axis + 3] + gap_mm <= b[axis]

        flag = self.flag(name, meaning)
        self.model.add(end + gap_mm <= begin).only_enforce_if(flag)
        return flag

    def clear(self, one: Block, other: Block) -> list[Literal]:
        """Six literals of which one must be true for two blocks not to meet."""
        return [self.before(a, b, axis) for axis in range(3) for a, b in ((one, other), (other, one))]

    def hint(self, state: State) -> None:
        """Tell the search where everything is in a layout."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for variable, meaning in self._meanings:
            self.model.add_hint(variable, meaning(state))
