"""What a sheet is made from: a plan, its verdict, and the verifier to ask once more."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Protocol

from models.case import Case, Copy, copy_of
from models.plan import Placement, Plan, reserve_of
from models.rules import Rule
from models.spaces import Space
from packing import LoadStep, Tangle, loading_order
from packing.steps import step_for
from packing.together import Round, rounds
from report.drawings.marks import Mark, marks_of
from report.drawings.scene import Scene, Shown
from report.told import Verdict, Weighed
from report.told_advice import Lift


class Verifier(Protocol):
    """The verifier as a sheet needs it, so that a question of the sheet is reckoned there and not here."""

    def weighed(self, case: Case, plan: Plan, rules: Iterable[Rule]) -> Weighed:
        """Recompute the limits of some rules of a plan, and its totals."""
        ...


@dataclass(frozen=True, eq=False)
class Asked:
    """A plan to be told, whole or for one packer."""

    case: Case
    plan: Plan
    verdict: Verdict
    verifier: Verifier
    packer: str | None = None
    """None: the whole sheet."""
    asked_by_files: tuple[str, ...] = ()
    """Questions that reading the files came upon."""
    changed: tuple[str, ...] = ()
    """That the files have changed since the plan was made, and what they no longer know. Empty: they have not."""

    @property
    def questions(self) -> tuple[str, ...]:
        """All that has to be asked first."""
        return (*self.verdict.questions, *self.asked_by_files)

    @cached_property
    def placed(self) -> dict[Copy, Placement]:
        """Placements of copies and in spaces that the files know; the others are broken limits, told as such."""
        case = self.case
        known = (p for p in self.plan.placements if p.thing in case.thing_named and p.space in case.space_named)
        return {copy_of(placement): placement for placement in known}

    @property
    def reserve_kg(self) -> float:
        """The reserve that the plan keeps."""
        return reserve_of(self.plan, self.case.reserve_kg)

    @cached_property
    def tangle(self) -> Tangle | None:
        """Things that no order of loading fits; None: there is an order."""
        return self._order if isinstance(self._order, Tangle) else None

    @cached_property
    def _order(self) -> tuple[LoadStep, ...] | Tangle:
        return loading_order(self.case, self.plan.model_copy(update={"placements": tuple(self.placed.values())}))

    @cached_property
    def rounds(self) -> tuple[Round, ...]:
        """Rounds of loading in which packers work side by side; none where there is no order."""
        return () if isinstance(self._order, Tangle) else rounds(self.case, self._order)

    @cached_property
    def steps(self) -> tuple[LoadStep, ...]:
        """Every carried copy, in the order of loading; as the plan lists them where there is no order."""
        if self.rounds or not isinstance(self._order, Tangle):
            return tuple(step for turns in self.rounds for turn in turns for step in turn.steps)
        return tuple(step_for(self.case, placement, copy, {}) for copy, placement in self.placed.items())

    @cached_property
    def number(self) -> dict[Copy, int]:
        """The number of each carried copy: its place in the order of loading."""
        return {step.copy: n for n, step in enumerate(self.steps, start=1)}

    @cached_property
    def tied(self) -> frozenset[Copy]:
        """Copies that have to be tied by the rule `restraint`."""
        return frozenset(tie.copy for space in self.verdict.tying.spaces for tie in space.ties)

    def located(self) -> Iterator[tuple[Copy, Space]]:
        """Carried copies with their spaces, in the order of loading."""
        for step in self.steps:
            yield step.copy, self.case.space_named[step.space]

    @cached_property
    def too_heavy(self) -> dict[Copy, Lift]:
        """Copies that take more than one person, so that it is told."""
        return {one.copy: one for one in self.verdict.lifts if one.too_heavy}

    @cached_property
    def marks(self) -> dict[Copy, tuple[Mark, ...]]:
        """The marks of each carried copy."""
        return {step.copy: marks_of(self.case, step, self.tied) for step in self.steps}

    @cached_property
    def scene(self) -> Scene:
        """What the drawings show."""
        named = self.case.thing_named
        return Scene(
            self.case,
            tuple(
                Shown(
                    s.copy,
                    self.case.called(s.copy),
                    self.number[s.copy],
                    s.placement,
                    self.marks[s.copy],
                    named[s.copy.thing].shape == "soft",
                )
                for s in self.steps
            ),
        )

    def mine(self, copy: Copy) -> bool:
        """Whether a copy belongs on this sheet."""
        return self.packer is None or self.case.thing_named[copy.thing].packer == self.packer
