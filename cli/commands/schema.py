"""`lowstow schema [KIND]`."""

from pathlib import Path
from typing import Annotated

import typer

from cli.answering import BadInput, answers
from cli.codes import Code
from cli.options import out_file

Kind = Annotated[
    str | None,
    typer.Argument(metavar="[KIND]", help="vehicle, gear, trip, plan or rulebook; all of them when left out."),
]
Out = Annotated[
    Path | None,
    typer.Option("-o", "--out", parser=out_file, metavar="FILE", help="Write it to this file.", show_default=False),
]


@answers
def schema(kind: Kind = None, out: Out = None) -> Code:
    """Print JSON Schemas of the files, for editors."""
    from cli.outputs import refuse_another_kind  # noqa: PLC0415 - loaded where used
    from models.reading.faults import nearest, shown  # noqa: PLC0415
    from models.schema import KINDS, schema_of  # noqa: PLC0415
    from models.writing import replace_whole  # noqa: PLC0415
    from report.json_view import json_text  # noqa: PLC0415

    if kind is not None and kind not in KINDS:
        hint = nearest(kind, KINDS)
        told = f"KIND: found {shown(kind)}; allowed: {', '.join(KINDS)}"
        raise BadInput(f"{told} ({hint})." if hint else f"{told}.")
    if out is not None:
        refuse_another_kind(out, "schema.json")
    text = json_text({one: schema_of(one) for one in KINDS} if kind is None else schema_of(kind))
    if out is None:
        typer.echo(text, nl=False)
    else:
        replace_whole(out, text)
        typer.echo(f"The schema is in {out}.", err=True)
    return Code.HOLDS
