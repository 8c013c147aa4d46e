"""What tie-downs hold in braking, as mass, and what they have to be rated more for more of it."""

import math
from collections.abc import Iterable

from models.rulebook import Restraint
from models.spaces import TieDown


def held_kg(points: Iterable[TieDown], rule: Restraint) -> float:
    """Kilograms that tie-downs hold together."""
    newton = sum(rule.tie_down_share * rule.newton_per_dan * point.rated_dan for point in points)
    return newton / _braking_n(rule)


def rated_dan_for(kg: float, rule: Restraint) -> int:
    """What tie-downs have to be rated together to hold so many kilograms, in whole daN."""
    return math.ceil(kg * _braking_n(rule) / (rule.tie_down_share * rule.newton_per_dan) - 1e-9)


def _braking_n(rule: Restraint) -> float:
    """Newtons with which braking pulls on a kilogram."""
    return rule.forward_g * rule.gravity_m_s2
