"""A folder with the starter trip and a plan made by hand, and the command line run inside the test."""

from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from cli.app import app
from models.starter import starter_files

PLAN = Path(__file__).parent.parent / "report" / "starter_plan.yaml"


@pytest.fixture
def trip(tmp_path: Path) -> Path:
    """A folder with vehicle.yaml, gear.yaml, trip.yaml and plan.yaml."""
    for name, text in starter_files().items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "plan.yaml").write_text(PLAN.read_text(encoding="utf-8"), encoding="utf-8")
    return tmp_path


def off_the_list(folder: Path) -> None:
    """The shovel and the second water can are off the gear list since the plan was made."""
    plan, gear = folder / "plan.yaml", folder / "gear.yaml"
    plan.write_text(
        plan.read_text("utf-8").replace("trip: trip.yaml", f"trip: trip.yaml\ntrip_digest: 'sha256:{'0' * 64}'"),
        "utf-8",
    )
    text = gear.read_text("utf-8")
    assert text.count("- name: shovel\n") == text.count("- name: water can\n  count: 2\n") == 1
    text = text.replace("- name: shovel\n", "- name: spade\n").replace(
        "- name: water can\n  count: 2\n", "- name: water can\n"
    )
    gear.write_text(text, "utf-8")


@pytest.fixture
def run() -> Callable[..., Result]:
    def running(*words: object) -> Result:
        return CliRunner().invoke(app, [str(word) for word in words])

    return running
