"""A question on fittings: what bears one that stands on the roof, or where a rack bears what is loaded."""

from collections.abc import Iterator

from models.geometry import box
from models.vehicle import Fitting
from verifier.layout import Layout


def on_no_rack(layout: Layout) -> Iterator[str]:
    """Ask about fittings that count on no rack, above the top of the body or in or over a space that is on one."""
    vehicle = layout.case.vehicle
    unsaid = [one for one in vehicle.fittings if one.on is None and one.mass_kg > 0]
    below = {one.name: _racks_below(layout, one) for one in unsaid}
    found = [one for one in unsaid if below[one.name] or one.at_mm[2] > vehicle.outline_mm.height]
    if found:
        racks = dict.fromkeys(name for one in found for name in below[one.name])
        meant = f" ({', '.join(racks)})" if racks else "" if vehicle.racks else ", and its limit under `racks`"
        names = " and ".join(f"{one.name} ({one.mass_kg:g} kg)" for one in found)
        it_is, it = ("is", "it") if len(found) == 1 else ("are", "them")
        yield (
            f"{names} {it_is} bolted on above the body, or where a rack bears what is loaded, and on no rack: what "
            f"bears {it}? Name it under `on` of the fitting{meant}, or say `on: []` where that is none."
        )


def _racks_below(layout: Layout, fitting: Fitting) -> tuple[str, ...]:
    """Racks of the spaces that a fitting is in or over, those that the spaces name themselves."""
    found: dict[str, None] = {}
    for space in layout.case.vehicle.spaces:
        low, high = box(space.corner_mm, space.size_mm)
        over = all(low[i] <= fitting.at_mm[i] <= high[i] for i in (0, 1)) and fitting.at_mm[2] >= low[2]
        found.update(dict.fromkeys(space.on if over else ()))
    return tuple(found)
