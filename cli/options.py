"""Options that several commands share."""

from math import isfinite
from pathlib import Path
from typing import Annotated

import typer


def _finite(value: float | None) -> float | None:
    if value is not None and not isfinite(value):
        raise typer.BadParameter("found no finite number; allowed: a number such as 14")
    return value


Seconds = Annotated[
    float,
    typer.Option(
        "--seconds", min=0.1, max=86_400, callback=_finite, help="Stop after so many seconds on the clock.", metavar="S"
    ),
]
SecondsOrNone = Annotated[
    float | None,
    typer.Option(
        "--seconds", min=0.1, max=86_400, callback=_finite, metavar="S",
        help="Search for so many seconds on the clock; default: of a thing, the whole answer takes about 3.",
    ),
]  # fmt: skip
Effort = Annotated[
    float,
    typer.Option(
        "--effort", min=0.01, max=1000, callback=_finite, metavar="E",
        help="How much to search, counted in work and not in time: 2 searches twice as much.",
    ),
]  # fmt: skip
Seed = Annotated[
    int, typer.Option("--seed", min=0, max=2**31 - 1, metavar="N", help="Same seed and effort, same plan.")
]
Json = Annotated[bool, typer.Option("--json", help="Print it for machines.")]
TripFile = Annotated[
    Path, typer.Argument(metavar="TRIP", help="The trip's file, such as trip.yaml.", show_default=False)
]
PlanFile = Annotated[
    Path, typer.Argument(metavar="PLAN", help="The plan's file, such as plan.yaml.", show_default=False)
]
PlanOut = Annotated[
    Path | None, typer.Option("-o", "--out", metavar="FILE", help="Write the plan to this file.", show_default=False)
]
