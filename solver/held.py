"""What holds a thing in a space, as the search asks it."""

from models.case import Case
from models.gear import Thing
from models.spaces import Held, Space
from models.stages import mass_kg
from solver.in_hand import left
from solver.suits import wrong_words


def hold_of(thing: Thing, space: Space) -> Held:
    """How a space holds a thing: a holder or a bracket only what has its word, anything else by ties if it has any."""
    if space.holds in ("holder", "bracket") and thing.holder not in (space.accepts or ()):
        return "tie_downs" if space.tie_downs else "none"
    return space.holds


def hold_there(thing: Thing, space: Space) -> Held:
    """The same; where its words keep it out of a holder, those alone are told of."""
    return space.holds if wrong_words(thing, space) else hold_of(thing, space)


def heaviest_kg(case: Case, thing: Thing) -> float:
    """The most mass of one copy in kg at its heaviest stage."""
    return max(mass_kg(thing, stage, "most") for stage in case.trip.stages)


def lies_loose(case: Case, thing: Thing, space: Space) -> bool:
    """Whether a soft thing among people is held by nothing at all, ties that it asks for included."""
    tied = bool(space.tie_downs) and thing.asks_for_ties
    among = case.vehicle.air[space.air] == "people"
    return thing.shape == "soft" and among and not tied and hold_of(thing, space) == "none"


def too_loose(case: Case, thing: Thing, space: Space) -> str | None:
    """Why a thing may not be where nothing holds it, in words that may be empty; None: it may."""
    if thing.hazard and case.rulebook.hazards[thing.hazard].in_holder and space.holds in ("holder", "bracket"):
        return None  # the rule `hazard` keeps it out and tells why
    if thing.shape != "soft" or case.vehicle.air[space.air] != "people":
        return ""
    loose = case.rulebook.loose_soft_kg.value
    heaviest = heaviest_kg(case, thing)
    if not lies_loose(case, thing, space) or left(loose, heaviest) >= 0:
        return None
    return f": it weighs {heaviest:g} kg, and what is soft may lie loose there up to {loose:g} kg"
