"""Before the water: what bears a splash at most and stands lower than that; electrical things break a rule there."""

from verifier.layout import Layout


def before_water(layout: Layout) -> str | None:
    """Tell what to lift or to bag before water up to the wading line. None: nothing, or no line is given."""
    line = layout.case.vehicle.wading_line_mm
    if line is None:
        return None
    low = sorted(
        (one.box.low[2], one.name)
        for one in layout.placed
        if one.thing.weather in ("dry", "splash") and not one.thing.electrical and one.box.low[2] < line
    )
    listed = ", ".join(f"{name} ({mm} mm)" for mm, name in low)
    return f"Before water up to the wading line of {line} mm, lift these or bag them: {listed}." if low else None
