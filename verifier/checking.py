"""The one door: a case and a plan in, a verdict out, or what of it is asked for."""

from collections.abc import Iterable

from models.case import Case
from models.plan import Plan
from models.rules import Rule
from verifier.advice import lifts, tying
from verifier.bare import height_estimated
from verifier.claims import claims_off
from verifier.doubt import WorthWeighing, doubt_at, worth_weighing
from verifier.finding import Finding
from verifier.layout import Layout, layout_of
from verifier.questions import questions
from verifier.rules import FIND
from verifier.slopes import climbing, leaning
from verifier.tallest import tallest
from verifier.totals import totals_at
from verifier.verdict import Judgement, StageTotals, Verdict, Weighed
from verifier.wading import before_water

AXLES = {"front axle": "front", "rear axle": "rear"}


def _to_weigh(layout: Layout, findings: tuple[Finding, ...]) -> tuple[WorthWeighing, ...]:
    """Things worth weighing, seen from the tightest axle; from the rear at the first stage where no limit is known."""
    axles = [one for one in findings if one.rule == Rule.AXLE and one.subject in AXLES]
    margins = [(one.margin, one) for one in axles if one.margin is not None]
    if not margins:
        return worth_weighing(layout, layout.case.trip.stages[0], "rear")
    _, tightest = min(margins, key=lambda pair: pair[0])
    stage = next(stage for stage in layout.case.trip.stages if stage.name == tightest.stage)
    return worth_weighing(layout, stage, AXLES[tightest.subject])


def check(case: Case, plan: Plan) -> Verdict:
    """Recompute every limit of a plan from its placements alone; what the plan claims is compared, never used.

    A plan that names unknown things, copies or spaces gives findings, never an error.
    """
    layout = layout_of(case, plan)
    judged = _judged(layout)
    estimated = height_estimated(case.vehicle)
    return Verdict(
        findings=judged.findings,
        totals=judged.totals,
        doubts={stage.name: doubt_at(layout, stage) for stage in case.trip.stages},
        worth_weighing=_to_weigh(layout, judged.findings),
        questions=tuple(questions(layout)),
        before_water=before_water(layout),
        climbing=climbing(case, judged.totals),
        leaning=leaning(case, judged.totals),
        tallest=tallest(layout),
        tying=tying(layout),
        lifts=lifts(layout),
        claims_off=tuple(claims_off(plan.claims, judged.totals)),
        height_estimated=estimated,
        height_doubt_mm=case.rulebook.cg_height_doubt_mm.value if estimated else 0.0,
    )


def judge(case: Case, plan: Plan) -> Judgement:
    """The findings and the totals of the whole verdict, without doubts and advice."""
    return _judged(layout_of(case, plan))


def weighed(case: Case, plan: Plan, rules: Iterable[Rule]) -> Weighed:
    """The findings of some rules, and the totals: nothing of whether the plan holds."""
    layout = layout_of(case, plan)
    return Weighed(_findings(layout, rules), _totals(layout))


def _judged(layout: Layout) -> Judgement:
    return Judgement(_findings(layout, FIND), _totals(layout))


def _findings(layout: Layout, rules: Iterable[Rule]) -> tuple[Finding, ...]:
    return tuple(finding for rule in rules for finding in FIND[rule](layout))


def _totals(layout: Layout) -> dict[str, StageTotals]:
    return {stage.name: totals_at(layout, stage) for stage in layout.case.trip.stages}


def found_by(case: Case, plan: Plan, rule: Rule) -> tuple[Finding, ...]:
    """What one rule finds, as in the whole verdict: quick enough to be asked again and again."""
    return tuple(FIND[rule](layout_of(case, plan)))


def highest_mm(case: Case, plan: Plan) -> float | None:
    """Height of the laden vehicle in mm at its highest driving stage, as in the whole verdict; None where unknown."""
    layout = layout_of(case, plan)
    found = (totals_at(layout, stage).cg_mm[2] for stage in case.trip.stages if stage.driving)
    return max((height for height in found if height is not None), default=None)
