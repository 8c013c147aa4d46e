"""Why a thing comes in no plan with what must come: in every space that may hold it a limit is passed by sums alone."""

from collections.abc import Iterable, Iterator, Sequence

from solver.pins import needed
from solver.problem import Piece, Problem

NAMED = 4
"""So many of the things that take up a limit are named, the heaviest first."""


def bars(problem: Problem, piece: Piece, rooms: Iterable[int]) -> tuple[str, ...]:
    """A sentence for the total where that bars it, and one for each of some rooms where all are barred by themselves.

    Counted on a limit is what has to come and has nowhere else to be.
    """
    total = tuple(_over_total(problem, piece))[:1]
    found = [tuple(_in_room(problem, piece, room)) for room in sorted(rooms)]
    return (*total, *(says for one in found for says in one)) if all(found) else total


def _over_total(problem: Problem, piece: Piece) -> Iterator[str]:
    must = _others(problem, piece)
    for t in problem.driving:
        stage = problem.constants.stages[t]
        kept_kg = problem.case.trip.reserve_kg if problem.use_reserve else 0.0
        for left, whole, kept in (
            (stage.total_left_g, "the total allowed", f", {kept_kg:g} kg of reserve kept" if kept_kg else ""),
            (stage.train_left_g, "the total allowed of vehicle and trailer together", ""),
        ):
            grams = 0 if left is None else sum(one.most_g[t] for one in must) + piece.most_g[t] - left
            if grams > 0:
                over = f"{grams / 1000:.1f} kg over {whole} at {problem.stages[t].name}{kept}"
                yield f"with it and what must come alone the vehicle is {over}"


def _in_room(problem: Problem, piece: Piece, room: int) -> Iterator[str]:
    """The limit of a space or of a rack under it that is passed the most with what has to be there anyhow."""
    place, stages = problem.rooms[room], problem.constants.stages
    bearers = [(place.space.name, {room}, [place.limit_g] * len(stages))]
    for rack in place.racks:
        on_it = {one.index for one in problem.rooms if rack in one.racks}
        bearers.append((problem.racks[rack], on_it, [stage.racks_left_g[rack] for stage in stages]))
    worst, says = 0, ""
    for name, on_it, lefts in bearers:
        there = [one for one in _others(problem, piece) if (fits := problem.fits[one.index]) and on_it.issuperset(fits)]
        for t, left in enumerate(lefts):
            over = 0 if left is None else sum(one.most_g[t] for one in there) + piece.most_g[t] - left
            if left is not None and over > worst:
                worst, says = over, _words(problem, (place.space.name, name), left, t, piece, there)
    if worst:
        yield says


def _words(problem: Problem, where: tuple[str, str], left_g: int, t: int, piece: Piece, there: Sequence[Piece]) -> str:
    """`where` is the space and what bears it."""
    heavy = sorted(there, key=lambda one: (-one.most_g[t], one.index))
    named = [f"{one.name} {one.most_g[t] / 1000:.1f} kg" for one in heavy[:NAMED]]
    more = [f"{len(heavy) - NAMED} more"] if len(heavy) > NAMED else []
    which = f" and must hold {', '.join([*named, *more])}" if named else ""
    bearer = ": ".join(dict.fromkeys(where))
    limit = f"{bearer} bears {left_g / 1000:.1f} kg of load at {problem.stages[t].name}"
    return f"{limit}{which}, and it weighs {piece.most_g[t] / 1000:.1f} kg"


def _others(problem: Problem, piece: Piece) -> list[Piece]:
    return [one for one in problem.pieces if needed(problem, one) and one.index != piece.index]
