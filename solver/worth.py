"""How much value could come at most, and which things a relaxed choice would take."""

from collections.abc import Sequence
from math import floor
from typing import Protocol

from models.geometry import LEAST_SOFT_SIDE_MM
from solver.library import cp_model
from solver.loads import amount, amounts
from solver.patterns import MILLI
from solver.pieces import PROOF_SPARE_G
from solver.problem import Problem
from solver.steady import steady

WORK = 0.3
"""Work of the search for the bound, in the unit of `steady`, of which the worked trips need 0.02."""


class Units(Protocol):
    """Copies that come together, with their value."""

    @property
    def pieces(self) -> tuple[int, ...]:
        """Indices of the pieces."""
        ...

    @property
    def value(self) -> int:
        """What they are worth together."""
        ...


def value_bound(
    problem: Problem, must: list[int], offered: Sequence[Units], highest_mm: float, seconds: float
) -> tuple[float | None, set[int]]:
    """Most value of optional pieces under masses, volumes, hazards and height alone, and the pieces of that choice.

    A relaxation: each piece lies as low as its room allows. None when the time was too short for a bound.
    """
    model = cp_model.CpModel()
    optional = sorted({index for unit in offered for index in unit.pieces})
    inside = {(i, room): model.new_bool_var("") for i in (*must, *optional) for room in sorted(problem.fits[i])}
    comes = {i: model.new_bool_var("") for i in optional}
    for i in must:
        model.add(sum(inside[i, room] for room in problem.fits[i]) == 1)
    for i in optional:
        model.add(sum(inside[i, room] for room in problem.fits[i]) == comes[i])
    for unit in offered:
        for other in unit.pieces[1:]:
            model.add_implication(comes[unit.pieces[0]], comes[other])
    _limits(problem, model, inside, highest_mm)
    _hazards(problem, model, inside)
    worth = {i: problem.pieces[i].thing.carry or 0 for i in optional}
    model.maximize(sum(worth[i] * comes[i] for i in optional))
    solver = steady(seconds, WORK)
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return (0.0 if status == cp_model.INFEASIBLE else None), set()
    return float(solver.best_objective_bound), {i for i in optional if solver.value(comes[i])}


def _limits(
    problem: Problem, model: cp_model.CpModel, inside: dict[tuple[int, int], cp_model.IntVar], highest_mm: float
) -> None:
    pieces, rooms = problem.pieces, problem.rooms
    for room in rooms:
        here = [(i, v) for (i, r), v in inside.items() if r == room.index]
        volume = room.size[0] * room.size[1] * room.size[2] // 1000
        model.add(sum(min(_volume(problem, i), volume + 1) * v for i, v in here) <= volume)
    for t, stage in enumerate(problem.constants.stages):
        for room in rooms:
            if room.proof_limit_g is not None:
                load = sum(pieces[i].proof_g[t] * v for (i, r), v in inside.items() if r == room.index)
                model.add(load <= room.proof_limit_g + PROOF_SPARE_G)
        for bearer, left in enumerate(stage.bearers_proof_g):
            if left is not None:
                load = sum(pieces[i].proof_g[t] * v for (i, r), v in inside.items() if r in problem.rooms_on[bearer])
                model.add(load <= left + PROOF_SPARE_G)
        if t in problem.driving:
            _driving(problem, model, inside, t, highest_mm)


def _hazards(problem: Problem, model: cp_model.CpModel, inside: dict[tuple[int, int], cp_model.IntVar]) -> None:
    """What one air and the vehicle may hold of each hazard."""
    for (words, air), of, limit in amounts(problem):
        here = [
            floor(MILLI * amount(problem.pieces[i].thing, air, of)) * v
            for (i, r), v in inside.items()
            if problem.pieces[i].thing.hazard in words and air in (None, problem.rooms[r].space.air)
        ]
        model.add(sum(here) <= floor(MILLI * limit + 1e-6))


def _driving(
    problem: Problem, model: cp_model.CpModel, inside: dict[tuple[int, int], cp_model.IntVar], t: int, highest_mm: float
) -> None:
    pieces, rooms, stage = problem.pieces, problem.rooms, problem.constants.stages[t]
    if stage.gross_left_g is not None:
        model.add(sum(pieces[i].proof_g[t] * v for (i, _), v in inside.items()) <= stage.gross_left_g + PROOF_SPARE_G)
    if stage.rear_left is not None:
        twice = {(i, r): 2 * rooms[r].low[0] + _shortest(problem, i, r, 0) for i, r in inside}
        terms = [pieces[i].proof_g[t] * twice[i, r] * v for (i, r), v in inside.items()]
        model.add(sum(terms) <= 2 * (stage.rear_left + PROOF_SPARE_G * problem.constants.wheelbase))
    room_for_height = 2 * (highest_mm * stage.mass_g - stage.moment[2])
    terms = []
    for (i, r), v in inside.items():
        fit = problem.fits[i][r]
        lowest = 2 * max(rooms[r].low[2], fit.least_z) + _shortest(problem, i, r, 2)
        terms.append(round(pieces[i].likely_g[t] * (lowest - 2 * highest_mm)) * v)
    model.add(sum(terms) <= int(room_for_height) + len(terms))


def _shortest(problem: Problem, index: int, room: int, axis: int) -> int:
    """Least side in mm along an axis that a lawful plan may give a piece in a room."""
    piece = problem.pieces[index]
    if piece.thing.size_mm is None:  # by volume it may take more shapes than are tried
        return LEAST_SOFT_SIDE_MM
    return min(piece.shapes[shape].size[axis] for shape in problem.fits[index][room].shapes)


def _volume(problem: Problem, index: int) -> int:
    """Volume of a piece in thousandths of a litre, rounded down."""
    x, y, z = problem.pieces[index].shapes[0].size
    thing = problem.pieces[index].thing
    return int((thing.volume_l or 0) * 1000) if thing.size_mm is None else x * y * z // 1000
