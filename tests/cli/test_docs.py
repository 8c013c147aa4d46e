"""docs/commands.md tells every command as it is, and docs/rules.md every hazard word."""

import json
import re
from itertools import product
from pathlib import Path

import pytest

from cli.app import COMMANDS
from cli.codes import Code
from models.reading import shipped_rulebook

TEXT = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")


def section(name: str) -> str:
    (found,) = [part for part in re.split(r"^## ", TEXT, flags=re.MULTILINE) if part.splitlines()[0] == name]
    return found


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_and_every_option_is_told(run, command):
    told = section(command.__name__)
    options = set(re.findall(r"--[a-z-]+", run(command.__name__, "--help").stdout)) - {"--help"}
    assert f"`lowstow {command.__name__}" in told
    assert {option for option in options if f"{option}" not in told} == set()
    assert "Ends with" in told


def test_every_exit_code_is_told():
    codes = re.findall(r"^\| (\d+) \|", section("Exit codes"), re.MULTILINE)
    assert codes == [str(int(code)) for code in Code]


def test_the_report_of_the_docs_is_what_check_prints(run, trip):
    (shown,) = re.findall(r"^```text\n(.*?)^```", section("check"), re.MULTILINE | re.DOTALL)
    assert shown == run("check", trip / "plan.yaml").stdout


def test_the_refusal_of_the_docs_is_what_suggest_prints(run, trip):
    lock = "{thing: tent, in: cabin bracket, by: Ada, because: always there}"
    told = re.findall(r"^```text\n(.*?)^```", section("suggest"), re.MULTILINE | re.DOTALL)
    (shown,) = [one for one in told if one.startswith("No plan exists")]
    assert lock in section("suggest")
    text = (trip / "trip.yaml").read_text("utf-8")
    (trip / "trip.yaml").write_text(text.replace("locks: []", f"locks: [{lock}]"), "utf-8")
    found = run("suggest", trip / "trip.yaml")
    assert found.exit_code == 3
    assert shown in found.stdout


def test_the_defaults_of_suggest_are_the_ones_that_are_told(run):
    told = dict(re.findall(r"`--(seconds|effort|seed) [A-Z]` \| (\d+) ", section("suggest")))
    found = dict(
        re.findall(r"--(seconds|effort|seed) .*?\[default: ([\d.]+)", run("suggest", "--help").stdout, re.DOTALL)
    )
    assert {name: float(value) for name, value in told.items()} == {n: float(v) for n, v in found.items()}
    assert len(told) == 3


def test_every_hazard_word_is_told_with_the_air_it_may_ride_in():
    rules = (Path(__file__).parents[2] / "docs" / "rules.md").read_text(encoding="utf-8")
    table = rules.split("The words of the shipped rule book:")[1].split("\n## ")[0]
    told = [[cell.strip() for cell in line.strip("|").split("|")] for line in table.strip().splitlines()[2:]]
    book = shipped_rulebook().hazards
    assert [(word, means) for word, means, *_ in told] == [(word, one.words) for word, one in book.items()]
    for word, _, air, _ in told:
        assert {kind.split(" up to ")[0] for kind in air.split(", ")} == set(book[word].air)


def test_every_pair_that_is_kept_apart_is_told_with_its_level():
    rules = (Path(__file__).parents[2] / "docs" / "rules.md").read_text(encoding="utf-8")
    table = rules.split("The pairs of the shipped rule book, with their levels")[1].split("\n## ")[0]
    found: dict[frozenset[str], set[str]] = {}
    words = ""
    for line in table.split("| --- | --- | --- |")[1].splitlines()[1:]:
        if line.startswith("|"):
            first, others, level = (cell.strip() for cell in line.strip("|").split("|"))
            words = first or words
            usual, *besides = level.split("; ")
            of_its_own = dict(one.split(": ") for one in besides)
            for pair in product(words.split(", "), others.split(", ")):
                found.setdefault(frozenset(pair), set()).update(of_its_own.get(pair[0], usual).split(" and "))
    book: dict[frozenset[str], set[str]] = {}
    for apart in shipped_rulebook().segregation:
        for pair in apart.pairs:
            book.setdefault(frozenset(pair), set()).add(apart.level)
    assert found == book


PRINTED = {
    "check": ("plan.yaml",),
    "lock": ("plan.yaml", "shovel"),
    "unlock": ("plan.yaml", "shovel"),
    "find": ("plan.yaml", "shovel"),
    "sheet": ("plan.yaml",),
    "weigh": ("plan.yaml", "--stage", "leaving", "--front", "1250", "--rear", "1240"),
    "compare": ("plan.yaml", "plan.yaml"),
}
"""By command that prints an object for machines: what it is asked."""
LOOKED_INTO = {"check": ("totals", "leaving"), "compare": ("a",), "find": ("found", 0), "weigh": ("corrections", 0)}
"""What in the object is told key by key as well."""


@pytest.mark.parametrize("command", PRINTED)
def test_every_key_for_machines_is_told(run, trip, monkeypatch, command):
    monkeypatch.chdir(trip)
    if command == "unlock":
        run("lock", "plan.yaml", "shovel")
    view = json.loads(run(command, *PRINTED[command], "--json").stdout)
    inner = view
    for step in LOOKED_INTO.get(command, ()):
        inner = inner[step]
    told = set(re.findall(r"`(\w+)`", section(command)))
    assert {*view, *inner} - told == set()


SEARCHED = [
    pytest.param(("suggest", "trip.yaml"), marks=pytest.mark.long),
    ("revise", "plan.yaml"),
    ("explain", "plan.yaml", "shovel"),
    ("explain", "plan.yaml", "--left", "camp chair"),
    pytest.param(("explain", "plan.yaml", "--limit", "total"), marks=pytest.mark.long),
    pytest.param(("tradeoff", "trip.yaml"), marks=pytest.mark.long),
]
"""Commands that search and print an object for machines; `plan.yaml` leaves the camp chair at home."""

OF_CHECK = {"findings", "totals", "doubts", "tying", "too_heavy_for_one", "worth_weighing", "tallest", "before_water"}
OWN_WORDS = {"plan", "placement", "against"}
"""What has the keys of a plan's file, or names of things for its keys."""


def every_key(view: object, apart: set[str]) -> set[str]:
    if isinstance(view, list):
        return {key for part in view for key in every_key(part, apart)}
    if not isinstance(view, dict):
        return set()
    return set(view) | {key for name, part in view.items() if name not in apart for key in every_key(part, apart)}


@pytest.mark.parametrize("words", SEARCHED)
def test_every_key_of_what_is_searched_is_told(run, trip, monkeypatch, words):
    monkeypatch.chdir(trip)
    plan = (trip / "plan.yaml").read_text("utf-8")
    lines = [line for line in plan.splitlines() if "thing: camp chair" not in line]
    (trip / "plan.yaml").write_text("\n".join(lines) + "\n", "utf-8")
    command, *rest = words
    view = json.loads(run(command, *rest, "--effort", "0.05", "--json").stdout)
    sections = (command, "check", "revise") if command == "explain" else (command, "check", "suggest")
    told = {word for name in sections for word in re.findall(r"`(\w+)`", section(name))}
    assert every_key(view, OF_CHECK | OWN_WORDS) - told == set()
    assert {"suggest": "levels", "tradeoff": "plans", "revise": "moves"}.get(command, command) in {*view, "explain"}
