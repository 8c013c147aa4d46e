"""What is told where there is no plan: proven that none exists, or none found in the time given."""

from collections.abc import Sequence

from models.case import Case
from report.terminal.table import bullets, paragraph
from report.terminal.whole import NARROW, WIDE


def refusal_report(
    case: Case, proven: bool, conflict: Sequence[str] = (), notes: Sequence[str] = (), width: int = NARROW
) -> str:
    """Why there is no plan, a sentence each; `proven` tells a proof from a search that ran out of time."""
    width = min(max(width, NARROW), WIDE)
    lines = [*paragraph(f"{case.trip.name} with {case.vehicle.name}", width), ""]
    lines += paragraph(_answer(proven), width)
    if conflict:
        lines += ["", "These cannot hold together" if proven else "What stood in the way", *bullets(conflict, width)]
    if notes:
        lines += ["", "Notes from reading the files", *bullets(notes, width)]
    return "\n".join(lines) + "\n"


def _answer(proven: bool) -> str:
    if proven:
        return "No plan exists: proven. Something that is asked for has to give."
    return (
        "No plan was found in the time given. Whether one exists is unknown: allow more with --seconds and --effort, "
        "or ask for less."
    )
