"""Between which heights a thing has to stay in a space, and what is told where that leaves it no room."""

from models.case import Case
from models.gear import Thing
from models.geometry import LEAST_SOFT_SIDE_MM
from models.rules import Rule
from models.spaces import Space
from solver.eligible import listed_sizes, reasons
from solver.held import hold_of
from solver.soft import soft_mm3
from solver.suits import Reason


def highest_top(case: Case, thing: Thing, space: Space) -> int | None:
    """How high the top of a thing may be in a space by what holds it there, in mm; None: up to the ceiling."""
    vehicle = case.vehicle
    if space.holds == "barrier" and vehicle.cargo_barrier:
        return vehicle.cargo_barrier.top_z_mm
    held = hold_of(thing, space)
    loose = held == "none" or (thing.shape == "hard" and held == "tie_downs")
    backs = [seat.back_top_z_mm for seat in vehicle.seats if seat.back_top_z_mm is not None]
    return min(backs) if loose and backs and vehicle.air[space.air] == "people" else None


def heights(case: Case, thing: Thing, space: Space) -> tuple[int, int]:
    """How low and how high a thing may be in a space in mm: above the water, and below what holds it there."""
    low, high = space.corner_mm[2], space.corner_mm[2] + space.size_mm[2]
    line, top = case.vehicle.wading_line_mm, highest_top(case, thing, space)
    least_z = low if line is None or not thing.electrical else max(low, line)
    return least_z, high if top is None else min(high, top)


def every_reason(case: Case, thing: Thing, space: Space) -> list[Reason]:
    """Every rule that by itself keeps a thing out of a space, also by how high it would reach there."""
    return reasons(case, thing, space) or _too_high(case, thing, space)


def _too_high(case: Case, thing: Thing, space: Space) -> list[Reason]:
    low, (least, most) = space.corner_mm[2], heights(case, thing, space)
    height = _lowest(thing, space)
    if low + height > most and most == low + space.size_mm[2]:
        says = f"it is {low + height - most} mm too tall for {space.name}, however it is shaped"
        return [Reason(Rule.INSIDE, says)]
    if low + height > most:
        what = "the cargo barrier" if space.holds == "barrier" else "the lowest seat back"
        says = f"its top would be {low + height - most} mm above {what} in every turn it may take"
        return [Reason(Rule.RESTRAINT, says)]
    short = least + height - most
    says = f"{space.name} is {short} mm too low for it above the wading line"
    return [Reason(Rule.WEATHER, says)] if short > 0 else []


def _lowest(thing: Thing, space: Space) -> int:
    """Its least height in mm in any way that goes into a space."""
    along, across, up = space.size_mm
    if thing.size_mm is None:
        return max(LEAST_SOFT_SIDE_MM, -(-soft_mm3(thing) // (along * across)))
    fitting = (size[2] for _, size in listed_sizes(thing) if size[0] <= along and size[1] <= across and size[2] <= up)
    return min(fitting, default=up)
