"""Every benchmark says how to run it, tells its options, and is named in docs/benchmarks.md."""

import ast
import re
import runpy
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "benchmarks").glob("*.py"))
SCRIPTS = [path for path in FILES if 'if __name__ == "__main__":' in path.read_text(encoding="utf-8")]


def docstring(path: Path) -> str:
    return ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""


def test_some_are_started_by_themselves_and_some_are_not():
    assert 0 < len(SCRIPTS) < len(FILES)


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.stem)
def test_a_script_says_how_to_run_it_and_help_is_what_it_says(script, monkeypatch, capsys):
    monkeypatch.setattr("sys.argv", [str(script), "--help"])
    with pytest.raises(SystemExit) as ended:
        runpy.run_path(str(script), run_name="__main__")
    told = capsys.readouterr().out
    assert ended.value.code == 0
    assert told.startswith(f"usage: python -m benchmarks.{script.stem} ")
    assert docstring(script) in told
    (run,) = re.findall(rf"^Run: .*\bpython -m benchmarks\.{script.stem}\b(.*)", docstring(script), re.MULTILINE)
    assert [option for option in re.findall(r"--[a-z]+", run) if option not in told.partition("options:")[2]] == []


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_every_file_is_named_in_the_docs(file):
    section = (ROOT / "docs" / "benchmarks.md").read_text("utf-8").partition("## The scripts")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| `(\w+)` \|", section, re.MULTILINE)
    shared = re.findall(r"`(\w+)`", section.rpartition("|")[2])
    assert docstring(file)
    assert (rows if file in SCRIPTS else shared).count(file.stem) == 1


def test_every_script_in_the_docs_is_there():
    text = (ROOT / "docs" / "benchmarks.md").read_text("utf-8")
    named = set(re.findall(r"python -m benchmarks\.(\w+)", text)) - {"NAME"}
    assert named <= {path.stem for path in SCRIPTS}
    assert named
