"""balance: left wheels against right, at every driving stage."""

from collections.abc import Iterator

from models.rules import Rule
from models.trip import Stage
from verifier.finding import Finding, against, at, or_not_checked, within
from verifier.layout import Layout
from verifier.stage import everything
from verifier.statics import total_kg, wheel_loads


def _share(layout: Layout) -> tuple[float, str]:
    own = layout.case.vehicle.limits.side_difference_share
    book = layout.case.rulebook.side_difference_share
    return (book.value, book.source) if own is None else (own, "vehicle file")


def _at(layout: Layout, stage: Stage) -> Finding:
    points = everything(layout, stage, "likely")
    wheels = wheel_loads(points, layout.case.vehicle.track_mm)
    share, source = _share(layout)
    limit = share * total_kg(points)
    if wheels is None:
        value, says = None, f"What each side carries{at(stage.name)} is not known."
    else:
        value = abs(wheels[1] - wheels[0])
        side = "right" if wheels[1] >= wheels[0] else "left"
        says = f"The {side} wheels carry more{at(stage.name)} by {against(value, limit, 'kg')}."
    return within(Rule.BALANCE, "left and right", stage.name, value, limit, "kg", says, source)


def find(layout: Layout) -> Iterator[Finding]:
    """Weigh both sides at every driving stage."""
    found = (_at(layout, stage) for stage in layout.case.trip.stages if stage.driving)
    return or_not_checked(found, Rule.BALANCE, "the sides were")
