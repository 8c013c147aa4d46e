"""A weighbridge ticket against a plan: what differs, what is over, and where the missing mass probably sits."""

from collections.abc import Iterator
from dataclasses import dataclass

from models.base import Limit
from models.case import Case
from models.plan import Plan
from models.rules import Rule
from models.stages import trailer_at
from models.trip import Stage
from verifier.doubt import doubt_at
from verifier.finding import Finding, against, against_least, at, at_least, within
from verifier.hitched import trailer_guess
from verifier.layout import layout_of
from verifier.missing import MissingMass, missing_mass
from verifier.reconciling import Correction, corrections, side_doubts_kg
from verifier.rules.gross_mass import WITH_TRAILER, ball
from verifier.shifting import could_shift_kg
from verifier.ticket import Difference, Known, Ticket, known_of, questions, swapped_sides
from verifier.totals import totals_at
from verifier.verdict import StageTotals

SHARED_OUT = ("front share", "left and right")
"""Subjects that say how the mass is shared out, and not how much there is: limits of driving alone."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """A ticket beside what a plan predicts for a stage."""

    stage: str
    driving: bool
    """Whether it is a driving stage. Parked, total and axles may not be over either; how the mass is shared out breaks
    no rule there."""
    ticket: Ticket
    differences: tuple[Difference, ...]
    """What was weighed, and where a trailer is on, vehicle and trailer together."""
    limits: tuple[Finding, ...]
    """Limits against what was measured, and of a trailer against what was typed in; no reserve is added to them."""
    questions: tuple[str, ...]
    """What to ask before anything is concluded; nothing is concluded while there is any."""
    missing: MissingMass | None
    """None: no mass is missing beyond doubt."""
    missing_total_kg: float | None
    """So much is on the scale and not in the plan beyond doubt, where the axles cannot be predicted and no place can be
    told; negative: in the plan alone. None: it is told as `missing`, or nothing is missing."""
    shifted_kg: float | None
    """So much rests on the rear axle instead of the front while the total fits; negative: the other way round."""
    could_shift_kg: float | None
    """So much of that things and people could make up at most by lying and sitting elsewhere. None: nothing shifted."""
    off_axle: str | None
    """The axle that is off beyond doubt by itself, while the total and the other fit."""
    aside_kg: float | None
    """So much rests on the right wheels instead of the left while the total fits; negative: the other way round.

    None: no side is off by more than the step of the scale and the doubt of the masses."""
    corrections: tuple[Correction, ...]
    """Most likely corrections of the masses in the list; empty where the ticket gives no reason for any."""

    @property
    def holds(self) -> bool | None:
        """Whether what was measured is within the limits.

        None: nothing is over, but a limit or the ticket is in doubt; or it is parked, and what the front wheels or a
        side carry of it could not be driven so.
        """
        over = [one for one in self.limits if one.holds is False]
        if over and (self.driving or any(one.subject not in SHARED_OUT for one in over)):
            return False
        if over:
            return None
        return None if self.questions or any(one.holds is None for one in self.limits) else True


def weigh(case: Case, plan: Plan, stage: Stage, ticket: Ticket) -> Weighing:
    """Compare a ticket with what a plan predicts for a stage, likely masses taken."""
    layout = layout_of(case, plan)
    totals, doubt = totals_at(layout, stage), doubt_at(layout, stage)
    predicted = {
        "front axle": (totals.front_axle_kg, doubt.front_axle_kg),
        "rear axle": (totals.rear_axle_kg, doubt.rear_axle_kg),
        "total": (totals.mass_kg + totals.ball_kg, doubt.total_kg),
        "left wheels": (totals.left_kg, None),
        "right wheels": (totals.right_kg, None),
    }
    found = tuple(Difference(name, *predicted[name], kg) for name, kg in ticket.readings)
    sides = side_doubts_kg(layout, stage)
    asked = questions(found, ticket, tuple(trailer_guess(layout, stage, found, ticket.division_kg)))
    asked += swapped_sides(found, ticket, sides)
    missing = None if asked else missing_mass(case, stage, found, sides, ticket)
    whole = None if asked or missing else _missing_total(known_of(found), ticket.division_kg)
    shifted = None if asked or missing else _shifted(known_of(found), ticket.division_kg)
    off = None if asked or missing or shifted is not None else _off_axle(known_of(found), ticket.division_kg)
    aside = None if asked or missing else _aside(found, sides, ticket.division_kg)
    could = None if shifted is None else could_shift_kg(layout, stage, to_rear=shifted > 0)
    # What no doubt of the masses explains is no reason to correct one.
    beyond = any(one is not None for one in (shifted, off, aside))
    likely = () if asked or beyond else corrections(layout, stage, found, ticket.division_kg)
    limits = tuple(_limits(case, stage, ticket, totals))
    found = (*found, *_train(case, stage, ticket, totals))
    return Weighing(
        stage.name, totals.driving, ticket, found, limits, asked, missing_total_kg=whole, missing=missing,
        shifted_kg=shifted, could_shift_kg=could, off_axle=off, aside_kg=aside, corrections=likely,
    )  # fmt: skip


def _train(case: Case, stage: Stage, ticket: Ticket, totals: StageTotals) -> Iterator[Difference]:
    """Vehicle and trailer where one is on: no scale has said what the trailer weighs, so there is no doubt to tell."""
    trailer = trailer_at(case.trip, stage)
    if trailer is not None:
        measured = ticket.total_kg - trailer.ball_kg + trailer.trailer_kg  # what is on the ball was on the scale
        yield Difference(WITH_TRAILER, totals.mass_kg + trailer.trailer_kg, None, measured)


def _off(found: tuple[Difference, ...], subject: str) -> float | None:
    return next((one.difference_kg for one in found if one.subject == subject), None)


def _missing_total(known: dict[str, Known], division_kg: float) -> float | None:
    off = None if "front axle" in known else known["total"]
    return None if off is None or not off.beyond(division_kg) else off.off_kg


def _shifted(known: dict[str, Known], division_kg: float) -> float | None:
    if "front axle" not in known:
        return None
    front, rear = known["front axle"], known["rear axle"]
    beyond = front.beyond(division_kg) and rear.beyond(division_kg)
    return (rear.off_kg - front.off_kg) / 2 if beyond and front.off_kg * rear.off_kg < 0 else None


def _off_axle(known: dict[str, Known], division_kg: float) -> str | None:
    axles = (known[name] for name in ("front axle", "rear axle") if name in known)
    return next((one.subject for one in axles if one.beyond(division_kg)), None)


def _aside(found: tuple[Difference, ...], doubts_kg: tuple[float, float], division_kg: float) -> float | None:
    left, right = _off(found, "left wheels"), _off(found, "right wheels")
    if left is None or right is None or "front axle" not in known_of(found):
        return None
    beyond = (abs(kg) > max(division_kg, doubt) for kg, doubt in zip((left, right), doubts_kg, strict=True))
    return (right - left) / 2 if any(beyond) else None


def _limits(case: Case, stage: Stage, ticket: Ticket, totals: StageTotals) -> Iterator[Finding]:
    limits = case.vehicle.limits
    measured: tuple[tuple[Rule, str, float, Limit], ...] = (
        (Rule.AXLE, "front axle", ticket.front_kg, limits.front_axle_kg),
        (Rule.AXLE, "rear axle", ticket.rear_kg, limits.rear_axle_kg),
        (Rule.GROSS_MASS, "total", ticket.total_kg, limits.gvm_kg),
    )
    for rule, subject, value, limit in measured:
        says = f"The {subject} as weighed{at(stage.name)} carries {against(value, limit.kg, 'kg')}."
        yield within(rule, subject, stage.name, value, limit.kg, "kg", says, limit.source)
    trailer = trailer_at(case.trip, stage)
    if trailer is not None:  # no scale has said it either, and its limit is no less one
        yield ball(case, stage, trailer, "The ball as typed in")
    for train in _train(case, stage, ticket, totals):
        gcm, kg = limits.gcm_kg, train.measured_kg
        says = f"Vehicle as weighed and trailer as typed in weigh {against(kg, gcm.kg, 'kg')}{at(stage.name)}."
        yield within(Rule.GROSS_MASS, train.subject, stage.name, kg, gcm.kg, "kg", says, gcm.source)
    yield _front_share(case, stage, ticket)
    if ticket.left_kg is not None and ticket.right_kg is not None:
        yield _sides(case, stage, ticket.left_kg, ticket.right_kg, totals.ball_kg)


def _front_share(case: Case, stage: Stage, ticket: Ticket) -> Finding:
    own, book = case.vehicle.limits.front_share_min, case.rulebook.front_share_min
    least, source = (book.value, book.source) if own is None else (own, "vehicle file")
    value = ticket.front_kg / ticket.total_kg
    told, allowed = against_least(value, least)
    says = f"The share of the front wheels as weighed{at(stage.name)} is {told}; {allowed} is the least."
    return at_least(Rule.AXLE, "front share", stage.name, value, least, "share", says, source)


def _sides(case: Case, stage: Stage, left_kg: float, right_kg: float, ball_kg: float) -> Finding:
    own, book = case.vehicle.limits.side_difference_share, case.rulebook.side_difference_share
    share, source = (book.value, book.source) if own is None else (own, "vehicle file")
    # As the rule has it: what the ball carries is on the scale, and no share of it is allowed to differ.
    value, most = abs(right_kg - left_kg), share * max(0.0, left_kg + right_kg - ball_kg)
    says = f"Left and right wheels as weighed{at(stage.name)} differ by {against(value, most, 'kg')}."
    return within(Rule.BALANCE, "left and right", stage.name, value, most, "kg", says, source)
