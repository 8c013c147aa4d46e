"""What cannot be, told before any search: things with no place at all, locks against a rule, too much mass."""

from models.case import Case
from solver.answers import Conflict, Demand
from solver.eligible import reasons
from solver.problem import Piece, Problem


def plain_conflict(problem: Problem) -> Conflict | None:
    """A conflict that needs no search to be seen, or None."""
    return _locks(problem) or _homeless(problem) or _too_heavy(problem)


def _must(problem: Problem, piece: Piece) -> bool:
    fixed = problem.fixed[piece.index]
    return not fixed.at_home and (piece.thing.must or fixed.carried)


def _locks(problem: Problem) -> Conflict | None:
    for lock in problem.locks:
        if lock.in_ is None:
            continue
        thing, space = problem.case.thing_named[lock.thing], problem.case.space_named[lock.in_]
        why = reasons(problem.case, thing, space)
        if why:
            who = f" ({lock.by}: {lock.because})" if lock.by and lock.because else (f" ({lock.by})" if lock.by else "")
            demand = Demand("lock", lock.thing, f"{lock.thing} is locked in {lock.in_}{who}")
            says = (f"The lock of {lock.thing} in {lock.in_}{who} breaks a rule by itself.", *(_told(r) for r in why))
            return Conflict((demand,), says)
    return None


def _told(reason: object) -> str:
    return f"{reason.rule}: {reason.says}."  # type: ignore[attr-defined]


def _homeless(problem: Problem) -> Conflict | None:
    without = [p for p in problem.pieces if _must(problem, p) and not problem.fits[p.index]]
    if not without:
        return None
    demands, says = [], []
    for kind in dict.fromkeys(piece.kind for piece in without):
        thing = problem.things[kind]
        demands.append(Demand("must come", thing.name, f"{thing.name} must come"))
        says.append(f"{thing.name} has no lawful place in this vehicle.")
        says += nearest(problem.case, problem, kind)
    return Conflict(tuple(demands), tuple(says))


def nearest(case: Case, problem: Problem, kind: int, count: int = 3) -> list[str]:
    """The spaces that miss by the fewest rules, with what stands against each."""
    thing = problem.things[kind]
    against = [(reasons(case, thing, room.space), room.space.name) for room in problem.rooms]
    against.sort(key=lambda pair: (len(pair[0]), pair[1]))
    return [f"  {name}: {'; '.join(r.says for r in why)}." for why, name in against[:count] if why]


def _too_heavy(problem: Problem) -> Conflict | None:
    must = [piece for piece in problem.pieces if _must(problem, piece)]
    for t in problem.driving:
        left = problem.constants.stages[t].gross_left_g
        load = sum(piece.most_g[t] for piece in must)
        if left is not None and load > left:
            over = (load - left) / 1000
            reserve = problem.case.trip.reserve_kg if problem.use_reserve else 0
            kept = f", {reserve:g} kg of reserve kept" if reserve else ""
            stage = problem.stages[t].name
            says = f"What must come is {over:.1f} kg over the total allowed at {stage}{kept}."
            heavy = sorted({(-p.heaviest_g, p.copy.thing) for p in must})[:5]
            list_says = "The heaviest of it: " + ", ".join(f"{name} {-g / 1000:.1f} kg" for g, name in heavy) + "."
            demands = [Demand("limit", "gross_mass", says)]
            if reserve:
                demands.append(Demand("reserve", "reserve_kg", f"{reserve:g} kg are kept free"))
            demands.append(Demand("must come", "everything", "all of it must come"))
            return Conflict(tuple(demands), (says, list_says))
    return None
