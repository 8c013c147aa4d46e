"""`lowstow weigh PLAN --stage NAME --front KG --rear KG`."""

from collections.abc import Callable
from typing import Annotated, Any

import typer

from cli.answering import BadInput, answers
from cli.codes import Code
from cli.numbers import number
from cli.options import Json, PlanFile
from cli.screen import width


def _kg(option: str, least_kg: float = 1, most_kg: float = 100_000, such_as: str = "1240") -> Callable[[Any], Any]:
    return number(option, least_kg, most_kg, such_as)


StageName = Annotated[
    str, typer.Option("--stage", metavar="NAME", help="The stage at which it was weighed.", show_default=False)
]
Front = Annotated[
    float,
    typer.Option("--front", metavar="KG", parser=_kg("--front"), help="The front axle.", show_default=False),
]
Rear = Annotated[
    float,
    typer.Option("--rear", metavar="KG", parser=_kg("--rear"), help="The rear axle.", show_default=False),
]
Left = Annotated[
    float | None,
    typer.Option("--left", metavar="KG", parser=_kg("--left"), help="The left wheels.", show_default=False),
]
Right = Annotated[
    float | None,
    typer.Option("--right", metavar="KG", parser=_kg("--right"), help="The right wheels.", show_default=False),
]
Division = Annotated[
    float,
    typer.Option("--division", metavar="KG", parser=_kg("--division", 0.1, 1000, "20"), help="The step of the scale."),
]


@answers
def weigh(
    plan: PlanFile,
    stage: StageName,
    front: Front,
    rear: Rear,
    left: Left = None,
    right: Right = None,
    division: Division = 20.0,
    json: Json = False,
) -> Code:
    """Compare a weighbridge ticket with a plan."""
    from cli.names import the_one  # noqa: PLC0415 - loaded where used
    from models.reading import read_plan  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415
    from report.lost import told_changed  # noqa: PLC0415
    from report.terminal.weigh import weigh_report  # noqa: PLC0415
    from report.weigh_view import weigh_view  # noqa: PLC0415
    from verifier import Ticket  # noqa: PLC0415
    from verifier import weigh as compare  # noqa: PLC0415

    if (left is None) != (right is None):
        raise BadInput("--left and --right: found one of the two; allowed: both or neither.")
    read = read_plan(plan)
    name = the_one(stage, [one.name for one in read.case.trip.stages], "stage")
    (at,) = [one for one in read.case.trip.stages if one.name == name]
    found = compare(read.case, read.plan, at, Ticket(front, rear, left, right, division))
    if json:
        typer.echo(json_text({**weigh_view(found), "digest_matches": read.digest_matches}), nl=False)
    else:
        typer.echo(weigh_report(read.case, found, width(), told_changed(read)), nl=False)
    return Code.of(found.holds)
