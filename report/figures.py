"""Numbers as people act on them: kg to 1, mm to 1, s to 5; what is broken never rounds to look held."""

from math import atan, ceil, degrees, floor, isfinite

from models.decimals import share_told

UNKNOWN = "unknown"

ROUNDING_KG = 1e-6
"""What arithmetic may be off by in kg; a limit met exactly is held."""


def whole(value: float | None) -> str:
    """A mass in kg or a length in mm to 1."""
    return UNKNOWN if value is None else f"{floor(value + 0.5)}"


def kilograms(kg: float) -> str:
    """A listed mass as a person reads it."""
    return f"{kg:.1f}" if kg < 9.95 else whole(kg)


def limit(value: float | None) -> str:
    """A limit in kg, rounded down."""
    return UNKNOWN if value is None else f"{floor(value + 1e-9)}"


def told_beside(value: float | None, allowed: float | None, holds: bool | None) -> str:
    """What is carried in kg to 1, told beside its limit: what holds never rounds to look broken."""
    told = whole(value)
    if value is None or allowed is None or not holds:
        return told
    return f"{min(int(told), floor(allowed + 1e-9))}"


def metres_up(mm: int) -> str:
    """A height that something has to pass under, in m rounded up to 0.01."""
    return f"{ceil(mm / 10) / 100:.2f}"


def tenth(value: float | None) -> str:
    """An angle to 0.1 degree."""
    return UNKNOWN if value is None else f"{value:.1f}"


def seconds(value: float) -> str:
    """A time in s to 5; a short one is told as it is."""
    if not isfinite(value):
        return "never"
    return f"{value:.0f}" if value < 5 else f"{5 * floor(value / 5 + 0.5)}"


def left(margin: float | None, holds: bool | None) -> str:
    """What is left of a limit, rounded down; `over` with what is too much, rounded up; `?` where it is unknown."""
    if margin is None or holds is None:
        return "?"
    if holds:
        return f"{max(0, floor(margin))}"
    return f"over {over(-margin)}"


def over(excess: float) -> str:
    """What is too much, rounded up, so that who takes that much away is within the limit; never told as nothing."""
    for decimals in (0, 1, 2, 3):
        if round(excess, 6) >= 10**-decimals:
            return f"{ceil(round(excess * 10**decimals, 6)) / 10**decimals:.{decimals}f}"
    return "less than 0.001"


def share_beside(share: float, least: float, holds: bool | None) -> tuple[str, str]:
    """A share in percent, rounded down, and the least that it may be, told as exactly as it was given.

    What holds never looks broken, and what is broken never looks held.
    """
    return share_told(share, least, 1, broken=holds is False)


def degrees_per_mm(track_mm: float, height_mm: float) -> float:
    """Degrees of rigid tip angle that 1 mm less height gives."""
    return degrees(atan(track_mm / 2 / (height_mm - 1)) - atan(track_mm / 2 / height_mm))
