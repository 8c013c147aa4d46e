"""Proposes, revises and explains layouts: the only part of lowstow that searches."""

from solver.answers import SILENT, Conflict, Demand, Level, Options, Progress, Proposal, Status, WayOut
from solver.asking import with_more
from solver.contrast import Explanation, HomeExplanation, OtherSidesError, Row, WayToTake, how_much
from solver.demands import forbids
from solver.explain import why_not
from solver.further import FurtherMove, worth_a_minute
from solver.price import Price, price_of
from solver.revise import Revision, as_it_is, better_in_hand, made_anew, revise
from solver.search import propose
from solver.taking import why_home
from solver.unlocking import unlocked
from solver.wording import lock_words

__all__ = [
    "SILENT",
    "Conflict",
    "Demand",
    "Explanation",
    "FurtherMove",
    "HomeExplanation",
    "Level",
    "Options",
    "OtherSidesError",
    "Price",
    "Progress",
    "Proposal",
    "Revision",
    "Row",
    "Status",
    "WayOut",
    "WayToTake",
    "as_it_is",
    "better_in_hand",
    "forbids",
    "how_much",
    "lock_words",
    "made_anew",
    "price_of",
    "propose",
    "revise",
    "unlocked",
    "why_home",
    "why_not",
    "with_more",
    "worth_a_minute",
]
