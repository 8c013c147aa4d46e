"""What a scale says, how far it is from what was predicted, and whether it can be meant so."""

from collections.abc import Iterator
from dataclasses import dataclass

POUNDS_IN_A_KG = 1 / 0.45359237
"""The international avoirdupois pound is 0.453 592 37 kg by definition (NIST Handbook 44, appendix C)."""

KG_IN_A_TONNE = 1000.0
"""Kilograms in a tonne, by definition."""

ODD_KG = 150.0
"""A difference on one axle from which the ticket itself is questioned first, in kg. Common practice, no source."""

ODD_DOUBTS = 3.0
"""And so many times the doubt of that axle. Common practice, no source."""

SHARE_OF_UNITS = 0.15
"""How near to the predicted total a ticket read in another unit must come to be asked about. Common practice, no
source."""

ASKED = ("front axle", "rear axle", "total")
"""Readings from which a ticket is questioned; left and right differ by habit."""

ALL_OF_IT = (
    "Are front and rear the right way round, are these kilograms and not pounds, and was it weighed at this stage: the "
    "same people, tanks and load?"
)
"""Asked where nothing in the figures says which of these it is."""


@dataclass(frozen=True, slots=True)
class Ticket:
    """What a weighbridge has said, in kg."""

    front_kg: float
    rear_kg: float
    left_kg: float | None = None
    right_kg: float | None = None
    division_kg: float = 20.0
    """The scale tells masses in steps of so many kg."""

    @property
    def total_kg(self) -> float:
        """Both axles together."""
        return self.front_kg + self.rear_kg

    @property
    def readings(self) -> tuple[tuple[str, float], ...]:
        """What was weighed, by what it is called."""
        sides = (("left wheels", self.left_kg), ("right wheels", self.right_kg))
        axles = (("front axle", self.front_kg), ("rear axle", self.rear_kg), ("total", self.total_kg))
        return (*axles, *((name, kg) for name, kg in sides if kg is not None))


@dataclass(frozen=True, slots=True)
class Difference:
    """One reading beside what was predicted."""

    subject: str
    predicted_kg: float | None
    """With likely masses. None: it cannot be known."""
    doubt_kg: float | None
    """Two standard deviations of what was predicted. None: not reckoned for this subject."""
    measured_kg: float

    @property
    def difference_kg(self) -> float | None:
        """Measured less predicted."""
        return None if self.predicted_kg is None else self.measured_kg - self.predicted_kg


def questions(found: tuple[Difference, ...], ticket: Ticket) -> tuple[str, ...]:
    """What to ask before anything is concluded from a ticket; none where it is near enough to what was predicted."""
    axles = {one.subject: one for one in found if one.predicted_kg is not None and one.subject in ASKED}
    odd = [one for one in axles.values() if _odd(one)]
    return (*_sides(ticket), *(_asked(axles, odd, ticket) if odd else ()))


def _odd(one: Difference) -> bool:
    return abs(one.difference_kg or 0.0) > max(ODD_KG, ODD_DOUBTS * (one.doubt_kg or 0.0))


def _sides(ticket: Ticket) -> Iterator[str]:
    """Both ways of adding up must agree within what the scale's steps allow."""
    if ticket.left_kg is not None and ticket.right_kg is not None:
        off = ticket.left_kg + ticket.right_kg - ticket.total_kg
        if abs(off) > 2 * ticket.division_kg:
            more = "more" if off > 0 else "less"
            yield f"Left and right together are {abs(off):.0f} kg {more} than front and rear: were all four read well?"


def _asked(axles: dict[str, Difference], odd: list[Difference], ticket: Ticket) -> Iterator[str]:
    axle = [one for one in odd if one.subject.endswith("axle")]
    worst = max(axle or odd, key=lambda one: abs(one.difference_kg or 0.0))
    off = worst.difference_kg or 0.0
    yield f"The {worst.subject} is {abs(off):.0f} kg {'above' if off > 0 else 'below'} what the plan predicts."
    guesses = [*_swapped(axles, ticket), *_other_units(axles, ticket)]
    yield from guesses or [ALL_OF_IT]


def _swapped(axles: dict[str, Difference], ticket: Ticket) -> Iterator[str]:
    front, rear = axles.get("front axle"), axles.get("rear axle")
    if front is None or rear is None:
        return
    as_read = abs(front.difference_kg or 0.0) + abs(rear.difference_kg or 0.0)
    changed = abs(ticket.rear_kg - (front.predicted_kg or 0.0)) + abs(ticket.front_kg - (rear.predicted_kg or 0.0))
    if changed < as_read / 2:
        yield f"Were front and rear swapped? The other way round they would be {changed:.0f} kg off together."


def _other_units(axles: dict[str, Difference], ticket: Ticket) -> Iterator[str]:
    total = axles.get("total")
    if total is None or not total.predicted_kg:
        return
    for factor, told in (
        (1 / POUNDS_IN_A_KG, "Are these pounds?"),
        (POUNDS_IN_A_KG, "Was it turned from pounds into kilograms twice?"),
        (KG_IN_A_TONNE, "Are these tonnes?"),
    ):
        read_so = ticket.total_kg * factor
        if abs(read_so - total.predicted_kg) < SHARE_OF_UNITS * total.predicted_kg:
            yield f"{told} Then the total would be {read_so:.0f} kg, and {total.predicted_kg:.0f} kg are predicted."
