"""Two plans side by side."""

from collections.abc import Iterable, Iterator

from models.case import copy_of
from packing import with_unlisted
from report.comparison import Comparison, Pair, Side, figures, margins
from report.figures import ROUNDING_KG, UNKNOWN, left, seconds, whole
from report.lost import lying_words
from report.terminal.heading import answer, grouped, told_group
from report.terminal.moves import moves_lines
from report.terminal.table import bullets, paragraph, table
from report.terminal.whole import NARROW, WIDE

SHOWN = 8
"""How many margins are told, the tightest first."""


def compare_report(found: Comparison, width: int = NARROW) -> str:
    """Whether each may drive, what differs by stage, the tightest limits, handling time and the moves."""
    width = min(max(width, NARROW), WIDE)
    parts = [
        _heading(found, width),
        *(_broken(side, width) for side in (found.a, found.b)),
        *(_asked(side, width) for side in (found.a, found.b)),
        _figures(found, width),
        _margins(found, width),
        paragraph(_handling(found), width),
        _lost(found, width),
        _moves(found, width),
        [line for side in (found.a, found.b) for line in _notes(side, width)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _heading(found: Comparison, width: int) -> list[str]:
    lines = []
    for side in (found.a, found.b):
        lines += paragraph(f"{side.letter}  {side.path}: {side.case.trip.name} with {side.case.vehicle.name}", width)
    if found.other_files:
        lines += ["", *paragraph("They are for different files; each is checked against its own.", width)]
    lines.append("")
    for side in (found.a, found.b):
        told = ". ".join(answer(side.verdict, len(side.verdict.questions)))
        lines += paragraph(told, width, f"May we drive with {side.letter}?  ")
        lines += paragraph(_changed(side), width, "  ", "  ") if side.digest_matches is False else []
    return lines


def _changed(side: Side) -> str:
    """That the answer is that of other files than the plan was made from, and what it leaves out."""
    told = f"The files have changed since {side.letter} was made: it is checked against them as they are now"
    case = with_unlisted(side.case, side.left_out, anywhere=True)
    out = ", ".join(lying_words(case, copy_of(place), place.space) for place in side.left_out)
    return f"{told}, without what they no longer know: {out}." if out else f"{told}."


def _broken(side: Side, width: int) -> list[str]:
    groups = grouped(side.verdict.findings, False)
    return [f"Broken in {side.letter}", *bullets(map(told_group, groups), width)] if groups else []


def _asked(side: Side, width: int) -> list[str]:
    questions = side.verdict.questions
    return [f"Ask first of {side.letter}", *bullets(questions, width)] if questions else []


def _figures(found: Comparison, width: int) -> list[str]:
    both = set(found.a.verdict.totals) & set(found.b.verdict.totals)
    rows = [row for one in figures(found) if one.stage in both and (row := _row(one)) is not None]
    header = ("stage", "what differs", "A", "B", "B - A")
    title = "With likely masses, in kg, the height in mm"
    lines = [title, *table(header, rows, width, frozenset({0, 1}))] if rows else []
    if both and not rows:
        lines = paragraph(f"Masses and heights are alike at every stage{_that_both_have(found)}.", width)
    return lines + [line for side in (found.a, found.b) for line in _own_stages(side, both, width)]


def _that_both_have(found: Comparison) -> str:
    return "" if found.a.verdict.totals.keys() == found.b.verdict.totals.keys() else " that both have"


def _own_stages(side: Side, both: set[str], width: int) -> list[str]:
    """Stages of one trip that the other does not have: there is nothing to compare at them."""
    own = [f"'{stage}'" for stage in side.verdict.totals if stage not in both]
    return paragraph(f"Only in {side.letter}: {', '.join(own)}.", width) if own else []


def _row(one: Pair) -> tuple[str, ...] | None:
    if whole(one.a) == whole(one.b):
        return None
    return (one.stage, one.subject, whole(one.a), whole(one.b), _signed(one.difference))


def _signed(value: float | None) -> str:
    return UNKNOWN if value is None else f"{value:+.1f}"


def _margins(found: Comparison, width: int) -> list[str]:
    rows = [(one.subject, _left(one.a), _left(one.b), one.stage) for one in margins(found)[:SHOWN]]
    if not rows:
        return []
    title = "Left of each limit after the reserve, in kg, the tightest first"
    return [title, *table(("limit", "A", "B", "tightest at"), rows, width, frozenset({0, 3}))]


def _left(margin: float | None) -> str:
    return "-" if margin is None else left(margin, margin >= -ROUNDING_KG)


def _handling(found: Comparison) -> str:
    a, b = found.a.getting_at_s, found.b.getting_at_s
    more = b - a
    word = "the same" if abs(more) < 2.5 else f"{seconds(abs(more))} s {'more' if more > 0 else 'less'} with B"
    return f"Getting at things: A {seconds(a)} s a day, B {seconds(b)} s a day, {word}."


def _lost(found: Comparison, width: int) -> list[str]:
    if not found.lost.all:
        return []
    case = with_unlisted(found.moving, found.lost.things, anywhere=True)
    told = ", ".join(lying_words(case, copy, space) for copy, space in found.lost.all)
    there = [*found.a.plan.placements, *found.a.left_out]
    pairs = {(copy_of(place), place.space) for place in there}
    as_in_a = all(place in there for place in found.lost.things) and pairs.issuperset(found.lost.from_space.items())
    # Which of like copies leaves is a matter of names, and the moves name them as B does.
    named = "" if as_in_a else "; like copies have the numbers of B here and below"
    return paragraph(f"{told}{named}.", width, "In A, and unknown to the files of B: ", "  ")


def _moves(found: Comparison, width: int) -> list[str]:
    return ["From A to B", *moves_lines(found.moving, found.moves, width, found.lost.from_space)]


def _notes(side: Side, width: int) -> Iterator[str]:
    yield from _listed(f"Notes from reading {side.letter}", side.notes, width)


def _listed(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = bullets(texts, width)
    return [title, *lines] if lines else []
