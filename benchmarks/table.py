"""How every benchmark tells what it saw: a heading with date, machine and versions, then a markdown table."""

import argparse
import datetime
import os
import platform
import resource
import sys
from collections.abc import Iterable, Sequence
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from models.case import Case
from models.reading import read_case

ROOT = Path(__file__).resolve().parent.parent
"""The folder of the repository."""


def heading(*packages: str) -> str:
    """Date, machine, versions and the command, in one line."""
    found = [f"Python {platform.python_version()}", *(f"{name} {_version(name)}" for name in ("ortools", *packages))]
    module = Path(sys.argv[0]).stem
    command = " ".join(["python -m", f"benchmarks.{module}", *sys.argv[1:]])
    date = datetime.datetime.now(tz=datetime.UTC).date()
    return f"{date}; {os.cpu_count()} cores, {platform.machine()}; {', '.join(found)}; `{command}`"


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "absent"


def table(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A markdown table."""
    lines = ["| " + " | ".join(columns) + " |", "|" + "---|" * len(columns)]
    lines += ["| " + " | ".join(told(cell) for cell in row) + " |" for row in rows]
    return "\n".join(lines)


def told(cell: object) -> str:
    """A cell as text; nothing known is a dash."""
    if cell is None:
        return "-"
    if isinstance(cell, float):
        return f"{cell:.2f}"
    return str(cell)


def peak_mb() -> float:
    """Most memory this process and the largest of those it started have held, in megabytes."""
    return sum(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)) / 1024


def busy_s() -> float:
    """Seconds of a processor that this process has used, and those it started that have ended."""
    used = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(one.ru_utime + one.ru_stime for one in used)


def arguments(about: str | None, **defaults: float | str) -> argparse.Namespace:
    """Options of a benchmark: a number or a word each, with its default."""
    asked = parser(about)
    for name, value in defaults.items():
        asked.add_argument(f"--{name.replace('_', '-')}", type=type(value), default=value, help=f"usually {value!r}")
    return asked.parse_args()


def parser(about: str | None) -> argparse.ArgumentParser:
    """A parser whose help is a benchmark's docstring, line by line."""
    named = f"python -m benchmarks.{Path(sys.argv[0]).stem}"
    return argparse.ArgumentParser(named, description=about, formatter_class=argparse.RawDescriptionHelpFormatter)


def scenarios() -> dict[str, Case]:
    """The worked trips by name."""
    folders = sorted((ROOT / "scenarios").glob("*/trip.yaml"))
    return {path.parent.name: read_case(path).case for path in folders}


def data_folder() -> Path | None:
    """The folder with the open instances: named by LOWSTOW_DATA, or `data` in the repository; None when absent."""
    folder = Path(os.environ.get("LOWSTOW_DATA", ROOT / "data"))
    return folder if folder.is_dir() else None
