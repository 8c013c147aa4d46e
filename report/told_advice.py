"""What a report asks of the advice on tying and lifting, by what it says and not by where it comes from."""

from collections.abc import Sequence
from typing import Protocol

from models.case import Copy


class Tie(Protocol):
    """How one copy is tied."""

    @property
    def copy(self) -> Copy: ...  # noqa: D102 - as in the verifier
    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def kg(self) -> float: ...  # noqa: D102
    @property
    def in_it_kg(self) -> float: ...  # noqa: D102
    @property
    def forward_n(self) -> float: ...  # noqa: D102
    @property
    def rearward_n(self) -> float: ...  # noqa: D102
    @property
    def sideways_n(self) -> float: ...  # noqa: D102
    @property
    def upward_n(self) -> float: ...  # noqa: D102
    @property
    def by_strength(self) -> int | None: ...  # noqa: D102
    @property
    def by_length(self) -> int: ...  # noqa: D102
    @property
    def straps(self) -> int | None: ...  # noqa: D102
    @property
    def tips(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def pressing_forward(self) -> int | None: ...  # noqa: D102
    @property
    def pressing_sideways(self) -> int | None: ...  # noqa: D102


class TiedSpace(Protocol):
    """A space with things that have to be tied."""

    @property
    def space(self) -> str: ...  # noqa: D102
    @property
    def points_dan(self) -> Sequence[float]: ...  # noqa: D102
    @property
    def ties(self) -> Sequence[Tie]: ...  # noqa: D102
    @property
    def straps_together(self) -> int | None: ...  # noqa: D102
    @property
    def straps_apart(self) -> int | None: ...  # noqa: D102
    @property
    def pressed_forward_kg(self) -> float | None: ...  # noqa: D102
    @property
    def pressed_sideways_kg(self) -> float | None: ...  # noqa: D102


class Barrier(Protocol):
    """The heaviest thing behind the cargo barrier in a crash."""

    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def kg(self) -> float: ...  # noqa: D102
    @property
    def in_it_kg(self) -> float: ...  # noqa: D102
    @property
    def rated_kg(self) -> float: ...  # noqa: D102
    @property
    def force_n(self) -> float: ...  # noqa: D102
    @property
    def energy_j(self) -> float: ...  # noqa: D102


class Tying(Protocol):
    """All advice on tying."""

    @property
    def spaces(self) -> Sequence[TiedSpace]: ...  # noqa: D102
    @property
    def barrier(self) -> Barrier | None: ...  # noqa: D102
    @property
    def loose(self) -> Sequence[tuple[Copy, str]]: ...  # noqa: D102
    @property
    def straps_together(self) -> int | None: ...  # noqa: D102
    @property
    def straps_apart(self) -> int | None: ...  # noqa: D102


class TooFew(Protocol):
    """A stage at which fewer people travel than lift a thing there."""

    @property
    def stage(self) -> str: ...  # noqa: D102
    @property
    def people(self) -> int: ...  # noqa: D102
    @property
    def travel(self) -> int: ...  # noqa: D102


class Lift(Protocol):
    """One copy that is lifted."""

    @property
    def copy(self) -> Copy: ...  # noqa: D102
    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def space(self) -> str: ...  # noqa: D102
    @property
    def kg(self) -> float: ...  # noqa: D102
    @property
    def recommended_kg(self) -> float: ...  # noqa: D102
    @property
    def in_reach(self) -> bool: ...  # noqa: D102
    @property
    def two_person(self) -> bool: ...  # noqa: D102
    @property
    def people(self) -> int: ...  # noqa: D102
    @property
    def each_kg(self) -> float: ...  # noqa: D102
    @property
    def too_few(self) -> TooFew | None: ...  # noqa: D102
    @property
    def too_heavy(self) -> bool: ...  # noqa: D102
    @property
    def elsewhere_helps(self) -> bool: ...  # noqa: D102
    @property
    def women_kg(self) -> float | None: ...  # noqa: D102
    @property
    def men_kg(self) -> float | None: ...  # noqa: D102
