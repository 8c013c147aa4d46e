"""Why a thing stays at home, and the cheapest ways to take it."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from models.case import Case
from report.explained import HomeExplained, LockTold, WayTold
from report.terminal.explanation import already_broken, signed_mm, signed_s
from report.terminal.locked import all_say, corner_refused, lifted_first, once_lifted, other_locks, trip_files
from report.terminal.moves import minutes
from report.terminal.offered import offered
from report.terminal.table import bullets, paragraph, table
from report.terminal.typed import command, quoted, words_of
from report.terminal.whole import NARROW, WIDE

NONE_FOUND = "No way to take it{} was found in the time given; one may exist (--seconds, --effort)."
SHOWN = 5
"""How many of the spaces that may not hold it are told, those with the fewest rules against them first."""


def home_report(case: Case, told: HomeExplained, width: int = NARROW) -> str:
    """Why a copy is not aboard, as text of at most `width` columns."""
    width = min(max(width, NARROW), WIDE)
    lines = [line for text in _sentences(case, told) for line in paragraph(text, width)]
    if told.instead is not None:
        lines += _one_space(told, told.instead, width)
    elif not told.lawful and told.against:
        nearest = sorted(told.against, key=lambda pair: (len(pair[1]), pair[0]))[:SHOWN]
        rows = [(space, "; ".join(why)) for space, why in nearest]
        lines += ["", "Nearest", *table(("space", "what stands against it"), rows, width, frozenset({0, 1}))]
        lines += [f"  and {len(told.against) - SHOWN} more"] if len(told.against) > SHOWN else []
    for lifted, mine in groupby(told.ways, key=lambda way: way.lifted):
        lines += ["", *_ways(told, lifted, list(mine), width)]
    return "\n".join([*lines, *_offers(case, told, width)]) + "\n"


def _one_space(told: HomeExplained, space: str, width: int) -> list[str]:
    """What stands against it in the one space that was asked about, or that no way to take it there was found."""
    against = next((why for name, why in told.against if name == space), ())
    if against:
        says = f"In {space}: cannot. No plan may have it there."
        return ["", *paragraph(says, width), *bullets(against, width)]
    if told.bars:
        return [
            "",
            *paragraph(f"In {space}: cannot. No plan with what must come has it there.", width),
            *bullets(told.bars, width),
        ]
    none = f"In {space}: none found. {NONE_FOUND.format(' there')}"
    return [] if told.ways else ["", *paragraph(none, width)]


def _offers(case: Case, told: HomeExplained, width: int) -> list[str]:
    """The commands for the first way that needs no other limit."""
    first = next((way for way in told.ways if way.writable), None)
    if first is None:
        return []
    about = told.plan_file, case.called(told.copy)
    where = ("--instead", quoted(told.instead)) if told.instead else ()
    write = words_of("explain", about, *where, *told.given, "-o", "FILE")
    if first.space is None:
        one = "To write the plan of the first way:" if first is told.ways[0] else ""
        return ["", one, *command(write, width)] if one and not trip_files(first.lifted) else []
    make = [words_of("lock", about, "--in", quoted(first.space)), words_of("revise", about[:1])]
    return offered("Take it along if you like", about, first.lifted, make, write, width)


def _ways(told: HomeExplained, lifted: Sequence[LockTold], ways: Sequence[WayTold], width: int) -> list[str]:
    """Ways that need the same locks lifted, under what has to be lifted for them."""
    there = "" if told.instead is None else f" in {told.instead}"
    title = f"Ways to take it{there}{once_lifted(lifted, told.locks)}, each tried and checked, the cheapest first"
    refused = dict.fromkeys(text for way in ways for text in corner_refused(way.against_corner))
    texts = (*lifted_first(lifted), *refused)
    lines = [*paragraph(title, width), *bullets(map(_way, ways), width)]
    return [*lines, *(line for text in texts for line in paragraph(text, width))]


def _sentences(case: Case, told: HomeExplained) -> Iterator[str]:
    yield from already_broken(told.broken)
    called, thing = case.called(told.copy), case.thing_named[told.copy.thing]
    worth = "it must come" if thing.must else f"it is worth {thing.carry:g} of 100 to you"
    at_home = "is not aboard" if thing.must else "stays at home"
    if told.asked_for:
        yield f"{called} stays at home because that was asked for: {all_say(told.asked_for)}."
    elif told.instead is not None:
        yield f"{called} {at_home}; {worth}."
    elif not told.lawful:
        yield f"{called} {at_home}: no space of this vehicle may hold it ({worth})."
    else:
        yield f"{called} {at_home}; {worth}. By itself it may be in: {', '.join(told.lawful)}."
    yield from other_locks(told.locks)
    if told.lacks is not None:
        yield f"It does not come without {case.called(told.lacks)}, which has no place that its locks leave open."
    elif told.instead is None and told.lawful and not told.ways and told.bars:
        yield f"No plan with what must come takes it: {'; '.join(told.bars)}."
    elif not thing.must and told.ways and _too_high(told, case.trip.choose_within_mm):
        allowed = (
            f"What need not come is taken along while the height stays within {case.trip.choose_within_mm:g} mm of "
            "that of what must come alone (`choose_within_mm` of the trip)"
        )
        yield f"{allowed}{_lowest_found(told)}."
    elif told.instead is None and told.lawful and not told.ways:
        yield NONE_FOUND.format("")


def _too_high(told: HomeExplained, within_mm: float) -> bool:
    """Whether it lifts the load by more than what need not come may; by this plan where no more is known."""
    if told.heights_mm is None:
        return (told.ways[0].offer.higher_mm or 0) > within_mm
    alone_mm, with_it_mm = told.heights_mm
    return with_it_mm - alone_mm > within_mm


def _lowest_found(told: HomeExplained) -> str:
    if told.heights_mm is None:
        return ""
    alone_mm, with_it_mm = told.heights_mm
    return f"; found: {alone_mm:.1f} mm alone, {with_it_mm:.1f} mm with what this plan carries and it"


def _way(way: WayTold) -> str:
    offer = way.offer
    height = "" if offer.higher_mm is None else f"height {signed_mm(offer.higher_mm)} mm, "
    return f"{way.says}: {height}{signed_s(offer.more_s)} s a day, about {minutes(offer.moves.minutes)} of re-packing"
