"""The starter trip with a plan made by hand, checked; and golden texts that one variable rewrites.

`LOWSTOW_REWRITE_GOLDEN=1 python -m pytest tests/report tests/cli` writes the texts anew.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from models.case import Case
from models.plan import Plan
from models.reading import read_plan
from models.starter import starter_files
from verifier import Verdict, check

HERE = Path(__file__).parent


@dataclass
class Told:
    case: Case
    plan: Plan
    verdict: Verdict


@dataclass
class Folder:
    """The starter's files and a plan in a folder, to be spoilt in one place."""

    path: Path

    def change(self, name: str, old: str, new: str) -> "Folder":
        file = self.path / name
        text = file.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        file.write_text(text.replace(old, new), encoding="utf-8")
        return self

    @property
    def told(self) -> Told:
        read = read_plan(self.path / "plan.yaml")
        return Told(read.case, read.plan, check(read.case, read.plan))


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    for name, text in starter_files().items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "plan.yaml").write_text((HERE / "starter_plan.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    return Folder(tmp_path)


@pytest.fixture
def told(folder: Folder) -> Told:
    return folder.told


@pytest.fixture
def golden() -> Callable[[str, str], None]:
    def compare(name: str, text: str) -> None:
        file = HERE / "golden" / name
        if os.environ.get("LOWSTOW_REWRITE_GOLDEN"):
            file.write_text(text, encoding="utf-8")
        assert text == file.read_text(encoding="utf-8")

    return compare
