"""Names that must refer to something."""

from collections.abc import Iterator, Mapping
from typing import Any

from models.base import composed
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.reading.known import Known

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


Kinds = Mapping[str, tuple[str, ...]]
"""By key of a part: what its names refer to."""

MEANT = {
    "kerosene": "ethanol", "paraffin": "ethanol", "spirit": "ethanol", "alcohol": "ethanol", "solvent": "ethanol",
    "propane": "lpg", "butane": "lpg", "gas": "lpg", "gas_bottle": "lpg",
    "gasoline": "petrol", "fuel": "petrol", "generator": "petrol_equipment", "chainsaw": "petrol_equipment",
    "acid": "corrosive", "bleach": "oxidiser", "battery": "lithium", "poison": "toxic", "spray": "aerosol",
}  # fmt: skip
"""Words of people by the hazard word of the rule book that is likely meant. Common practice, no source."""

NONE = {"hazard": "none"}
"""What a file says at a key where it means that there is none."""


def refers(draft: Draft, entry: Entry[Any], kinds: Kinds, *, listed: bool = True) -> Iterator[Fault]:
    """Faults for names in a part, as it stands in its file, that refer to nothing of the kinds they should.

    `listed`: with the names that there are.
    """
    for key, meant in kinds.items():
        called = " or ".join(CALLED[kind] for kind in meant)
        for name in _names(draft, entry, key):
            known = draft.known(meant)
            if known is not None and name not in known:
                allowed = _among(called, known, meant) if listed else f"the name of {called}"
                yield entry.fault(key, shown(name), allowed, _several(entry, name, known) or _hint(name, known, meant))


def _among(called: str, known: Known, meant: tuple[str, ...]) -> str:
    """The names there are; all hazard words, which nobody can guess."""
    names = known.every_listed if "hazards" in meant else known.listed
    return called + (f": {names}" if names else ", and there is none")


def _several(entry: Entry[Any], name: str, known: Known) -> str:
    """How several names are parted, where each of them is one that there is."""
    parts = name.split(",")
    return entry.sheet.hint_at_several(name) if all(part.strip() in known for part in parts) else ""


def _hint(name: str, known: Known, meant: tuple[str, ...]) -> str:
    """At a word that is likely meant, else at the nearest."""
    word = MEANT.get(name.casefold().replace(" ", "_"), "") if "hazards" in meant else ""
    return f'did you mean "{word}"?' if word in known else known.hint(name)


def _names(draft: Draft, entry: Entry[Any], key: str) -> list[str]:
    """The names that stand at a key, alone, in a list or before a colon; none that is refused as a text."""
    value, path = entry.part.get(key), (*entry.path, key)
    if draft.faulty_itself(entry.sheet, path):
        return []
    if isinstance(value, dict):
        found = [name for name, of in value.items() if of is not None]  # 0,5 is read as a 0 and a 5 of nothing
    elif isinstance(value, list):
        found = [name for i, name in enumerate(value) if not draft.faulty_itself(entry.sheet, (*path, i))]
    else:
        found = [value]
    return [composed(name) for name in found if isinstance(name, str) and name != NONE.get(key)]
