"""Open instances of packing one space: three-dimensional knapsacks and container sets, as a share of the best known.

Run: LOWSTOW_DATA=folder python -m benchmarks.knapsack3d [--seconds 10] [--each 4]

The best known packings need no support: boxes may hang in the air. Ours stand on 70 % of their base. Where a box may
stand on one of its two long sides alone, which our turns cannot say, it keeps its top up; such problems are told apart.
For the knapsacks the listed best known values belong to other profits than the files hold (each file's profit is the
volume and 200 more, and one box alone exceeds the listed value); what packingsolver3d finds in the same time stands in.
"""

import csv
import importlib
from collections.abc import Iterator
from pathlib import Path
from statistics import mean
from typing import Any, NamedTuple

from benchmarks.one_room import Worth, case_of, packed_worth
from benchmarks.packers import there
from benchmarks.table import arguments, data_folder, heading, table
from models.rules import Rule
from solver.plans import to_plan
from verifier import check


class Instance(NamedTuple):
    """A space, boxes, and the most that anyone is known to have packed."""

    name: str
    room_mm: tuple[int, int, int]
    kinds: tuple[Worth, ...]
    best: int | None
    """None: what a general-purpose packing library finds in the same time."""
    exact_turns: bool
    """Whether our turns say just what the instance allows."""


def best_known(path: Path) -> dict[str, int]:
    """Best known values by the name of the problem."""
    with path.open(newline="") as file:
        return {row["Path"]: int(row["Best known solution value"]) for row in csv.DictReader(file)}


def knapsacks(folder: Path) -> Iterator[Instance]:
    """Knapsacks without turns."""
    for path in sorted((folder / "egeblad2009").glob("*.3kp")):
        rows = [[word.strip() for word in line.split(",")] for line in path.read_text().splitlines() if line.strip()]
        size = [int(word) for row in rows if row[0] == "dim" for word in row[1:4]]
        boxes = [[int(word) for word in row[2:7]] for row in rows if row[0] == "box"]
        kinds = tuple(Worth((w, h, d), "fixed", profit, count) for w, h, d, profit, count in boxes)
        yield Instance(path.stem, (size[0], size[1], size[2]), kinds, None, True)


def containers(folder: Path, name: str) -> Iterator[Instance]:
    """Container problems of one class; centimetres are read as millimetres."""
    known = best_known(folder / "data_knapsack_bischoff1995_davies1999.csv")
    numbers = [int(word) for word in (folder / "bischoff1995" / f"{name}.txt").read_text().split()]
    at, problems = 1, numbers[0]
    for number in range(1, problems + 1):
        size, kinds_in = numbers[at + 2 : at + 5], numbers[at + 5]
        rows = [numbers[at + 6 + 8 * i : at + 14 + 8 * i] for i in range(kinds_in)]
        at += 6 + 8 * kinds_in
        kinds, exact = zip(*(_kind(row) for row in rows), strict=True)
        room = (size[0], size[1], size[2])
        yield Instance(f"{name} {number}", room, kinds, known[f"bischoff1995/{name}.txt_{number}"], all(exact))


def _kind(row: list[int]) -> tuple[Worth, bool]:
    _, along, along_up, across, across_up, up, up_up, count = row
    turns = "any" if along_up and across_up and up_up else "upright"
    exact = turns == "any" or not (along_up or across_up)
    return Worth((along, across, up), turns, along * across * up, count), exact


def share(instance: Instance, seconds: float) -> float:
    """What we pack as a part of the best known; checked by the verifier."""
    case = case_of(instance.room_mm, instance.kinds)
    value, state = packed_worth(case, instance.kinds, seconds)
    verdict = check(case, to_plan(state, reserve_kept_kg=0))
    wrong = {f.rule for f in verdict.broken} & {Rule.INSIDE, Rule.OVERLAP, Rule.SUPPORT, Rule.CARRIED}
    if wrong:
        message = f"{instance.name}: {wrong}"
        raise RuntimeError(message)
    return value / (instance.best or peer_worth(instance, seconds))


def peer_worth(instance: Instance, seconds: float) -> float:
    """What packingsolver3d packs without turns and without support, in so many seconds."""
    lib: Any = importlib.import_module("packingsolver3d")
    x, y, z = instance.room_mm
    items = [
        lib.ItemType(x=k.size_mm[0], y=k.size_mm[1], z=k.size_mm[2], profit=k.worth, copies=k.copies)
        for k in instance.kinds
    ]
    asked = lib.Instance(bin_types=[lib.BinType(x=x, y=y, z=z)], item_types=items, objective=lib.Objective.KNAPSACK)
    return float(lib.box.solve(asked, time_limit=seconds).value)


def spaced(instances: list[Instance], many: int) -> list[Instance]:
    """A few instances, evenly spaced."""
    return instances[:: max(1, len(instances) // many)][:many] if instances else []


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, seconds=10.0, each=4)
    folder = data_folder()
    if folder is None:
        print("skipped: no folder with open instances (LOWSTOW_DATA)")
        return
    print(heading())
    sets = dict[str, list[Instance]]()
    for instance in knapsacks(folder / "container") if there("packingsolver3d") else ():
        sets.setdefault("knapsacks of " + instance.name.split("-")[1], []).append(instance)
    for name in ("BR1", "BR3", "BR5", "BR7"):
        found = list(containers(folder / "container", name))
        sets[f"{name}, turns said exactly"] = [i for i in found if i.exact_turns]
        sets[f"{name}, turns said in part"] = [i for i in found if not i.exact_turns]
    rows: list[list[object]] = []
    for name, instances in sets.items():
        shares = [share(instance, given.seconds) for instance in spaced(instances, given.each)]
        if shares:
            rows.append([name, len(instances), len(shares), f"{mean(shares):.1%}", f"{min(shares):.1%}"])
    print(table(("set", "problems", "run", "mean of the best known", "least"), rows))


if __name__ == "__main__":
    main()
