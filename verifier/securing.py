"""Forces that hold a load: what braking asks for and what tie-downs give."""

from collections.abc import Iterable

from models.rulebook import Restraint


def required_restraint_n(mass_kg: float, share_of_g: float, gravity_m_s2: float = 9.81) -> float:
    """Force in N that holds a mass against a share of gravity, friction not counted."""
    return share_of_g * gravity_m_s2 * mass_kg


def tie_down_capacity_n(rated_dan: Iterable[float], share: float = 0.5, newton_per_dan: float = 10.0) -> float:
    """Force in N that tie-downs give together; of each rating only a share counts (49 CFR 393.106(d): half)."""
    return sum(share * newton_per_dan * rating for rating in rated_dan)


def braking_n(mass_kg: float, restraint: Restraint) -> float:
    """Force in N that holds a mass under the braking of the rule book."""
    return required_restraint_n(mass_kg, restraint.forward_g, restraint.gravity_m_s2)


def held_n(rated_dan: Iterable[float], restraint: Restraint) -> float:
    """Force in N that tie-downs give by the rule book."""
    return tie_down_capacity_n(rated_dan, restraint.tie_down_share, restraint.newton_per_dan)


def braked_kg(newton: float, restraint: Restraint) -> float:
    """Mass in kg that a force holds under the braking of the rule book."""
    return newton / braking_n(1.0, restraint)
