"""What every command does alike: faults of the input end with 2, mistakes of our own with 70, never a traceback."""

import functools
import os
import sys
import traceback
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, TextIO

import typer

from cli.codes import Code
from cli.numbers import faults


class BadInput(Exception):  # noqa: N818 - a fault of what was asked for, not an error of ours
    """Something asked for on the command line that cannot be done; its text is the sentence to tell."""


class OurFault(Exception):  # noqa: N818 - told as a sentence, not raised at callers
    """Lowstow contradicts itself; its text says what to report."""


def answers(command: Callable[..., Code]) -> Callable[..., None]:
    """A command whose return value becomes the exit code and whose exceptions become sentences."""

    @functools.wraps(command)
    def answering(*args: Any, **kwargs: Any) -> None:
        wrong = faults(kwargs)
        code = tell("\n".join(wrong), Code.BAD_INPUT) if wrong else _code_of(lambda: command(*args, **kwargs))
        raise typer.Exit(int(code))

    return answering


def _code_of(run: Callable[[], Code]) -> Code:
    try:
        code = run()
        if sys.stdout is not None:  # none where the output is closed from the start
            sys.stdout.flush()
        return code
    except (typer.Exit, typer.Abort, typer.BadParameter):
        raise
    except BadInput as problem:
        return tell(str(problem), Code.BAD_INPUT)
    except BrokenPipeError:
        raise _reader_gone() from None
    except KeyboardInterrupt:
        return tell("Stopped before there was an answer; nothing was written.", Code.NOT_FOUND)
    except OSError as problem:
        return file_trouble(problem)
    except Exception as problem:  # noqa: BLE001 - the last net: a person gets a sentence, not a traceback
        return _told_if_fault(problem)


def file_trouble(problem: OSError) -> Code:
    """Tell in one sentence which file the system refused, or that it took no output, as on a full disk."""
    if not (problem.filename2 or problem.filename):
        _let_go_of(sys.stdout)
    return tell(_file_sentence(problem), Code.BAD_INPUT)


def _told_if_fault(problem: Exception) -> Code:
    from models.reading import InputFaults  # noqa: PLC0415 - only where it is needed, so that help answers at once

    if isinstance(problem, InputFaults):
        return tell(str(problem), Code.BAD_INPUT)
    return own_fault(problem)


def own_fault(problem: BaseException) -> Code:
    """Tell a mistake of lowstow in one sentence, with what to report."""
    told = (
        str(problem)
        if isinstance(problem, OurFault)
        else f"{type(problem).__name__}: {_short(problem)}{_where(problem)}"
    )
    return tell(
        f"Lowstow made a mistake of its own; please report this with your files and the command: {told}", Code.OUR_FAULT
    )


def _short(problem: BaseException) -> str:
    return " ".join(str(problem).split())[:200]


def _where(problem: BaseException) -> str:
    frames = traceback.extract_tb(problem.__traceback__)
    return f" (in {Path(frames[-1].filename).name}, line {frames[-1].lineno})" if frames else ""


def _file_sentence(problem: OSError) -> str:
    name = problem.filename2 or problem.filename
    reason = (problem.strerror or type(problem).__name__).lower()
    notes = getattr(problem, "__notes__", [])  # such as that nothing was written, of a file that was to be
    return f"{name}: {'; '.join((reason, *notes))}." if name else f"The output could not be written: {reason}."


READER_GONE = 141
"""Exit code where whoever reads the output has left before the end: what a shell gives to a closed pipe, 128 + 13."""


def _reader_gone() -> typer.Exit:
    _let_go_of(sys.stdout)
    return typer.Exit(READER_GONE)


def _let_go_of(stream: TextIO) -> None:
    """Let what is left of an output go nowhere, so that nothing more is told about it."""
    with suppress(AttributeError, OSError):  # none, or none of the system's
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def tell(sentence: str, code: Code) -> Code:
    """Tell a sentence beside the output proper, where that takes it, and pass the code on."""
    try:
        typer.echo(sentence, err=True)
    except OSError:  # a full disk or a reader that has left; the code says it all the same
        _let_go_of(sys.stderr)
    return code
