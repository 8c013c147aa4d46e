"""What a revision changes, told before the plan itself."""

from collections.abc import Iterator, Sequence

from models.case import Case, Copy
from packing import MoveList
from report.explained import Offer
from report.terminal.explanation import signed_mm, signed_s
from report.terminal.moves import minutes, moves_lines
from report.terminal.table import bullets, paragraph
from report.terminal.whole import NARROW, WIDE

Further = tuple[Copy, str, Offer]
"""A copy, the space it might move to, and the plan with that move."""


def revision_report(
    case: Case,
    moves: MoveList,
    left_behind: Sequence[Copy] = (),
    added: Sequence[Copy] = (),
    further: Sequence[Further] = (),
    width: int = NARROW,
) -> str:
    """What comes, what stays, what moves in which order, and further moves that were not made."""
    width = min(max(width, NARROW), WIDE)
    lines = [line for text in _changes(case, left_behind, added) for line in paragraph(text, width)]
    lines += [*([""] if lines else []), *moves_lines(case, moves, width)]
    if further:
        lines += ["", "Further moves worth their minutes, not made", *bullets(_further(case, further), width)]
    return "\n".join(lines) + "\n"


def _changes(case: Case, left_behind: Sequence[Copy], added: Sequence[Copy]) -> Iterator[str]:
    if left_behind:
        yield f"Stays behind now: {', '.join(case.called(copy) for copy in left_behind)}."
    if added:
        yield f"Comes now: {', '.join(case.called(copy) for copy in added)}."


def _further(case: Case, further: Sequence[Further]) -> Iterator[str]:
    for copy, space, offer in further:
        height = "" if offer.higher_mm is None else f"height {signed_mm(offer.higher_mm)} mm, "
        took = minutes(offer.moves.minutes)
        yield f"{case.called(copy)} to {space}: {height}{signed_s(offer.more_s)} s a day, about {took}"
