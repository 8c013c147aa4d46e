"""Proposes, revises and explains layouts: the only part of lowstow that searches."""

from solver.answers import SILENT, Conflict, Demand, Level, Options, Progress, Proposal, Status, WayOut
from solver.search import propose

__all__ = [
    "SILENT",
    "Conflict",
    "Demand",
    "Level",
    "Options",
    "Progress",
    "Proposal",
    "Status",
    "WayOut",
    "propose",
]
