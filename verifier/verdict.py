"""The verdict on a plan: findings, totals by stage, doubts, and claims that do not stand."""

from dataclasses import dataclass

from models.rules import Rule
from verifier.advice import Lift, Tying
from verifier.doubt import Doubt, WorthWeighing
from verifier.finding import Finding
from verifier.statics import Centre
from verifier.tallest import Tallest


@dataclass(frozen=True, slots=True)
class StageTotals:
    """What the vehicle weighs and where, at a stage, with likely masses; None: unknown."""

    driving: bool
    mass_kg: float
    """Everything the wheels carry without the ball's download."""
    ball_kg: float
    """The ball's download; front and rear axle together are mass and ball."""
    front_axle_kg: float | None
    rear_axle_kg: float | None
    front_share: float | None
    left_kg: float | None
    """Left wheels, half of the ball included."""
    right_kg: float | None
    cg_mm: Centre
    """Centre of gravity [x, y, z] of everything without the ball."""
    mass_without_load_kg: float
    """Vehicle, people and fluids without the things of the list."""
    cg_without_load_mm: Centre
    side_slope_deg: tuple[float, float] | None
    """Angles at which a rigid vehicle tips to the left and to the right. A comparison, no permission."""
    static_stability_factor: float | None
    """Track by twice the height."""
    articulated_bound_deg: float | None
    """Lower bound with one axle free to articulate, the worse axle and the heavier side."""
    tip_back_deg: float | None
    """Climb at which a rigid vehicle that stands still has no load left on its front axle; None with a trailer on."""
    climb_front_share: dict[float, float]
    """Share of the weight on the front wheels by degrees of a climb; empty where it is not known or a trailer is on."""

    @property
    def cg_height_mm(self) -> float | None:
        """Height of the centre of gravity in mm."""
        return self.cg_mm[2]


@dataclass(frozen=True, slots=True)
class Weighed:
    """What some rules find of a plan, and what the vehicle comes to with it."""

    findings: tuple[Finding, ...]
    totals: dict[str, StageTotals]
    """By stage, parked stages too, in the order of the trip."""


@dataclass(frozen=True, slots=True)
class Judgement(Weighed):
    """What all rules find, and so whether a plan holds."""

    @property
    def holds(self) -> bool | None:
        """Whether every rule holds; None: nothing is broken and something is unknown."""
        if self.broken:
            return False
        return None if self.unknown else True

    @property
    def drives(self) -> bool:
        """Whether the trip has a driving stage: without one, neither total nor axles nor sides are weighed."""
        return any(totals.driving for totals in self.totals.values())

    @property
    def broken(self) -> tuple[Finding, ...]:
        """Findings that do not hold."""
        return tuple(finding for finding in self.findings if finding.holds is False)

    @property
    def unknown(self) -> tuple[Finding, ...]:
        """Findings that neither hold nor fail."""
        return tuple(finding for finding in self.findings if finding.holds is None)

    @property
    def highest_stage(self) -> str | None:
        """The driving stage with the highest centre of gravity; the first of equals. None: there is none."""
        known = [(t.cg_height_mm, name) for name, t in self.totals.items() if t.driving and t.cg_height_mm is not None]
        return max(known, key=lambda pair: pair[0])[1] if known else None

    def tightest(self, rule: Rule, unit: str = "kg", subject: str | None = None) -> Finding | None:
        """Give the finding of a rule with the least margin in a unit, of one subject if named. None: there is none."""
        measured = [
            finding
            for finding in self.findings
            if finding.rule == rule and finding.unit == unit and finding.margin is not None
            if subject in {None, finding.subject}
        ]
        return min(measured, key=lambda finding: finding.margin or 0.0, default=None)


@dataclass(frozen=True, slots=True)
class Verdict(Judgement):
    """All that the verifier says of a plan: the judgement, how sure its figures are, and advice."""

    doubts: dict[str, Doubt]
    """By stage, two standard deviations."""
    worth_weighing: tuple[WorthWeighing, ...]
    """What to weigh first, seen from the tightest axle."""
    questions: tuple[str, ...]
    """What no rule forbids and hardly anybody means, a sentence each."""
    before_water: str | None
    """What to lift or to bag before deep water, in a sentence. None: nothing, or no wading line is given."""
    climbing: str | None
    """Where the steering gets light on a climb, in a sentence. None: nowhere."""
    leaning: str | None
    """Where one side carries so much more that it is told, in a sentence. None: nowhere."""
    tallest: Tallest
    """How high the laden vehicle stands."""
    tying: Tying
    """How to tie what has to be tied; advice, in no limit."""
    lifts: tuple[Lift, ...]
    """What is lifted, most over what is recommended for one person first; advice, in no limit."""
    claims_off: tuple[str, ...]
    """Claims of the plan that do not stand, a sentence each."""
    height_estimated: bool
    """Whether the height of the bare vehicle stands for its class of body."""
    height_doubt_mm: float
    """How far the height of the bare vehicle may be off; 0 where it was given."""
