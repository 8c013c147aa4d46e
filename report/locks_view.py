"""Locks that were made or taken away, for machines."""

from collections.abc import Sequence
from typing import Any

from models.case import Copy
from models.trip import Lock


def lock_view(made: Sequence[Lock], there: Sequence[Copy], away: Sequence[Copy]) -> dict[str, Any]:
    """New locks, copies that were locked so already, and copies that are not aboard and stay free."""
    return {"locked": _locks(made), "already_locked": _copies(there), "not_aboard": _copies(away)}


def unlock_view(gone: Sequence[Lock], kept: Sequence[Lock], in_trip: Sequence[Lock]) -> dict[str, Any]:
    """Locks that are gone, those that the plan still has, and those that the trip's file keeps on the same things."""
    return {"unlocked": _locks(gone), "still_locked": _locks(kept), "fixed_by_the_trip": _locks(in_trip)}


def _locks(locks: Sequence[Lock]) -> list[dict[str, Any]]:
    return [lock.model_dump(mode="json", by_alias=True, exclude_defaults=True) for lock in locks]


def _copies(copies: Sequence[Copy]) -> list[dict[str, Any]]:
    return [{"thing": copy.thing, "copy": copy.number} for copy in copies]
