"""`lowstow new DIR`."""

from pathlib import Path
from typing import Annotated

import typer

from cli.answering import BadInput, answers
from cli.codes import Code

Folder = Annotated[str, typer.Argument(metavar="DIR", help="A folder for the new trip.", show_default=False)]


@answers
def new(typed: Folder) -> Code:
    """Write a starter trip to edit, with a wheel arch in it."""
    from models.starter import starter_files  # noqa: PLC0415 - loaded where used
    from models.writing import replace_whole  # noqa: PLC0415
    from report.terminal.typed import quoted, words_of  # noqa: PLC0415

    if not typed.strip():  # a path takes it for the folder one is in
        raise BadInput("DIR: found no name; name a folder that is new or empty.")
    folder, files = Path(typed), starter_files()
    _refuse_what_is_there(folder, files)
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        replace_whole(folder / name, text)
    typer.echo(f"Written to {folder}: {', '.join(files)}.")
    words = words_of("suggest", (str(folder / "trip.yaml"),), "-o", quoted(str(folder / "plan.yaml")))
    typer.echo(f"Edit them, then: lowstow {' '.join(words)}")
    return Code.HOLDS


def _refuse_what_is_there(folder: Path, names: dict[str, str]) -> None:
    if folder.exists() and not folder.is_dir():
        raise BadInput(f"{folder}: is a file; name a folder that is new or empty.")
    there = [name for name in names if (folder / name).exists()]
    if there:
        raise BadInput(f"{folder}: already holds {', '.join(there)}; nothing was written, choose another folder.")
