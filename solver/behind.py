"""What stays behind where not all that came before can come: few copies, then few minutes, then little value."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, islice

from solver.clock import Budget
from solver.keeping import kept
from solver.leaving import without_company
from solver.misses import over_totals
from solver.pieces import Piece
from solver.pins import needed
from solver.problem import Problem
from solver.repack import score
from solver.state import State

MOST_AT_ONCE = 3
"""So many at most are left behind at once; where that is not enough, one after the other goes."""
MOST_LOOKED_AT = 60
"""So many choices of as many are looked at, the least wanted first."""

Group = tuple[int, ...]
"""Pieces that stay behind together, as one does not come without the other."""
Minutes = Callable[[State], float]
"""Minutes of re-packing that lead to a layout, what is taken out included."""


@dataclass(frozen=True)
class Left:
    """A layout that holds every limit, and what it leaves behind."""

    state: State
    gone: Group
    minutes: float
    moved: int
    """Copies that lie elsewhere than before; like copies that change names take no minutes and yet confuse."""
    value: int

    @property
    def dear(self) -> tuple[int, float, int, int, Group]:
        """Fewer copies first, then fewer minutes, then less value."""
        return len(self.gone), round(self.minutes, 3), self.moved, self.value, self.gone


def value(problem: Problem, gone: Group) -> int:
    """What some pieces are worth together."""
    return sum(problem.pieces[index].thing.carry or 0 for index in gone)


def groups(problem: Problem, wanted: Sequence[Piece]) -> list[Group]:
    """What may stay behind, each with what does not come without it; the least wanted first, of these the heaviest."""
    found: dict[Group, None] = {}
    for piece in wanted:
        gone = closed(problem, wanted, (piece.index,))
        if may_stay(problem, gone):
            found[gone] = None
    return sorted(found, key=lambda group: (value(problem, group), -_grams(problem, group), group))


def orders(problem: Problem, wanted: Sequence[Piece]) -> list[list[Group]]:
    """In which order one after the other stays behind, the better first.

    What passes a total takes the fewest copies where the heaviest go first, just as many of them as are enough.
    """
    least_wanted = groups(problem, wanted)
    if not too_heavy(problem, wanted):
        return [least_wanted]
    heaviest, gone = sorted(least_wanted, key=lambda group: -_grams(problem, group) / len(group)), list[Group]()
    left = wanted
    for group in heaviest:
        if too_heavy(problem, left):
            gone.append(group)
            left = rest(left, closed(problem, left, group))
    return [gone, least_wanted]


def closed(problem: Problem, wanted: Sequence[Piece], gone: Group) -> Group:
    """Pieces that stay behind, and of some that are wanted all that does not come without them."""
    every, behind = {piece.index for piece in wanted}, set(gone)
    while more := set(without_company(problem, every - behind)):
        behind |= more
    return tuple(sorted(behind))


def may_stay(problem: Problem, gone: Group) -> bool:
    """Whether none of some pieces has to come."""
    return not any(needed(problem, problem.pieces[index]) for index in gone)


def _grams(problem: Problem, group: Group) -> int:
    return sum(problem.pieces[index].heaviest_g for index in group)


def too_heavy(problem: Problem, pieces: Sequence[Piece]) -> bool:
    """Whether pieces pass a total that nothing but leaving some of them can help."""
    return any(over_totals(problem, lambda t: sum(piece.most_g[t] for piece in pieces)))


def few_behind(base: State, wanted: Sequence[Piece], before: State, minutes: Minutes, budget: Budget) -> list[Left]:
    """The fewest copies without which all else goes back or finds a place; those with the fewest minutes first."""
    problem, every = base.problem, groups(base.problem, wanted)
    for count in range(1, MOST_AT_ONCE + 1):
        found = [
            Left(state, gone, minutes(state), moved(state, before), value(problem, gone))
            for gone in _choices(problem, wanted, every, count)
            if not budget.over() and (state := _without(base, wanted, gone, before)) is not None
        ]
        if found:
            return sorted(found, key=lambda one: one.dear)
    return []


def _choices(problem: Problem, wanted: Sequence[Piece], every: Sequence[Group], count: int) -> Iterator[Group]:
    """So many groups at a time that are heavy enough, the least wanted first; nothing of the rest lacks one of them."""
    sets = {tuple(sorted({i for group in some for i in group})) for some in combinations(every, count)}
    enough = (gone for gone in sets if not too_heavy(problem, rest(wanted, gone)))
    ordered = sorted(enough, key=lambda gone: (len(gone), value(problem, gone), gone))
    whole = (gone for gone in ordered if closed(problem, wanted, gone) == gone)
    return islice(whole, MOST_LOOKED_AT)


def rest(wanted: Sequence[Piece], gone: Group) -> list[Piece]:
    """What comes when some stay behind."""
    return [piece for piece in wanted if piece.index not in gone]


def _without(base: State, wanted: Sequence[Piece], gone: Group, before: State) -> State | None:
    others = rest(wanted, gone)
    state = kept(base, others, before)
    return state if score(state, others, State.height_mm).holds else None


def moved(state: State, before: State) -> int:
    """How many copies lie elsewhere than before."""
    return sum(before.at[i].box != it.box for i, it in state.at.items() if i in before.at)
