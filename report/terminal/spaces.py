"""Where everything is, and what stays at home."""

from collections import Counter
from collections.abc import Mapping

from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.rules import Rule
from packing import Tangle, loading_order
from report.figures import UNKNOWN, left, whole
from report.terminal.height import overall
from report.terminal.masses import of
from report.terminal.table import bullets, paragraph, table
from report.told import Finding, Verdict


def spaces(case: Case, plan: Plan, verdict: Verdict, width: int) -> list[str]:
    """Each space that holds something, with its mass at the heaviest stage, its limit and its contents."""
    held: dict[str, list[str]] = {}
    for placement in plan.placements:
        held.setdefault(placement.space, []).append(placement.thing)
    order = [space.name for space in case.vehicle.spaces if space.name in held]
    rows = [(name, *_mass(of(verdict, Rule.SPACE_MASS, name)), _contents(case, held[name])) for name in order]
    empty = [space.name for space in case.vehicle.spaces if space.name not in held]
    lines = ["Where everything is, in kg at the heaviest stage and per piece when full"]
    lines += table(("space", "kg", "left", "contents"), rows, width, frozenset({0, 3}))
    if empty:
        lines += paragraph(f"{', '.join(empty)}.", width, "Empty: ", "  ")
    lines += paragraph(overall(verdict), width, "Overall: ", "  ")
    if verdict.before_water:
        lines += ["", *paragraph(verdict.before_water, width)]
    return lines + _loading(case, plan, width)


def _mass(findings: list[Finding]) -> tuple[str, str]:
    known = [one for one in findings if one.value is not None]
    if not known:
        return ("-", "-")
    heaviest = max(known, key=lambda one: one.value or 0.0)
    return (whole(heaviest.value), left(heaviest.margin, heaviest.holds))


def _contents(case: Case, things: list[str]) -> str:
    counted = Counter(things)
    return ", ".join(
        f"{name} {_piece_kg(case, name)}" + (f" (x {count})" if count > 1 else "")
        for name, count in sorted(counted.items(), key=lambda pair: (-_kg(case, pair[0]), pair[0]))
    )


def _kg(case: Case, name: str) -> float:
    thing = case.thing_named.get(name)
    return 0.0 if thing is None else thing.mass_kg.likely


def _piece_kg(case: Case, name: str) -> str:
    if name not in case.thing_named:
        return UNKNOWN
    mass = case.thing_named[name].mass_kg
    most = f" to {_rounded(mass.most)}" if _rounded(mass.most) != _rounded(mass.likely) else ""
    return _rounded(mass.likely) + most


def _rounded(kg: float) -> str:
    return f"{kg:.1f}" if kg < 1 else whole(kg)


def _loading(case: Case, plan: Plan, width: int) -> list[str]:
    """A sentence where no order of loading works; nothing where one does."""
    known = all(p.thing in case.thing_named and p.space in case.space_named for p in plan.placements)
    order = loading_order(case, plan) if known else ()
    return ["", *paragraph(str(order), width, "Loading: ", "  ")] if isinstance(order, Tangle) else []


def at_home(case: Case, plan: Plan, reasons: Mapping[Copy, str], width: int) -> list[str]:
    """Copies that do not come, with what is known of why; those of most regret first."""
    carried = {copy_of(placement) for placement in plan.placements}
    left_copies = [copy for copy in case.copies if copy not in carried]
    home = Counter(copy.thing for copy in left_copies)
    why = {copy.thing: reasons[copy] for copy in reversed(left_copies) if copy in reasons}
    if not case.things:
        return ["Nothing is on the list: this is the vehicle with its people and tanks."]
    if not home:
        return ["Everything on the list comes."]
    order = sorted(home, key=lambda name: (-(case.thing_named[name].carry or 101), name))
    return ["Stays at home", *bullets((_left(case, plan, name, home[name], why.get(name)) for name in order), width)]


def _left(case: Case, plan: Plan, name: str, count: int, why: str | None) -> str:
    thing = case.thing_named[name]
    pieces = f"{name}, {_of_all(count, thing.count)}" if thing.count > 1 else name
    kg = f"{whole(thing.mass_kg.likely)} kg" + (" each" if thing.count > 1 else "")
    return f"{pieces} ({kg}): {_worth(case, name, why) or _why(case, plan, name)}"


def _of_all(count: int, of: int) -> str:
    """How many stay, so that nobody takes it for the number of a copy."""
    return f"{count} of the {of}" if count < of else "both" if of == 2 else f"all {of}"


def _worth(case: Case, name: str, why: str | None) -> str | None:
    """The reason of the search, with what the thing is worth."""
    worth = case.thing_named[name].carry
    return why if why is None or worth is None else f"worth {worth} of 100 to you; {why}"


def _why(case: Case, plan: Plan, name: str) -> str:
    for lock in (*case.trip.locks, *plan.locks):
        if lock.thing == name and lock.at_home:
            by = f" by {lock.by}" if lock.by else ""
            return f"fixed{by} to stay" + (f", because: {lock.because}" if lock.because else "")
    thing = case.thing_named[name]
    if thing.must:
        return "IT MUST COME and has no place"
    gone = [other for other in thing.with_ if not _comes(plan, other)]
    if gone:
        return f"worth {thing.carry} of 100; it does not come without {', '.join(gone)}"
    return f"worth {thing.carry} of 100 to you; the plan leaves it"


def _comes(plan: Plan, name: str) -> bool:
    return any(copy_of(placement) == Copy(name, placement.copy_number) for placement in plan.placements)
