"""Locks that were made or taken away, for machines."""

from collections.abc import Sequence
from typing import Any

from models.case import Copy
from models.reading import LostLock
from models.trip import Lock
from report.terminal.locks import Found


def lock_view(found: Found) -> dict[str, Any]:
    """New locks, copies that were locked so already, those not aboard, and those left free with what is against it."""
    return {
        "locked": _locks(found.made),
        "already_locked": _copies(found.there),
        "not_aboard": _copies(found.away),
        "left": [
            {**one, "because": list(why)}
            for one, why in zip(_copies(list(found.against)), found.against.values(), strict=True)
        ],
    }


def unlock_view(gone: Sequence[Lock], kept: Sequence[Lock], in_trip: Sequence[Lock]) -> dict[str, Any]:
    """Locks that are gone, those that the plan still has, and those that the trip's file keeps on the same things."""
    return {"unlocked": _locks(gone), "still_locked": _locks(kept), "fixed_by_the_trip": _locks(in_trip)}


def locks_gone_view(gone: Sequence[LostLock]) -> list[dict[str, Any]]:
    """Locks that a plan has no longer as its files have changed, each with what is the matter with it."""
    return [{"lock": _lock(one.lock), "why": list(one.why)} for one in gone]


def _locks(locks: Sequence[Lock]) -> list[dict[str, Any]]:
    return [_lock(lock) for lock in locks]


def _lock(lock: Lock) -> dict[str, Any]:
    return lock.model_dump(mode="json", by_alias=True, exclude_defaults=True)


def _copies(copies: Sequence[Copy]) -> list[dict[str, Any]]:
    return [{"thing": copy.thing, "copy": copy.number} for copy in copies]
