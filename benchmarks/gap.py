"""Open instances of generalised assignment, the part that a trip can say, against a general-purpose solver.

Run: LOWSTOW_DATA=folder python -m benchmarks.gap [--seconds 10]

In the instances every agent has a cost and a use of its own for every job. A trip has no such thing: what a thing adds
to the height is its mass times the height of its place, and its length is the same everywhere. So each job becomes a
bar whose mass is the job's mean cost and whose length is its least use, each agent a shelf with the agent's capacity.
The published optimum is that of another problem; the best known here is that of the general-purpose solver.
"""

from pathlib import Path

from benchmarks.assignment import Bars, case_of, second_opinion_mm
from benchmarks.table import arguments, data_folder, heading, table
from solver import Options, propose

SIZES = ("0515", "0520", "0525", "0530", "0824", "0832", "0840", "0848", "1030", "1040", "1050", "1060")
"""5 agents with 15 jobs to 10 with 60, by the names of the files."""
MM_A_UNIT = 20


def read(path: Path) -> tuple[list[list[float]], list[list[float]], list[float]]:
    """Costs and uses by agent, and capacities."""
    numbers = [float(word) for word in path.read_text().split()]
    m, n = int(numbers[0]), int(numbers[1])
    rows = [numbers[2 + i * n : 2 + (i + 1) * n] for i in range(2 * m)]
    return rows[:m], rows[m:], numbers[2 + 2 * m * n :]


def bars_of(path: Path) -> Bars:
    """Jobs as bars and agents as shelves."""
    costs, uses, room = read(path)
    agents, jobs = len(costs), len(costs[0])
    length = [round(MM_A_UNIT * min(row[j] for row in uses)) for j in range(jobs)]
    mass = [round(sum(row[j] for row in costs) / agents, 1) for j in range(jobs)]
    shelves = tuple(round(MM_A_UNIT * capacity) for capacity in room)
    floors = tuple(500 + 1500 * i // agents for i in range(agents))
    return Bars(tuple(length), tuple(mass), (0.0,) * jobs, shelves, floors, (90000.0,) * agents, 90000.0)


def row(path: Path, seconds: float) -> list[object]:
    """The figures of one instance."""
    bars = bars_of(path)
    other_mm, proven = second_opinion_mm(bars, 60.0)
    proposal = propose(case_of(bars), Options(seconds=seconds))
    height = proposal.height
    away = None if height is None or other_mm is None else height.value - other_mm
    return [
        path.name, f"{len(bars.shelf_mm)}x{len(bars.mass_kg)}", other_mm, "proven" if proven else "found",
        height and height.value, height and height.bound, None if away is None else f"{away:.4f}", proposal.seconds,
    ]  # fmt: skip


COLUMNS = ("instance", "agents x jobs", "second opinion mm", "", "lowstow mm", "bound mm", "above mm", "s")


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, seconds=10.0)
    folder = data_folder()
    if folder is None:
        print("skipped: no folder with open instances (LOWSTOW_DATA)")
        return
    print(heading("scipy"))
    print(table(COLUMNS, [row(folder / "gap" / f"c{size}_1", given.seconds) for size in SIZES]))


if __name__ == "__main__":
    main()
