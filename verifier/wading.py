"""Before the water: what stands lower than a bow wave reaches and bears a splash at most; electrical things too."""

from verifier.layout import Layout, Placed


def before_water(layout: Layout) -> str | None:
    """Tell what to lift or to bag before water up to the wading line. None: nothing, or no line is given.

    Electrical things below the line itself break a rule, which tells of them.
    """
    line, wave = layout.case.vehicle.wading_line_mm, layout.case.rulebook.bow_wave_mm
    if line is None:
        return None
    low = sorted((one.box.low[2], one.name) for one in layout.placed if _gets_wet(one, line, line + wave.value))
    listed = ", ".join(f"{name} ({mm} mm)" for mm, name in low)
    reach = f"the wading line of {line} mm and a bow wave of {wave.value:g} mm ({wave.source})"
    return f"Before water up to {reach}, lift these or bag them: {listed}." if low else None


def _gets_wet(one: Placed, line: int, reach: float) -> bool:
    bottom = one.box.low[2]
    if one.thing.electrical:
        return line <= bottom < reach
    return one.thing.weather in ("dry", "splash") and bottom < reach
