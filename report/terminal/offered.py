"""Commands that make a plan which was tried, as they are typed."""

from collections.abc import Sequence

from report.explained import LockTold
from report.terminal.locked import trip_files
from report.terminal.table import paragraph
from report.terminal.typed import command, quoted, words_of

Words = Sequence[str]


def offered(
    like: str, about: tuple[str, str], lifted: Sequence[LockTold], make: Sequence[Words], write: Words, width: int
) -> list[str]:
    """Under what somebody may like: the commands that make it in a plan, and the one that writes what was tried.

    `about` is the plan and the thing; what the plan's own locks have against it is unlocked first.
    """
    commands, own = list(make), dict.fromkeys(lock.unlock for lock in lifted if not lock.of_trip)
    if own and commands:
        says = [word if word.startswith("--") else quoted(word) for words in own for word in words]
        commands.insert(0, words_of("unlock", about, *says))
    files = trip_files(lifted)
    first = f"{like}, once the lock is out of {files}:" if files else f"{like}:"
    lines = ["", *paragraph(first, width), *(line for words in commands for line in command(words, width))]
    if files:
        return lines
    return [*lines, "Or write the plan that was tried:", *command(write, width)]
