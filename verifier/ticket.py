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

STANDING_KG = 4.0
"""Deviation of a reading from how the vehicle stands on the scale, in kg. Common practice, no source."""

ALL_OF_IT = (
    "Are front and rear the right way round, are these kilograms and not pounds, and was it weighed at this stage: the "
    "same people, tanks and load?"
)
"""Asked where nothing in the figures says which of these it is."""


def scale_kg2(division_kg: float) -> float:
    """Variance of a reading in kg², by the step of the scale, anywhere in which it may be, and by how one stands."""
    return division_kg**2 / 12 + STANDING_KG**2


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


@dataclass(frozen=True, slots=True)
class Known:
    """A reading whose prediction is known, and how far that may be off."""

    subject: str
    predicted_kg: float
    doubt_kg: float
    measured_kg: float

    @property
    def off_kg(self) -> float:
        """Measured less predicted."""
        return self.measured_kg - self.predicted_kg

    def beyond(self, division_kg: float) -> bool:
        """Whether it is off by more than the scale's division and than two deviations of the masses."""
        return abs(self.off_kg) > max(division_kg, self.doubt_kg)


def known_of(found: tuple[Difference, ...]) -> dict[str, Known]:
    """Readings by subject whose prediction and doubt are known: both axles or none, and always the total.

    Left and right bring no doubt: they differ by habit.
    """
    return {
        one.subject: Known(one.subject, one.predicted_kg, one.doubt_kg, one.measured_kg)
        for one in found
        if one.predicted_kg is not None and one.doubt_kg is not None
    }


def questions(found: tuple[Difference, ...], ticket: Ticket, guesses: tuple[str, ...] = ()) -> tuple[str, ...]:
    """What to ask before anything is concluded from a ticket; none where it is near enough to what was predicted.

    `guesses` are asked besides, and are what the figures say it is where they are odd.
    """
    known = known_of(found)
    odd = [one for one in known.values() if abs(one.off_kg) > max(ODD_KG, ODD_DOUBTS * one.doubt_kg)]
    axles = _axles(known)
    plain = (*guesses, *(_swapped(axles, "front and rear") if _other_way_fits(axles, ticket.division_kg) else ()))
    return (*_sides(ticket), *(_asked(known, odd, ticket, guesses) if odd else plain))


def swapped_sides(found: tuple[Difference, ...], ticket: Ticket, doubts_kg: tuple[float, float]) -> tuple[str, ...]:
    """Ask whether left and right were swapped: beyond their doubt as they are, and within it the other way round.

    `doubts_kg` are those of the left and the right wheels; they are known where those of the axles are.
    """
    off = {one.subject: one for one in found}
    sides = [off[name] for name in ("left wheels", "right wheels") if name in off]
    if len(sides) < 2 or "front axle" not in known_of(found):
        return ()
    pair = tuple(
        Known(one.subject, one.predicted_kg, doubt_kg, one.measured_kg)
        for one, doubt_kg in zip(sides, doubts_kg, strict=True)
        if one.predicted_kg is not None
    )
    return tuple(_swapped(pair, "left and right")) if _other_way_fits(pair, ticket.division_kg) else ()


def _axles(known: dict[str, Known]) -> tuple[Known, ...]:
    return (known["front axle"], known["rear axle"]) if "front axle" in known else ()


def _other_way_fits(pair: tuple[Known, ...], division_kg: float) -> bool:
    """Whether both of two readings are off by more than their doubt, and read the other way round neither is."""
    within = [one.doubt_kg + division_kg for one in pair]
    off = all(abs(one.off_kg) > most for one, most in zip(pair, within, strict=True))
    return bool(pair) and off and all(kg <= most for kg, most in zip(_other_way_kg(pair), within, strict=True))


def _other_way_kg(pair: tuple[Known, ...]) -> list[float]:
    """By how much each of two readings is off, read the other way round."""
    return [abs(other.measured_kg - one.predicted_kg) for one, other in zip(pair, reversed(pair), strict=True)]


def _sides(ticket: Ticket) -> Iterator[str]:
    """Both ways of adding up must agree within what the scale's steps allow."""
    if ticket.left_kg is not None and ticket.right_kg is not None:
        off = ticket.left_kg + ticket.right_kg - ticket.total_kg
        if abs(off) > 2 * ticket.division_kg:
            more = "more" if off > 0 else "less"
            yield f"Left and right together are {abs(off):.0f} kg {more} than front and rear: were all four read well?"


def _asked(known: dict[str, Known], odd: list[Known], ticket: Ticket, more: tuple[str, ...]) -> Iterator[str]:
    axle = [one for one in odd if one.subject.endswith("axle")]
    worst = max(axle or odd, key=lambda one: abs(one.off_kg))
    side = "above" if worst.off_kg > 0 else "below"
    yield f"The {worst.subject} is {abs(worst.off_kg):.0f} kg {side} what the plan predicts."
    guesses = [*more, *_swapped(_axles(known), "front and rear"), *_other_units(known["total"].predicted_kg, ticket)]
    yield from guesses or [ALL_OF_IT]


def _swapped(pair: tuple[Known, ...], named: str) -> Iterator[str]:
    changed = sum(_other_way_kg(pair))
    if changed < sum(abs(one.off_kg) for one in pair) / 2:
        yield f"Were {named} swapped? The other way round they would be {changed:.0f} kg off together."


def _other_units(predicted_kg: float, ticket: Ticket) -> Iterator[str]:
    for factor, told in (
        (1 / POUNDS_IN_A_KG, "Are these pounds?"),
        (POUNDS_IN_A_KG, "Was it turned from pounds into kilograms twice?"),
        (KG_IN_A_TONNE, "Are these tonnes?"),
    ):
        read_so = ticket.total_kg * factor
        if abs(read_so - predicted_kg) < SHARE_OF_UNITS * predicted_kg:
            yield f"{told} Then the total would be {read_so:.0f} kg, and {predicted_kg:.0f} kg are predicted."
