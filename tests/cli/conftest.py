"""A folder with the starter trip and a plan made by hand, and the command line run inside the test."""

from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.main import app
from models.starter import starter_files

PLAN = Path(__file__).parent.parent / "report" / "starter_plan.yaml"


@pytest.fixture
def trip(tmp_path: Path) -> Path:
    """A folder with vehicle.yaml, gear.yaml, trip.yaml and plan.yaml."""
    for name, text in starter_files().items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "plan.yaml").write_text(PLAN.read_text(encoding="utf-8"), encoding="utf-8")
    return tmp_path


@pytest.fixture
def run() -> Callable[..., Result]:
    def running(*words: object) -> Result:
        return CliRunner().invoke(app, [str(word) for word in words])

    return running
