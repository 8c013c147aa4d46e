"""Peers side by side on the same trips: boxes that may be turned freely, spaces with limits, nothing else.

Run: python -m benchmarks.peers [--trips 5] [--things 30] [--spaces 12] [--seconds 10]

Packing libraries fill one space after the other, the lowest first, and know no height; the assignment by volume knows
no positions; the careful packer, one model of everything and we are given the same trip.
"""

from collections.abc import Callable, Sequence
from concurrent.futures.process import BrokenProcessPool
from statistics import mean
from typing import NamedTuple

from ortools.sat.python import cp_model

from benchmarks.apart import in_own_process
from benchmarks.generate import Wanted, trip_parts
from benchmarks.packers import PACKERS, Box, Packer, Put, there
from benchmarks.quick import packed
from benchmarks.table import arguments, heading, table
from benchmarks.whole import whole_plan
from models.case import Case
from models.geometry import TURNS, turned
from models.plan import Placement, Plan
from models.reading import case_from
from models.rules import Rule
from models.spaces import Space
from models.trip import Lock
from solver import Options, propose
from solver.plans import to_plan
from solver.problem import Problem
from verifier import check

USABLE = 0.85
"""Part of a space's volume that the assignment by volume takes as usable."""


class Answer(NamedTuple):
    """What one method came to on one trip."""

    all_in: bool
    inside: bool
    """Every box inside, and no two share room."""
    stands: bool
    """Every box stands on enough as well."""
    lawful: bool
    """Every limit holds as well."""
    height_mm: float | None
    spaces_possible: float
    """Part of the used spaces whose content was shown to fit."""


def boxes_only(seed: int, things: int, spaces: int) -> Case:
    """A trip without what peers cannot express."""
    vehicle, gear, trip = trip_parts(seed, Wanted(things, spaces, 1, fill=0.45, optional=0.0, mixed=False))
    for thing in gear:
        thing |= {"turns": "any", "access": "seldom"}
    for space in vehicle["spaces"]:
        space |= {"weather": "dry", "heat": "cabin"}
    vehicle["limits"] |= {"side_difference_share": 1.0, "front_share_min": 0.0}
    return case_from(vehicle, gear, trip)


def judged(case: Case, plan: Plan | None) -> Answer:
    """A plan in the eyes of the verifier."""
    if plan is None:
        return Answer(False, False, False, False, None, 0.0)
    verdict = check(case, plan)
    broken = {finding.rule for finding in verdict.broken}
    all_in = Rule.CARRIED not in broken
    inside = not broken & {Rule.INSIDE, Rule.OVERLAP}
    stands = inside and Rule.SUPPORT not in broken
    height = verdict.totals[case.trip.stages[0].name].cg_height_mm if all_in else None
    return Answer(all_in, inside, stands, verdict.holds is True, height, 1.0 if inside else 0.0)


def by_library(case: Case, packer: Packer) -> Answer:
    """Spaces from the lowest up, each filled with what is left, by a packing library."""
    left = [Box(t.name, t.size_mm, round(t.mass_kg.most * 1000)) for t in case.things if t.size_mm is not None]
    placements = []
    for space in sorted(case.vehicle.spaces, key=lambda s: s.corner_mm[2]):
        if not left:
            break
        puts = packer(left, space.size_mm, round((space.limit_kg.kg or 0) * 1000))
        placements += [_placement(case, put, space) for put in puts]
        done = {put.name for put in puts}
        left = [box for box in left if box.name not in done]
    return judged(case, Plan(trip="trip.yaml", placements=tuple(placements)))


def _placement(case: Case, put: Put, space: Space) -> Placement:
    listed = case.thing_named[put.name].size_mm or (1, 1, 1)
    turn = next((turn for turn in TURNS["any"] if turned(listed, turn) == put.size_mm), "lwh")
    (x, y, z), (a, b, c) = space.corner_mm, put.corner_mm
    return Placement(thing=put.name, space=space.name, corner_mm=(x + a, y + b, z + c), size_mm=put.size_mm, turn=turn)


def by_volume(case: Case) -> Answer:
    """Things to spaces by volume and mass, as low as can be; then each space is packed to see whether it can be."""
    where = assigned(case)
    if where is None:
        return Answer(False, False, False, False, None, 0.0)
    locks = tuple(Lock.model_validate({"thing": thing, "in": space}) for thing, space in where.items())
    problem = Problem(case, locks=locks)
    used = sorted(set(where.values()))
    fits = 0
    for space in used:
        content = [piece for piece in problem.pieces if where[piece.thing.name] == space]
        fits += len(packed(problem, content, 40).at) == len(content)
    possible = fits == len(used)
    return Answer(True, possible, possible, False, None, fits / len(used))


