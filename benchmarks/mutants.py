"""Changes the verifier in one place at a time and runs its tests: a mutant that no test notices survives.

Run: python -m benchmarks.mutants [--only support,stage] [--lines 40,42] [--share 1.0] [--seed 1]

Works on a copy of the repository; a mutant is one changed operator, number, comparison, condition or filter. With
`--lines` only changes of these lines are tried, such as those that survived before a test was written.
"""

import ast
import copy
import os
import random
import resource
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from benchmarks.table import ROOT, heading, parser, table
from models.reading import case_from, shipped_rulebook

COMPARE: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,), ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}  # fmt: skip
ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd, ast.Pow: ast.Mult,
}  # fmt: skip
CALLS = {"any": "all", "all": "any", "min": "max", "max": "min"}
SECONDS = 90
"""A mutant that keeps the tests busy for longer than this, in processor time, is noticed: it comes to no end. All tests
take about a third of it."""
SHOWN = 70
"""Characters of the changed place that are shown."""
TESTS = ("tests/verifier", "tests/outside")
FIRST = ("test_sentences.py",)
"""Tests that notice most, run right after those of a file's own name."""
SUMS = ("statics", "securing", "strapping", "lifting", "stage", "bare", "totals", "doubt")
"""Files whose formulas the worked examples of others look at too."""
LEFT_OUT = (
    "test_second_opinion.py", "test_one_space.py", "test_broken_plans.py", "test_made_trips.py", "test_benchmarks.py",
)  # fmt: skip
"""Tests that search, take long, or look at what the copy has not."""
APART = "tests/verifier/test_checking.py::test_the_verifier_runs_without_the_search_library"
"""A test of what is imported, in a process of its own: no change of a formula concerns it."""


Change = Callable[[Any], object]
"""Turns a node of a syntax tree into another."""


@dataclass(frozen=True)
class Mutant:
    """One change in a file."""

    path: Path
    line: int
    says: str
    text: str


def mutants(path: Path) -> Iterator[Mutant]:
    """Every change of one file."""
    tree = ast.parse(path.read_text())
    idle = {id(inner) for node in ast.walk(tree) for part in _idle(node) for inner in ast.walk(part)}
    around = {id(inner): node for node in ast.walk(tree) for inner in ast.iter_child_nodes(node)}
    for index, node in enumerate(ast.walk(tree)):
        if id(node) in idle:
            continue
        for says, change in _changes(node):
            other = copy.deepcopy(tree)
            target = next(found for i, found in enumerate(ast.walk(other)) if i == index)
            change(target)
            text = ast.unparse(ast.fix_missing_locations(other))
            yield Mutant(path, _line(node), f"{says} in {_shown(node, around)}", text)


def _line(node: ast.AST) -> int:
    """Line of a node; of what a comprehension names, for it has none itself."""
    line: int = getattr(node.target if isinstance(node, ast.comprehension) else node, "lineno", 0)
    return line


def _shown(node: ast.AST, around: dict[int, ast.AST]) -> str:
    """A node as it is written before the change; a bare number with what stands around it."""
    told = around[id(node)] if isinstance(node, ast.Constant) else node
    lines = ast.unparse(told).strip().splitlines()
    return lines[0] if len(lines[0]) <= SHOWN else lines[0][:SHOWN] + " ..."


def _idle(node: ast.AST) -> Iterator[ast.AST]:
    """What changes nothing that runs: types written beside names, and words that only guard against mistakes."""
    for field in ("annotation", "returns"):
        hint = getattr(node, field, None)
        if hint is not None:
            yield hint
    if isinstance(node, ast.keyword) and node.arg in {"frozen", "slots", "strict"}:
        yield node.value


def _changes(node: ast.AST) -> Iterator[tuple[str, Change]]:
    for family in (_operators, _logic, _branches):
        yield from family(node)
    if isinstance(node, ast.Constant) and type(node.value) in {int, float, bool}:
        yield from _constants(node)


def _operators(node: ast.AST) -> Iterator[tuple[str, Change]]:
    if isinstance(node, ast.Compare):
        for i, op in enumerate(node.ops):
            for kind in COMPARE.get(type(op), ()):
                yield f"{type(op).__name__} to {kind.__name__}", _op(i, kind)
    if isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC and not isinstance(node.left, ast.JoinedStr):
        new = ARITHMETIC[type(node.op)]
        yield f"{type(node.op).__name__} to {new.__name__}", lambda n: setattr(n, "op", new())
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield "minus dropped", lambda n: setattr(n, "op", ast.UAdd())


def _op(i: int, kind: type[ast.cmpop]) -> Change:
    return lambda n: n.ops.__setitem__(i, kind())


def _logic(node: ast.AST) -> Iterator[tuple[str, Change]]:
    if isinstance(node, ast.BoolOp):
        new = ast.Or if isinstance(node.op, ast.And) else ast.And
        yield f"{type(node.op).__name__} to {new.__name__}", lambda n: setattr(n, "op", new())
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield "not dropped", lambda n: setattr(n, "operand", ast.UnaryOp(ast.Not(), n.operand))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
        other = CALLS[node.func.id]
        yield f"{node.func.id} to {other}", lambda n: setattr(n.func, "id", other)


