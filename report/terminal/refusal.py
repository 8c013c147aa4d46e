"""What is told where there is no plan: proven that none exists, or none found in the time given."""

from collections.abc import Iterable, Sequence

from models.case import Case
from report.terminal.table import bullets, paragraph
from report.terminal.whole import NARROW, WIDE
from report.told import Conflict, Demand


def refusal_report(
    case: Case, proven: bool, conflict: Conflict | None = None, notes: Sequence[str] = (), width: int = NARROW
) -> str:
    """Why there is no plan, a sentence each; `proven` tells a proof from a search that ran out of time."""
    width = min(max(width, NARROW), WIDE)
    lines = [*paragraph(f"{case.trip.name} with {case.vehicle.name}", width), "", *paragraph(_answer(proven), width)]
    if conflict is not None:
        lines += _part("What stands in the way", conflict.says, width)
        title = "These cannot hold together" if conflict.proven else "These were not brought together"
        lines += _part(title, (_demand(one) for one in conflict.demands), width)
        lines += _part("Ways out, each of them tried", (one.says for one in conflict.ways_out), width)
    return "\n".join([*lines, *_part("Notes from reading the files", notes, width)]) + "\n"


def _answer(proven: bool) -> str:
    if proven:
        return "No plan exists: proven. Something that is asked for has to give."
    return (
        "No plan was found in the time given. Whether one exists is unknown: allow more with --seconds and --effort, "
        "or ask for less."
    )


def _part(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = bullets(texts, width)
    return ["", title, *lines] if lines else []


def _demand(one: Demand) -> str:
    return one.says if one.shown else f"{one.says} (whether it matters could not be shown)"
