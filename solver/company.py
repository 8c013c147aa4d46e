"""What people ask of who comes, against each other: locked at home and asked for, companions, all or none."""

from collections.abc import Iterator, Sequence
from itertools import chain

from models.locks import locks_on
from models.trip import Lock
from solver.answers import Conflict, Demand
from solver.coming import copies_of
from solver.pieces import Piece
from solver.problem import Problem
from solver.wording import all_or_none, kit_together, lock_demand, must_come


def company_conflict(problem: Problem) -> Conflict | None:
    """Two demands on who comes that cannot hold together, or None."""
    return next(chain(_home_and_asked(problem), _parted(problem), _alone(problem)), None)


def causes(problem: Problem, piece: Piece) -> tuple[Demand, ...]:
    """What a person asks that makes a piece come: that it must, or locks; of what it comes along with, if need be."""
    index, at, of_all = problem.coming.get(piece.index), piece.index, dict[Demand, None]()
    while index is not None:
        if problem.pieces[index].kind == problem.pieces[at].kind:
            of_all[all_or_none(problem.case, problem.pieces[at].thing.name)] = None
        at, index = index, problem.coming[index]
    root = problem.pieces[at]
    if root.thing.must:
        return (*of_all, must_come(problem.case, (root.thing.name,)))
    asks = (lock for lock in locks_on(problem.locks, root.copy) if lock.carried or lock.in_ is not None)
    return (*of_all, *map(lock_demand, asks))


def company_asked(problem: Problem) -> Iterator[Demand]:
    """That kits stay in one space, and that copies of which some are asked for come all or none."""
    for kit, kinds in problem.kits.items():
        if sum(problem.things[kind].count for kind in kinds) > 1:
            yield kit_together(problem.case, kit)
    yield from copies_asked(problem)


def copies_asked(problem: Problem) -> Iterator[Demand]:
    """That copies come all or none, where those that are asked for bring others along."""
    pairs = ((problem.pieces[index].kind, by) for index, by in problem.coming.items() if by is not None)
    for kind in sorted({kind for kind, by in pairs if problem.pieces[by].kind == kind}):
        yield all_or_none(problem.case, problem.things[kind].name)


def _home_and_asked(problem: Problem) -> Iterator[Conflict]:
    for piece in problem.pieces:
        fixed, locks = problem.fixed[piece.index], locks_on(problem.locks, piece.copy)
        home = [lock for lock in locks if lock.at_home]
        if home and piece.thing.must:
            demands = (lock_demand(home[0]), must_come(problem.case, (piece.thing.name,)))
            yield Conflict(demands, (f"{piece.thing.name} must come and is locked at home.",))
        elif home and fixed.carried:
            asks = next(lock for lock in locks if lock.carried or lock.in_ is not None)
            says = f"{piece.name} is locked at home, and another lock asks for it."
            yield Conflict((lock_demand(home[0]), lock_demand(asks)), (says,))


def _parted(problem: Problem) -> Iterator[Conflict]:
    """Copies that come all or none, of which one has to come and another is locked at home."""
    for index in problem.coming:
        piece = problem.pieces[index]
        home = _home_locks(problem, copies_of(problem, piece.thing.name)) if piece.thing.all_or_none else []
        if home:
            every = f"All {piece.thing.count} copies of {piece.thing.name} come or none"
            says = f"{every}; {piece.name} has to, and one is locked at home."
            of_all = all_or_none(problem.case, piece.thing.name)
            yield Conflict(tuple(dict.fromkeys((lock_demand(home[0]), of_all, *causes(problem, piece)))), (says,))


def _alone(problem: Problem) -> Iterator[Conflict]:
    """Something has to come whose companion cannot."""
    for index in problem.coming:
        piece = problem.pieces[index]
        for name in piece.thing.with_:
            copies = copies_of(problem, name)
            home = _home_locks(problem, copies)
            if home and not any(i in problem.coming for i in copies):
                says = (
                    *company_words(problem, piece),
                    f"{piece.thing.name} does not come without {name}, which {_stays(home)}.",
                )
                yield Conflict((*map(lock_demand, home), *causes(problem, piece)), says)


def company_words(problem: Problem, piece: Piece) -> Iterator[str]:
    """How a piece comes along with others, from what is asked for down to it; nothing where it is asked for itself."""
    by = problem.coming.get(piece.index)
    if by is not None:
        before = problem.pieces[by]
        yield from company_words(problem, before)
        if before.thing is not piece.thing:
            yield f"{before.thing.name} does not come without {piece.thing.name}."


def _stays(home: Sequence[Lock]) -> str:
    return "is locked at home" if len(home) == 1 else "is locked at home in all its copies"


def _home_locks(problem: Problem, copies: Sequence[int]) -> list[Lock]:
    """The locks that keep some copies at home, one for each copy."""
    mine = (lock for i in copies for lock in locks_on(problem.locks, problem.pieces[i].copy) if lock.at_home)
    return list(dict.fromkeys(mine))
