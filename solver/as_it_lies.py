"""What a search near a plan asks no more strictly than the plan in hand needs it, so that one that holds is kept."""

from collections.abc import Collection
from dataclasses import replace

from solver.digging import in_front, minded
from solver.in_hand import digging_s
from solver.limits import fire_lacks
from solver.pieces import Fit, Piece
from solver.problem import Problem
from solver.state import State


def take_as_it_lies(problem: Problem, before: State, may_come: Collection[int]) -> None:
    """Ask for nothing that the layout before does without, of what only the search asks.

    The drawer of a thing that stays at home keeps nothing free; `may_come`: the pieces of which the search may bring
    any. What is for a fire and lies under things may do so, where others are in hand.
    """
    problem.at_home = frozenset(thing.name for thing in problem.things) - {
        problem.pieces[index].thing.name for index in may_come
    }
    buried = _buried(before)
    rest = [it.room for it in before.at.values() if _for_fire(problem.pieces[it.piece]) and it.piece not in buried]
    if buried and not fire_lacks(problem, rest, [before.at[index].room for index in sorted(buried)]):
        problem.pieces = tuple(replace(p, beyond_fire=True) if p.index in buried else p for p in problem.pieces)
        problem.allow(
            fits if index not in buried else _dug_out(problem, index) for index, fits in enumerate(problem.fits)
        )
    for name in ("drawers", "alike"):
        vars(problem).pop(name, None)


def _for_fire(piece: Piece) -> bool:
    return "fire" in piece.thing.needed_when


def _buried(before: State) -> frozenset[int]:
    """What is for a fire alone, and has something to be moved before it."""
    pieces = before.problem.pieces
    lying = (it for it in before.at.values() if _for_fire(pieces[it.piece]) and not pieces[it.piece].wanted.quick)
    return frozenset(it.piece for it in lying if in_front(before, minded(before, before.inside[it.room], it), it))


def _dug_out(problem: Problem, index: int) -> dict[int, Fit]:
    """The rooms that take a piece, with the seconds for moving things that its access word leaves it there."""
    thing, rooms = problem.pieces[index].thing, problem.rooms
    left = {room: digging_s(problem.case, thing, rooms[room].chain_s) for room in problem.fits[index]}
    return {room: replace(fit, dig_s=left[room]) for room, fit in problem.fits[index].items() if left[room] >= 0}
