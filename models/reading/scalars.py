"""Unquoted words of a YAML file: what they are taken for, and which of them are refused."""

import re

NOTHING = frozenset({"", "~", "null", "Null", "NULL"})
FLAGS = {
    variant: flag
    for words, flag in ((("yes", "true", "on"), True), (("no", "false", "off"), False))
    for word in words
    for variant in (word, word.capitalize(), word.upper())
}
"""Unquoted words that YAML takes for yes or no."""

_WHOLE = re.compile(r"[-+]?(0|[1-9][0-9_]*)")
_OTHER_BASE = re.compile(r"[-+]?0([0-9_]+|[xX][0-9a-fA-F_]+|[bB][01_]+|[oO][0-7_]+)")
_BROKEN = re.compile(r"[-+]?([0-9][0-9_]*)?\.?[0-9]+([eE][-+]?[0-9]+)?|[-+]?[0-9][0-9_]*\.([eE][-+]?[0-9]+)?")
_NO_NUMBER = re.compile(r"([-+]?)\.(inf|Inf|INF|nan|NaN|NAN)")

Scalar = str | int | float | bool | None


class OtherBaseError(ValueError):
    """A number with a leading zero or a letter, which may be meant in another base than ten."""


def scalar(text: str) -> Scalar:
    """What an unquoted word is taken for: nothing, yes or no, a number, else text.

    Dates and times stay text. `1e3` is a thousand.

    Raises
    ------
    OtherBaseError
        `012` and `0x1f`, where what is meant cannot be known.
    """
    if text in NOTHING:
        return None
    if text in FLAGS:
        return FLAGS[text]
    if _WHOLE.fullmatch(text):
        return whole(text)
    if _OTHER_BASE.fullmatch(text):
        raise OtherBaseError(text)
    if _BROKEN.fullmatch(text):
        return tidy(float(text.replace("_", "")))
    if _NO_NUMBER.fullmatch(text):
        return float(text.replace(".", ""))
    return text


def whole(text: str) -> int | float:
    """A whole number; one with more digits than anything here can have is only roughly that."""
    digits = text.replace("_", "")
    return int(digits) if len(digits) <= 15 else float(digits)


def tidy(number: float) -> int | float:
    """450.0 as 450: a whole number is whole however it is written."""
    return int(number) if number.is_integer() and abs(number) < 1e15 else number
