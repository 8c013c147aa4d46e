"""What stays behind where not all that came before can come: few copies, then few minutes, then little value."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import islice

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
MOST_WEIGHED = 30_000
"""Of so many choices of as many at most it is asked whether they are heavy enough."""
MOST_LOOKED_AT = 60
"""So many choices of as many are looked at, the least wanted first."""
COUNTED = 20
"""Corners that it counts to ask whether what a choice takes away is heavy enough."""

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
            for gone in islice(_choices(problem, wanted, every, count, budget), MOST_LOOKED_AT)
            if not budget.over() and (state := _without(base, wanted, gone, before)) is not None
        ]
        if found:
            return sorted(found, key=lambda one: one.dear)
    return []


def _choices(
    problem: Problem, wanted: Sequence[Piece], every: Sequence[Group], count: int, budget: Budget
) -> Iterator[Group]:
    """So many groups at a time that are heavy enough, the least wanted first; nothing of the rest lacks one of them."""
    some, seen = _able(problem, wanted, every, count), set[Group]()
    loads = [sum(piece.most_g[t] for piece in wanted) for t in range(len(problem.stages))]
    for gone in islice(_by_value(problem, some, count), MOST_WEIGHED):
        if budget.over():
            return
        problem.work += COUNTED
        if gone in seen or any(over_totals(problem, lambda t: loads[t] - _relief_g(problem, gone, t))):  # noqa: B023
            continue
        seen.add(gone)
        if closed(problem, wanted, gone) == gone:
            yield gone


def _able(problem: Problem, wanted: Sequence[Piece], every: Sequence[Group], count: int) -> list[Group]:
    """The groups that are heavy enough together with the heaviest others, of so many at a time."""
    found = list(every)
    for t in problem.driving:
        heaviest = sorted((_relief_g(problem, group, t) for group in every), reverse=True)
        load = sum(piece.most_g[t] for piece in wanted) - sum(heaviest[: count - 1])
        left = min((left for _, left in problem.constants.stages[t].totals), default=load)
        found = [group for group in found if load - _relief_g(problem, group, t) <= left]
    return found


def _by_value(problem: Problem, some: Sequence[Group], count: int) -> Iterator[Group]:
    """So many groups at a time, made only as asked for: the fewest copies first, then least wanted, then heaviest."""

    def dear(group: Group) -> tuple[int, int, int, Group]:
        return len(group), value(problem, group), -_grams(problem, group), group

    ordered = sorted(some, key=dear)
    keys = [dear(group)[:3] for group in ordered]

    def whole(at: tuple[int, ...]) -> tuple[tuple[int, ...], Group, tuple[int, ...]]:
        union = tuple(sorted({i for n in at for i in ordered[n]}))
        return tuple(map(sum, zip(*(keys[n] for n in at), strict=True))), union, at

    waiting, met = [whole(tuple(range(count)))] if count <= len(ordered) else [], set[tuple[int, ...]]()
    while waiting:
        _, gone, at = heappop(waiting)
        yield gone
        for n, one in enumerate(at):
            after = (*at[:n], one + 1, *at[n + 1 :])
            if one + 1 < (*at, len(ordered))[n + 1] and after not in met:
                met.add(after)
                heappush(waiting, whole(after))


def _relief_g(problem: Problem, gone: Group, stage: int) -> int:
    return sum(problem.pieces[index].most_g[stage] for index in gone)


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
