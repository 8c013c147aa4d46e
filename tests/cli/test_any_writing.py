"""Names in any writing: no line of a command is wider than the terminal, and columns stand straight."""

import re
import unicodedata

import pytest

from tests.chances import some

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

NAMES = {
    "recovery kit": "牵引套件和绞盘绳索",
    "water can": "ポリタンク",
    "food box": "🍞 boîte",
    "tool box": unicodedata.normalize("NFD", "caisse à outils, clés et démonte-pneus"),
    "right drawer": "右侧抽屉",
    "left bay": "🚙 左舱",
    "halfway": "途中",
    "leaving": "出发",
}
FILES = ("vehicle.yaml", "gear.yaml", "trip.yaml", "plan.yaml")


def columns(text: str) -> int:
    """Columns of a text without joined emoji, counted in the plainest way."""
    return sum(
        2 if unicodedata.east_asian_width(char) in "WF" else 1 for char in text if not unicodedata.combining(char)
    )


@pytest.fixture
def named(trip):
    for file in FILES:
        text = (trip / file).read_text(encoding="utf-8")
        for old, new in NAMES.items():
            # Inside a flow map a comma would end the name.
            text = re.sub(rf"\b{old}\b", f'"{new}"', text)
        (trip / file).write_text(text, encoding="utf-8")
    return trip


COMMANDS = {
    "check": ("check", "plan.yaml"),
    "find all": ("find", "plan.yaml", "--all"),
    "find": ("find", "plan.yaml", NAMES["tool box"]),
    "compare": ("compare", "plan.yaml", "plan.yaml"),
    "weigh": ("weigh", "plan.yaml", "--stage", "途中", "--front", "1200", "--rear", "1300"),
    "suggest": ("suggest", "trip.yaml", "--effort", "0.02", "--seconds", "600"),
    "explain": ("explain", "plan.yaml", "ポリタンク", "--effort", "0.02", "--seconds", "600"),
}


@pytest.mark.parametrize("width", some([80, 120], 1))
@pytest.mark.parametrize("words", COMMANDS.values(), ids=COMMANDS)
def test_no_line_is_wider_than_the_terminal(named, run, monkeypatch, words, width):
    monkeypatch.setenv("COLUMNS", str(width))
    monkeypatch.chdir(named)
    found = run(*words)
    assert found.exit_code in (0, 1, 5), found.output
    assert any(name in found.stdout for name in NAMES.values())
    assert max(columns(line) for line in found.stdout.splitlines()) <= width


@pytest.mark.parametrize("words", [COMMANDS["find all"], COMMANDS["check"]], ids=["find all", "check"])
def test_what_ends_a_row_stands_under_its_heading(named, run, monkeypatch, words):
    monkeypatch.setenv("COLUMNS", "120")
    monkeypatch.chdir(named)
    lines = run(*words).stdout.splitlines()
    rules = [n for n, line in enumerate(lines) if set(line) == {"-", " "} and "--" in line]
    assert rules
    straight = [columns(lines[n - 1]) == columns(lines[n]) == columns(lines[n + 1]) for n in rules]
    assert any(straight)
    if words[0] == "find":
        ends = {columns(line) for line in lines[rules[0] - 1 : lines.index("", rules[0])] if "AT HOME" not in line}
        assert len(ends) == 1
