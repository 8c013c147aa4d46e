"""From one plan to another at the roadside: which copy is moved when, and how many minutes it takes."""

from dataclasses import dataclass
from typing import Literal

from models.case import Case, Copy
from models.plan import Placement, Plan
from packing.digging import chain_seconds, lift_s
from packing.matching import matched
from packing.roadside import Step, in_order
from packing.steps import shut_by_trailer

Kind = Literal["move", "bring in", "take out", "set down", "put in", "put back"]
"""move: from place to place; bring in and take out: from and to home; set down: on the ground for a while; put in: from
the ground to its new place; put back: from the ground to the place it was in."""


@dataclass(frozen=True)
class Move:
    """One copy is lifted once."""

    copy: Copy
    kind: Kind
    from_space: str | None
    """None: it comes from the ground or from home."""
    to_space: str | None
    """None: it goes to the ground or home."""
    placement: Placement | None
    """Where it goes. None: to the ground or home."""
    minutes: float
    """Openings at both places and the lift; for one that only makes way, the lift alone."""

    @property
    def needs_ground(self) -> bool:
        """Whether it asks for a place on the ground."""
        return self.kind == "set down"


@dataclass(frozen=True)
class MoveList:
    """Moves in an order in which they can be carried out."""

    moves: tuple[Move, ...]
    minutes: float
    stuck: tuple[Copy, ...] = ()
    """Copies that no order brings to their place, as one of the plans cannot be packed or unpacked at all."""
    shut_by_trailer: tuple[str, ...] = ()
    """Openings that have to be opened for them and do not open with the trailer on; none where it is never on."""

    @property
    def moved(self) -> tuple[Copy, ...]:
        """Copies that end in another place than before, each once."""
        return tuple(dict.fromkeys(one.copy for one in self.moves if one.kind not in {"set down", "put back"}))


def moves_between(case: Case, before: Plan, after: Plan) -> MoveList:
    """The moves from one plan to another of the same case; like copies change names before they change places.

    Nothing is put where something still stands, nothing is taken from under something, and nothing is put where it
    would have to come out again. Things that the case does not have are left out.

    Raises
    ------
    KeyError
        A plan names a space that the case does not have.
    """
    then, now = matched(case, before, after)
    steps, stuck = in_order(case, then, now)
    moves = tuple(_move(case, step, then, now) for step in steps)
    spaces = (name for move in moves for name in (move.from_space, move.to_space) if name is not None)
    return MoveList(moves, sum(move.minutes for move in moves), stuck, shut_by_trailer(case, spaces))


def minutes_of_copy(case: Case, copy: Copy, from_space: str | None, to_space: str | None) -> float:
    """Minutes to move one copy: the openings at both places, one space opened once, and one lift. None: the ground."""
    names = dict.fromkeys(name for name in (from_space, to_space) if name is not None)
    openings_s = sum(chain_seconds(case, case.space_named[name].opening) for name in names)
    return (openings_s + lift_s(case, copy)) / 60


def _move(case: Case, step: Step, then: dict[Copy, Placement], now: dict[Copy, Placement]) -> Move:
    copy, target = step.copy, step.target
    source = None if step.source is None else step.source.space
    to = None if target is None else target.space
    minutes = lift_s(case, copy) / 60 if step.makes_way else minutes_of_copy(case, copy, source, to)
    return Move(copy, _kind(step, then, now), source, to, target, minutes)


def _kind(step: Step, then: dict[Copy, Placement], now: dict[Copy, Placement]) -> Kind:
    if step.target is None:
        return "set down" if step.copy in now else "take out"
    if step.source is not None:
        return "move"
    if step.makes_way:
        return "put back"
    return "put in" if step.copy in then else "bring in"
