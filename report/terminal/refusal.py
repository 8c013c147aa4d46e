"""What is told where there is no plan: proven that none exists, or none found in the time given."""

from collections.abc import Iterable, Sequence

from models.case import Case
from report.terminal.table import bullets, paragraph
from report.terminal.whole import NARROW, WIDE
from report.told import Conflict, Demand

CUT_SHORT = (
    "The time was over before all of this was tried: --seconds gives it more. The next run may tell it in other words "
    "or find other ways out."
)


def refusal_report(
    case: Case,
    proven: bool,
    conflict: Conflict | None = None,
    notes: Sequence[str] = (),
    width: int = NARROW,
    *,
    closest: Sequence[str] = (),
    cut_short: bool = False,
) -> str:
    """Why there is no plan, a sentence each; `proven` tells a proof from a search that ran out of time.

    `closest` tells what was missed where none was found, and `cut_short` that the clock ended some of what was tried.
    """
    width = min(max(width, NARROW), WIDE)
    lines = paragraph(f"{case.trip.name} with {case.vehicle.name}", width)
    lines += ["", *paragraph(_answer(case, proven, conflict), width)]
    lines += _part("How near it came", closest, width)
    if conflict is not None:
        lines += _part("What stands in the way", conflict.says, width)
        lines += _part(_title(conflict), (_demand(one) for one in conflict.demands), width)
        lines += _part("Ways out, each of them tried", (one.says for one in conflict.ways_out), width)
    lines += ["", *paragraph(CUT_SHORT, width)] if cut_short else []
    return "\n".join([*lines, *_part("Notes from reading the files", notes, width)]) + "\n"


def _answer(case: Case, proven: bool, conflict: Conflict | None) -> str:
    if proven:
        return "No plan exists: proven. Something that is asked for has to give."
    more = "allow more with --seconds and --effort, or ask for less."
    if conflict is not None and conflict.proven and any(one.kind == "reserve" for one in conflict.demands):
        # The reserve is asked for only as far as it can be kept.
        none = f"No plan keeps {case.reserve_kg:g} kg of reserve: proven. With less of it none was found"
        return f"{none} in the time given. Whether one exists is unknown: {more}"
    return f"No plan was found in the time given. Whether one exists is unknown: {more}"


def _part(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = bullets(texts, width)
    return ["", title, *lines] if lines else []


def _title(conflict: Conflict) -> str:
    if not conflict.proven:
        return "This was not brought about" if len(conflict.demands) == 1 else "These were not brought together"
    return "This cannot be" if len(conflict.demands) == 1 else "These cannot hold together"


def _demand(one: Demand) -> str:
    if one.not_enough:
        return f"{one.says} (giving up this alone is not enough)"
    return one.says if one.shown else f"{one.says} (that a plan exists without it could not be shown)"
