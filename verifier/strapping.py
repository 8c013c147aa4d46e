"""Straps: whether a thing tips, how many straps hold it, and what one holds that only presses from above.

Advice only: what is judged stands in `securing`, where friction is not counted.
"""

from math import ceil, inf, radians, sin

from models.advice import Pressing, Strapping

TOLERANCE = 1e-9
"""What a count may be over a whole number by the rounding of the arithmetic."""
TIES_BEYOND_SHORT = 2
"""Straps of what is not short and light, up to the first long length (49 CFR 393.110, second-hand)."""


def fewest_straps(force_n: float, each_n: float) -> int | None:
    """How many straps that hold so many newtons each hold a force together, one at least. None: no number does."""
    return max(1, _up(force_n / each_n)) if each_n > 0 else None


def tips(depth_mm: float, height_mm: float, share_of_g: float, downward_g: float = 1.0) -> bool:
    """Whether a box with its mass in the middle tips over its lower edge when it is only kept from sliding.

    `depth_mm` is its side along the acceleration. It stands while b/d > c/c_z, with b from the middle to the edge and d
    the height of the middle (statics; the form of EN 12195-1, from memory): at equality it tips.
    """
    return depth_mm * downward_g <= share_of_g * height_mm


def straps_by_length(mass_kg: float, length_mm: float, blocked: bool, book: Strapping) -> int:
    """Fewest straps of an article by length and mass; `blocked`: something stops it forward (49 CFR 393.110)."""
    if blocked:
        return max(1, _up(length_mm / book.long_mm))
    if length_mm <= book.short_mm and mass_kg <= book.light_kg:
        return 1
    return TIES_BEYOND_SHORT + max(0, _up(length_mm / book.long_mm - 1))


def pressing_n(tension_n: float, friction: float, angle_deg: float) -> float:
    """Force in N by which a strap over the top holds by friction: both its sides press, 2 mu sin(alpha) F_T."""
    return 2 * friction * sin(radians(angle_deg)) * tension_n


def pressed_kg(tension_n: float, share_of_g: float, safety: float, gravity_m_s2: float, book: Pressing) -> float:
    """Mass in kg that a strap over the top keeps from sliding; inf where friction alone does.

    (c - mu c_z) m g f_s <= 2 mu sin(alpha) F_T of EN 12195-1:2010, from memory.
    """
    wanting_n = (share_of_g - book.friction * book.downward_g) * gravity_m_s2 * safety
    return pressing_n(tension_n, book.friction, book.angle_deg) / wanting_n if wanting_n > 0 else inf


def pressing_straps(mass_kg: float, each_kg: float) -> int | None:
    """How many straps that only press from above hold a mass, of which each holds so much. None: no number does."""
    return _up(mass_kg / each_kg) if each_kg > 0 else None


def energy_j(mass_kg: float, speed_km_h: float) -> float:
    """Energy in J of a mass that moves."""
    return mass_kg * (speed_km_h / 3.6) ** 2 / 2


def _up(count: float) -> int:
    return ceil(count - TOLERANCE)
