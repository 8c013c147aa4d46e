"""Commands as they are typed."""

from collections.abc import Sequence
from os import sep
from shlex import quote

from report.terminal.columns import width_of

PLAIN = f"-_./:{sep}"
"""Signs beside letters and figures that need no quotes on a command line."""


def command(words: Sequence[str], width: int) -> list[str]:
    """A command as it is typed, carried on in another line where it is long."""
    lines = ["  lowstow"]
    for word in words:
        if width_of(lines[-1]) + width_of(word) + 3 > width:
            lines[-1] += " \\"
            lines.append("     ")
        lines[-1] += f" {word}"
    return lines


def words_of(verb: str, named: Sequence[str], *options: str) -> list[str]:
    """The words of a command: what it is about, and its options as typed, first where a name would pass for one."""
    names = [quoted(name) for name in named]
    if any(name.startswith("-") for name in named):
        return [verb, *options, "--", *names]
    return [verb, *names, *options]


def quoted(text: str) -> str:
    """A name or a path as it is typed on a command line."""
    if all(sign.isalnum() or sign in PLAIN for sign in text):
        return text
    if "'" not in text:
        return f"'{text}'"
    return quote(text) if any(sign in text for sign in '"$`\\!') else f'"{text}"'
