"""hazard: each hazard in air it may be in, upright, held, cool, in an approved can, and within its amounts.

A container that is empty, or equipment that has run dry, counts as full: vapour is what burns.
"""

from collections.abc import Iterable, Iterator
from typing import Literal

from models.geometry import TURNS
from models.rulebook import Hazard, UpTo
from models.rules import Rule
from models.spaces import Space
from verifier.finding import Finding, against, or_held, plain, within
from verifier.held import MADE_PLACES, in_its_own, let_in
from verifier.layout import Layout, Placed

Amount = Literal["holds_l", "net_kg"]
UNIT = {"holds_l": "L", "net_kg": "kg"}
AIR = {
    "people": "air that people breathe",
    "sealed": "closed air without vents",
    "vented": "vented air",
    "locker": "a vented locker",
    "open": "the open",
}


def _amount(ones: Iterable[Placed], kind: Amount) -> float | None:
    """Litres or kilograms together; None where one of them does not say."""
    total = 0.0
    for one in ones:
        held: float | None = getattr(one.thing, kind)
        if held is None:
            return None
        total += held
    return total


def _conditions(one: Placed, space: Space, hazard: Hazard) -> Iterator[str]:
    upright = one.thing.size_mm is None or one.placement.turn in TURNS["upright"]
    if hazard.upright and not upright:
        yield "must stand upright and lies on its side"
    if hazard.in_holder and space.holds not in MADE_PLACES:
        yield f"must be in a holder or a bracket, and {space.name} is neither"
    elif hazard.in_holder and not in_its_own(one.thing, space) and let_in(one.thing, space):
        yield f"must be in its own holder or bracket, and has no `holder` that {space.name} accepts"
    if hazard.not_hot and space.heat == "hot":
        yield f"must not get hot, and {space.name} does"
    if hazard.approved_can and not one.thing.approved_can:
        yield "must be in an approved can"


def _air_finding(layout: Layout, one: Placed, space: Space, hazard: Hazard) -> Iterator[Finding]:
    kind = layout.case.vehicle.air.get(space.air)
    if kind is None:
        says = f"What air {one.name} shares in {space.name} is not known."
        yield plain(Rule.HAZARD, one.name, None, says, source=hazard.source)
    elif kind not in hazard.air:
        says = f"{one.name} ({hazard.words}) is in {space.name}, in {AIR[kind]}, where it may not be."
        yield plain(Rule.HAZARD, one.name, False, says, source=hazard.source)


def _copy(layout: Layout, one: Placed, space: Space, hazard: Hazard) -> Iterator[Finding]:
    yield from _air_finding(layout, one, space, hazard)
    for reason in _conditions(one, space, hazard):
        says = f"{one.name} ({hazard.words}) {reason}."
        yield plain(Rule.HAZARD, one.name, False, says, source=hazard.source)
    each: tuple[tuple[Amount, float | None], ...] = (
        ("holds_l", hazard.totals.each_l),
        ("net_kg", hazard.totals.each_kg),
    )
    for kind, limit in each:
        if limit is not None:
            yield _amount_finding(one.name, f"{one.name} holds", [one], (kind, limit), hazard)


def _amount_finding(
    subject: str, begin: str, ones: Iterable[Placed], bound: tuple[Amount, float], hazard: Hazard
) -> Finding:
    kind, limit = bound
    value, unit = _amount(ones, kind), UNIT[kind]
    told = against(value, limit, unit) if value is not None else f"an amount that the list does not give in {unit}"
    return within(Rule.HAZARD, subject, None, value, limit, unit, f"{begin} {told}.", hazard.source)


def _in_air(layout: Layout, word: str, hazard: Hazard, air: str) -> Iterator[Finding]:
    bound = hazard.air.get(layout.case.vehicle.air[air], UpTo())
    here = [one for one, space in layout.located if one.thing.hazard == word and space.air == air]
    limits: tuple[tuple[Amount, float | None], ...] = (("holds_l", bound.up_to_l), ("net_kg", bound.up_to_kg))
    for amount, limit in limits:
        if here and limit is not None:
            yield _amount_finding(f"{word} in {air}", f"Of {word}, {air} holds", here, (amount, limit), hazard)


def _totals(layout: Layout, word: str, hazard: Hazard) -> Iterator[Finding]:
    """What the vehicle may carry of a word, with the words that count with it; nothing where none of them is aboard."""
    totals = hazard.totals
    here = [one for one in layout.placed if one.thing.hazard in {word, *totals.counts_with}]
    if not here:
        return
    carried = [one for one in (word, *totals.counts_with) if any(placed.thing.hazard == one for placed in here)]
    together = " and ".join(filter(None, (", ".join(carried[:-1]), carried[-1])))
    if totals.total_count is not None:
        says = f"Of {together}, the vehicle carries {len(here)} of at most {totals.total_count}."
        yield within(Rule.HAZARD, word, None, len(here), totals.total_count, "pieces", says, hazard.source)
    limits: tuple[tuple[Amount, float | None], ...] = (("holds_l", totals.total_l), ("net_kg", totals.total_kg))
    for kind, limit in limits:
        if limit is not None:
            yield _amount_finding(word, f"Of {together}, the vehicle carries", here, (kind, limit), hazard)


def _word(layout: Layout, word: str) -> Iterator[Finding]:
    hazard = layout.case.rulebook.hazards.get(word)
    if hazard is None:
        yield plain(Rule.HAZARD, word, None, f"The rule book does not know the hazard '{word}'.")
        return
    for one, space in layout.located:
        if one.thing.hazard == word:
            yield from _copy(layout, one, space, hazard)
    for air in layout.case.vehicle.air:
        yield from _in_air(layout, word, hazard, air)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge everything dangerous that comes along."""
    words = dict.fromkeys(one.thing.hazard for one in layout.placed if one.thing.hazard is not None)
    found = [finding for word in words for finding in _word(layout, word)]
    for word, hazard in layout.case.rulebook.hazards.items():
        found += _totals(layout, word, hazard)
    return or_held(found, Rule.HAZARD, "Nothing dangerous is where it may not be.")
