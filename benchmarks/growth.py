"""How cost grows with things, spaces and stages: time to a first plan, height after at most so many seconds, memory.

Run: python -m benchmarks.growth [--seconds 10] [--picture 1] writes docs/growth.svg too.
"""

from benchmarks.apart import in_own_process
from benchmarks.chart import Series, chart
from benchmarks.generate import Wanted, made_case
from benchmarks.table import ROOT, arguments, heading, table
from models.writing import replace_whole
from solver import Options, propose
from verifier import check

THINGS = ((10, 5), (20, 8), (40, 12), (80, 20), (120, 30), (200, 40), (300, 50), (400, 60))
"""Things and spaces, with three stages."""
STAGES = (1, 3, 5, 10)
"""Stages, with 80 things in 20 spaces."""


def searched(things: int, spaces: int, stages: int, seconds: float) -> list[object]:
    """One search of so many seconds."""
    case = made_case(1, Wanted(things, spaces, stages, fill=0.35))
    proposal = propose(case, Options(seconds=seconds))
    holds = check(case, proposal.plan).holds if proposal.plan else None
    height = proposal.height
    return [
        things, spaces, stages, str(proposal.status), holds, proposal.first_plan_seconds, proposal.start_height_mm,
        height and height.value, height and height.bound, proposal.seconds,
    ]  # fmt: skip


COLUMNS = (
    "things", "spaces", "stages", "status", "verified", "first plan s", "start mm", "found mm", "bound mm", "whole s",
    "processor s", "peak MB",
)  # fmt: skip


def main() -> None:
    """Print the table, and draw it."""
    given = arguments(__doc__, seconds=10.0, picture=0)
    print(heading())
    asked = [(n, m, 3) for n, m in THINGS] + [(80, 20, s) for s in STAGES if s != 3]
    rows = []
    for n, m, s in asked:
        row, took = in_own_process(searched, n, m, s, given.seconds)
        rows.append([*row, took.busy_s, round(took.peak_mb)])
    print(table(COLUMNS, rows))
    if given.picture:
        replace_whole(ROOT / "docs" / "growth.svg", picture(rows[: len(THINGS)]))


def picture(rows: list[list[object]]) -> str:
    """Seconds to a first plan, of the whole search, and memory, by things."""

    def points(column: int, divisor: float = 1.0) -> list[tuple[float, float]]:
        return [(float(str(r[0])), float(str(r[column])) / divisor) for r in rows if r[column] is not None]

    names = (("first plan, s", 5, 1.0), ("whole search, s", 9, 1.0), ("memory, 100 MB", 11, 100.0))
    series = [Series(name, points(column, divisor)) for name, column, divisor in names]
    return chart("How cost grows with the number of things", "things", series)


if __name__ == "__main__":
    main()
