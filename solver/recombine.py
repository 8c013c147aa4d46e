"""The best layout that can be put together from patterns seen in other layouts."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import floor

import numpy as np

from solver.clock import Clock
from solver.lanes import lane
from solver.library import cp_model
from solver.limits import room_for_company, room_for_mass
from solver.master import Master, Row, exactly, master
from solver.neighbourhood import LEAST_GAIN_MM, Effort, solver_with
from solver.patterns import Pattern, Patterns, patterns_of
from solver.pieces import Piece
from solver.prices import Aim, Prices, prices
from solver.repack import score
from solver.state import State

QUICK = ((400, 0.2),)
"""Columns that the exact choice is made of, those that cost the relaxed choice the least, and its work in the library's
own unit, about a second."""
THOROUGH = (*QUICK, (800, 0.4))
"""The same twice: more columns where the first hold no better choice."""
FEW = 6
"""So many columns of every class and of every room are kept at least."""


@dataclass(frozen=True)
class Relaxed:
    """A relaxed choice of patterns: what it is made of, what it is after, and its prices."""

    master: Master
    aim: Aim
    prices: Prices
    alone: dict[int, dict[int, float]] = field(default_factory=dict)
    """By room: what one of every class would cost there by itself, once it has been asked (`grow.costs_alone`)."""


def lowest(state: State) -> Relaxed | None:
    """The relaxed choice for what a layout carries, as low as can be; None where nothing is ever driven."""
    patterns = patterns_of(state)
    whole = master(patterns, exactly(patterns, state.at))
    return relaxed_choice(whole, height_aim(state)) if state.problem.driving else None


def height_aim(state: State) -> Aim:
    """As low as can be with what a layout carries."""
    problem = state.problem
    stages = [(problem.constants.stages[t], lane(state.sums.likely_g, t)) for t in problem.driving]
    return Aim(tuple(k.mass_g + grams for k, grams in stages), tuple(k.moment[2] for k, _ in stages))


def relaxed_choice(whole: Master, aim: Aim) -> Relaxed | None:
    """The relaxed choice; None where the columns allow of none."""
    found = prices(whole, aim)
    if found is not None:
        whole.patterns.rate(whole.columns, found.cost, whole.counts.settled)
    return None if found is None else Relaxed(whole, aim, found)


def recombined(
    state: State,
    wanted: Sequence[Piece],
    relaxed: Relaxed | None,
    clock: Clock,
    looks: Sequence[tuple[int, float]] = QUICK,
) -> State:
    """A lower layout of the same things from the columns of a relaxed choice; the same one where there is none.

    It may run beside the search: nothing that a search changes is looked at.
    """
    now = score(state, wanted, State.height_mm)
    if relaxed is None or not now.holds:
        return state
    found = put_together(relaxed, state, now.cost, clock, looks)
    return found if found is not None and score(found, wanted, State.height_mm) < now else state


def put_together(
    relaxed: Relaxed, before: State, highest_mm: float, clock: Clock, looks: Sequence[tuple[int, float]]
) -> State | None:
    """The lowest layout below a height from the columns of a relaxed choice; None where none was found.

    `before`: a layout of the same things, lawful or not; its highest stage is made low.
    """
    driving, aim = before.problem.driving, relaxed.aim
    top = before.top()
    most2 = [
        floor(2 * ((highest_mm - (LEAST_GAIN_MM if n == top else 0.0)) * aim.mass_g[n] - aim.moment[n]))
        for n in range(len(driving))
    ]
    cost = [int(column.height2[top]) for column in relaxed.master.columns]
    chosen = chosen_columns(relaxed, highest_mm - relaxed.prices.least, Goal(most2, cost, None), clock, looks)
    found = None if chosen is None else layout(relaxed.master.patterns, chosen, before)
    return found if found is not None and lawful(found) else None


@dataclass(frozen=True)
class Goal:
    """What the exact choice has to hold and what it makes small."""

    most2: Sequence[int]
    """By driving stage: the greatest moment that counts, in grams times half millimetres."""
    cost: Sequence[int]
    """By column."""
    below: int | None
    """What the sum of the costs may be at most; None: anything."""


def chosen_columns(
    relaxed: Relaxed, most: float, goal: Goal, clock: Clock, looks: Sequence[tuple[int, float]]
) -> list[Pattern] | None:
    """The patterns of the choice that costs least; None where none was found.

    Only columns are looked at that a relaxed choice would take for less than `most`.
    """
    good = [j for cost, j in sorted((cost, j) for j, cost in enumerate(relaxed.prices.cost)) if cost < most]
    for count, work in looks:
        kept = _kept(relaxed.master, good, count)
        status, chosen = _solved(relaxed, kept, goal, Effort(work, min(5.0, clock.left())))
        if status != cp_model.INFEASIBLE or count >= len(good) or clock.late():
            break
    return chosen


def _kept(whole: Master, good: Sequence[int], count: int) -> list[int]:
    """The first of some columns, and of every class and room at least a few."""
    kept, few = set(good[:count]), Counter[tuple[str, int]]()
    for j in good:
        names = [("room", whole.columns[j].room), *(("class", number) for number, _ in whole.columns[j].counts)]
        if j in kept or any(few[name] < FEW for name in names):
            kept.add(j)
            few.update(names)
    return sorted(kept)


def _solved(
    relaxed: Relaxed, kept: Sequence[int], goal: Goal, effort: Effort
) -> tuple[cp_model.CpSolverStatus, list[Pattern] | None]:
    model, columns = cp_model.CpModel(), relaxed.master.columns
    taken = {j: model.new_bool_var("") for j in kept}
    for row in relaxed.master.rows(kept):
        _add(model, row, taken)
    for numbers in relaxed.master.counts.whole:
        _all_or_none(model, relaxed.master, numbers, taken)
    literals = list(taken.values())
    up2 = np.ceil(relaxed.aim.all_up2([columns[j] for j in kept])).astype(np.int64)
    for n, most in enumerate(goal.most2):
        model.add(cp_model.LinearExpr.weighted_sum(literals, up2[:, n].tolist()) <= most)
    total = cp_model.LinearExpr.weighted_sum(literals, [goal.cost[j] for j in kept])
    if goal.below is not None:
        model.add(total <= goal.below)
    model.minimize(total)
    solver = solver_with(effort)
    solver.parameters.linearization_level = 2
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return status, None
    return status, [columns[j] for j in kept if solver.boolean_value(taken[j])]


def _add(model: cp_model.CpModel, row: Row, taken: Mapping[int, cp_model.IntVar]) -> None:
    """A row over the columns that are kept."""
    here = [(taken[j], share) for j, share in zip(row.columns, row.shares, strict=True) if j in taken]
    literals, shares = [literal for literal, _ in here], [share for _, share in here]
    if row.least is None and row.most == 1 and set(shares) <= {1}:
        model.add_at_most_one(literals)
        return
    total = cp_model.LinearExpr.weighted_sum(literals, shares) if here else cp_model.LinearExpr.sum([0])
    if row.most is not None:
        model.add(total <= row.most)
    if row.least is not None:
        model.add(total >= row.least)


def _all_or_none(
    model: cp_model.CpModel, whole: Master, numbers: Sequence[int], taken: Mapping[int, cp_model.IntVar]
) -> None:
    """The least of some classes comes or the most of them all."""
    most_come = model.new_bool_var("")
    for number in numbers:
        least, row = whole.counts.least.get(number, 0), whole.comes[number]
        total = sum(share * taken[j] for j, share in zip(row.columns, row.shares, strict=True) if j in taken)
        model.add(total == least + (whole.counts.most[number] - least) * most_come)


def layout(patterns: Patterns, chosen: Sequence[Pattern], before: State) -> State:
    """The layout of some patterns; of like copies those that were there stay, and those carried come first."""
    found = State(patterns.problem)
    found.locked = before.locked
    left = {number: [piece.index for piece in members] for number, members in patterns.members.items()}
    waiting = []
    for pattern in chosen:
        here = {it.box: it.piece for it in before.inside[pattern.room]}
        for it in pattern.lying:
            same = here.get(it.box)
            if same in left[patterns.classes[it.piece]]:
                left[patterns.classes[it.piece]].remove(same)
                found.add(it._replace(piece=same))
            else:
                waiting.append(it)
    for it in waiting:
        mine = left[patterns.classes[it.piece]]
        index = min(mine, key=lambda i: (i not in before.at, i))
        mine.remove(index)
        found.add(it._replace(piece=index))
    return found


def lawful(state: State) -> bool:
    """Whether everything may ride with everything else, and spaces and racks bear it, judged without the rows."""
    for it in list(state.at.values()):
        state.remove(it.piece)
        piece = state.problem.pieces[it.piece]
        may = room_for_company(state, piece, it.room) and room_for_mass(state, piece, it.room)
        state.add(it)
        if not may:
            return False
    return True
