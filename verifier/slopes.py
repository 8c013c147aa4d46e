"""Told beside the answer: where the front gets light on a climb, and where one side carries noticeably more."""

from collections.abc import Iterable
from math import floor

from models.case import Case
from verifier.verdict import StageTotals


def climbing(case: Case, totals: dict[str, StageTotals]) -> str | None:
    """Tell where the front wheels carry so little on a climb that the steering is light. None: at no driving stage."""
    book = case.rulebook.climb
    steepest = max(book.degrees)
    known = {name: one for name, one in totals.items() if one.driving and one.climb_front_share}
    light = [name for name, one in known.items() if one.climb_front_share[steepest] < book.light_front_share]
    if not light:
        return None
    stage = min(light, key=lambda name: known[name].climb_front_share[steepest])
    shares = known[stage].climb_front_share
    back = known[stage].tip_back_deg
    return (
        f"Light steering: on a climb of {_joined(f'{deg:g}' for deg in shares)} degrees the front wheels carry "
        f"{_joined(f'{floor(1000 * share) / 10:.1f}%' for share in shares.values())} of the weight at '{stage}'; below "
        f"{100 * book.light_front_share:.4g}% is little ({book.source}). A rigid vehicle that stands still tips back "
        f"at {back or 0.0:.0f} degrees, real ones sooner: it compares layouts and permits no climb."
    )


def leaning(case: Case, totals: dict[str, StageTotals]) -> str | None:
    """Tell where one side carries so much more that it is worth moving something. None: at no driving stage."""
    book = case.rulebook.side_difference_told
    found = {name: share for name, one in totals.items() if one.driving and (share := _lean(one)) is not None}
    stage = max(found, key=lambda name: abs(found[name]), default=None)
    if stage is None or abs(found[stage]) < book.value:
        return None
    side = "right" if found[stage] > 0 else "left"
    return (
        f"The {side} wheels carry more by {100 * abs(found[stage]):.1f}% of the mass at '{stage}': told from "
        f"{100 * book.value:g}% on ({book.source}). Something heavy may go to the other side."
    )


def _lean(sums: StageTotals) -> float | None:
    """The right wheels less the left as a share of the mass; None where it is not known."""
    if sums.left_kg is None or sums.right_kg is None or not sums.mass_kg:
        return None
    return (sums.right_kg - sums.left_kg) / sums.mass_kg


def _joined(parts: Iterable[str]) -> str:
    return " and ".join(parts)