def _branches(node: ast.AST) -> Iterator[tuple[str, Change]]:
    if isinstance(node, ast.If | ast.IfExp):
        yield "condition always true", lambda n: setattr(n, "test", ast.Constant(value=True))
        yield "condition always false", lambda n: setattr(n, "test", ast.Constant(value=False))
    if isinstance(node, ast.comprehension) and node.ifs:
        yield "filter dropped", lambda n: setattr(n, "ifs", [])
    if isinstance(node, ast.Continue | ast.Break):
        other = ast.Break if isinstance(node, ast.Continue) else ast.Continue
        yield f"{type(node).__name__} to {other.__name__}", lambda n: setattr(n, "__class__", other)


def _constants(node: ast.Constant) -> Iterator[tuple[str, Change]]:
    value = node.value
    if isinstance(value, bool):
        yield f"{value} turned round", lambda n: setattr(n, "value", not n.value)
    elif isinstance(value, int | float):
        yield f"{value} to {value + 1}", lambda n: setattr(n, "value", n.value + 1)


def survives(mutant: Mutant, folder: Path) -> bool:
    """Whether no test notices a mutant, in a copy: tests named after its file or its folder first, then all."""
    target = folder / mutant.path.relative_to(ROOT)
    before = target.read_text()
    target.write_text(mutant.text)
    own = (f"test_*{mutant.path.stem}*.py", f"test_{mutant.path.parent.name}*.py")
    stages = (own, FIRST)
    some = [[str(path) for name in names for path in sorted(folder.glob(f"tests/*/{name}"))] for names in stages]
    try:
        return all(passes(tests, folder) for tests in (*some, _all_tests(mutant, folder)) if tests)
    finally:
        target.write_text(before)


def _all_tests(mutant: Mutant, folder: Path) -> list[str]:
    """Tests of the verifier; for sums of masses and places the worked examples of others as well."""
    names = TESTS if mutant.path.stem in SUMS else TESTS[:1]
    return [str(folder / name) for name in names]


def passes(tests: list[str], folder: Path) -> bool:
    """Whether tests pass, in a child of this process, which has loaded all but the verifier before."""
    child = os.fork()
    if child == 0:
        _run_and_end(tests, folder)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


def _run_and_end(tests: list[str], folder: Path) -> None:
    code = 1
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        os.chdir(folder)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        left_out = [f"--ignore={folder}/tests/outside/{name}" for name in LEFT_OUT]
        code = pytest.main(
            [
                "-q",
                "-x",
                "--assert=plain",
                "-p",
                "no:cacheprovider",
                f"--rootdir={folder}",
                f"--deselect={APART}",
                *left_out,
                *tests,
            ]
        )
    finally:
        os._exit(int(code))


def copied() -> Path:
    """A copy of the packages and tests that mutants are tried in."""
    folder = Path(tempfile.mkdtemp(prefix="mutants-"))
    for name in ("models", "verifier", "packing", "tests", "benchmarks", "scenarios"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def main() -> None:
    """Print how many mutants survive, and which."""
    asked = parser(__doc__)
    asked.add_argument("--only", default="")
    asked.add_argument("--lines", default="")
    asked.add_argument("--share", type=float, default=1.0)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    chance = random.Random(given.seed)  # noqa: S311
    folder, rows, living = copied(), [], []
    sys.path.insert(0, str(folder))
    sys.dont_write_bytecode = True
    # What every child needs and no mutant touches.
    warmed = (hypothesis.settings, case_from, shipped_rulebook())
    if not passes([str(folder / name) for name in TESTS], folder):
        raise SystemExit(f"the tests do not pass as they are; nothing can be told ({len(warmed)} loaded)")
    print(heading("pytest", "hypothesis"))
    for path in sorted((ROOT / "verifier").rglob("*.py")):
        if not any(part in str(path.relative_to(ROOT)) for part in given.only.split(",")):
            continue
        lines = given.lines.split(",")
        tried = [m for m in mutants(path) if not given.lines or str(m.line) in lines]
        tried = [m for m in tried if chance.random() < given.share]
        left = [mutant for mutant in tried if survives(mutant, folder)]
        living += left
        rows.append((str(path.relative_to(ROOT)), len(tried), len(left)))
        print(*rows[-1], *(f"\n    {m.line}: {m.says}" for m in left), file=sys.stderr, flush=True)
    rows.append(("all", sum(row[1] for row in rows), sum(row[2] for row in rows)))
    print(table(("file", "mutants", "survive"), rows))
    print("\n".join(f"{m.path.relative_to(ROOT)}:{m.line}: {m.says}" for m in living))
    shutil.rmtree(folder)


if __name__ == "__main__":
    main()
