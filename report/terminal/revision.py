"""What a revision changes, told before the plan itself."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from models.case import Case, Copy, copy_of
from packing import MoveList, with_unlisted
from report.explained import Offer
from report.lost import NOTHING_LOST, Lost
from report.terminal.explanation import signed_mm, signed_s
from report.terminal.locks import lock_text
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
    *,
    lost: Lost = NOTHING_LOST,
    width: int = NARROW,
) -> str:
    """What comes, what stays, what moves in which order, and further moves that were not made.

    `lost` is what lies somewhere and is no longer known to the files, with new numbers of like copies and locks gone.
    """
    width, case = min(max(width, NARROW), WIDE), with_unlisted(case, lost.things, anywhere=True)
    changes = (*_taken_out(case, lost), *_locks_gone(case, lost), *_changes(case, left_behind, added, lost))
    lines = [line for text in changes for line in paragraph(text, width)]
    if moves.moves or moves.stuck or not lost.things:
        lines += [*([""] if lines else []), *moves_lines(case, moves, width, lost.from_space)]
    else:
        lines += ["", "Nothing else moves."]
    if further:
        lines += ["", "Further moves worth their minutes, not made", *bullets(_further(case, further), width)]
    return "\n".join(lines) + "\n"


def _taken_out(case: Case, lost: Lost) -> Iterator[str]:
    for place in lost.things:
        copy = copy_of(place)
        was = f" (#{lost.numbers[copy].number} until now)" if copy in lost.numbers else ""
        yield f"Take out: {case.called(copy)}{was}, out of {place.space} (no longer on the list)."
    for thing, pairs in groupby(lost.numbers.items(), key=lambda pair: pair[0].thing):
        told = ", ".join(f"#{old.number} is now #{new.number}" for new, old in sorted(pairs, key=lambda pair: pair[1]))
        yield f"New numbers of {thing}, as the list has fewer: {told}; a lock on one goes along."


def _locks_gone(case: Case, lost: Lost) -> Iterator[str]:
    for one in lost.locks:
        yield f"Lock gone from the plan: {lock_text(case, one.lock)}, as the files have changed: {' '.join(one.why)}"


def _changes(case: Case, left_behind: Sequence[Copy], added: Sequence[Copy], lost: Lost) -> Iterator[str]:
    gone = [copy for copy in lost.from_space if copy not in added]
    if left_behind or gone:
        yield f"Stays behind now: {', '.join(case.called(copy) for copy in (*left_behind, *gone))}."
    new = [copy for copy in added if copy not in lost.from_space]
    if new:
        yield f"Comes now: {', '.join(case.called(copy) for copy in new)}."


def _further(case: Case, further: Sequence[Further]) -> Iterator[str]:
    for copy, space, offer in further:
        height = "" if offer.higher_mm is None else f"height {signed_mm(offer.higher_mm)} mm, "
        took = minutes(offer.moves.minutes)
        yield f"{case.called(copy)} to {space}: {height}{signed_s(offer.more_s)} s a day, about {took}"
