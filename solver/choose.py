"""Which optional things come: the most value within a height of carrying the musts alone."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from random import Random
from typing import NamedTuple

from models.case import Copy
from solver.answers import Level
from solver.clock import Budget, Clock
from solver.coming import companions, copies_of
from solver.halves import HALVES, Half, Search, at_once, in_halves
from solver.insert import places, put
from solver.patterns import patterns_of
from solver.pieces import Piece
from solver.problem import Problem
from solver.repack import Repacker, score
from solver.state import Lying, State, laid
from solver.staying import led, told, too_much
from solver.worth import value_bound

LOOK_CORNERS = 1.1e6
"""Corners looked at in all for one look at what stays at home; after that only free places are taken, at effort 1."""
TRY_CORNERS = 0.15e6
"""Corners looked at to make room for one more unit at effort 1."""
MOST_PLACES = 40
"""So many places of one more thing are tried while all the rest stays where it is."""
MOST_STEPS = 100_000
"""A fuse, far above what a budget allows."""


@dataclass(frozen=True)
class Unit:
    """Copies that come together or not at all."""

    pieces: tuple[int, ...]
    value: int


@dataclass(frozen=True)
class Choice:
    """What comes, how good the choice is, and why the rest stays."""

    state: State
    level: Level
    reasons: dict[Copy, str]
    offered: tuple[Unit, ...]
    """Everything that might have come, in the order of trying."""


class Found(NamedTuple):
    """What one half of a search comes upon."""

    value: int
    height_mm: float
    things: tuple[Lying, ...]
    reasons: dict[Copy, str]
    patterns: list[tuple[int, tuple[Lying, ...]]]
    """What it has seen in single rooms on the way."""


class Terms(NamedTuple):
    """On what terms things may come along."""

    highest_mm: float
    """Height that the layout may reach."""
    random: Random
    clock: Clock
    effort: float
    """Share of the corners of a whole search; with 0 only free places are taken."""


def units(problem: Problem, must: Sequence[Piece]) -> list[Unit]:
    """Optional copies with what they need, most value first, of like value the lightest."""
    needed = {piece.index for piece in must}
    made: list[Unit] = []
    for kind, thing in enumerate(problem.things):
        for group in _groups(problem, kind, needed):
            companions = _companions(problem, group, needed)
            if companions is not None:
                made.append(Unit(tuple(dict.fromkeys([*group, *companions])), (thing.carry or 0) * len(group)))
    return sorted(made, key=lambda u: (-u.value, _grams(problem, u), u.pieces))


def _groups(problem: Problem, kind: int, needed: set[int]) -> list[list[int]]:
    """Optional copies of a kind, as many together as come together."""
    thing = problem.things[kind]
    mine = (piece.index for piece in problem.pieces if piece.kind == kind and piece.index not in needed)
    able = [index for index in mine if not problem.fixed[index].at_home and problem.fits[index]]
    if not thing.all_or_none:
        return [[index] for index in able]
    return [able] if len(able) == thing.count else []


def _grams(problem: Problem, unit: Unit) -> int:
    return sum(problem.pieces[index].heaviest_g for index in unit.pieces)


def _companions(problem: Problem, group: list[int], needed: set[int]) -> list[int] | None:
    """Optional copies that the group cannot come without; None when one can never come."""
    found: list[int] = []
    waiting = list(problem.pieces[group[0]].thing.with_)
    while waiting:
        name = waiting.pop()
        if any(index in needed or index in found or index in group for index in copies_of(problem, name)):
            continue
        able, thing = companions(problem, name), problem.case.thing_named[name]
        if len(able) < (thing.count if thing.all_or_none else 1):
            return None
        found += able if thing.all_or_none else able[:1]
        waiting.extend(thing.with_)
    return found


def choose(
    state: State, must: Sequence[Piece], highest_mm: float, random: Random, clock: Clock, effort: float
) -> Choice:
    """Add units while limits and height (in mm) hold; what does not fit at once gets some repacking."""
    offered = units(state.problem, must)
    indices = [piece.index for piece in must]
    bound, favoured = None, set[int]()
    if not clock.late():
        bound, favoured = value_bound(state.problem, indices, offered, highest_mm, clock.left() / 4)
    offered.sort(key=lambda u: (not set(u.pieces) <= favoured, -u.value, u.pieces))
    free = float(sum(piece.thing.carry or 0 for piece in must))
    most = None if bound is None else bound + free
    return _added(state, offered, most, Terms(highest_mm, random, clock, effort))


def choose_again(
    choice: Choice, state: State, highest_mm: float, random: Random, clock: Clock, effort: float
) -> Choice:
    """The same once the layout stands lower than when the choice was made: what stayed at home gets another try."""
    return _added(state, choice.offered, choice.level.bound, Terms(highest_mm, random, clock, effort))


def _added(state: State, offered: Sequence[Unit], most: float | None, terms: Terms) -> Choice:
    """The better of what two halves add, each in an order of its own; `most`: the bound on the value."""
    chances = Random(terms.random.random()), Random(terms.random.random())

    def begin(half: Half) -> Search[None, Found]:
        order = sorted(offered, key=partial(_for_its_mass, state.problem)) if half.side == 1 else offered
        mine = terms._replace(random=chances[half.side], clock=half.told(terms.clock))
        return at_once(partial(_filled, half.own(state), order, mine))

    missing = any(index not in state.at for unit in offered for index in unit.pieces)
    beside = begin if missing and terms.effort >= HALVES else None
    best = max(in_halves(begin, beside, terms.clock.left()), key=_worth)
    for room, things in best.patterns:
        patterns_of(state).add(room, things)
    chosen = laid(state.problem, best.things, state.locked)
    return Choice(chosen, _level(best.value, most), best.reasons, tuple(offered))


def _level(value: float, most: float | None) -> Level:
    proven = most is not None and value >= most - 1e-6
    return Level("value carried", float(value), most, "value", "proven" if proven else "found")


def _worth(found: Found) -> tuple[int, float]:
    return found.value, -found.height_mm


def _for_its_mass(problem: Problem, unit: Unit) -> tuple[float, tuple[int, ...]]:
    return -unit.value / max(1, _grams(problem, unit)), unit.pieces


def _filled(state: State, offered: Sequence[Unit], terms: Terms) -> Found:
    """A layout with what could be added in an order."""
    problem, heights = state.problem, patterns_of(state).heights()
    wanted = state.carried()
    reasons: dict[Copy, str] = {}
    look = Budget(problem, terms.clock, LOOK_CORNERS * terms.effort)
    for unit in offered:
        extra = [problem.pieces[index] for index in unit.pieces if index not in state.at]
        if not extra:
            continue
        taken = take(state, wanted, extra, terms._replace(effort=0.0) if look.over() else terms)
        terms.clock.tell("what comes", state.height_mm(), None)
        if isinstance(taken, State):
            state, wanted = taken, wanted + extra
        else:
            reasons.update({piece.copy: taken for piece in led(extra)})
    gone = {c: why for c, why in reasons.items() if problem.piece_of[c] not in state.at}
    seen = patterns_of(state).newer(heights)
    return Found(state.value(), state.height_mm(), tuple(state.at.values()), gone, seen)


def take(state: State, wanted: list[Piece], extra: list[Piece], terms: Terms) -> State | str:
    """The layout with the extra pieces too, or why not."""
    quick, everything = state.copy(), [*wanted, *extra]
    missing = [piece for piece in wanted if piece.index not in state.at]
    if all(put(quick, piece) for piece in [*extra, *missing]):
        if _holds(quick, everything, terms.highest_mm):
            return quick
        if len(extra) == 1 and not missing and (found := _somewhere(state, extra[0], everything, terms)) is not None:
            return found
    why = too_much(state, extra)
    return why or _repacked(state, quick, everything, extra, terms)


def _holds(state: State, everything: Sequence[Piece], highest_mm: float) -> bool:
    now = score(state, everything, State.height_mm)
    return now.holds and now.cost <= highest_mm


def _somewhere(state: State, extra: Piece, everything: Sequence[Piece], terms: Terms) -> State | None:
    """The layout with one more piece at the lowest of its places where all holds: an axle may ask for another."""
    ways = (islice(places(state, extra, random=chance), MOST_PLACES) for chance in (None, terms.random))
    for it in chain.from_iterable(ways):
        trial = state.copy()
        trial.add(it)
        if _holds(trial, everything, terms.highest_mm):
            return trial
    return None


def _repacked(before: State, begun: State, everything: list[Piece], extra: list[Piece], terms: Terms) -> State | str:
    """A layout that holds everything, made by repacking one that was begun; or what the best one lacks."""
    highest_mm = terms.highest_mm
    # What lies below the height that is allowed is all the same: only more room counts.
    work = Repacker(begun, everything, lambda s: max(highest_mm, s.height_mm()), terms.random, 0.0)
    if terms.effort > 0:
        budget = Budget(before.problem, terms.clock, TRY_CORNERS * terms.effort)
        work.run(MOST_STEPS, budget.over, lambda s: s.holds and s.cost <= highest_mm)
    best = work.best_score
    if best.holds and best.cost <= highest_mm:
        return work.best
    return told(work.best, before, extra, best, highest_mm)
