"""Tables and paragraphs of plain text, within a width."""

from collections.abc import Iterable, Sequence

from report.terminal.columns import left, right, width_of, wrapped

INDENT = "  "
GAP = "  "
NARROWEST = 12
"""Fewest characters of a column of texts, as long as the figures need no room of it."""


def paragraph(text: str, width: int, first: str = "", rest: str | None = None) -> list[str]:
    """A text wrapped to a width, its lines begun with `first` and then `rest`."""
    indent = " " * width_of(first) if rest is None else rest
    return wrapped(text, width, first, indent) or [first.rstrip()]


def bullets(texts: Iterable[str], width: int) -> list[str]:
    """Each text begun with a dash."""
    return [line for text in texts for line in paragraph(text, width, f"{INDENT}- ")]


def table(
    header: Sequence[str], rows: Sequence[Sequence[str]], width: int, texts: frozenset[int] = frozenset({0})
) -> list[str]:
    """A table within a width: columns of `texts` are wrapped first and stand left, the others stand right."""
    widths = _widths([header, *rows], width - len(INDENT), texts)
    lines = [line for row in (header, ["-" * w for w in widths], *rows) for line in _lines(row, widths, texts)]
    return [f"{INDENT}{line}".rstrip() for line in lines]


def _widths(rows: Sequence[Sequence[str]], room: int, texts: frozenset[int]) -> list[int]:
    """Widths of columns: where the texts are narrow and there is still no room, figures break between words."""
    columns = range(len(rows[0]))
    widths = [max(width_of(part) for row in rows for part in row[i].split("\n")) for i in columns]
    words = [max((width_of(word) for row in rows for word in row[i].split()), default=0) for i in columns]
    while sum(widths) + len(GAP) * (len(widths) - 1) > room:
        able = [i for i in texts if widths[i] > NARROWEST] or [i for i in columns if widths[i] > words[i]]
        if not able:
            break
        widths[max(able, key=lambda i: widths[i])] -= 1
    return widths


def _lines(row: Sequence[str], widths: Sequence[int], texts: frozenset[int]) -> list[str]:
    cells = [_cell(row[i], widths[i]) for i in range(len(row))]
    height = max(len(cell) for cell in cells)
    lines = []
    for n in range(height):
        parts = [cell[n] if n < len(cell) else "" for cell in cells]
        aligned = [
            left(p, w) if i in texts else right(p, w) for i, (p, w) in enumerate(zip(parts, widths, strict=True))
        ]
        lines.append(GAP.join(aligned).rstrip())
    return lines


def _cell(text: str, width: int) -> list[str]:
    return [line for part in text.split("\n") for line in (wrapped(part, width) or [""])]
