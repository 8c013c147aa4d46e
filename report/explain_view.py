"""Explanations and revisions for machines, in full precision."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from models.case import Copy
from report.explained import Explained, HomeExplained, LimitTold, LockTold, Offer, RowTold, WayTold
from report.json_view import plan_view
from report.moves_view import moves_view


def copy_view(copy: Copy) -> dict[str, Any]:
    """A copy."""
    return {"thing": copy.thing, "copy": copy.number}


def offer_view(offer: Offer | None) -> dict[str, Any] | None:
    """A plan that does what was asked about, with figures now and then."""
    if offer is None:
        return None
    return {
        "now": asdict(offer.now),
        "then": asdict(offer.then),
        "plan": plan_view(offer.plan),
        **moves_view(offer.moves),
    }


def explain_view(told: Explained) -> dict[str, Any]:
    """Why a copy is where it is."""
    return {
        **copy_view(told.copy),
        "space": told.space,
        "asked_for": [lock.words for lock in told.asked_for],
        "locks": _locks(told.locks),
        "others": [{**copy_view(copy), "space": space} for copy, space in told.others],
        "above_mm": told.above_mm,
        "rows": [_row(row) for row in told.rows],
    }


def _row(row: RowTold) -> dict[str, Any]:
    keys = ("space", "kind", "in_any_plan", "about_mm", "found_mm", "word", "under_kg", "at_corner")
    lists = {"why": list(row.why), "demands": list(row.demands), "lowest_mm": list(row.lowest_mm or ())}
    return {
        **{key: getattr(row, key) for key in keys},
        **lists,
        "lifted": _locks(row.lifted),
        "against_corner": list(row.against_corner),
        "offer": offer_view(row.offer),
    }


def _locks(locks: Sequence[LockTold]) -> list[dict[str, Any]]:
    return [{"says": lock.words, "file": lock.file, "of_trip": lock.of_trip} for lock in locks]


def _way(way: WayTold) -> dict[str, Any]:
    plain = {"says": way.says, "writable": way.writable}
    lifted = {"lifted": _locks(way.lifted), "against_corner": list(way.against_corner)}
    return {**plain, **lifted, "offer": offer_view(way.offer)}


def home_explained_view(told: HomeExplained) -> dict[str, Any]:
    """Why a copy stays at home."""
    return {
        **copy_view(told.copy),
        "asked_for": [lock.words for lock in told.asked_for],
        "locks": _locks(told.locks),
        "against": {space: list(why) for space, why in told.against},
        "lawful": list(told.lawful),
        "ways": [_way(way) for way in told.ways],
        "lacks": None if told.lacks is None else copy_view(told.lacks),
        "bars": list(told.bars),
        "instead": told.instead,
        "alone_and_with_it_mm": list(told.heights_mm or ()),
    }


def limit_view(told: LimitTold) -> dict[str, Any]:
    """What uses up a limit and what more of it buys."""
    view = asdict(told)
    view["uses"] = [{"thing": thing, "kg": kg} for thing, kg in told.uses]
    return view


def further_view(further: Sequence[tuple[Copy, str, Offer]]) -> list[dict[str, Any]]:
    """Further moves that were not made."""
    return [{**copy_view(copy), "to": space, "offer": offer_view(offer)} for copy, space, offer in further]
