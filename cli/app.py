"""The command line: its commands, and the last net under them."""

import sys
from contextlib import suppress

import typer

from cli.answering import file_trouble, own_fault
from cli.commands.check import check
from cli.commands.compare import compare
from cli.commands.explain import explain
from cli.commands.find import find
from cli.commands.lock import lock
from cli.commands.new import new
from cli.commands.revise import revise
from cli.commands.schema import schema
from cli.commands.sheet import sheet
from cli.commands.suggest import suggest
from cli.commands.tradeoff import tradeoff
from cli.commands.unlock import unlock
from cli.commands.weigh import weigh

COMMANDS = (suggest, check, lock, unlock, revise, explain, find, sheet, weigh, compare, tradeoff, new, schema)
"""In the order in which help tells them. Each loads what it needs when it runs."""

EPILOG = (
    "Exit codes: 0 done and all limits hold; 1 a limit is broken; 2 bad input; 3 no plan exists (proven); "
    "4 none found in the time given; 5 nothing broken, but a limit is unknown or nothing drives; "
    "70 our own fault, with what to report."
)

app = typer.Typer(
    name="lowstow",
    help="Gives every thing in a loaded off-road vehicle a place: lawful, low, reachable, and checked.",
    epilog=EPILOG,
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _show_version(asked: bool) -> None:
    if asked:
        from importlib.metadata import version  # noqa: PLC0415 - only for those who ask

        typer.echo(version("lowstow"))
        raise typer.Exit


@app.callback()
def _lowstow(
    version: bool = typer.Option(False, "--version", callback=_show_version, is_eager=True, help="Print the version."),
) -> None:
    """Give every thing in a loaded off-road vehicle a place: lawful, low, reachable, and checked."""


for command in COMMANDS:
    app.command(epilog=EPILOG)(command)


def run() -> None:
    """Run a command and exit with its code; whatever happens, a person reads a sentence."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):
            # A terminal that cannot show a letter shows a question mark in its place.
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        app()
    except OSError as problem:
        sys.exit(int(file_trouble(problem)))
    except Exception as problem:  # noqa: BLE001 - the last net: a person gets a sentence, not a traceback
        sys.exit(int(own_fault(problem)))
