"""Marks that tell things apart by shape and hatching, so that a photocopy tells as much as a screen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from models.case import Case, Copy
from packing import LoadStep
from report.drawings.svg import Spot, dot, element, polygon, rectangle


@dataclass(frozen=True)
class Mark:
    """A sign with its meaning."""

    word: str
    says: str


HAZARD = Mark("hazard", "burns, gasses, corrodes or poisons (hatched in the drawings)")
HURRY = Mark("hurry", "needed in a hurry")
LIFT = Mark("lift", "two people or more lift it")
HIGH = Mark("high", "lifted above the shoulder")
TIE = Mark("tie", "has to be tied down")
MARKS = (HAZARD, HURRY, LIFT, HIGH, TIE)
"""In the order in which they stand beside a name."""


def marks_of(case: Case, step: LoadStep, tied: frozenset[Copy]) -> tuple[Mark, ...]:
    """The marks of a copy that is loaded."""
    thing = case.thing_named[step.copy.thing]
    wanted = {
        HAZARD: thing.hazard is not None,
        HURRY: bool(thing.needed_when) or thing.access in {"belted", "at_once"},
        LIFT: step.two_person or step.heavy,
        HIGH: step.above_shoulder,
        TIE: step.copy in tied,
    }
    return tuple(mark for mark in MARKS if wanted[mark])


def _shape(mark: Mark) -> str:
    """The sign in a square of 10 by 10."""
    shapes = {
        "hazard": polygon([(5, 0.5), (9.5, 5), (5, 9.5), (0.5, 5)], "sign-line")
        + rectangle((4.3, 2.6), (1.4, 3), class_="sign")
        + dot((5, 7), 0.8, "sign"),
        "hurry": dot((5, 5), 3.6, "sign"),
        "lift": polygon([(5, 1), (9.5, 9), (0.5, 9)], "sign"),
        "high": polygon([(5, 0.5), (9.5, 5), (6.5, 5), (6.5, 9.5), (3.5, 9.5), (3.5, 5), (0.5, 5)], "sign-line"),
        "tie": rectangle((1.3, 3.4), (7.4, 3.2), class_="sign-line")
        + element("path", d="M3 1V9M7 1V9", class_="sign-line"),
    }
    return shapes[mark.word]


def definitions() -> str:
    """Signs and hatchings, to stand once on a page before the pictures that use them."""
    hatch = element(
        "pattern",
        rectangle((0, 0), (7, 7), class_="paper"),
        element("path", d="M-1 8L8 -1M-1 1L1 -1M6 8L8 6", class_="hatching"),
        id="hatch", width=7, height=7, patternUnits="userSpaceOnUse",
    )  # fmt: skip
    grain = element(
        "pattern",
        rectangle((0, 0), (6, 6), class_="paper"),
        element("path", d="M0 3H6M3 0V6", class_="grain"),
        id="grain", width=6, height=6, patternUnits="userSpaceOnUse",
    )  # fmt: skip
    signs = "".join(element("symbol", _shape(mark), id=f"mark-{mark.word}", viewBox="0 0 10 10") for mark in MARKS)
    return element("svg", element("defs", hatch, grain, signs), width=0, height=0, aria_hidden="true", class_="defs")


def drawn(marks: Sequence[Mark], at: Spot, size: float) -> Iterator[str]:
    """The signs in a row to the right of a spot, for a picture whose text tells them."""
    for n, mark in enumerate(marks):
        yield element(
            "use", href=f"#mark-{mark.word}", x=at[0] + n * size * 1.1, y=at[1] - size / 2, width=size, height=size
        )


def hatched(marks: Sequence[Mark]) -> str:
    """The class of a thing's faces."""
    return "thing hazard" if HAZARD in marks else "thing"
