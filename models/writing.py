"""Writing files: whole or not at all; plans in one fixed form."""

import errno
import json
import os
import re
import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from models.plan import Plan
from models.reading.scalars import OtherBaseError, scalar

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_./()+'° -]*[A-Za-z0-9_./()+'°]|[A-Za-z]")
"""Texts that YAML reads back as they are without quotes, within brackets too."""

_UNSEEN = re.compile(r"[^\x20-\x7e\U00010000-\U0010ffff]")
"""Characters that may have to be written as numbers; those beyond U+FFFF YAML takes as they are, never in halves."""


def replace_whole(path: Path, text: str) -> None:
    """Write a file whole, or leave the one that is there as it was.

    Raises
    ------
    OSError
        The folder is missing or closed, the disk is full, or a pipe, a device or a file that nobody may write to is
        there, which is left as it is; nothing of the new text is then left.
    """
    target = Path(os.path.realpath(path))
    if target.exists() and not (target.is_file() or target.is_dir()):
        raise _not_written(errno.EINVAL, "Is no ordinary file", path)
    if target.exists() and not os.access(target, os.W_OK):
        # A folder that may be written to lets it be replaced; whoever protected it did not mean that.
        raise _not_written(errno.EACCES, os.strerror(errno.EACCES), path)
    try:
        handle, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name[:40]}.", suffix=".part")
    except OSError as problem:
        # The person knows the file that was asked for, not the one that stands in until it is whole.
        raise _not_written(problem.errno, problem.strerror, path) from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).chmod(_mode(target))
        Path(temporary).replace(target)
    except BaseException as problem:
        with suppress(OSError):
            Path(temporary).unlink()
        if isinstance(problem, OSError):
            raise _not_written(problem.errno, problem.strerror, path) from None
        raise


def _not_written(number: int | None, reason: str | None, path: Path) -> OSError:
    """What the system says against a file, with the note that it was to be written."""
    trouble = OSError(number, reason, str(path))
    trouble.add_note("nothing was written")
    return trouble


def _mode(target: Path) -> int:
    """The rights of the file that is replaced, else those that a new file gets."""
    with suppress(OSError):
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def plan_text(plan: Plan) -> str:
    """A plan as YAML, one line for each placement, the same text for the same plan."""
    lines = [f"trip: {_flow(plan.trip)}"]
    if plan.trip_digest is not None:
        lines.append(f"trip_digest: {_flow(plan.trip_digest)}")
    lines += _entries("locks", plan.locks)
    lines += _entries("placements", plan.placements)
    lines += _entries("left_at_home", plan.left_at_home)
    if plan.reserve_kept_kg is not None:
        lines.append(f"reserve_kept_kg: {_flow(plan.reserve_kept_kg)}")
    if plan.reserve_asked_kg is not None:
        lines.append(f"reserve_asked_kg: {_flow(plan.reserve_asked_kg)}")
    claims = plan.claims.model_dump(exclude_defaults=True)
    lines += (
        ["claims:", *(f"  {key}: {_flow(figures)}" for key, figures in claims.items())] if claims else ["claims: {}"]
    )
    return "\n".join(lines) + "\n"


_KEPT = {"copy"}
"""Keys that are written even when they hold their default."""


def _entries(key: str, parts: tuple[Any, ...]) -> list[str]:
    return [f"{key}:", *entry_lines(parts)] if parts else [f"{key}: []"]


def entry_lines(parts: Sequence[Any]) -> list[str]:
    """The parts of a list in a plan's file, a line each."""
    return [f"  - {_flow(_plain(part))}" for part in parts]


def _plain(part: Any) -> dict[str, Any]:
    """The keys of a part that say something, in the order of its model."""
    told = part.model_dump(by_alias=True, exclude_defaults=True)
    everything = part.model_dump(by_alias=True)
    found = {key: value for key, value in everything.items() if key in told or (key in _KEPT and value is not None)}
    if "turn" in everything:
        found = {**{k: v for k, v in found.items() if k != "facing"}, "turn": everything["turn"],
                 **({"facing": everything["facing"]} if everything["facing"] else {})}  # fmt: skip
    return found


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_flow(str(key))}: {_flow(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_flow(inner) for inner in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    return _text(value) if isinstance(value, str) else str(value)


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text) and ": " not in text and " #" not in text and _is_text(text):
        return text
    if re.fullmatch(r"sha256:[0-9a-f]+", text):
        return text
    return _UNSEEN.sub(_escaped, json.dumps(text, ensure_ascii=False))


def _escaped(found: re.Match[str]) -> str:
    """A character as it is where it is seen, else its number: it may end a line, or be none of YAML's."""
    return found[0] if found[0].isprintable() else f"\\u{ord(found[0]):04x}"


def _is_text(text: str) -> bool:
    try:
        return isinstance(scalar(text), str)
    except OtherBaseError:
        return False
