"""Why a thing is here and not there: first a sentence a person would say, then a row for every other space."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from models.case import Case
from report.explained import Explained, Offer, RowTold
from report.figures import ROUNDING_KG, left, seconds
from report.terminal.locked import all_say, corner_refused, lifted_first, once_lifted, other_locks
from report.terminal.moves import minutes
from report.terminal.offered import offered
from report.terminal.table import bullets, paragraph, table
from report.terminal.typed import quoted, words_of
from report.terminal.whole import NARROW, WIDE

LEGEND = (
    "found: mm by which the laden centre of gravity is higher in the lowest layout found with it there than in the "
    "lowest found as it is. about: the same as it would be with both as low as can be, estimated. Of this plan changed "
    "by few moves, or into the better one: higher, how many mm it stands higher then; s/day, more time to get at "
    "things; min, minutes of re-packing."
)
AGAINST = (
    ("none found", "No plan was found with it there, though one may exist"),
    ("cannot", "Cannot, in any plan"),
)
MOVES_TOLD = 4
ABOVE_MM = 1.0
"""A plan that stands this much above what its rows are compared with is told with it, in mm."""


def explain_report(case: Case, told: Explained, width: int = NARROW) -> str:
    """Why a thing is where it is and what every other space would cost, as text of at most `width` columns."""
    width = min(max(width, NARROW), WIDE)
    lines = [line for text in _sentences(case, told) for line in paragraph(text, width)]
    if told.deep:
        for row in told.rows:
            lines += ["", *_deep(case, told, row, width)]
    else:
        lines += _tables(case, told, width)
    return "\n".join([*lines, *_offers(case, told, width)]) + "\n"


def _tables(case: Case, of: Explained, width: int) -> list[str]:
    """A row for every other space: first where it could be, then where no plan was found, then where it cannot be."""
    lines: list[str] = []
    rows = in_order(of.rows)
    could = [row for row in rows if row.offer is not None]
    for lifted, mine in groupby(could, key=lambda row: row.lifted):
        priced = [_row(case, of, row, row.offer) for row in mine if row.offer is not None]
        header = ("space", "about", "found", "higher", "s/day", "min", "what else")
        title = paragraph(f"Could be, at a price{',' if lifted else ''}{once_lifted(lifted, of.locks)}", width)
        lines += ["", *title, *table(header, priced, width, frozenset({0, 6}))]
        refused = [text for row in could if row.lifted == lifted for text in corner_refused(row.against_corner)]
        lines += [line for text in (*lifted_first(lifted), *refused) for line in paragraph(text, width)]
    lines += [line for text in _legend(of) for line in paragraph(text, width)] if could else []
    for kind, title_of in AGAINST:
        told = [(row.where, "; ".join(row.why) or "no reason shows at a look") for row in rows if row.kind == kind]
        if told:
            lines += ["", title_of, *table(("space", "what stands against it"), told, width, frozenset({0, 1}))]
    return lines


def _legend(of: Explained) -> Iterator[str]:
    yield LEGEND
    if of.above_mm >= ABOVE_MM:
        yield (
            f"This plan itself stands {_mm(of.above_mm)} above that lowest layout found as it is: "
            f"lowstow revise {quoted(of.plan_file)} lists what to move."
        )


def in_order(rows: Sequence[RowTold]) -> list[RowTold]:
    """Where it could be by the locks against it, none first, and the cheapest first; then none found; then cannot."""
    rank = {"could": 0, "none found": 1, "cannot": 2}

    def order(row: RowTold) -> tuple[object, ...]:
        against = [lock.says for lock in row.lifted] if row.kind == "could" else []
        return (rank[row.kind], bool(against) and row.against_trip, against, row.price_mm or 0.0, row.space)

    return sorted(rows, key=order)


def _sentences(case: Case, told: Explained) -> Iterator[str]:
    yield from already_broken(told.broken)
    called = case.called(told.copy)
    could = [row for row in in_order(told.rows) if row.kind == "could" and not row.lifted]
    if told.asked_for:
        yield f"{called} is in {told.space} because that was asked for: {all_say(told.asked_for)}."
    elif told.deep:
        yield f"{called} is in {told.space}."
    elif not could:
        yield f"{called} is in {told.space}: {_nowhere_else(told.rows)}."
    else:
        yield _against_the_next(called, told.space, could)
    yield from other_locks(told.locks)
    if told.others:
        places = "; ".join(f"{case.called(copy)} in {space}" for copy, space in told.others)
        yield f"Copies are alike; the others: {places}."


def already_broken(count: int) -> Iterator[str]:
    """A sentence where the plan that is asked about does not hold itself."""
    for says in breaks_words(count):
        yield f"{says} Only what mends that is offered; lowstow revise looks further."


def breaks_words(count: int) -> Iterator[str]:
    """That the plan that is asked about does not hold itself, where it does not."""
    if count:
        yield f"This plan breaks {'1 limit or rule' if count == 1 else f'{count} limits or rules'} (lowstow check)."


def _nowhere_else(rows: Sequence[RowTold]) -> str:
    left_open = [row for row in rows if not row.lifted]
    which = "" if len(left_open) == len(rows) else " that its locks leave open"
    if all(row.in_any_plan for row in left_open):
        return f"no other space{which} may hold it"
    return f"no plan was found with it in another space{which}"


def _against_the_next(called: str, space: str, could: Sequence[RowTold]) -> str:
    best = could[0]
    if best.word == "better":
        return (
            f"{called} is in {space}, but a better plan was found with it in {best.where}: {_mm(-_price(best))} lower."
        )
    if best.word == "hardly matters":
        few = f", but with few moves it stands {_mm(best.few_mm)} higher" if best.few_mm >= ABOVE_MM else ""
        return (
            f"{called} is in {space}, and it hardly matters: {best.where} would cost {_told(best)}{_found(best)}{few}."
        )
    told = f"would cost {_told(best)} of height{_at(best)}{_found(best, heights=True)}"
    return f"{called} is in {space}: the next best place, {best.where}, {told}."


def _price(row: RowTold) -> float:
    return row.price_mm or 0.0


def _mm(value: float) -> str:
    return f"{abs(value):.1f} mm"


def _told(row: RowTold) -> str:
    return f"{'' if row.about_mm is None else 'about '}{_mm(_price(row))}"


def _at(row: RowTold) -> str:
    return f" at '{row.offer.then.stage}'" if row.offer and row.offer.then.stage else ""


def _found(row: RowTold, *, heights: bool = False) -> str:
    """What was found, in brackets: by how much two layouts differ, and how high they are."""
    differ = f"found {_mm(row.found_mm or 0.0)}"
    if row.lowest_mm is None or not heights:
        return f" ({differ})"
    return f" ({differ}: {row.lowest_mm[0]:.1f} to {row.lowest_mm[1]:.1f})"


def _row(case: Case, of: Explained, row: RowTold, offer: Offer) -> tuple[str, ...]:
    took = minutes(offer.moves.minutes).removesuffix(" min")
    about = "-" if row.about_mm is None else signed_mm(row.about_mm)
    word = {"hardly matters": "hardly matters; ", "better": "better plan; "}.get(row.word, "")
    also = word + _moves(case, of, row, offer)
    higher = "-" if offer.higher_mm is None else signed_mm(offer.higher_mm)
    return (row.where, about, signed_mm(row.found_mm or 0.0), higher, signed_s(offer.more_s), took, also)


def signed_mm(value: float) -> str:
    """A difference in mm to a tenth, with its sign."""
    return "0.0" if abs(value) < 0.05 else f"{value:+.1f}"


def signed_s(value: float) -> str:
    """A difference in seconds to 5, with its sign."""
    told = seconds(abs(value))
    return "0" if told == "0" else f"{'+' if value > 0 else '-'}{told}"


def _moves(case: Case, of: Explained, row: RowTold, offer: Offer) -> str:
    """What else comes to another space or another place; what only shuffles in the space asked about is not told."""
    kinds = {"move", "put in", "take out", "bring in"}
    begin = {one.copy: one.from_space for one in reversed(offer.moves.moves) if one.from_space}
    others = list(dict.fromkeys(
        f"{case.called(one.copy)} {_whither(begin.get(one.copy), one.to_space)}"
        for one in offer.moves.moves
        if one.kind in kinds
        and (one.to_space != row.space or (begin.get(one.copy) != row.space and one.copy.thing != of.copy.thing))
    ))  # fmt: skip
    more = f" and {len(others) - MOVES_TOLD} more" if len(others) > MOVES_TOLD else ""
    return f"moves also: {', '.join(others[:MOVES_TOLD])}{more}" if others else "nothing else moves elsewhere"


def _whither(begin: str | None, end: str | None) -> str:
    if end is None:
        return "stays at home"
    return f"within {end}" if begin == end else f"to {end}"


def _deep(case: Case, of: Explained, row: RowTold, width: int) -> list[str]:
    if row.offer is None:
        lines = [*paragraph(f"In {row.where}: {row.kind}. {_how_sure(row)}", width), *bullets(row.why, width)]
        if row.demands:
            lines += [*paragraph("With it there, these cannot hold together:", width), *bullets(row.demands, width)]
        return lines
    allowed = f"In {row.where}{'' if row.at_corner else ' instead'}: allowed{once_lifted(row.lifted, of.locks)}."
    lines = [*paragraph(allowed, width), *bullets(_facts(case, of, row, row.offer), width)]
    texts = (*lifted_first(row.lifted), *corner_refused(row.against_corner))
    return [*lines, *(line for text in texts for line in paragraph(text, width))]


def _how_sure(row: RowTold) -> str:
    lifted = ", also without its lock" if row.lifted else ""
    if row.demands:
        return f"Proven: no plan has it there with all else that is asked for{lifted}."
    if row.in_any_plan:
        return "No plan may have it there."
    return f"No plan was found with it there{lifted}; one may exist."


def _facts(case: Case, of: Explained, row: RowTold, offer: Offer) -> Iterator[str]:
    word = {"better": "a better plan was found", "hardly matters": "it hardly matters"}.get(row.word, "price")
    about = "" if row.about_mm is None else f"about {signed_mm(row.about_mm)} mm of height; "
    heights = "" if row.lowest_mm is None else f", {row.lowest_mm[0]:.1f} to {row.lowest_mm[1]:.1f}{_at(row)}"
    yield f"{word}: {about}found {signed_mm(row.found_mm or 0.0)} mm{heights}, the lowest found with it there"
    yield from change_sentences(offer)
    yield _moves(case, of, row, offer)
    if row.under_kg is not None:
        yield f"it would hardly matter if it weighed under {row.under_kg:.1f} kg, the rest as in this change"


def change_sentences(offer: Offer) -> Iterator[str]:
    """What a plan changes in height, time and margins, as the verifier finds it."""
    now, then = offer.now, offer.then
    if now.height_mm is not None and then.height_mm is not None:
        at = f" at '{then.stage}'" if then.stage else ""
        yield f"as this plan stands: height {now.height_mm:.1f} to {then.height_mm:.1f} mm{at}"
    yield f"{signed_s(offer.more_s)} s a day to get at things; about {minutes(offer.moves.minutes)} of re-packing"
    for called, before, after in (
        ("total", now.total_left_kg, then.total_left_kg),
        ("front axle", now.front_left_kg, then.front_left_kg),
        ("rear axle", now.rear_left_kg, then.rear_left_kg),
    ):
        if before is not None and after is not None and abs(after - before) >= 0.5:
            told = [left(kg, kg >= -ROUNDING_KG) for kg in (before, after)]
            if told[0] != told[1]:
                yield f"{called}: {_left_to(*told)} at its tightest stage"


def _left_to(before: str, after: str) -> str:
    """What is left of a limit before and after; a limit that is broken is told as over it."""
    if after.startswith("over"):
        return f"{before} kg{'' if before.startswith('over') else ' left'} to {after} kg"
    return f"{before}{' kg' if before.startswith('over') else ''} to {after} kg left"


def _offers(case: Case, told: Explained, width: int) -> list[str]:
    could = [row for row in in_order(told.rows) if row.offer is not None]
    cheap = {"better", "hardly matters"}
    chosen = [row for row in could if told.deep or row.at_corner or row.word in cheap]
    if not chosen:
        return []
    row, thing, plan = chosen[0], case.called(told.copy), told.plan_file
    like = "Put it there if you like" if row.word in cheap and row.few_mm < ABOVE_MM else "If you want it there"
    if row.word == "better":
        like = f"{like}; revise moves little, and may not come to the plan that was tried"
    if row.at_corner:
        like = "Put it where its lock wants it"
    there = [] if row.at_corner else [words_of("lock", (plan, thing), "--in", quoted(row.space))]
    write = words_of("explain", (plan, thing), "--instead", quoted(row.space), *told.given, "-o", "FILE")
    return offered(like, (plan, thing), row.lifted, [*there, words_of("revise", (plan,))], write, width)
