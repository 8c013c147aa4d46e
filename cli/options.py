"""Options that several commands share."""

import os
from pathlib import Path
from typing import Annotated, Any

import typer

from cli.numbers import Fault, number

SEPARATORS = tuple(sign for sign in (os.sep, os.altsep) if sign)
"""What ends a path that is meant as a folder."""
NO_FOLDER = "its folder does not exist; make it first."

SECONDS = number("--seconds", 0.1, 86_400, "14")

Seconds = Annotated[
    float,
    typer.Option("--seconds", parser=SECONDS, help="Stop after so many seconds on the clock.", metavar="S"),
]
SecondsOrNone = Annotated[
    float | None,
    typer.Option(
        "--seconds", parser=SECONDS, metavar="S",
        help="Search for so many seconds on the clock; default: of a thing, the whole answer takes about 3.",
    ),
]  # fmt: skip
Effort = Annotated[
    float,
    typer.Option(
        "--effort", parser=number("--effort", 0.01, 1000, "2"), metavar="E",
        help="How much to search, counted in work and not in time: 2 searches twice as much.",
    ),
]  # fmt: skip
Seed = Annotated[
    int,
    typer.Option(
        "--seed", parser=number("--seed", 0, 2**31 - 1, "7", whole=True), metavar="N",
        help="Same seed and effort, same plan.",
    ),
]  # fmt: skip
Json = Annotated[bool, typer.Option("--json", help="Print it for machines.")]
TripFile = Annotated[
    Path, typer.Argument(metavar="TRIP", help="The trip's file, such as trip.yaml.", show_default=False)
]
PlanFile = Annotated[
    Path, typer.Argument(metavar="PLAN", help="The plan's file, such as plan.yaml.", show_default=False)
]


def out_file(typed: Any) -> Any:
    """The path of an output; a fault where it is meant as a folder that is not there, which a path does not say."""
    missing = str(typed).endswith(SEPARATORS) and not Path(typed).is_dir()
    return Fault(f"{typed}: {NO_FOLDER}") if missing else Path(typed)


PlanOut = Annotated[
    Path | None,
    typer.Option(
        "-o", "--out", parser=out_file, metavar="FILE", help="Write the plan to this file.", show_default=False
    ),
]
