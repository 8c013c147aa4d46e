"""How long the commands take that search nothing, and what they load.

Run: python -m benchmarks.startup [--times 5]
"""

import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from benchmarks.table import arguments, heading, scenarios, table
from models.rereading import replace_plan
from models.writing import plan_text
from solver import Options, propose

PROGRAM = "import sys; from cli.main import command; sys.argv = ['lowstow', *sys.argv[1:]]; command()"
"""The command's entry point, started as its script starts it."""


def seconds_of(words: list[str], times: int) -> tuple[float, float, float]:
    """Median and least seconds of a command from start to end, and median seconds of the processor it took."""
    taken, busy = [], []
    for _ in range(times):
        began, used = time.monotonic(), _busy_s()
        subprocess.run([sys.executable, "-c", PROGRAM, *words], capture_output=True, check=False)  # noqa: S603
        taken.append(time.monotonic() - began)
        busy.append(_busy_s() - used)
    return statistics.median(taken), min(taken), statistics.median(busy)


def _busy_s() -> float:
    """Seconds that children of this process kept a processor busy."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def loads(words: list[str]) -> set[str]:
    """Top-level packages in memory when a command ends."""
    told = "import atexit, sys; atexit.register(lambda: print(sorted({m.split('.')[0] for m in sys.modules}))); "
    # `command` ends the process at once, without what is registered for its end.
    command = [sys.executable, "-c", told + PROGRAM.replace("command", "main"), *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603
    lines = [line for line in done.stdout.splitlines() if line.startswith("[")]
    return set(lines[-1].strip("[]").replace("'", "").split(", "))


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, times=5)
    print(heading("typer", "pydantic"))
    rows = [["lowstow --help", *_row(["--help"], given.times)]]
    for name, case in scenarios().items():
        plan = propose(case, Options(effort=0.01)).plan
        if plan is not None:
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / "plan.yaml"
                here = plan.model_copy(update={"trip": str(case.folder.resolve() / "trip.yaml")})
                replace_plan(path, plan_text(here), here)
                rows.append([f"lowstow check ({name})", *_row(["check", str(path)], given.times)])
    print(table(("command", "median s", "least s", "processor s", "ortools loaded"), rows))


def _row(words: list[str], times: int) -> list[object]:
    return [*seconds_of(words, times), "ortools" in loads(words)]


if __name__ == "__main__":
    main()
