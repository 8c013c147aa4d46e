"""Which kind of file it is, told by its keys, so that the wrong one is refused in one sentence."""

from models.reading.faults import Fault
from models.reading.sheet import Sheet

KEYS = {
    "trip": ("vehicle", "gear", "people", "stages"),
    "plan": ("trip", "placements", "left_at_home", "claims"),
    "vehicle": ("wheelbase_mm", "kerb", "spaces", "openings"),
}
"""Keys that only one kind of file has."""


def mistaken(sheet: Sheet, wanted: str) -> Fault | None:
    """A fault where a file has no key of the kind that is wanted, and at least two of another kind."""
    if not isinstance(sheet.data, dict) or _known(sheet, wanted):
        return None
    others = (kind for kind in KEYS if kind != wanted and _known(sheet, kind) > 1)
    kind = next(others, None)
    if kind is None:
        return None
    hint = "`lowstow suggest TRIP -o plan.yaml` makes one" if (kind, wanted) == ("trip", "plan") else ""
    return Fault(sheet.file, None, "", f"a {kind}", f"a {wanted}", hint)


def _known(sheet: Sheet, kind: str) -> int:
    return sum(key in sheet.data for key in KEYS[kind])