def assigned(case: Case) -> dict[str, str] | None:
    """The lowest assignment by volume and mass."""
    model = cp_model.CpModel()
    spaces, things = case.vehicle.spaces, case.things
    inside = {(t.name, s.name): model.new_bool_var("") for t in things for s in spaces}
    for t in things:
        model.add_exactly_one(inside[t.name, s.name] for s in spaces)
    for s in spaces:
        room = int(USABLE * _volume(s.size_mm))
        model.add(sum(_volume(t.size_mm or (0, 0, 0)) * inside[t.name, s.name] for t in things) <= room)
        grams = round((s.limit_kg.kg or 0) * 1000)
        model.add(sum(round(t.mass_kg.most * 1000) * inside[t.name, s.name] for t in things) <= grams)
    cost = [(round(t.mass_kg.likely * 1000) * s.corner_mm[2], inside[t.name, s.name]) for t in things for s in spaces]
    model.minimize(sum(factor * variable for factor, variable in cost))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = 10.0
    solver.parameters.num_workers = 1
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {t.name: s.name for t in things for s in spaces if solver.value(inside[t.name, s.name])}


def _volume(size_mm: Sequence[int]) -> int:
    return size_mm[0] * size_mm[1] * size_mm[2] // 1000


def carefully(case: Case) -> Answer:
    """Hardest first, lowest place first, one order."""
    problem = Problem(case)
    return judged(case, to_plan(packed(problem, list(problem.pieces)), reserve_kept_kg=case.reserve_kg))


def as_one_model(case: Case, seconds: float) -> Answer:
    """One model of everything."""
    everything = Plan(trip="trip.yaml", placements=tuple(_anywhere(case)))
    return judged(case, whole_plan(case, everything, seconds))


def _anywhere(case: Case) -> list[Placement]:
    space = case.vehicle.spaces[0]
    return [
        Placement(thing=t.name, space=space.name, corner_mm=space.corner_mm, size_mm=t.size_mm or (1, 1, 1))
        for t in case.things
    ]


def ours(case: Case, seconds: float) -> Answer:
    """What lowstow suggests."""
    return judged(case, propose(case, Options(seconds=seconds)).plan)


COLUMNS = (
    "method", "trips", "all in", "inside, nothing meets", "stands", "lawful", "spaces possible", "mean height mm",
    "mean s", "mean processor s", "peak MB",
)  # fmt: skip


def row(name: str, cases: Sequence[Case], method: Callable[..., Answer], *more: object) -> list[object]:
    """One method on all trips."""
    try:
        runs = [in_own_process(method, case, *more) for case in cases]
    except BrokenProcessPool:
        return [name, "its process ended without an answer", *[None] * 9]
    answers = [answer for answer, _ in runs]
    n = len(answers)
    # Heights compare only where every box came.
    heights = [a.height_mm for a in answers if a.height_mm is not None]
    share = [f"{sum(flags)}/{n}" for flags in zip(*(a[:4] for a in answers), strict=True)]
    return [
        name, n, *share, f"{mean(a.spaces_possible for a in answers):.0%}",
        mean(heights) if len(heights) == n else None, mean(m.seconds for _, m in runs), mean(m.busy_s for _, m in runs),
        round(max(m.peak_mb for _, m in runs)),
    ]  # fmt: skip


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, trips=5, things=30, spaces=12, seconds=10.0)
    print(heading(*(module for module, _ in PACKERS.values())))
    cases = [boxes_only(seed, given.things, given.spaces) for seed in range(1, given.trips + 1)]
    rows = [
        row(name, cases, by_library, packer) if there(module) else [name, "not installed", *[None] * 9]
        for name, (module, packer) in PACKERS.items()
    ]
    rows.append(row(f"CP-SAT by volume, {USABLE:.0%} usable", cases, by_volume))
    rows.append(row("hardest first, lowest first", cases, carefully))
    rows.append(row(f"one model, {given.seconds:g} s", cases, as_one_model, given.seconds))
    rows.append(row("lowstow", cases, ours, given.seconds))
    print(table(COLUMNS, rows))


if __name__ == "__main__":
    main()
