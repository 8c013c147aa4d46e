"""Trips made by chance, 200 things in 40 spaces: time to a first plan, and whether the clock is kept.

Run: python -m benchmarks.large [--things 200] [--spaces 40] [--seeds 5] [--cap 13]
"""

from benchmarks.apart import in_own_process
from benchmarks.generate import Wanted, made_case
from benchmarks.table import arguments, heading, table
from solver import Options, propose
from verifier import check


def searched(seed: int, wanted: Wanted, cap_s: float) -> list[object]:
    """What one search came to."""
    case = made_case(seed, wanted)
    proposal = propose(case, Options(seconds=cap_s))
    holds = check(case, proposal.plan).holds if proposal.plan else None
    height = proposal.height
    return [
        seed, str(proposal.status), holds, len(proposal.plan.placements) if proposal.plan else 0,
        proposal.first_plan_seconds, proposal.start_height_mm, height and height.value, height and height.bound,
        proposal.seconds, proposal.seconds - cap_s,
    ]  # fmt: skip


COLUMNS = (
    "seed", "status", "verified", "things carried", "first plan s", "start mm", "found mm", "bound mm", "whole s",
    "over the cap s", "processor s", "peak MB",
)  # fmt: skip


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, things=200, spaces=40, stages=3, seeds=5, cap=13.0)
    print(heading())
    wanted = Wanted(given.things, given.spaces, given.stages)
    rows = []
    for seed in range(1, given.seeds + 1):
        row, took = in_own_process(searched, seed, wanted, given.cap)
        rows.append([*row, took.busy_s, round(took.peak_mb)])
    print(table(COLUMNS, rows))


if __name__ == "__main__":
    main()
