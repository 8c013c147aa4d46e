"""The cautions that belong to every plan."""

from models.case import Case
from models.reading.faults import shown
from models.reading.shipped import changes, shipped_rulebook
from report.terminal.table import bullets

WEIGH = "Figures are arithmetic on what was typed in: weigh the loaded vehicle, each axle, before you go."
CODES = (
    "Gas, fuel, batteries, restraint, towing and modified mass limits are regulated differently from place to place: "
    "local codes, handbooks and licensed practice come first."
)


def cautions(case: Case, width: int) -> list[str]:
    """Short, and with the rule book that was leaned on."""
    return ["Cautions", *bullets((WEIGH, codes(case), f"Rule book: {rulebook(case)}."), width)]


def codes(case: Case) -> str:
    """What regulates the matter; a rule book of one's own says first what it has to say, and takes nothing away."""
    own = case.rulebook.caution
    return CODES if own == shipped_rulebook().caution else f"{' '.join(own.split())} {CODES}"


def rulebook(case: Case) -> str:
    """The name of the rule book that was leaned on, and what it has changed in the shipped one, with the sources."""
    book, found = case.rulebook, changes(case.rulebook)
    if not found:
        return book.name
    own_name = "" if book.name == shipped_rulebook().name else f"{book.name}, "
    by = f" by {case.trip.rulebook}" if case.trip.rulebook else ""
    told = (one.place if one.source is None else f"{one.place} ({shown(one.source)})" for one in found)
    return f"{own_name}the shipped one, changed{by} in: {', '.join(told)}"
