"""What a report asks of a weighing, by what it says and not by where it comes from."""

from collections.abc import Sequence
from typing import Protocol

from report.told import Finding


class Ticket(Protocol):
    """What the scale has said."""

    @property
    def division_kg(self) -> float: ...  # noqa: D102 - as in the verifier


class Difference(Protocol):
    """One reading beside what was predicted; None: it cannot be known."""

    @property
    def subject(self) -> str: ...  # noqa: D102
    @property
    def predicted_kg(self) -> float | None: ...  # noqa: D102
    @property
    def doubt_kg(self) -> float | None: ...  # noqa: D102
    @property
    def measured_kg(self) -> float: ...  # noqa: D102
    @property
    def difference_kg(self) -> float | None: ...  # noqa: D102


class Place(Protocol):
    """Something that a missing mass may be in."""

    @property
    def kind(self) -> str: ...  # noqa: D102
    @property
    def name(self) -> str: ...  # noqa: D102
    @property
    def people(self) -> Sequence[str]: ...  # noqa: D102


class MissingMass(Protocol):
    """What is on the scale and not in the plan."""

    @property
    def mass_kg(self) -> float: ...  # noqa: D102
    @property
    def x_mm(self) -> float: ...  # noqa: D102
    @property
    def x_doubt_mm(self) -> float: ...  # noqa: D102
    @property
    def right_mm(self) -> float | None: ...  # noqa: D102
    @property
    def right_doubt_mm(self) -> float | None: ...  # noqa: D102
    @property
    def in_vehicle(self) -> bool: ...  # noqa: D102
    @property
    def places(self) -> Sequence[Place]: ...  # noqa: D102
    @property
    def spaces(self) -> Sequence[str]: ...  # noqa: D102


class Correction(Protocol):
    """What a line of the list is most likely off by."""

    @property
    def subject(self) -> str: ...  # noqa: D102
    @property
    def known_from(self) -> str: ...  # noqa: D102
    @property
    def pieces(self) -> int: ...  # noqa: D102
    @property
    def each_kg(self) -> float: ...  # noqa: D102
    @property
    def deviation_kg(self) -> float: ...  # noqa: D102
    @property
    def left_kg(self) -> float: ...  # noqa: D102


class Weighing(Protocol):
    """A ticket beside a plan."""

    @property
    def stage(self) -> str: ...  # noqa: D102
    @property
    def driving(self) -> bool: ...  # noqa: D102
    @property
    def ticket(self) -> Ticket: ...  # noqa: D102
    @property
    def differences(self) -> Sequence[Difference]: ...  # noqa: D102
    @property
    def limits(self) -> Sequence[Finding]: ...  # noqa: D102
    @property
    def questions(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def missing(self) -> MissingMass | None: ...  # noqa: D102
    @property
    def missing_total_kg(self) -> float | None: ...  # noqa: D102
    @property
    def shifted_kg(self) -> float | None: ...  # noqa: D102
    @property
    def could_shift_kg(self) -> float | None: ...  # noqa: D102
    @property
    def off_axle(self) -> str | None: ...  # noqa: D102
    @property
    def aside_kg(self) -> float | None: ...  # noqa: D102
    @property
    def corrections(self) -> Sequence[Correction]: ...  # noqa: D102
    @property
    def holds(self) -> bool | None: ...  # noqa: D102
