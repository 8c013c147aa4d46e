"""The way in: what takes time to load is loaded where Ctrl-C may end it."""

import sys

STOPPED = 130
"""Exit code where Ctrl-C ends a command that has not begun: what a shell gives, 128 + 2."""


def main() -> None:
    """Run a command and exit with its code; whatever happens, a person reads a sentence or, of a key, nothing."""
    try:
        from cli.app import run  # noqa: PLC0415 - it takes tenths of a second, in which the key may come

        run()
    except KeyboardInterrupt:
        sys.exit(STOPPED)


if __name__ == "__main__":
    main()
