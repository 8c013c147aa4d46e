"""Why a thing comes in no plan with what must come: in every space that may hold it a limit is passed by sums alone."""

from collections.abc import Iterable, Iterator, Sequence

from solver.coming import companions
from solver.misses import miss_words, over_totals
from solver.pieces import PROOF_SPARE_G, Piece
from solver.pins import needed
from solver.problem import Problem
from solver.unloaded import reserve_words

NAMED = 4
"""So many of the things that take up a limit are named, the heaviest first."""


class Bars:
    """What has to come, and in which rooms alone it may be: made once, asked for many things."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._must = [(piece, _homes(problem, piece)) for piece in problem.pieces if needed(problem, piece)]
        self._there: dict[frozenset[int], list[Piece]] = {}

    def of(self, piece: Piece, rooms: Iterable[int]) -> tuple[str, ...]:
        """A sentence for the total where that bars it, one for each of some rooms where all are barred by themselves.

        Counted on a limit is what has to come and has nowhere else to be.
        """
        total, found = tuple(self._over_total(piece)), list[str]()
        for room in sorted(rooms):
            says = self._in_room(piece, room)
            if says is None:
                return total
            found.append(says)
        return (*total, *found)

    def _over_total(self, piece: Piece) -> Iterator[str]:
        """The total that is passed the most, the vehicle's own or that with its trailer."""
        problem = self._problem
        both = [piece, *(one for one, _ in self._must if one is not piece)]
        over = over_totals(problem, lambda t: sum(one.proof_g[t] for one in both), PROOF_SPARE_G)
        told = ((_up_kg(round(1000 * miss.kg)), miss) for miss in over)
        kg, worst = max(told, key=lambda one: one[0], default=(0.0, None))
        if worst is not None:
            says = f"{miss_words(problem, worst, kg)}{reserve_words(problem, worst)}"
            yield f"with it and what must come alone the vehicle {says}"

    def _in_room(self, piece: Piece, room: int) -> str | None:
        """The limit of a space or of a rack under it that is passed the most with what has to be there anyhow."""
        problem, place, stages = self._problem, self._problem.rooms[room], self._problem.constants.stages
        bearers = [(place.space.name, frozenset({room}), [place.proof_limit_g] * len(stages))]
        bearers += [
            (problem.bearers[n].name, problem.rooms_on[n], [stage.bearers_proof_g[n] for stage in stages])
            for n in place.bearers
        ]
        worst, says = PROOF_SPARE_G, None
        for name, on_it, lefts in bearers:
            there = [one for one in self._only_on(on_it) if one is not piece]
            for t, left in enumerate(lefts):
                over = 0 if left is None else sum(one.proof_g[t] for one in [*there, piece]) - left
                if left is not None and over > worst:
                    worst, says = over, _words(problem, (place.space.name, name), left, t, piece, there)
        return says

    def _only_on(self, rooms: frozenset[int]) -> list[Piece]:
        """What has to come and has places in some rooms alone."""
        if rooms not in self._there:
            self._there[rooms] = [piece for piece, homes in self._must if homes and homes <= rooms]
        return self._there[rooms]


def _homes(problem: Problem, piece: Piece) -> frozenset[int]:
    """The rooms in which a piece that has to come may be; of what is brought along any copy would do."""
    asked_for = problem.coming[piece.index] is None
    every = [problem.fits[i] for i in ([piece.index] if asked_for else companions(problem, piece.thing.name))]
    return frozenset().union(*every) if all(every) else frozenset()


def _words(problem: Problem, where: tuple[str, str], left_g: int, t: int, piece: Piece, there: Sequence[Piece]) -> str:
    """`where` is the space and what bears it."""
    heavy = sorted(there, key=lambda one: (-one.most_g[t], one.index))
    named = [f"{one.name} {_up_kg(one.most_g[t]):.1f} kg" for one in heavy[:NAMED]]
    more_kg = _up_kg(sum(one.most_g[t] for one in heavy[NAMED:]))
    more = [f"{len(heavy) - NAMED} more {more_kg:.1f} kg"] if len(heavy) > NAMED else []
    which = f" and must hold {', '.join([*named, *more])}" if named else ""
    bearer = ": ".join(dict.fromkeys(where))
    limit = f"{bearer} bears {left_g // 100 / 10:.1f} kg of load at {problem.stages[t].name}"
    return f"{limit}{which}, and it weighs {_up_kg(piece.most_g[t]):.1f} kg"


def _up_kg(grams: int) -> float:
    """Kilograms rounded up to what is told, as a limit is rounded down: what is told adds up to more than the limit."""
    return -(-grams // 100) / 10
