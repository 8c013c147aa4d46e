"""Packers side by side: rounds of loading in which nobody waits for another's door or room."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from models.case import Case
from models.geometry import meets, slid
from models.spaces import Space
from packing.digging import wall_of
from packing.shutting import FAR_MM
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

    Two turns are never in one round if one packer has both, if any openings on their ways are at one side of the
    vehicle, or if one space is in the other's way; and a round takes no more people than pack. Within every space the
    order stays as it is.
    """
    found: list[list[Turn]] = []
    hands = _hands(case, order)
    for turn in _turns(order):
        after = max((n for n, there in enumerate(found) if any(_waits(case, turn, one) for one in there)), default=-1)
        fitting = [n for n in range(after + 1, len(found)) if _fits(case, turn, found[n], hands)]
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


def _fits(case: Case, turn: Turn, others: Sequence[Turn], hands: int) -> bool:
    """Whether a turn can be worked beside others, by so many people in all."""
    busy = sum(_takes(one, hands) for one in (turn, *others))
    return busy <= hands and not any(_clash(case, turn, one) for one in others)


def _hands(case: Case, order: Sequence[LoadStep]) -> int:
    """How many people pack: those whose names stand on things, and one more for what anybody packs.

    That one more is there where more travel than are named, or where nobody is told to travel.
    """
    packers = {step.packer for step in order}
    named = len(packers - {None})
    people = len(case.trip.people)
    return named + 1 if None in packers and (people == 0 or people > named) else max(1, named)


def _takes(turn: Turn, hands: int) -> int:
    """How many people a turn keeps busy: as many as lift its heaviest thing, or all of them where they are too few."""
    return min(hands, max(step.people for step in turn.steps))


def _clash(case: Case, turn: Turn, other: Turn) -> bool:
    """Whether two turns are in each other's way, or one packer's."""
    return turn.packer == other.packer or bool(_sides(case, turn) & _sides(case, other)) or _waits(case, turn, other)


def _sides(case: Case, turn: Turn) -> set[str]:
    """Sides of all openings on the way: who packs through a net behind the tailgate stands at the tailgate."""
    return {case.opening_named[name].side for step in turn.steps for name in step.openings}
