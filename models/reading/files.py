"""Files from outside: what is there is read whole, what cannot be text is refused in one sentence."""

import codecs
import os
import stat
from pathlib import Path

from models.reading.faults import Fault, nearest

LARGEST_BYTES = 5_000_000
"""Largest file that is read, in bytes. Common practice, no source: a kit list of 200 things has about 50 000."""

LARGEST_TOGETHER_BYTES = 10_000_000
"""Most that is read of all files of a trip together, in bytes; a list may be named in many ways."""

OTHER_MARKS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
"""Byte-order marks of other encodings; one of UTF-32 begins with one of UTF-16, and is looked for first."""


class Unreadable(Exception):  # noqa: N818 - carries a fault to the door
    """A file of which nothing can be used."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(str(fault))
        self.fault = fault


def _refuse(file: Path, found: str, allowed: str, hint: str = "", line: int | None = None) -> Unreadable:
    return Unreadable(Fault(str(file), line, "", found, allowed, hint))


def bytes_of(file: Path, usual: str = "") -> bytes:
    """The bytes of a regular file of bearable size; `usual` is the name that is looked for where it is a folder.

    Raises
    ------
    Unreadable
        Nothing there, no file, too large, or not ours to read.
    """
    try:
        status = file.stat()
        if stat.S_ISDIR(status.st_mode):
            inner = file / usual
            raise _refuse(file, "a folder", "a text file", f"did you mean {inner}?" if inner.is_file() else "")
        if not stat.S_ISREG(status.st_mode):
            raise _refuse(file, "no ordinary file", "a text file")
        if status.st_size > LARGEST_BYTES:
            raise _refuse(file, f"{status.st_size / 1e6:.1f} MB", f"at most {LARGEST_BYTES / 1e6:.0f} MB")
        return file.read_bytes()
    except FileNotFoundError:
        raise _missing(file) from None
    except PermissionError:
        raise _refuse(file, "a file that may not be read", "a file you have the right to read") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "a name that no file can have"
        raise _refuse(Path(ascii(str(file))[1:-1][:200]), f"a problem: {reason}", "a text file") from None


def _missing(file: Path) -> Unreadable:
    if file.is_symlink():
        return _refuse(file, f"a link to {_link(file)}, where nothing is", "a text file")
    try:
        beside = [entry.name for entry in file.parent.iterdir()][:1000]
    except OSError:
        return _refuse(file, "no such file, and no such folder", "a text file")
    return _refuse(file, "no such file", "a text file", nearest(file.name, beside))


def _link(file: Path) -> str:
    try:
        return str(os.readlink(file))  # noqa: PTH115 - as it was written
    except OSError:
        return "somewhere"


def text_of(file: Path, content: bytes) -> str:
    """The text of a file in UTF-8, its byte-order mark included.

    Raises
    ------
    Unreadable
        Other encodings and binary files.
    """
    other = next((name for mark, name in OTHER_MARKS if content.startswith(mark)), None)
    if other is not None:
        raise _refuse(file, f"text in {other}", "text in UTF-8", "save it again with the encoding UTF-8")
    zero = content.find(b"\0")
    if zero >= 0:
        raise _refuse(file, "a zero byte, as in binary files", "text in UTF-8", line=_line(content, zero))
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as problem:
        byte = content[problem.start]
        hint = "save it again with the encoding UTF-8"
        line = _line(content, problem.start)
        raise _refuse(file, f"the byte 0x{byte:02x}, which is not UTF-8", "text in UTF-8", hint, line) from None


def _line(content: bytes, at: int) -> int:
    return content.count(b"\n", 0, at) + 1
