"""Too few copies or spaces for what has to be in several places, and more of a hazard than a vehicle may carry."""

from collections.abc import Iterator, Sequence
from itertools import chain

from models.locks import locks_on
from solver.answers import Conflict, Demand
from solver.company import causes
from solver.limits import AMOUNT_SLACK, passed_in_air
from solver.pieces import Piece
from solver.pins import needed
from solver.problem import Problem
from solver.taking_part import with_fewest_locks
from solver.wording import all_of, lock_demand


def enough_conflict(problem: Problem) -> Conflict | None:
    """Something has to come that there are too few places for, or that there may not be so much of; or None."""
    first = _first(problem)
    return None if first is None else with_fewest_locks(problem, first, _first)


def _first(problem: Problem) -> Conflict | None:
    return next(chain(_fire(problem), _spread(problem), _amounts(problem), _in_one_air(problem)), None)


def _fire(problem: Problem) -> Iterator[Conflict]:
    pieces = [piece for piece in problem.pieces if piece.kind in problem.fire_kinds]
    if any(needed(problem, piece) for piece in pieces):
        belted = [piece for piece in pieces if _may_be(problem, piece, problem.fire_belted)]
        outside = [piece for piece in pieces if _may_be(problem, piece, problem.fire_outside)]
        names = " or ".join(dict.fromkeys(piece.thing.name for piece in pieces))
        two = "fire: one has to be in reach of a belted seat and another from outside"
        if not belted:
            yield _conflict(problem, pieces, f"{two}; no space in reach with a belt on may take {names}.")
        elif not outside:
            yield _conflict(problem, pieces, f"{two}; no space in reach from outside may take {names}.")
        elif len({piece.index for piece in (*belted, *outside)}) == 1:
            yield _conflict(problem, pieces, f"{two}; {belted[0].name} is the only one that may come: take a second.")


def _may_be(problem: Problem, piece: Piece, rooms: Sequence[bool]) -> bool:
    return any(rooms[room] for room in problem.fits[piece.index])


def _spread(problem: Problem) -> Iterator[Conflict]:
    for thing in problem.things:
        pieces = [piece for piece in problem.pieces if piece.thing is thing]
        if thing.spread > 1 and any(needed(problem, piece) for piece in pieces):
            able = [piece for piece in pieces if problem.fits[piece.index]]
            open_to = sorted({room for piece in able for room in problem.fits[piece.index]})
            asked = f"spread: {thing.name} has to be in {thing.spread} different spaces"
            if len(able) < thing.spread:
                yield _conflict(problem, pieces, f"{asked}, and only {len(able)} of its copies may come.")
            elif len(open_to) < thing.spread:
                names = " and ".join(problem.rooms[room].space.name for room in open_to)
                yield _conflict(problem, pieces, f"{asked}, and only {names} may take it.")


def _amounts(problem: Problem) -> Iterator[Conflict]:
    """What must come of hazards, against what the rule book lets a whole vehicle carry of them together."""
    for word, (words, totals) in problem.totals.items():
        pieces = [piece for piece in problem.pieces if piece.thing.hazard in words and needed(problem, piece)]
        source = problem.case.rulebook.hazards[word].source
        come = [one for one in words if any(piece.thing.hazard == one for piece in pieces)]
        named = all_of(come)
        together = "it" if len(come) == 1 else "them together"
        amounts = (
            (totals.total_l, sum(piece.thing.holds_l or 0.0 for piece in pieces), " L"),
            (totals.total_kg, sum(piece.thing.net_kg or 0.0 for piece in pieces), " kg"),
            (totals.total_count, len(pieces), ""),
        )
        for most, comes, unit in amounts:
            if most is not None and comes > most + AMOUNT_SLACK:
                too_much = f"hazard: {comes:g}{unit} of {named} must come, and a vehicle may carry {most:g}{unit}"
                yield _conflict(problem, pieces, f"{too_much} of {together} in all ({source}).")


def _in_one_air(problem: Problem) -> Iterator[Conflict]:
    """What must come of a hazard and may be in one air alone, against what that air may hold of it."""
    only = dict[tuple[str, str], list[Piece]]()
    for piece in problem.pieces:
        airs = sorted({problem.rooms[room].space.air for room in problem.fits[piece.index]})
        if piece.thing.hazard and len(airs) == 1 and needed(problem, piece):
            only.setdefault((piece.thing.hazard, airs[0]), []).append(piece)
    for (word, air), pieces in only.items():
        hazard, kind = problem.case.rulebook.hazards[word], problem.case.vehicle.air[air]
        bound = hazard.air.get(kind)
        if bound is None:
            continue
        litres = sum(piece.thing.holds_l or 0.0 for piece in pieces)
        passed = passed_in_air(bound, litres, sum(piece.thing.net_kg or 0.0 for piece in pieces))
        if passed is not None:
            comes, most, unit = passed
            names = all_of(list(dict.fromkeys(piece.thing.name for piece in pieces)))
            told = f"hazard: {names} must come, may be in the air of {air} alone, are {comes:g} {unit} of {word}"
            allowed = f"{kind} air may hold {most:g} {unit} of it ({hazard.source})"
            yield _conflict(problem, pieces, f"{told}; {allowed}.")


def _conflict(problem: Problem, pieces: Sequence[Piece], says: str) -> Conflict:
    """What makes some of the pieces come, and all locks that leave them fewer places."""
    demands = dict[Demand, None]()
    for piece in pieces:
        narrow = (lock for lock in locks_on(problem.locks, piece.copy) if lock.in_ or lock.not_in or lock.at_home)
        come = causes(problem, piece) if needed(problem, piece) else ()
        demands.update(dict.fromkeys((*map(lock_demand, narrow), *come)))
    return Conflict(tuple(demands), (says,))
