"""Height against handling time: a set of verified plans, which is chosen, what its neighbours would cost."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from models.case import Copy

SAME_MM, SAME_S = 0.05, 0.5
"""Differences that are none: what is told is rounded to 0.1 mm and to whole seconds."""


@dataclass(frozen=True)
class Offer:
    """A verified plan found with so many millimetres given up for easier access."""

    allow_mm: float
    height_mm: float
    """Of the laden centre of gravity at its highest driving stage, from the verifier."""
    stage: str
    getting_at_s: float
    """Seconds a day spent getting at things, each extra place of a kit counted in."""
    holds: bool | None
    left_at_home: int
    load: frozenset[Copy] = frozenset()
    """What is carried: only plans of one load are set against each other."""


@dataclass(frozen=True)
class Row:
    """An offer beside the chosen one."""

    offer: Offer
    chosen: bool
    more_mm: float
    """Height against the chosen plan."""
    more_s: float
    """Seconds a day against the chosen plan."""
    note: str


@dataclass(frozen=True)
class Tradeoff:
    """The whole comparison."""

    trip: str
    vehicle: str
    rows: tuple[Row, ...]
    refused: tuple[str, ...]
    """What was asked for and not found, a sentence each."""


def tradeoff(
    trip: str, vehicle: str, offers: Sequence[Offer], allow_mm: float, refused: Sequence[str] = ()
) -> Tradeoff:
    """Set offers beside the one that the trip asks for; the nearest stands in where that one was not found."""
    if not offers:
        return Tradeoff(trip, vehicle, (), tuple(refused))
    offers = _settled(offers)
    chosen = min(offers, key=lambda one: (abs(one.allow_mm - allow_mm), one.allow_mm))
    rows = tuple(_row(one, chosen, offers) for one in sorted(offers, key=lambda one: one.allow_mm))
    return Tradeoff(trip, vehicle, rows, tuple(refused))


def _settled(offers: Sequence[Offer]) -> list[Offer]:
    """For each allowance the quickest plan of all that were found that lies no higher above the lowest of them.

    A search may miss what the search beside it came upon; so no row is higher without being quicker.
    """
    return [replace(_quickest(_alike(one, offers), one.allow_mm), allow_mm=one.allow_mm) for one in offers]


def _alike(one: Offer, offers: Sequence[Offer]) -> list[Offer]:
    """Offers with the same load, the lowest first."""
    same = (other for other in offers if _same_load(other, one))
    return sorted(same, key=lambda other: (other.height_mm, other.getting_at_s))


def _quickest(rising: Sequence[Offer], allow_mm: float) -> Offer:
    """The quickest within an allowance above the lowest; a higher one only where it is clearly quicker."""
    best = rising[0]
    for other in rising:
        within = other.height_mm <= rising[0].height_mm + allow_mm + SAME_MM
        best = other if within and other.getting_at_s < best.getting_at_s - SAME_S else best
    return best


def _row(one: Offer, chosen: Offer, offers: Sequence[Offer]) -> Row:
    more_mm, more_s = one.height_mm - chosen.height_mm, one.getting_at_s - chosen.getting_at_s
    return Row(one, one is chosen, more_mm, more_s, _note(one, chosen, offers, more_mm, more_s))


def _note(one: Offer, chosen: Offer, offers: Sequence[Offer], more_mm: float, more_s: float) -> str:
    parts = ["chosen: it keeps to what the trip allows"] if one is chosen else []
    # Only a plan of another load can be beaten still, and that carries more or less.
    better = next((other for other in offers if _outdoes(other, one) and other.left_at_home <= one.left_at_home), None)
    if better is not None:
        parts.append(f"the plan for {better.allow_mm:g} mm is no higher and no slower")
    same = next((other for other in offers if other.allow_mm < one.allow_mm and _same(other, one)), None)
    if same is not None and not _same(chosen, one):
        parts.append(f"the same as for {same.allow_mm:g} mm")
    alike = _same_load(one, chosen)
    if one is not chosen and alike and abs(more_mm) <= SAME_MM and abs(more_s) <= SAME_S:
        parts.append("the same as the chosen one")
    if not alike:
        parts.append(_other_load(one, chosen))
    return "; ".join(parts)


def _other_load(one: Offer, chosen: Offer) -> str:
    if one.left_at_home == chosen.left_at_home:
        return "as many stay at home, and not the same ones: not the same load"
    stay = f"{one.left_at_home} {'stays' if one.left_at_home == 1 else 'stay'} at home"
    return f"{stay} instead of {chosen.left_at_home}: not the same load"


def _outdoes(other: Offer, one: Offer) -> bool:
    """Whether another plan is at least as low and as quick, and clearly better at one of them."""
    lower, quicker = one.height_mm - other.height_mm, one.getting_at_s - other.getting_at_s
    return lower >= -SAME_MM and quicker >= -SAME_S and (lower > SAME_MM or quicker > SAME_S)


def _same_load(other: Offer, one: Offer) -> bool:
    return (other.load, other.left_at_home) == (one.load, one.left_at_home)


def _same(other: Offer, one: Offer) -> bool:
    return replace(other, allow_mm=one.allow_mm) == one


def tradeoff_view(found: Tradeoff) -> dict[str, Any]:
    """The comparison as plain data."""
    return {
        "trip": found.trip,
        "vehicle": found.vehicle,
        "plans": [
            {
                "allow_mm": row.offer.allow_mm,
                "cg_height_mm": row.offer.height_mm,
                "highest_at": row.offer.stage,
                "getting_at_s_per_day": row.offer.getting_at_s,
                "holds": row.offer.holds,
                "left_at_home": row.offer.left_at_home,
                "chosen": row.chosen,
                "more_mm": row.more_mm,
                "more_s_per_day": row.more_s,
                "note": row.note,
            }
            for row in found.rows
        ],
        "refused": list(found.refused),
    }
