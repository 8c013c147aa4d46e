"""Height against handling time on the terminal."""

from report.terminal.table import bullets, paragraph, table
from report.tradeoff import Row, Tradeoff

HEADER = ("allowed mm", "height mm", "s a day", "against the chosen", "note")


def tradeoff_report(found: Tradeoff, width: int) -> str:
    """The plans as a table, the chosen one marked."""
    lines = [*paragraph(f"{found.trip} with {found.vehicle}: height against handling time", width), ""]
    if found.rows:
        lines += table(HEADER, [_row(row) for row in found.rows], width, frozenset({3, 4}))
        told = "Every plan was checked by the verifier. A millimetre of height is fine tuning and permits nothing."
        lines += ["", *paragraph(told, width)]
    lines += bullets(found.refused, width)
    return "\n".join(lines) + "\n"


def _row(row: Row) -> tuple[str, ...]:
    against = "-" if row.chosen else f"{row.more_mm:+.1f} mm, {row.more_s:+.0f} s"
    mark = "* " if row.chosen else ""
    note = row.note if row.offer.holds else "; ".join(part for part in (row.note, "a limit is unknown") if part)
    offer = row.offer
    return (f"{mark}{offer.allow_mm:g}", f"{offer.height_mm:.1f}", f"{offer.getting_at_s:.0f}", against, note)
