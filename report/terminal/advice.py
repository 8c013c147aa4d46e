"""How to tie and how to lift, in a few lines; the sheet has all of it."""

from collections.abc import Iterator, Sequence

from report.advice_words import in_all, one_point, points, recommended, strap_range, way_out
from report.figures import limit, whole
from report.terminal.table import bullets, paragraph
from report.told_advice import Lift, TiedSpace, Tying

SHOWN = 3
"""How many spaces, things that tip and lifts are told."""
ADVICE = "It is advice and no limit: local practice comes first."


def tying(told: Tying, width: int) -> list[str]:
    """Straps by space, and why those that only press are not counted; nothing where nothing is tied."""
    if not told.spaces:
        return []
    many = in_all(told)
    title = f"Tying down: {many}, the fewer where things are lashed together"
    fewer = told.straps_apart is not None and told.straps_together not in {None, told.straps_apart}
    lines = paragraph(title if fewer else f"Tying down: {many}", width)
    lines += bullets((_space(one) for one in told.spaces[:SHOWN]), width)
    if len(told.spaces) > SHOWN:
        lines += paragraph(f"and {_counted(len(told.spaces) - SHOWN, 'space')} more, on the sheet", width, "  ")
    return [*lines, *(line for text in _pressed(told) for line in paragraph(text, width, "  ", "  "))]


def _space(one: TiedSpace) -> str:
    many = strap_range(one.straps_together, one.straps_apart)
    tipping = [tie.name for tie in one.ties if tie.tips]
    above = f"; tied above the middle, against tipping: {_some(tipping)}" if tipping else ""
    return f"{one.space}: {_counted(len(one.ties), 'thing')}, {many}; {points(one.points_dan)}{one_point(one)}{above}"


def _pressed(told: Tying) -> Iterator[str]:
    known = [(one.pressed_forward_kg, one.space) for one in told.spaces if one.pressed_forward_kg is not None]
    if known:
        least, space = min(known)
        yield (
            f"Tie to the thing, not over it: a strap that only presses from above holds about {limit(least)} kg in "
            f"braking in {space}, and none is counted."
        )


def _some(names: Sequence[str]) -> str:
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return ", ".join(names[:SHOWN]) + more


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def lifting(lifts: Sequence[Lift], width: int) -> list[str]:
    """What takes more than one person, most over what is recommended for one first; nothing where nothing does."""
    heavy = _alike([one for one in lifts if one.too_heavy])
    if not heavy:
        return []
    lines = paragraph("Lifting from the ground: takes more than one person, by NIOSH or as marked", width)
    lines += bullets((_lift(group) for group in heavy[:SHOWN]), width)
    more = sum(len(group) for group in heavy[SHOWN:])
    rest = f"and {more} more, on the sheet. " if more else ""
    return [*lines, *paragraph(f"{rest}{ADVICE}", width, "  ")]


def _alike(lifts: Sequence[Lift]) -> list[list[Lift]]:
    """Copies of one thing in one space together, where the first of them stands."""
    found: dict[tuple[str, str], list[Lift]] = {}
    for one in lifts:
        found.setdefault((one.copy.thing, one.space), []).append(one)
    return list(found.values())


def _lift(group: list[Lift]) -> str:
    worst = group[0]
    name = worst.name if len(group) == 1 else f"{worst.copy.thing} (x {len(group)})"
    mark = ", marked for two" if worst.two_person else ""
    return f"{name} in {worst.space}: {whole(worst.kg)} kg{mark}, {recommended(worst)}; {way_out(worst)}"
