"""Lifting by one person: the NIOSH lifting equation (publication 94-110), and what turning takes off by HSE.

Multipliers are 0 beyond their range: there the equation recommends no lift. Ends of ranges and the factors of distance,
turn and grip are from memory, checked against the manual's first example. Advice, never a limit.
"""

from dataclasses import dataclass

from models.advice import Grip, Lifting, PerPerson

NEAREST_MM = 250
"""Hands nearer to the ankles than this are taken to be here, in mm (NIOSH)."""
FARTHEST_MM = 630
"""Farthest reach of the hands from between the ankles, in mm (NIOSH)."""
BEST_MM = 750
"""Height of the hands at which one lifts most, in mm (NIOSH)."""
HIGHEST_MM = 1750
"""Greatest height of the hands, in mm (NIOSH)."""
OFF_PER_MM = 0.0003
"""What each mm above or below the best height takes off (NIOSH: 0.003 for each cm)."""
LEAST_TRAVEL_MM = 250
"""Shorter ways up or down are taken to be this long, in mm (NIOSH)."""
LONG_TRAVEL = 0.82
"""What the multiplier of the way comes down to, long ways (NIOSH)."""
TRAVEL_MM = 45
"""What it is greater by is this by the way in mm (NIOSH: 4.5 by the way in cm)."""
MOST_TURNED_DEG = 135
"""Greatest turn between feet and hands in degrees (NIOSH)."""
OFF_PER_DEG = 0.0032
"""What each degree of turn takes off (NIOSH)."""
FAIR_AND_LOW, POOR = 0.95, 0.90
"""Multipliers of a fair grip with hands below the best height, and of a poor one (NIOSH)."""


@dataclass(frozen=True, slots=True)
class Hands:
    """Where the hands are at one end of a lift."""

    out_mm: float
    """From between the ankles, in mm."""
    up_mm: float
    """Above ground, in mm."""
    turned_deg: float = 0.0
    """From the direction of the feet, in degrees."""


def recommended_kg(at: Hands, travel_mm: float, grip: Grip, load_kg: float, frequency: float) -> float:
    """Mass in kg recommended for one person, seen from one end of a lift; 0 beyond the reach of the equation."""
    return (
        load_kg
        * reach_multiplier(at.out_mm)
        * height_multiplier(at.up_mm)
        * travel_multiplier(travel_mm)
        * turn_multiplier(at.turned_deg)
        * frequency
        * grip_multiplier(grip, at.up_mm)
    )


def reach_multiplier(out_mm: float) -> float:
    """HM: 25 cm by the reach."""
    return 0.0 if out_mm > FARTHEST_MM else NEAREST_MM / max(out_mm, NEAREST_MM)


def height_multiplier(up_mm: float) -> float:
    """VM: less above and below the best height; 0 below ground too."""
    return 1 - OFF_PER_MM * abs(up_mm - BEST_MM) if 0 <= up_mm <= HIGHEST_MM else 0.0


def travel_multiplier(travel_mm: float) -> float:
    """DM: less for a long way up or down; within the heights of hands every way is within its range."""
    return LONG_TRAVEL + TRAVEL_MM / max(travel_mm, LEAST_TRAVEL_MM)


def turn_multiplier(turned_deg: float) -> float:
    """AM: less for a turn."""
    return 0.0 if turned_deg > MOST_TURNED_DEG else 1 - OFF_PER_DEG * turned_deg


def grip_multiplier(grip: Grip, up_mm: float) -> float:
    """CM: less for a grip that is not good."""
    if grip == "poor":
        return POOR
    return FAIR_AND_LOW if grip == "fair" and up_mm < BEST_MM else 1.0


def zone_kg(low_mm: float, high_mm: float, close: bool, book: Lifting) -> PerPerson | None:
    """The least figure of the zones that the hands pass through (HSE INDG143). None: they go above the last one."""
    if high_mm > book.zones[-1].up_to_mm:
        return None
    floors = (0.0, *(zone.up_to_mm for zone in book.zones))
    zones = zip(floors, book.zones, strict=False)
    passed = [zone for floor, zone in zones if floor <= high_mm and low_mm <= zone.up_to_mm]
    found = [zone.close_kg if close else zone.far_kg for zone in passed]
    return PerPerson(women=min(one.women for one in found), men=min(one.men for one in found))


def turned_kg(mass_kg: float, turned_deg: float, book: Lifting) -> float:
    """What is left of a figure in kg for one who turns (HSE: a tenth off beyond 45 degrees, a fifth beyond 90)."""
    return mass_kg * (1 - max((one.off for one in book.turning if turned_deg > one.beyond_deg), default=0.0))
