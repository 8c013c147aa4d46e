"""What uses up a limit: one rule of the verifier asked with and without each thing; and what more of it buys."""

from collections.abc import Iterable
from dataclasses import replace

from cli.answering import BadInput
from cli.figures import broken_count, height_mm
from cli.names import matching, the_one
from models.base import Limit
from models.case import Case
from models.plan import Plan, reserve_of
from models.reading import PlanRead
from models.reading.faults import shown
from models.rules import Rule
from report.explained import LimitTold
from solver import Options, price_of
from verifier import Finding, Judgement, found_by, judge, rack_limit

OF_RULE = {"total": Rule.GROSS_MASS, "front axle": Rule.AXLE, "rear axle": Rule.AXLE}
WORDS = {
    "gross": "total", "gvm": "total", "gvm_kg": "total",
    "gcm": "with trailer", "gcm_kg": "with trailer", "with_trailer": "with trailer",
    "front_axle_kg": "front axle", "rear_axle_kg": "rear axle",
}  # fmt: skip
"""Words of the rules and of the vehicle's file that are taken for one of their limits."""
NOT_OF_THINGS = ("tow_ball", "tow_ball_kg", "balance")
"""Limits on which no single thing can be counted up in kilograms."""
IN_KG = (Rule.GROSS_MASS, Rule.AXLE, Rule.RACK, Rule.SPACE_MASS)
"""Rules whose word means the tightest of their limits in kilograms."""


def limits_of(case: Case) -> dict[str, tuple[Rule, str]]:
    """Limits that may be asked about, by name: the rule and the subject of its findings."""
    found = {name: (rule, name) for name, rule in OF_RULE.items()}
    found |= {"with trailer": (Rule.GROSS_MASS, "with trailer")} if case.trip.towing else {}
    found |= {f"rack {rack.name}": (Rule.RACK, rack.name) for rack in case.vehicle.racks}
    return found | {f"space {space.name}": (Rule.SPACE_MASS, space.name) for space in case.vehicle.spaces}


def limit_meant(case: Case, judged: Judgement, typed: str) -> str:
    """The name of a limit; a rule's word means its tightest.

    Raises
    ------
    BadInput
        None is near, or several are.
    """
    known = limits_of(case)
    word = typed.strip().lower().replace(" ", "_")
    of_rule = {name: which for name, which in known.items() if which[0].value == word}
    short = [name for name in known if name.startswith(("rack ", "space ")) and name.partition(" ")[2] == typed]
    if short and typed not in known:
        return short[0] if len(short) == 1 else the_one(typed, short, "limit")
    if word in WORDS:
        if WORDS[word] not in known:
            raise BadInput(f"{typed}: the trip has no trailer.")
        return WORDS[word]
    if word in NOT_OF_THINGS:
        raise BadInput(f"{typed}: is not made up of things, so none can be told to use it up; see `lowstow check`.")
    if word in set(Rule) and word not in IN_KG:
        raise BadInput(f"{typed}: is a rule without a limit in kg; allowed: {_listed(known)}.")
    if of_rule:
        left = {name: one for name, which in of_rule.items() if (one := tightest(judged, which)) is not None}
        if not left:
            raise BadInput(f"{typed}: the plan has nothing on such a limit.")
        return min(left, key=lambda name: _tightness(left[name]))
    if not matching(typed, known):
        raise BadInput(f"{shown(typed)}: found no limit of that name; allowed: {_listed(known)}.")
    return the_one(typed, known, "limit")


def _listed(known: Iterable[str]) -> str:
    """All that may be asked about: limits by name, and the rules whose tightest limit is meant by their word."""
    names = ", ".join(f'"{name}"' for name in known)
    return f"{names}, or the word of a rule for its tightest limit: {', '.join(IN_KG)}"


def tightest(judged: Judgement, which: tuple[Rule, str]) -> Finding | None:
    """The finding with the least left, of one rule and subject in kg; an unknown limit counts where none is known."""
    found = [one for one in judged.findings if (one.rule, one.subject, one.unit) == (*which, "kg")]
    return min(found, key=_tightness, default=None)


def _tightness(one: Finding) -> tuple[bool, float]:
    """Where a finding stands among others, the tightest first; of unknown limits, behind all others, the fullest."""
    return (True, -(one.value or 0.0)) if one.margin is None else (False, one.margin)


def _unused(case: Case, which: tuple[Rule, str]) -> Finding | None:
    """The limit of a rack or a space with nothing on it; of a rack where it is least. None: it is of neither."""
    rule, name = which
    if rule not in {Rule.RACK, Rule.SPACE_MASS}:
        return None
    told: list[tuple[str | None, Limit]] = (
        [(None, case.space_named[name].limit_kg)]
        if rule is Rule.SPACE_MASS
        else [(stage.name, rack_limit(case.rack_named[name], stage)) for stage in case.trip.stages]
    )
    known = [(limit.kg, stage, limit.source) for stage, limit in told if limit.kg is not None]
    kg, stage, source = min(known, key=lambda one: one[0], default=(None, None, None))
    return Finding(rule, name, stage, 0.0, kg, "kg", kg, None if kg is None else True, source, f"{name} is empty.")


def limit_told(read: PlanRead, typed: str, options: Options) -> LimitTold:
    """What uses up a limit at its tightest stage, and what more of it would buy.

    Raises
    ------
    BadInput
        There is no such limit.
    """
    case, plan = read.case, read.plan
    judged = judge(case, plan)
    name = limit_meant(case, judged, typed)
    rule, subject = limits_of(case)[name]
    at = tightest(judged, (rule, subject)) or _unused(case, (rule, subject))
    if at is None:
        raise BadInput(f"{name}: the plan has nothing on it.")
    reserve = reserve_of(plan, case.reserve_kg)
    kept = reserve if name in OF_RULE else 0.0
    broken = broken_count(judge(case, read.as_it_lies) if read.lost else judged)
    used = uses(case, plan, at) if at.value else ()
    told = LimitTold(name, at.stage, at.value, at.limit, at.margin, at.holds, kept, used, broken=broken)
    return told if at.limit is None or at.value is None else _bought(case, plan, told, options)


def uses(case: Case, plan: Plan, at: Finding) -> tuple[tuple[str, float], ...]:
    """Things by what they put on a limit in kg: its value with them less its value without."""
    found = []
    for thing in dict.fromkeys(place.thing for place in plan.placements):
        rest = tuple(place for place in plan.placements if place.thing != thing)
        without = found_by(case, plan.model_copy(update={"placements": rest}), at.rule)
        found.append((thing, (at.value or 0.0) - _value(without, at)))
    return tuple(sorted(found, key=lambda use: (-use[1], use[0])))


def _value(found: Iterable[Finding], at: Finding) -> float:
    same = (one for one in found if (one.rule, one.subject, one.stage, one.unit) == _key(at))
    return next((one.value or 0.0 for one in same), 0.0)


def _key(at: Finding) -> tuple[Rule, str, str | None, str]:
    return (at.rule, at.subject, at.stage, at.unit)


def _bought(case: Case, plan: Plan, told: LimitTold, options: Options) -> LimitTold:
    price = price_of(case, plan, told.name, options)
    if price.base is None or price.more is None:
        return replace(told, more_kg=price.more_kg)
    return replace(
        told,
        more_kg=price.more_kg,
        lower_mm=height_mm(case, price.base) - height_mm(case, price.more),
        comes=price.comes,
        leaves=price.leaves,
        found=True,
        better=price.better,
    )
