"""What uses up a limit, and what more of it would buy."""

from collections.abc import Iterator
from math import floor

from report.explained import LimitTold
from report.figures import left, limit, told_beside, whole
from report.terminal.explanation import breaks_words
from report.terminal.table import paragraph, table
from report.terminal.whole import NARROW, WIDE

SHOWN = 12
"""How many things are told."""


def limit_report(told: LimitTold, width: int = NARROW) -> str:
    """What uses up a limit, as text of at most `width` columns."""
    width = min(max(width, NARROW), WIDE)
    lines = [line for text in (_state(told), *breaks_words(told.broken)) for line in paragraph(text, width)]
    shown = [use for use in told.uses if abs(use[1]) >= 0.05][:SHOWN]
    if shown:
        rows = [(thing, f"{kg:.1f}") for thing, kg in shown]
        lines += ["", f"What is on it, in kg{_at(told)}", *table(("thing", "kg"), rows, width)]
        rest = [kg for _, kg in told.uses[len(shown) :] if kg]
        if any(abs(kg) >= 0.05 for kg in rest):
            lines += paragraph(f"  and {len(rest)} more, {sum(rest):.1f} kg together", width)
        lines += paragraph(_all_else(told), width, "  ", "  ") if _all_else(told) else []
    if told.more_kg:
        lines += ["", *(line for text in _buys(told) for line in paragraph(text, width))]
    return "\n".join(lines) + "\n"


def _all_else(told: LimitTold) -> str:
    """What no thing of the list puts on it, so that the column adds up."""
    other = (told.value_kg or 0.0) - told.reserve_kg - sum(kg for _, kg in told.uses)
    if abs(other) < 0.05:
        return ""
    whole_of_it = "vehicle, people, fluids, and the ball when towing"
    if told.name.startswith("rack "):
        whole_of_it = "racks themselves, what is bolted on there, and people on them"
    elif told.name == "with trailer":
        whole_of_it = "vehicle, people, fluids and the trailer"
    return f"and {whole_of_it}: {other:.1f} kg"


def _at(told: LimitTold) -> str:
    return f" at '{told.stage}'" if told.stage else ""


def _state(told: LimitTold) -> str:
    if told.value_kg is None:
        return _not_known(told)
    kept = f" after the reserve of {told.reserve_kg:g} kg" if told.reserve_kg else ""
    if told.limit_kg is None or told.left_kg is None:
        return f"{told.name}: {whole(told.value_kg)} kg{_at(told)}; its limit is unknown."
    free = left(told.left_kg, told.holds)
    words = f"{free} kg" if free.startswith("over") else f"{free} kg left"
    load = f"{told_beside(told.value_kg - told.reserve_kg, told.limit_kg, told.holds)} of {limit(told.limit_kg)} kg"
    return f"{told.name}: {load}{_at(told)}, {words}{kept}."


def _not_known(told: LimitTold) -> str:
    """That nobody knows what a limit carries: nothing is said of what more of it buys then."""
    allowed = "as is its limit" if told.limit_kg is None else f"its limit is {limit(told.limit_kg)} kg"
    price = "What is left of it and what more of it would buy cannot be told before what it carries is known"
    return f"{told.name}: what it carries{_at(told)} is unknown, {allowed}. {price}."


def _buys(told: LimitTold) -> Iterator[str]:
    more = f"{told.more_kg:g} kg more of it"
    if not told.found:
        yield f"What {more} would buy is unknown: no two plans to compare were found in the time given."
        return
    if not told.better:
        nothing = "no more comes along, and no plan is lower"
        yield f"{more} would buy nothing that was found, solving again with and without: {nothing}."
        return
    yield f"What {more} would buy, found by solving again with and without:"
    if told.lower_mm is not None:
        yield f"- height: {_height(told.lower_mm)}"
    yield f"- comes along: {', '.join(told.comes) or 'nothing more'}"
    if told.leaves:
        yield f"- stays at home for it: {', '.join(told.leaves)}"


def _height(lower_mm: float) -> str:
    if abs(lower_mm) < 1:
        return "under 1 mm, which hardly matters"
    word = "lower" if lower_mm > 0 else "higher, with what comes along"
    return f"{floor(abs(lower_mm) * 10) / 10:.1f} mm {word}"
