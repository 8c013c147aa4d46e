"""Names that must refer to something."""

from collections.abc import Iterable, Iterator
from typing import Any

from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown

CALLED = {
    "things": "a thing of the gear lists",
    "kits": "a kit of the gear lists",
    "fluids": "a fluid of the rule book",
    "hazards": "a hazard of the rule book",
    "people": "a person of the trip",
    "spaces": "a space of the vehicle",
    "racks": "a rack of the vehicle",
    "openings": "an opening of the vehicle",
    "seats": "a seat of the vehicle",
    "tanks": "a tank of the vehicle",
    "air": "a volume of air of the vehicle",
}
"""What names of each kind refer to, for sentences."""


def refers(draft: Draft, entry: Entry[Any], key: str, names: Iterable[str | None], *kinds: str) -> Iterator[Fault]:
    """Faults for names at a key of a part that refer to nothing of some kinds."""
    asked = [name for name in names if name is not None]
    known = draft.known(kinds) if asked else None
    for name in asked:
        if known is not None and name not in known:
            called = " or ".join(CALLED[kind] for kind in kinds)
            allowed = called + (f": {known.listed}" if known.listed else ", and there is none")
            yield entry.fault(key, shown(name), allowed, known.hint(name))
