"""The sheet in short, for a terminal: loading order, in a hurry, holding it down, leaving checks."""

from collections.abc import Iterator

from report.sheet.content import Sheet
from report.sheet.drive import Drive
from report.sheet.holding import Tie
from report.sheet.hurry import Needed
from report.sheet.leaving import Leaving, Tight
from report.terminal.heading import UNSIGNED
from report.terminal.table import bullets, paragraph, table


def sheet_text(sheet: Sheet, width: int) -> str:
    """A sheet as lines no longer than a width; limits that hold and places are told by `check` and `find`."""
    who = f", the part that {sheet.packer} packs" if sheet.packer else ""
    head = paragraph(f"{sheet.trip} with {sheet.vehicle}{who}", width)
    parts = (
        [*head, "", *_drive(sheet.drive, width)],
        _loading(sheet, width),
        _hurry(sheet, width),
        _holding(sheet, width),
    )
    lines = [*(list(part) for part in parts), *([list(_leaving(sheet, width))] if sheet.leaving else [])]
    cautions = ["Cautions", *bullets((sheet.weigh, sheet.codes), width)]
    return "\n\n".join("\n".join(part) for part in [*lines, cautions]) + "\n"


def _drive(drive: Drive, width: int) -> Iterator[str]:
    """The answer, with all that has to be known beside it."""
    yield from paragraph(f"{drive.answer}. {drive.sentence}", width, "May we drive?  ")
    yield from ("", *(line for told in drive.changed for line in paragraph(told, width))) if drive.changed else ()
    for told in (drive.weigh_first, drive.reserve_note):
        yield from ("", *paragraph(told, width)) if told else ()
    for title, texts in ((drive.ask_first, drive.questions), ("Broken", drive.broken), (UNSIGNED, drive.unknown)):
        yield from ("", *paragraph(title, width), *bullets(texts, width)) if texts else ()
    yield from ("", *paragraph(drive.overall, width, "Overall: ", "  "))
    for told in (drive.before_water, *drive.beside):
        yield from paragraph(told, width) if told else ()


def _loading(sheet: Sheet, width: int) -> Iterator[str]:
    yield "Loading order; what stands in one round can be packed at the same time"
    if sheet.loading.tangle:
        yield from paragraph(sheet.loading.tangle, width, "  ")
    if sheet.loading.trailer:
        yield from paragraph(sheet.loading.trailer, width, "  ")
    if sheet.loading.nothing:
        yield from paragraph(sheet.loading.nothing, width, "  ")
    rows = []
    for n, works in enumerate(sheet.loading.rounds, start=1):
        for work in works:
            for item in work.items:
                care = "; ".join(item.care)
                rows.append((f"[ ] {item.number}", str(n), item.name, item.kg, work.space, work.packer, care))
    if rows:
        yield from table(
            ("no", "round", "thing", "kg", "space", "packer", "care"), rows, width, frozenset({2, 4, 5, 6})
        )
    yield from paragraph(sheet.loading.lifting, width, "Caution: ", "  ")


def _hurry(sheet: Sheet, width: int) -> Iterator[str]:
    yield "In a hurry"
    for incident in sheet.hurry.incidents:
        yield from paragraph(f"{incident.name}: {incident.word}", width, "  ")
        yield from (line for told in incident.says for line in paragraph(told, width, "    "))
        yield from (line for one in incident.things for line in paragraph(_needed(one), width, "    - "))
    if sheet.hurry.nothing_for:
        yield from paragraph(f"Nothing aboard is marked for: {', '.join(sheet.hurry.nothing_for)}.", width, "  ")


def _needed(one: Needed) -> str:
    stuck = [told for told, still in one.still if not still]
    first = f"; first move {', '.join(one.place.first)}" if one.place.first else ""
    closed = f"; stuck when {' or '.join(stuck)}" if stuck else ""
    ruled = one.place.counted
    counted = f" (the rule counts {ruled.text} s, without what lies in other spaces)" if ruled else ""
    took = f"{one.place.seconds.text} s{counted}"
    return f"{one.place.name} in {one.place.space}, {one.place.door}, {took}{first}{closed}"


def _holding(sheet: Sheet, width: int) -> Iterator[str]:
    yield "Holding it down"
    for space in sheet.holding.spaces:
        told = (f"{_tie(tie)} in {space.space}: {tie.how_many} ({tie.pull.text} N)" for tie in space.ties)
        yield from bullets(told, width)
    if not sheet.holding.spaces:
        yield from paragraph(sheet.holding.nothing, width, "  ")
        return
    if sheet.holding.loose:
        yield from paragraph(sheet.holding.loose, width, "  ")
    if sheet.holding.straps:
        fewer = "the fewer where things of a space are lashed together"
        yield from paragraph(f"In the strap bag: {sheet.holding.straps}, {fewer}.", width, "  ")
    yield from paragraph(f"{sheet.holding.rule} Source: {sheet.holding.source}.", width, "  ")
    yield from paragraph(sheet.again, width, "Caution: ", "  ")


def _tie(tie: Tie) -> str:
    return f"{tie.name}, above its middle," if tie.above else tie.name


def _leaving(sheet: Sheet, width: int) -> Iterator[str]:
    yield "Leaving checks"
    for stage in sheet.leaving:
        yield from paragraph(
            f"{stage.number} {stage.name}, {stage.ground}: {'; '.join(stage.changes)}", width, "  ", "    "
        )
        yield from (line for told in _now(stage) for line in paragraph(told, width, "    - "))


def _now(stage: Leaving) -> Iterator[str]:
    tight = stage.tight
    if tight is not None:
        space = "" if stage.space is None else f"; of the spaces: {_tight(stage.space)}"
        yield f"tightest now, at its heaviest: {_tight(tight)}{space}"
    for can in stage.emptied[:1]:
        front, rear, height = can.change
        yield f"empty next: {can.name} ({can.how}): front axle {front} kg, rear axle {rear} kg, height {height} mm"


def _tight(one: Tight) -> str:
    left = f"{one.margin.text} kg left" if one.holds else f"{one.margin.text} kg"
    return f"{one.subject}, {one.load.text} of {one.limit.text} kg, {left}"
