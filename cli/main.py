"""The way in: what takes time to load is loaded where Ctrl-C may end it."""

import gc
import os
import sys
from contextlib import suppress

STOPPED = 130
"""Exit code where Ctrl-C ends a command that has not begun: what a shell gives, 128 + 2."""

NEW_OBJECTS = 100_000
"""Objects made since the last search for garbage that begin the next one; for Python itself it is some hundreds."""


def main() -> None:
    """Run a command and exit with its code; whatever happens, a person reads a sentence or, of a key, nothing."""
    try:
        from cli.app import run  # noqa: PLC0415 - it takes tenths of a second, in which the key may come

        run()
    except KeyboardInterrupt:
        sys.exit(STOPPED)


def command() -> None:
    """Run a command, and end the process with its code.

    Python would first take apart all that was loaded and found, piece by piece, with the answer there and the prompt
    not: 0.1 to 0.2 s after a check, 0.3 s after a search. Nothing waits for that: files are written and closed by then.
    For the same reason garbage is seldom looked for, and no installed package is asked for plug-ins of pydantic.
    """
    gc.set_threshold(NEW_OBJECTS)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")
    try:
        main()
    except SystemExit as end:
        with suppress(OSError, ValueError):  # what cannot be written Python tells as usual
            for stream in (sys.stdout, sys.stderr):
                if stream is not None:  # none where it is closed from the start
                    stream.flush()
            if isinstance(end.code, int):
                os._exit(end.code)
        raise


if __name__ == "__main__":
    command()
