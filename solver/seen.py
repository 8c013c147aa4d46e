"""What cannot be, and is proven so, before anything is tried."""

from solver.answers import Conflict
from solver.asking import Asked
from solver.clock import Clock
from solver.core import by_sums, impossible_by_sums
from solver.plain import plain_conflict
from solver.together import crowded, too_full


def seen_conflict(asked: Asked, clock: Clock) -> Conflict | None:
    """Demands that are proven not to hold together, with nothing tried yet."""
    return plain_conflict(asked.problem()) or too_full(asked, clock) or by_sums(asked, clock)


def cannot_be(asked: Asked, clock: Clock) -> bool:
    """Whether it is proven that there is no plan; which demands are to blame is not looked at."""
    problem = asked.problem()
    return (
        plain_conflict(problem) is not None
        or next(crowded(problem, clock), None) is not None
        or impossible_by_sums(asked, clock)
    )
