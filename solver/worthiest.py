"""More value below a height: what comes and where it lies chosen together, from patterns seen so far."""

from collections import Counter
from collections.abc import Sequence
from math import floor
from random import Random

from solver.choose import Unit
from solver.clock import Clock
from solver.grow import grow
from solver.halves import HALVES, Half, Search, in_halves
from solver.leaving import without_company
from solver.master import Counts, master
from solver.patterns import Patterns, patterns_of
from solver.pieces import Piece
from solver.prices import Aim
from solver.recombine import THOROUGH, Goal, Relaxed, chosen_columns, lawful, layout, relaxed_choice
from solver.repack import score
from solver.state import Lying, State, laid

Content = tuple[Lying, ...]
Patterned = list[tuple[int, Content]]
"""What has lain in single rooms."""
GROWN = 2
"""How often patterns are grown before a choice at effort 1."""
GROWN_CORNERS = 0.15e6
"""Corners looked at by each half each time at effort 1."""


def worthiest(
    state: State,
    must: Sequence[Piece],
    offered: Sequence[Unit],
    highest_mm: float,
    random: Random,
    clock: Clock,
    effort: float,
) -> State:
    """A layout that carries more value below a height; the same one where none was found."""
    chances = Random(random.random()), Random(random.random())

    def begin(half: Half) -> Search[Patterned, Content | None]:
        return _searched(half, half.own(state), must, offered, highest_mm, chances[half.side], clock, effort)

    found = in_halves(begin, begin if effort >= HALVES else None, clock.left())[0]
    return state if found is None else laid(state.problem, found, state.locked)


def _searched(
    half: Half,
    state: State,
    must: Sequence[Piece],
    offered: Sequence[Unit],
    highest_mm: float,
    random: Random,
    clock: Clock,
    effort: float,
) -> Search[Patterned, Content | None]:
    """Both halves grow patterns and tell each other; the first chooses."""
    patterns = patterns_of(state)
    counts, aim = _counts(patterns, must, offered, state), _aim(patterns, highest_mm)
    for _ in range(max(1, round(GROWN * effort))):
        relaxed = None if clock.late() else relaxed_choice(master(patterns, counts), aim)
        if relaxed is None:
            return None
        heights, corners = patterns.heights(), GROWN_CORNERS * min(1.0, effort)
        grow(relaxed, -relaxed.prices.least - state.value(), random, clock, corners, half=half)
        for room, things in (yield patterns.newer(heights)) or ():
            patterns.add(room, things)
    if half.side == 1 or clock.late():
        return None
    found = _chosen(patterns, counts, aim, state, clock)
    return None if found is None else tuple(found.at.values())


def worthiest_seen(
    state: State, must: Sequence[Piece], offered: Sequence[Unit], highest_mm: float, clock: Clock
) -> State:
    """As `worthiest`, of what has been seen so far alone."""
    if clock.late():
        return state
    patterns = patterns_of(state)
    found = _chosen(patterns, _counts(patterns, must, offered, state), _aim(patterns, highest_mm), state, clock)
    return state if found is None else found


def _chosen(patterns: Patterns, counts: Counts, aim: Aim, state: State, clock: Clock) -> State | None:
    """A choice of patterns that is worth more than a layout, where it holds."""
    relaxed = relaxed_choice(master(patterns, counts), aim)
    found = None if relaxed is None else _choice(relaxed, state, clock)
    if found is None:
        return None
    now = score(found, found.carried(), State.height_mm)
    low = aim.highest_mm is None or now.cost <= aim.highest_mm
    return found if now.holds and low and not without_company(found.problem, found.at) and lawful(found) else None


def _counts(patterns: Patterns, must: Sequence[Piece], offered: Sequence[Unit], state: State) -> Counts:
    least = Counter(patterns.classes[piece.index] for piece in must)
    optional = {index for unit in offered for index in unit.pieces} | set(state.at)
    most = least + Counter(patterns.classes[index] for index in optional - {piece.index for piece in must})
    together: dict[int, list[int]] = {}
    for number in most:
        piece = patterns.members[number][0]
        if piece.thing.all_or_none and most[number] > least[number]:
            together.setdefault(piece.kind, []).append(number)
    return Counts(least, most, tuple(map(tuple, together.values())))


def _aim(patterns: Patterns, highest_mm: float) -> Aim:
    problem = patterns.problem
    stages = [problem.constants.stages[t] for t in problem.driving]
    worth = {number: members[0].thing.carry or 0 for number, members in patterns.members.items()}
    return Aim(tuple(k.mass_g for k in stages), tuple(k.moment[2] for k in stages), highest_mm, worth)


def _choice(relaxed: Relaxed, state: State, clock: Clock) -> State | None:
    """The choice of columns that is worth the most, where it is worth more than a layout."""
    aim = relaxed.aim
    stages = zip(aim.mass_g, aim.moment, strict=True)
    most2 = [floor(2 * ((aim.highest_mm or 0.0) * mass - moment)) for mass, moment in stages]
    cost = [-aim.worth(column) for column in relaxed.master.columns]
    goal = Goal(most2, cost, -state.value() - 1)
    chosen = chosen_columns(relaxed, -relaxed.prices.least - state.value(), goal, clock, THOROUGH)
    return None if chosen is None else layout(relaxed.master.patterns, chosen, state)
