"""A plan in a few figures, all of them from the verifier and from what the hands have to do."""

from cli.refusing import refuse_what_is_broken
from models.case import Case, copy_of, fresh
from models.plan import Plan
from models.rules import Rule
from packing import getting_at_s, moves_between
from report.explained import Figures, Offer
from verifier import Judgement, highest_mm, judge


def figures(case: Case, plan: Plan, judged: Judgement | None = None) -> Figures:
    """What a plan comes to."""
    judged = judged or judge(case, plan)
    stage = judged.highest_stage
    return Figures(
        stage,
        None if stage is None else judged.totals[stage].cg_mm[2],
        getting_at_s(case, {copy_of(place): place for place in plan.placements}),
        least_left_kg(judged, Rule.AXLE, "front axle"),
        least_left_kg(judged, Rule.AXLE, "rear axle"),
        least_left_kg(judged, Rule.GROSS_MASS, "total"),
    )


def least_left_kg(judged: Judgement, rule: Rule, subject: str) -> float | None:
    """The least that is left of a limit in kg over the stages; None where that is unknown."""
    found = [one.margin for one in judged.findings if (one.rule, one.subject, one.unit) == (rule, subject, "kg")]
    known = [margin for margin in found if margin is not None]
    return min(known) if known and len(known) == len(found) else None


def height_mm(case: Case, plan: Plan) -> float:
    """Height in mm at the highest driving stage, as the verifier adds it up; 0 where it is unknown."""
    return highest_mm(case, plan) or 0.0


def broken_count(judged: Judgement) -> int:
    """How many limits or rules are broken, each of a subject counted once."""
    return len({(one.rule, one.subject) for one in judged.broken})


def sound_offer(case: Case, plan: Plan, other: Plan, asked: str, now: Figures | None = None) -> Offer | None:
    """An offer; None where the plan at hand is broken and the other one would be too.

    Raises
    ------
    OurFault
        The plan at hand holds, and the verifier does not accept the other one.
    """
    judged = judge(case, other)
    if judged.broken and judge(case, plan).broken:
        return None
    refuse_what_is_broken(judged, f"{case.digest}, {asked}")
    return _beside(case, plan, other, judged, now)


def lawful_offer(case: Case, plan: Plan, other: Plan, now: Figures | None = None) -> Offer | None:
    """Another plan beside the one at hand; None where the verifier does not accept it."""
    judged = judge(case, other)
    return None if judged.broken else _beside(case, plan, other, judged, now)


def _beside(case: Case, plan: Plan, other: Plan, judged: Judgement, now: Figures | None) -> Offer:
    return Offer(other, now or figures(case, plan), figures(case, other, judged), moves_between(case, plan, other))


def weighing(case: Case, thing: str, mass_kg: float) -> Case:
    """The case in which a thing weighs something else, all its masses shifted alike."""
    old = case.thing_named[thing]
    shift = mass_kg - old.mass_kg.likely
    masses = {key: max(0.0, getattr(old.mass_kg, key) + shift) for key in ("least", "likely", "most")}
    new = old.model_copy(update={"mass_kg": old.mass_kg.model_copy(update=masses)})
    things = tuple(new if one.name == thing else one for one in case.things)
    return fresh(case, things=things)
