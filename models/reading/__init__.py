"""Reading what people write: every fault at once, with file, line, what was found and what is allowed."""

from models.reading.casefile import CaseRead, case_from, read_case
from models.reading.faults import Fault, InputFaults
from models.reading.planfile import LostLock, PlanRead, read_plan
from models.reading.shipped import shipped_rulebook

__all__ = [
    "CaseRead",
    "Fault",
    "InputFaults",
    "LostLock",
    "PlanRead",
    "case_from",
    "read_case",
    "read_plan",
    "shipped_rulebook",
]
