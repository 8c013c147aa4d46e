"""Damages the starter trip's files in a thousand ways: each is read as a case, or refused with file and line.

Run: python -m benchmarks.damaged_files [--many 1000] [--seed 1]
"""

import random
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from benchmarks.table import arguments
from models.reading import InputFaults, read_case
from models.starter import starter_files

CSV_GEAR = """name,count,mass_kg,size_mm,needed_when,uses_up,food,carry
rope bag,1,4.5,300x200x200,bogged;injury,,no,must
ration box,2,6/6.5/7,400x300x250,,food=3.5; drinking water=1,yes,40
"""
"""A gear list from a spreadsheet beside the starter's YAML."""

ODD_VALUES = (
    ".nan", ".inf", "-.inf", "1e400", "-1", "0", "1e308", "99999999999999999999", "9" * 5000, "no", "012", "0x1F",
    "12,5",
    "2024-05-01", "~", "''", "[]", "{}", "[1, 2", "{a: ", "*ghost", "&here x", "!!python/name:os.system x", "'unended",
    "33 lb", "5 gal", "12 parsec", "1:30", "\u0000", "\u202e", "\x07", "x" * 3000, "- - -", ": : :", "true", "[[[[]]]]",
    "<<",
    "\t\t", "%TAG", "@at", "`tick", "? complex", "| \n   block", "\U0001f6d2", "{<<: {}}", "[" * 60, "{a: " * 60,
)  # fmt: skip
"""What a person, a spreadsheet or an attacker may put in place of a value."""


def _lines(text: str) -> list[str]:
    return text.split("\n")


def delete_line(text: str, chance: random.Random) -> str:
    """One line less."""
    lines = _lines(text)
    del lines[chance.randrange(len(lines))]
    return "\n".join(lines)


def double_line(text: str, chance: random.Random) -> str:
    """One line twice."""
    lines = _lines(text)
    at = chance.randrange(len(lines))
    return "\n".join([*lines[: at + 1], *lines[at:]])


def swap_lines(text: str, chance: random.Random) -> str:
    """Two lines change places."""
    lines = _lines(text)
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def _words(text: str) -> list[tuple[int, int]]:
    ends = [i for i, letter in enumerate(text) if letter in " ,:[]{}\n;=x"]
    return [(a + 1, b) for a, b in zip([-1, *ends], [*ends, len(text)], strict=True) if b > a + 1]


def odd_value(text: str, chance: random.Random) -> str:
    """An odd value in place of a word."""
    start, end = chance.choice(_words(text))
    return text[:start] + chance.choice(ODD_VALUES) + text[end:]


def swap_words(text: str, chance: random.Random) -> str:
    """Two words change places."""
    (a, b), (c, d) = sorted(chance.sample(_words(text), 2))
    return text[:a] + text[c:d] + text[b:c] + text[a:b] + text[d:]


def misspell(text: str, chance: random.Random) -> str:
    """One letter less."""
    at = chance.randrange(len(text))
    return text[:at] + text[at + 1 :]


def indent(text: str, chance: random.Random) -> str:
    """A line moves right by a space or a tab."""
    lines = _lines(text)
    at = chance.randrange(len(lines))
    lines[at] = chance.choice([" ", "\t", "    "]) + lines[at]
    return "\n".join(lines)


def cut_short(text: str, chance: random.Random) -> str:
    """The end is missing."""
    return text[: chance.randrange(len(text))]


def noise(text: str, chance: random.Random) -> bytes:
    """A few bytes that are no text."""
    content = text.encode()
    at = chance.randrange(len(content))
    return content[:at] + chance.randbytes(chance.randint(1, 12)) + content[at:]


DAMAGES: tuple[Callable[[str, random.Random], str | bytes], ...] = (
    delete_line, double_line, swap_lines, odd_value, odd_value, odd_value, swap_words, misspell, indent,
    cut_short, noise,
)  # fmt: skip


def sound_files() -> dict[str, str]:
    """The files that are damaged: the starter trip with a gear list from a spreadsheet."""
    files = {name: text for name, text in starter_files().items() if name.endswith(".yaml")}
    files["trip.yaml"] = files["trip.yaml"].replace("[gear.yaml]", "[gear.yaml, more.csv]")
    return {**files, "more.csv": CSV_GEAR}


def damage(folder: Path, chance: random.Random) -> str:
    """Write the sound files with one of them damaged once or twice; tells how."""
    files: dict[str, str | bytes] = dict(sound_files())
    name = chance.choice(sorted(files))
    kinds = []
    for _ in range(chance.choice((1, 1, 2))):
        text = files[name]
        if isinstance(text, str) and len(_words(text)) > 1:
            kind = chance.choice(DAMAGES)
            files[name] = kind(text, chance)
            kinds.append(kind.__name__)
    for file, text in files.items():
        (folder / file).write_bytes(text if isinstance(text, bytes) else text.encode("utf-8", "surrogatepass"))
    return f"{name}: {' and '.join(kinds)}"


def outcome(folder: Path) -> str:
    """`read`, or `refused` when each fault names a file and all but missing files a line; else what went wrong."""
    try:
        read_case(folder / "trip.yaml")
    except InputFaults as refused:
        if not refused.faults:
            return "refused without a fault"
        placed = all(
            fault.file and (fault.line or "no such file" in fault.found or not fault.path) for fault in refused.faults
        )
        at_home = len(str(folder))
        long = any(len(str(fault)) > 700 + at_home or "\n" in str(fault) for fault in refused.faults)
        return (
            "a fault without a line"
            if not placed
            else f"a sentence too long: {max(map(str, refused.faults), key=len)}"
            if long
            else "refused"
        )
    except Exception as other:  # noqa: BLE001 - what must never happen is what is looked for
        return f"{type(other).__name__}: {other}"
    return "read"


def run(many: int, seed: int) -> tuple[Counter[str], list[str]]:
    """How often each outcome came, and what led to those that must not come."""
    chance = random.Random(seed)  # noqa: S311 - damage by chance, not a secret
    counts: Counter[str] = Counter()
    wrong = []
    for number in range(many):
        folder = Path(tempfile.mkdtemp(prefix="damaged-"))
        try:
            how = damage(folder, chance)
            came = outcome(folder)
        finally:
            shutil.rmtree(folder)
        counts[came if came in {"read", "refused"} else "wrong"] += 1
        if came not in {"read", "refused"}:
            wrong.append(f"{number}: {how}: {came}")
    return counts, wrong


def main() -> int:
    """Print the table; 1 when anything but a case or a clear refusal came."""
    given = arguments(__doc__, many=1000, seed=1)
    counts, wrong = run(given.many, given.seed)
    print(f"{given.many} damaged sets of files, seed {given.seed}")
    for name in ("read", "refused", "wrong"):
        print(f"{name:>10}  {counts[name]:5d}")
    print("\n".join(wrong))
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
