"""What an explanation tells of a search's answer: every figure recomputed by the verifier."""

from cli.figures import broken_count, figures, height_mm, sound_offer, weighing, without_locks_on
from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.reading import PlanRead
from report.explained import Explained, Figures, HomeExplained, Offer, RowTold, WayTold
from solver import Explanation, HomeExplanation, Options, Row, WayToTake, how_much, why_home, why_not, with_more

STILL_BROKEN = "what this plan breaks would stay broken"
"""What is told of a change that is found from a broken plan and does not mend it."""

HALVINGS = 9
"""Steps to find the mass at which a price would be under a millimetre: to a five-hundredth of the mass."""


def why_here(read: PlanRead, plan_file: str, copy: Copy, instead: str | None, options: Options) -> Explained:
    """Why a copy is where it is; `instead` looks closely at one space."""
    found = why_not(read.case, read.plan, copy, options, instead)
    free = without_locks_on(read.case, copy)
    teller = _Teller(free, read.plan, found, instead is not None)
    return Explained(
        copy,
        found.space,
        found.locked_by,
        tuple(teller.row(row) for row in found.rows),
        plan_file,
        tuple((c, p.space) for p in read.plan.placements if (c := copy_of(p)).thing == copy.thing and c != copy),
        deep=instead is not None,
        broken=broken_count(read.case, read.plan),
    )


class _Teller:
    """The rows of an explanation, one after the other."""

    def __init__(self, case: Case, plan: Plan, found: Explanation, deep: bool) -> None:
        self.case, self.plan, self.found, self.deep = case, plan, found, deep
        self.now: Figures = figures(case, plan)
        self.lowest_mm = height_mm(case, found.lowest)

    def row(self, row: Row) -> RowTold:
        """A space with what stands against it, or with its price."""
        why = tuple(f"{rule.value}: {says}" for rule, says in row.rules)
        if row.plan is None or row.lowest is None:
            demands = () if row.conflict is None else tuple(one.says for one in row.conflict.demands)
            return RowTold(row.space, row.kind, why, row.in_any_plan, demands=demands)
        told = self._offer(row.plan, row)
        if told is None:
            return RowTold(row.space, "none found", (*why, STILL_BROKEN))
        there_mm = height_mm(self.case, self._checked(row.lowest, row))
        price = there_mm - self.lowest_mm
        under = self._under_kg(row.lowest, price) if self.deep else None
        heights = (self.lowest_mm, there_mm)
        return RowTold(row.space, row.kind, why, False, told, price, heights, how_much(price), under)

    def _offer(self, plan: Plan, row: Row) -> Offer | None:
        return sound_offer(self.case, self.plan, plan, f"explain {self.found.copy} in {row.space}", self.now)

    def _checked(self, plan: Plan, row: Row) -> Plan:
        if self.deep:
            self._offer(plan, row)
        return plan

    def _under_kg(self, lowest: Plan, price: float) -> float | None:
        """The mass of the thing under which the two lowest layouts would differ by less than a millimetre."""
        thing = self.found.copy.thing
        low, high = 0.0, self.case.thing_named[thing].mass_kg.likely
        if price < 1 or self._difference(thing, 0.0, lowest) >= 1:
            return None
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self._difference(thing, middle, lowest) < 1 else (low, middle)
        return low

    def _difference(self, thing: str, mass_kg: float, lowest: Plan) -> float:
        case = weighing(self.case, thing, mass_kg)
        return height_mm(case, lowest) - height_mm(case, self.found.lowest)


def why_at_home(read: PlanRead, copy: Copy, options: Options) -> HomeExplained:
    """Why a copy stays at home, and ways to take it."""
    found = why_home(read.case, read.plan, copy, options)
    against = tuple((space, tuple(f"{rule.value}: {says}" for rule, says in why)) for space, why in found.rules)
    broken = broken_count(read.case, read.plan)
    return HomeExplained(copy, found.locked_by, against, found.lawful, _ways(read, found), broken)


def _ways(read: PlanRead, found: HomeExplanation) -> tuple[WayTold, ...]:
    free = without_locks_on(read.case, found.copy)
    told = (_way(read, free, found.copy, one) for one in found.ways)
    return tuple(one for one in told if one is not None)


def _way(read: PlanRead, free: Case, copy: Copy, way: WayToTake) -> WayTold | None:
    case = free if way.limit is None else with_more(free, way.limit, way.more_kg)
    told = sound_offer(case, read.plan, way.plan, f"explain --left {copy}")
    return None if told is None else WayTold(_says(read.case, way), told, way.limit is None)


def _says(case: Case, way: WayToTake) -> str:
    if way.limit is not None:
        return f"with {way.more_kg:g} kg more of the limit of the {way.limit}"
    if way.leave is None:
        return "there is room for it as it is"
    return f"leave {way.leave} at home instead (worth {case.thing_named[way.leave.thing].carry:g} of 100 to you)"
