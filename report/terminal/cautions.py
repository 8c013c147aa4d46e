"""The cautions that belong to every plan."""

from models.case import Case
from report.terminal.table import bullets

WEIGH = "Figures are arithmetic on what was typed in: weigh the loaded vehicle, each axle, before you go."
CODES = (
    "Gas, fuel, batteries, restraint, towing and modified mass limits are regulated differently from place to place: "
    "local codes, handbooks and licensed practice come first."
)


def cautions(case: Case, width: int) -> list[str]:
    """Short, and with the name of the rule book that was leaned on."""
    return ["Cautions", *bullets((WEIGH, CODES, f"Rule book: {case.rulebook.name}."), width)]
