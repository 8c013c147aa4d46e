"""Packers side by side: rounds of loading in which nobody waits for another's door or room."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from models.case import Case
from models.geometry import meets, slid
from models.spaces import Space
from packing.digging import wall_of
from packing.order import FAR_MM
from packing.steps import LoadStep


@dataclass(frozen=True)
class Turn:
    """Steps in a row of one packer in one space."""

    packer: str | None
    space: str
    steps: tuple[LoadStep, ...]


Round = tuple[Turn, ...]
"""Turns of different packers that can be worked at the same time."""


def rounds(case: Case, order: Sequence[LoadStep]) -> tuple[Round, ...]:
    """An order of loading as rounds: each turn comes after all earlier ones that it has to wait for.

    Two turns are never in one round if one packer has both, if they are at one side of the vehicle, or if one space is
    in the other's way. Within every space the order stays as it is.
    """
    found: list[list[Turn]] = []
    for turn in _turns(order):
        after = max((n for n, there in enumerate(found) if any(_waits(case, turn, one) for one in there)), default=-1)
        fitting = [n for n in range(after + 1, len(found)) if not any(_clash(case, turn, one) for one in found[n])]
        if fitting:
            found[fitting[0]].append(turn)
        else:
            found.append([turn])
    return tuple(tuple(turns) for turns in found)


def _turns(order: Sequence[LoadStep]) -> Iterator[Turn]:
    for (space, packer), steps in groupby(order, key=lambda step: (step.space, step.packer)):
        yield Turn(packer, space, tuple(steps))


def _waits(case: Case, turn: Turn, earlier: Turn) -> bool:
    """Whether a turn can only begin when an earlier one is done."""
    return _in_the_way(case.space_named[turn.space], case.space_named[earlier.space])


def _in_the_way(one: Space, other: Space) -> bool:
    if one.name == other.name or one.inside_of or other.inside_of:
        return True
    walls = wall_of(one), wall_of(other)
    return meets(walls[0], slid(walls[1], other.face, FAR_MM)) or meets(walls[1], slid(walls[0], one.face, FAR_MM))


def _clash(case: Case, turn: Turn, other: Turn) -> bool:
    """Whether two turns cannot be worked at the same time."""
    return turn.packer == other.packer or _side(case, turn) == _side(case, other) or _waits(case, turn, other)


def _side(case: Case, turn: Turn) -> str:
    return case.opening_named[case.space_named[turn.space].opening].side
