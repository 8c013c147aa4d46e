"""Advice on tying and lifting as plain data."""

from typing import Any

from report.told_advice import Barrier, Lift, Tie, TiedSpace, Tying


def tying_view(told: Tying) -> dict[str, Any]:
    """Straps in all, each space with its ties, and what the cargo barrier would have to stop."""
    return {
        "straps_together": told.straps_together,
        "straps_apart": told.straps_apart,
        "spaces": [_space(one) for one in told.spaces],
        "barrier": None if told.barrier is None else _barrier(told.barrier),
    }


def _space(one: TiedSpace) -> dict[str, Any]:
    keys = ("space", "straps_together", "straps_apart", "pressed_forward_kg", "pressed_sideways_kg")
    return {
        **{key: getattr(one, key) for key in keys},
        "points_dan": list(one.points_dan),
        "ties": [_tie(tie) for tie in one.ties],
    }


def _tie(one: Tie) -> dict[str, Any]:
    keys = (
        "kg", "in_it_kg", "forward_n", "rearward_n", "sideways_n", "upward_n", "by_strength", "by_length", "straps",
        "pressing_forward", "pressing_sideways",
    )  # fmt: skip
    own = {"thing": one.copy.thing, "copy": one.copy.number, "tips": list(one.tips)}
    return {**own, **{key: getattr(one, key) for key in keys}}


def _barrier(one: Barrier) -> dict[str, Any]:
    return {key: getattr(one, key) for key in ("name", "kg", "in_it_kg", "rated_kg", "force_n", "energy_j")}


def lift_view(one: Lift) -> dict[str, Any]:
    """A thing that takes more than one person."""
    keys = ("space", "kg", "recommended_kg", "elsewhere_helps", "women_kg", "men_kg", "two_person", "people")
    few = one.too_few
    return {
        "thing": one.copy.thing,
        "copy": one.copy.number,
        **{key: getattr(one, key) for key in keys},
        "too_few": None if few is None else {key: getattr(few, key) for key in ("stage", "people", "travel")},
    }
