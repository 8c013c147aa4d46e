"""Replays the order of loading of many verified plans by chance, as the order gives it and as packers side by side.

Run: python -m benchmarks.replay [--plans 500] [--things 14] [--spaces 5]

A plan counts when the verifier finds nothing broken. Ends with 1 where a replay finds a fault.
"""

import sys
from collections import Counter
from collections.abc import Iterator
from itertools import count
from random import Random

from benchmarks.generate import Wanted, made_case
from benchmarks.table import arguments
from models.case import Case
from models.plan import Plan
from packing import Tangle, first_fault, loading_order
from packing.together import rounds
from solver.insert import jittered, put_all
from solver.plans import to_plan
from solver.problem import Problem
from solver.state import State
from verifier import check


def plans(wanted: Wanted) -> Iterator[tuple[Case, Plan]]:
    """Verified plans without end, each of another trip: things put down in an order by chance."""
    for seed in count(1):
        case = made_case(seed, wanted)
        problem = Problem(case)
        state = State(problem)
        put_all(state, jittered(problem, problem.pieces, Random(seed)))  # noqa: S311 - an order by chance, not a secret
        plan = to_plan(state, reserve_kept_kg=case.reserve_kg)
        if not check(case, plan).broken:
            yield case, plan


def told(case: Case, plan: Plan) -> str:
    """What the replay says of one plan: held, a tangle, or the first fault."""
    order = loading_order(case, plan)
    if isinstance(order, Tangle):
        return "tangle"
    side_by_side = [step.placement for turns in rounds(case, order) for turn in turns for step in turn.steps]
    fault = first_fault(case, (step.placement for step in order)) or first_fault(case, side_by_side)
    return "held" if fault is None and len(side_by_side) == len(plan.placements) else f"FAULT: {fault}"


def main() -> int:
    """Replay so many plans and count."""
    options = arguments(__doc__, plans=500, things=14, spaces=5)
    made = plans(Wanted(things=options.things, spaces=options.spaces))
    found = Counter(told(*next(made)) for _ in range(options.plans))
    print("\n".join(f"{many:5} {what}" for what, many in found.most_common()))
    return 1 if any(what.startswith("FAULT") for what in found) else 0


if __name__ == "__main__":
    sys.exit(main())
