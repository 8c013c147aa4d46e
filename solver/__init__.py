"""Proposes, revises and explains layouts: the only part of lowstow that searches."""

from solver.answers import SILENT, Conflict, Demand, Level, Options, Progress, Proposal, Status, WayOut
from solver.explain import Explanation, HomeExplanation, Row, WayToTake, why_home, why_not
from solver.price import Price, price_of
from solver.revise import FurtherMove, Revision, made_anew, revise
from solver.search import propose

__all__ = [
    "SILENT",
    "Conflict",
    "Demand",
    "Explanation",
    "FurtherMove",
    "HomeExplanation",
    "Level",
    "Options",
    "Price",
    "Progress",
    "Proposal",
    "Revision",
    "Row",
    "Status",
    "WayOut",
    "WayToTake",
    "made_anew",
    "price_of",
    "propose",
    "revise",
    "why_home",
    "why_not",
]
