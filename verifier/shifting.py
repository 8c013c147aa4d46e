"""How much of a load on one axle could have come from the other by lying elsewhere."""

from collections.abc import Iterator

from models.stages import aboard, mass_kg
from models.trip import Stage
from verifier.layout import Layout


def could_shift_kg(layout: Layout, stage: Stage, *, to_rear: bool) -> float:
    """Kilograms that an axle could carry more, and the other less, were all that can lie elsewhere at that end.

    Things at the end of the body, in which all spaces are, people in the seat that is furthest that way; an upper
    bound, whatever the rules allow. Tanks and the ball stay where they are.
    """
    case = layout.case
    front, rear = case.vehicle.outline_mm.front, case.vehicle.outline_mm.rear
    seats = [seat.at_mm[0] for seat in case.vehicle.seats]
    things = ((mass_kg(one.thing, stage, "likely"), one.box.centre_mm[0]) for one in layout.placed)
    moment = sum(kg * ((rear - x) if to_rear else (x - front)) for kg, x in things)
    moment += sum(kg * ((max(seats) - x) if to_rear else (x - min(seats))) for kg, x in _people(layout, stage))
    return moment / case.vehicle.wheelbase_mm


def _people(layout: Layout, stage: Stage) -> Iterator[tuple[float, float]]:
    """Who is aboard: their kilograms, and where they sit."""
    here = set(aboard(layout.case.trip, stage))
    for person in layout.case.trip.people:
        seat = layout.case.seat_named.get(person.seat)
        if person.name in here and seat is not None:
            yield person.mass_kg, seat.at_mm[0]
