"""How much of a load on one axle could have come from the other by lying elsewhere."""

from models.stages import mass_kg
from models.trip import Stage
from verifier.layout import Layout
from verifier.stage import people_at


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
    people = ((one.mass_kg, one.x_mm) for one in people_at(case, stage) if one.x_mm is not None)
    moment += sum(kg * ((max(seats) - x) if to_rear else (x - min(seats))) for kg, x in people)
    return moment / case.vehicle.wheelbase_mm
