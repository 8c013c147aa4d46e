"""Where the centre of gravity is, with and without the load, and how the layout compares on a side slope."""

from models.case import Case
from report.figures import metres_up, tenth, whole
from report.terminal.table import paragraph, table
from report.told import Totals, Verdict

_HEADER = (
    "stage",
    "height\nloaded",
    "height\nempty",
    "behind\nfront axle",
    "right of\nmiddle",
    "T/2h",
    "tips\nleft",
    "tips\nright",
    "one\naxle\nfree",
)

SLOPE_CAUTION = (
    "Caution: the angles compare two layouts of this vehicle and permit nothing. They are for a rigid vehicle that "
    "stands still; real vehicles tip earlier, by a fifth or more."
)


def overall(verdict: Verdict) -> str:
    """How high the laden vehicle stands, for garages, gates and ferries."""
    told = f"{metres_up(verdict.tallest.top_mm)} m high as loaded ({verdict.tallest.what})"
    return f"{told}; a bare rack or aerial may be higher."


def height(case: Case, verdict: Verdict, width: int) -> list[str]:
    """The table of stages, the highest of them, and the caution beside the angles."""
    rows = [_row(name, sums) for name, sums in verdict.totals.items()]
    lines = ["Centre of gravity in mm, side slope in degrees", *table(_HEADER, rows, width)]
    lines += paragraph(_highest(verdict), width)
    if verdict.height_doubt_mm:
        told = f"The height of the bare {case.vehicle.body} stands for its class: it may be off by"
        lines += paragraph(f"{told} {verdict.height_doubt_mm:.0f} mm, and every height and angle here with it.", width)
    lines += paragraph(verdict.climbing, width) if verdict.climbing else []
    return [*lines, *paragraph(SLOPE_CAUTION, width)]


def _row(name: str, sums: Totals) -> tuple[str, ...]:
    x, y, z = sums.cg_mm
    slope = sums.side_slope_deg or (None, None)
    factor = sums.static_stability_factor
    return (
        name,
        whole(z),
        whole(sums.cg_without_load_mm[2]),
        whole(x),
        whole(y),
        "unknown" if factor is None else f"{factor:.2f}",
        tenth(slope[0]),
        tenth(slope[1]),
        tenth(sums.articulated_bound_deg),
    )


def _highest(verdict: Verdict) -> str:
    stage = verdict.highest_stage
    if not verdict.drives:
        return "No driving stage is in the trip, so there is no height while driving."
    if stage is None:
        return "At no driving stage is the height known."
    return f"While driving it is highest at '{stage}': {whole(verdict.totals[stage].cg_mm[2])} mm."
