"""Open instances of generalised assignment just as published, said as trips, against their published optima.

Run: LOWSTOW_DATA=folder python -m benchmarks.jobs [--seconds 10] [--larger 1]

An agent has a use and a cost of its own for every job. So a job is offered once for every agent: as a thing that weighs
what the agent would use, may ride with this agent alone, and is worth 100 less the cost. All offers of a job carry one
hazard, of which the vehicle may hold one copy: at most one of them comes. A space bears its agent's capacity. What
comes is then the first level of what is best, and where all jobs come, 100 a job less its value is the published cost.
"""

from pathlib import Path

from benchmarks.assignment import vehicle
from benchmarks.gap import SIZES, read
from benchmarks.table import arguments, data_folder, heading, table
from models.case import Case
from models.reading import case_from
from solver import Options, propose
from verifier import check

SIDE_MM = 100
"""Sides of what stands for a job: so small that every space has room for all."""
KG_A_USE = 0.1
WORTH = 100
"""Worth of a job that costs nothing; costs are below it."""
LARGER = ("a05100", "b05100", "c05100", "a10100", "b10100", "c10100")
"""5 and 10 agents with 100 jobs: 500 and 1000 things, as many as files may have."""


def jobs_of(path: Path) -> Case:
    """The trip that offers every job once for every agent."""
    costs, uses, room = read(path)
    jobs = len(costs[0])
    gear = [
        {"name": f"job {j:03} by {i:02}", "mass_kg": round(uses[i][j] * KG_A_USE, 3), "size_mm": [SIDE_MM] * 3,
         "turns": "fixed", "access": "seldom", "carry": round(WORTH - costs[i][j]),
         "holder": f"agent {i:02}", "hazard": f"job {j:03}"}
        for i in range(len(costs)) for j in range(jobs)
    ]  # fmt: skip
    spaces = [
        {"name": f"agent {i:02}", "corner_mm": [1000, (SIDE_MM + 60) * i, 500],
         "size_mm": [SIDE_MM * jobs, SIDE_MM, SIDE_MM + 90], "limit_kg": round(capacity * KG_A_USE, 3),
         "air": "canopy", "opening": "tailgate", "face": "top", "accepts": [f"agent {i:02}"]}
        for i, capacity in enumerate(room)
    ]  # fmt: skip
    hazards = {
        f"job {j:03}": {"words": "a job", "air": {"sealed": True}, "totals": {"total_count": 1}, "source": "invented"}
        for j in range(jobs)
    }
    stages = [{"name": "all", "surface": "off_road"}]
    trip = {"name": "jobs", "stages": stages, "reserve_kg": 0, "choose_within_mm": 1000}
    return case_from(vehicle(spaces, 90000.0), gear, trip, {"hazards": hazards})


def published(folder: Path) -> dict[str, int]:
    """The least cost known of every instance by name."""
    pairs = (line.split() for line in (folder / "bounds.txt").read_text().splitlines() if "_Min" in line)
    return {name.removesuffix("_Min"): int(upper) for name, _, upper in pairs}


def row(path: Path, best: int, seconds: float) -> list[object]:
    """The figures of one instance."""
    case = jobs_of(path)
    proposal, jobs = propose(case, Options(seconds=seconds)), len({thing.hazard for thing in case.things})
    done = 0 if proposal.plan is None else len(proposal.plan.placements)
    holds = None if proposal.plan is None else check(case, proposal.plan).holds
    level = proposal.levels[0]
    cost = WORTH * jobs - level.value if done == jobs else None
    least = None if level.bound is None else WORTH * jobs - level.bound
    above = None if cost is None else f"{(cost - best) / best:.2%}"
    return [path.name, len(case.things), best, f"{done}/{jobs}", cost, least, level.state, above, holds,
            proposal.seconds]  # fmt: skip


COLUMNS = ("instance", "things", "published", "jobs done", "cost", "no less than", "", "above", "holds", "s")


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, seconds=10.0, larger=0)
    folder = data_folder()
    if folder is None:
        print("skipped: no folder with open instances (LOWSTOW_DATA)")
        return
    best = published(folder / "gap")
    names = LARGER if given.larger else tuple(f"c{size}_{number}" for size in SIZES for number in range(1, 6))
    print(heading())
    print(table(COLUMNS, [row(folder / "gap" / name, best[name], given.seconds) for name in names]))


if __name__ == "__main__":
    main()
