"""Small files that would become enormous: refused within a gigabyte of memory, in sentences, and soon."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from models.base import MOST_COPIES
from models.reading import read_case
from models.starter import starter_files
from tests.chances import some

IN_A_GIGABYTE = """
import os, resource, sys
# Counted as address space, of which a process always has more than it uses.
resource.setrlimit(resource.RLIMIT_AS, (10**9, 10**9))
import cli.app, cli.commands.check, cli.main, models.reading, verifier  # once for all, who are copies of this
for plan in iter(sys.stdin.readline, ""):
    if (child := os.fork()) == 0:
        for number, name in ((1, "out"), (2, "err")):
            os.dup2(os.open(f"{plan.strip()}.{name}", os.O_WRONLY | os.O_CREAT), number)
        sys.argv = ["lowstow", "check", plan.strip()]
        cli.main.main()
    print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
"""

PLACE = "  - {thing: tent, space: left shelf, corner_mm: [1, 2, 3], size_mm: [4, 5, 6]}\n"
SPACE = "  - {name: s%d, corner_mm: [1500, 0, 900], size_mm: [9, 9, 9], air: cabin, opening: tailgate}\n"
OPENING = "  - {name: o%d, side: rear, after: [o%d]}\n"
THING = "- {name: t%d, mass_kg: 1, size_mm: [300, 200, 100], count: 200}\n"
LAUGHS = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 12)
)


class Bomb(NamedTuple):
    """A file, what stands in it (after what stood there, when `more`), and what is said."""

    name: str
    content: str
    says: str
    more: bool = False


BOMBS = {
    "aliases of aliases": Bomb("vehicle.yaml", LAUGHS, "found an anchor or alias"),
    "brackets": Bomb("gear.yaml", "[" * 4_900_000, "allowed: YAML"),
    "one long word": Bomb("gear.yaml", "x" * 4_900_000, "a list of things"),
    "keys that nobody knows": Bomb("vehicle.yaml", "".join(f"key {n}: 1\n" for n in range(190_000)), "5000 entries"),
    "numbers for things": Bomb("gear.yaml", "- 1\n" * 190_000, "5000 entries"),
    "empty things": Bomb("gear.yaml", "- {}\n" * 4_900, "no `name`"),
    "headings": Bomb("more.csv", "name," + "q," * 2_400_000, "found 2400001 headings; allowed: at most 200"),
    "cells under no heading": Bomb("more.csv", "name\n" + "rope" + ",1" * 2_400_000, "2400001 values"),
    "lines": Bomb("more.csv", "name\n" + "rope\n" * 900_000, "more than 5000 lines"),
    "spaces in one place": Bomb("vehicle.yaml", "", "found a list of 4000; allowed: at most 300 entries"),
    "openings in a chain": Bomb("vehicle.yaml", "", "found a list of 4000; allowed: at most 300 entries"),
    "copies": Bomb("gear.yaml", "".join(THING % n for n in range(4_900)), "more than 1000 things, each copy counted"),
    "placements": Bomb("plan.yaml", PLACE * 4_900, "found a list of 4900; allowed: at most 1000 entries", more=True),
    "the same list by many names": Bomb("trip.yaml", "", "MB in all files together"),
    "lists": Bomb("trip.yaml", "", "found a list of 4900; allowed: at most 40 entries"),
}


def replaced(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert text.count(old) == 1
    path.write_text(text.replace(old, new))


def laid(folder: Path, kind: str) -> Bomb:
    """The starter trip with a plan and a second gear list, and one bomb in it."""
    bomb = BOMBS[kind]
    for name, text in starter_files().items():
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "plan.yaml").write_text("trip: trip.yaml\nplacements:\n" + ("" if bomb.more else PLACE))
    (folder / "more.csv").write_text("name,mass_kg,size_mm\nrope bag,4,300x200x200\n")
    replaced(folder / "trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")
    path = folder / bomb.name
    if kind == "spaces in one place":
        head = path.read_text().partition("\nspaces:")[0]
        path.write_text(head + "\nspaces:\n" + "".join(SPACE % n for n in range(4_000)))
    elif kind == "openings in a chain":
        text = path.read_text()
        chain = "".join(OPENING % (n, (n + 1) % 4_000) for n in range(4_000))
        path.write_text(text.partition("\nopenings:")[0] + "\nopenings:\n" + chain)
    elif kind == "the same list by many names":
        (folder / "gear.yaml").write_text("- {name: a" + "}\n- {name: a".join(["a" * 1000] * 4_800) + "}\n")
        replaced(path, "gear.yaml, more.csv", ", ".join("./" * n + "gear.yaml" for n in range(30)))
    elif kind == "lists":
        replaced(path, "gear.yaml, more.csv", ", ".join(f"list{n}.yaml" for n in range(4_900)))
    else:
        path.write_text((path.read_text() if bomb.more else "") + bomb.content)
    return bomb


Checked = Callable[[Path], tuple[int, str, str]]


@pytest.fixture(scope="module")
def check(request) -> Iterator[Checked]:
    """Checks a plan in a process of its own within a gigabyte: exit code, output, errors."""
    if not hasattr(os, "fork"):
        pytest.skip("processes cannot be copied here")
    command = [sys.executable, "-c", IN_A_GIGABYTE]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, cwd=request.config.rootpath, stdin=pipe, stdout=pipe, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        asked, answers = process.stdin, process.stdout

        def checking(plan: Path) -> tuple[int, str, str]:
            print(plan, file=asked, flush=True)
            code = int(answers.readline())
            out, err = (plan.with_name(f"{plan.name}.{name}").read_text("utf-8") for name in ("out", "err"))
            return code, out, err

        yield checking
        asked.close()


QUICK = ("numbers for things", "lists")
"""Those that are read in every run: the others take a second or two each."""


@pytest.mark.parametrize("kind", some(sorted(BOMBS, key=lambda kind: kind not in QUICK), len(QUICK)))
def test_a_bomb_is_refused_within_a_gigabyte(kind, tmp_path, check):
    bomb = laid(tmp_path, kind)
    assert (tmp_path / bomb.name).stat().st_size < 5_000_000
    code, out, err = check(tmp_path / "plan.yaml")
    assert (code, out) == (2, "")
    assert "Traceback" not in err
    assert "mistake" not in err
    assert bomb.says in err


@pytest.mark.long
def test_more_than_a_gigabyte_is_not_to_be_had(tmp_path, request):
    """The limit holds in a copy of a process too: what the tests above show could fail."""
    (tmp_path / "plan.yaml").write_text("x")
    greedy = IN_A_GIGABYTE.replace("cli.main.main()", "bytearray(10**9)")
    assert greedy != IN_A_GIGABYTE
    found = subprocess.run(
        [sys.executable, "-c", greedy], input=f"{tmp_path / 'plan.yaml'}\n",
        cwd=request.config.rootpath, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert "MemoryError" in (tmp_path / "plan.yaml.err").read_text()
    assert found.returncode == 0


def test_without_a_bomb_the_files_are_sound(tmp_path):
    laid(tmp_path, "lists")
    replaced(tmp_path / "trip.yaml", ", ".join(f"list{n}.yaml" for n in range(4_900)), "gear.yaml, more.csv")
    assert "rope bag" in read_case(tmp_path / "trip.yaml").case.thing_named


@pytest.mark.parametrize("beyond", [0, 1])
def test_a_thousand_copies_are_read_and_one_more_is_not(trip, beyond):
    starters = sum(thing.count for thing in read_case(trip.folder / "trip.yaml").case.things)
    counts = [200, 200, 200, 200, MOST_COPIES - 800 - starters + beyond]
    rows = "".join(f"bag {n},{count},1,300x200x100\n" for n, count in enumerate(counts))
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")
    trip.write("more.csv", "name,count,mass_kg,size_mm\n" + rows)
    if beyond:
        (fault,) = trip.faults()
        assert fault.startswith("more.csv, line 6: gear[4].count (bag 4): found more than 1000 things")
    else:
        assert len(read_case(trip.folder / "trip.yaml").case.copies) == MOST_COPIES
