"""The house keeps what it says: one word a rule, docs that match the models, files of a readable length."""

import re
import subprocess
from enum import Enum
from pathlib import Path
from typing import Any

import pytest

from models import advice, gear, plan, spaces, trip, vehicle
from models.base import Described, Limit
from models.rules import Rule

ROOT = Path(__file__).resolve().parent.parent
PACKAGES = ("models", "verifier", "packing", "solver", "report", "cli")
LONGEST_FILE_LINES = 300
DESCRIBED = {
    name: kind
    for module in (advice, gear, plan, spaces, trip, vehicle)
    for name, kind in vars(module).items()
    if isinstance(kind, type) and issubclass(kind, Described) and kind.__module__ == module.__name__
}
WRITTEN_DEFAULT = {("Space", "accepts"): "anything", ("Thing", "carry"): "must"}


def text_of(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def python_files() -> list[Path]:
    return sorted(path for package in PACKAGES for path in (ROOT / package).rglob("*.py"))


def fields_told(kind: str) -> dict[str, str]:
    """Default by field, as docs/files.md tells them under the heading of a kind."""
    section = re.split(r"^### ", text_of("docs/files.md"), flags=re.MULTILINE)
    (told,) = [part for part in section if f"(`{kind}`)" in part.splitlines()[0]]
    return dict(re.findall(r"^\| `(\w+)` \|[^|]*\| ([^|]*) \|", told, re.MULTILINE))


def as_written(value: Any) -> str:
    """A default of a model as a person writes it in a file."""
    if isinstance(value, Limit):
        return "unknown"
    if isinstance(value, Described | dict):
        return "{}"
    if isinstance(value, tuple):
        return "[]"
    if isinstance(value, bool) or value is None:
        return str(value).lower()
    if isinstance(value, Enum):
        return str(value.value)
    return f"{value:g}" if isinstance(value, int | float) else str(value)


def fields_meant(kind: str) -> dict[str, str]:
    """Default by field, as the model has them."""
    meant = {}
    for name, field in DESCRIBED[kind].model_fields.items():
        written = field.alias or name
        default = "required" if field.is_required() else as_written(field.get_default(call_default_factory=True))
        meant[written] = WRITTEN_DEFAULT.get((kind, written), default)
    return meant


@pytest.mark.parametrize("kind", sorted(DESCRIBED))
def test_every_field_is_told_with_its_default(kind: str) -> None:
    assert fields_told(kind) == fields_meant(kind)


def test_every_rule_has_its_heading_in_order() -> None:
    headings = re.findall(r"^## (.+)$", text_of("docs/rules.md"), re.MULTILINE)
    assert headings == ["Before the rules", *(rule.value for rule in Rule), "Beside the rules"]


@pytest.mark.parametrize("rule", list(Rule))
@pytest.mark.parametrize("side", ["solver", "verifier"])
def test_every_rule_has_its_file_on_both_sides(side: str, rule: Rule) -> None:
    assert (ROOT / side / "rules" / f"{rule.value}.py").is_file()
    assert (ROOT / "tests" / side / f"test_{rule.value}.py").is_file()


KNOWN_BY_OTHER_WORDS = {Rule.CARRIED: ("coming.py", "def coming"), Rule.BALANCE: ("limits.py", "def lean_g")}
"""Rules that what makes layouts names otherwise: the file, and what stands in it."""


@pytest.mark.parametrize("rule", list(Rule))
def test_every_rule_is_known_beside_the_exact_models(rule: Rule) -> None:
    """What stands in `solver/rules/` alone is known to no first layout: DEVELOPERS.md, "Add a rule"."""
    if rule in KNOWN_BY_OTHER_WORDS:
        name, what = KNOWN_BY_OTHER_WORDS[rule]
        assert what in text_of(f"solver/{name}")
        return
    named = [path.name for path in sorted((ROOT / "solver").glob("*.py")) if f"Rule.{rule.name}" in path.read_text()]
    assert named, f"{rule.value} stands in solver/rules/ alone"


def test_the_map_of_the_search_names_every_file_once() -> None:
    section = text_of("DEVELOPERS.md").partition("## How a plan is found")[2].partition("\n## ")[0]
    files = [path.name for path in (ROOT / "solver").glob("*.py") if path.name != "__init__.py"]
    assert sorted(re.findall(r"`(\w+\.py)`", section)) == sorted(files)


def test_ci_runs_the_test_command_of_the_readme() -> None:
    command = "python -m pytest -n auto"
    assert re.search(rf"^python3 .*/{command}$", text_of("README.md"), re.MULTILINE)
    assert re.search(rf"^check {command}$", text_of(".ci/run"), re.MULTILINE)


def test_every_link_of_the_docs_leads_somewhere() -> None:
    pages = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]
    links = [(page, link) for page in pages for link in re.findall(r"\]\(([^)#:]+)\)", page.read_text("utf-8"))]
    assert links
    assert [(page.name, link) for page, link in links if not (page.parent / link).exists()] == []


def test_no_file_is_too_long() -> None:
    lengths = {str(path.relative_to(ROOT)): len(path.read_text("utf-8").splitlines()) for path in python_files()}
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST_FILE_LINES} == {}


def test_every_folder_of_code_is_a_package() -> None:
    assert [str(path.parent) for path in python_files() if not (path.parent / "__init__.py").is_file()] == []


def test_constraints_pin_exact_versions_without_addresses() -> None:
    lines = text_of("constraints.txt").split()
    assert lines
    assert [line for line in lines if not re.fullmatch(r"[\w.-]+==[\w.]+", line)] == []


def test_the_check_script_may_be_run() -> None:
    listed = subprocess.run(
        ["git", "ls-files", "--stage", ".ci/run"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if listed.returncode == 0 and listed.stdout:
        assert listed.stdout.startswith("100755")
    else:  # not a git checkout, such as an unpacked archive: the file itself tells
        assert (ROOT / ".ci/run").stat().st_mode & 0o100
