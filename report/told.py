"""What a report asks of a verdict and of a proposal, by what they say and not by where they come from."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from models.case import Copy
from models.rules import Rule
from report.told_advice import Lift, Tying

MASS_RULES = (Rule.GROSS_MASS, Rule.AXLE, Rule.RACK)
"""Rules of the whole vehicle whose margins are kilograms that one could still load."""

CentreMm = tuple[float | None, float | None, float | None]


class Finding(Protocol):
    """One check of one subject; numbers are None where there are none or they are unknown."""

    @property
    def rule(self) -> Rule: ...  # noqa: D102 - as in the verifier
    @property
    def subject(self) -> str: ...  # noqa: D102
    @property
    def stage(self) -> str | None: ...  # noqa: D102
    @property
    def value(self) -> float | None: ...  # noqa: D102
    @property
    def limit(self) -> float | None: ...  # noqa: D102
    @property
    def unit(self) -> str: ...  # noqa: D102
    @property
    def margin(self) -> float | None: ...  # noqa: D102
    @property
    def holds(self) -> bool | None: ...  # noqa: D102
    @property
    def source(self) -> str | None: ...  # noqa: D102
    @property
    def says(self) -> str: ...  # noqa: D102


class Totals(Protocol):
    """A stage's sums with likely masses."""

    @property
    def driving(self) -> bool: ...  # noqa: D102
    @property
    def mass_kg(self) -> float: ...  # noqa: D102
    @property
    def ball_kg(self) -> float: ...  # noqa: D102
    @property
    def front_axle_kg(self) -> float | None: ...  # noqa: D102
    @property
    def rear_axle_kg(self) -> float | None: ...  # noqa: D102
    @property
    def front_share(self) -> float | None: ...  # noqa: D102
    @property
    def left_kg(self) -> float | None: ...  # noqa: D102
    @property
    def right_kg(self) -> float | None: ...  # noqa: D102
    @property
    def cg_mm(self) -> CentreMm: ...  # noqa: D102
    @property
    def cg_without_load_mm(self) -> CentreMm: ...  # noqa: D102
    @property
    def side_slope_deg(self) -> tuple[float, float] | None: ...  # noqa: D102
    @property
    def static_stability_factor(self) -> float | None: ...  # noqa: D102
    @property
    def articulated_bound_deg(self) -> float | None: ...  # noqa: D102
    @property
    def tip_back_deg(self) -> float | None: ...  # noqa: D102
    @property
    def climb_front_share(self) -> Mapping[float, float]: ...  # noqa: D102


class Doubt(Protocol):
    """Two standard deviations at a stage in kg."""

    @property
    def total_kg(self) -> float: ...  # noqa: D102
    @property
    def front_axle_kg(self) -> float | None: ...  # noqa: D102
    @property
    def rear_axle_kg(self) -> float | None: ...  # noqa: D102
    @property
    def racks_kg(self) -> Mapping[str, float]: ...  # noqa: D102


class WorthWeighing(Protocol):
    """A thing whose weighing tells most."""

    @property
    def thing(self) -> str: ...  # noqa: D102
    @property
    def known_from(self) -> str: ...  # noqa: D102
    @property
    def doubt_kg(self) -> float: ...  # noqa: D102
    @property
    def share(self) -> float: ...  # noqa: D102
    @property
    def load_kg(self) -> float: ...  # noqa: D102
    @property
    def once_weighed_kg(self) -> float: ...  # noqa: D102


class Tallest(Protocol):
    """The highest point of the laden vehicle."""

    @property
    def top_mm(self) -> int: ...  # noqa: D102
    @property
    def what(self) -> str: ...  # noqa: D102


class Weighed(Protocol):
    """What a plan was found to come to, without advice."""

    @property
    def findings(self) -> Sequence[Finding]: ...  # noqa: D102
    @property
    def totals(self) -> Mapping[str, Totals]: ...  # noqa: D102


class Verdict(Weighed, Protocol):
    """What a check of a plan found."""

    @property
    def holds(self) -> bool | None: ...  # noqa: D102
    @property
    def doubts(self) -> Mapping[str, Doubt]: ...  # noqa: D102
    @property
    def worth_weighing(self) -> Sequence[WorthWeighing]: ...  # noqa: D102
    @property
    def questions(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def drives(self) -> bool: ...  # noqa: D102
    @property
    def before_water(self) -> str | None: ...  # noqa: D102
    @property
    def climbing(self) -> str | None: ...  # noqa: D102
    @property
    def leaning(self) -> str | None: ...  # noqa: D102
    @property
    def tallest(self) -> Tallest: ...  # noqa: D102
    @property
    def tying(self) -> Tying: ...  # noqa: D102
    @property
    def lifts(self) -> Sequence[Lift]: ...  # noqa: D102
    @property
    def claims_off(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def height_doubt_mm(self) -> float: ...  # noqa: D102
    @property
    def highest_stage(self) -> str | None: ...  # noqa: D102


class Level(Protocol):
    """How good a plan is at one aim, and how far that is proven."""

    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def value(self) -> float: ...  # noqa: D102
    @property
    def bound(self) -> float | None: ...  # noqa: D102
    @property
    def unit(self) -> str: ...  # noqa: D102
    @property
    def state(self) -> str: ...  # noqa: D102


class Proposal(Protocol):
    """What a search came upon."""

    @property
    def levels(self) -> Sequence[Level]: ...  # noqa: D102
    @property
    def must_only_height_mm(self) -> float | None: ...  # noqa: D102
    @property
    def interrupted(self) -> bool: ...  # noqa: D102
    @property
    def cut_short(self) -> bool: ...  # noqa: D102
    @property
    def home_reasons(self) -> Mapping[Copy, str]: ...  # noqa: D102


class Demand(Protocol):
    """Something asked for that takes part in a conflict."""

    @property
    def kind(self) -> str: ...  # noqa: D102
    @property
    def subject(self) -> str: ...  # noqa: D102
    @property
    def says(self) -> str: ...  # noqa: D102
    @property
    def shown(self) -> bool: ...  # noqa: D102
    @property
    def not_enough(self) -> bool: ...  # noqa: D102


class WayOut(Protocol):
    """A change after which a plan exists."""

    @property
    def says(self) -> str: ...  # noqa: D102


class Conflict(Protocol):
    """Demands that cannot hold together, in the order of what a person can change first."""

    @property
    def demands(self) -> Sequence[Demand]: ...  # noqa: D102
    @property
    def says(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def ways_out(self) -> Sequence[WayOut]: ...  # noqa: D102
    @property
    def proven(self) -> bool: ...  # noqa: D102
