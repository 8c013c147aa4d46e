"""At which stages a thing has to be in hand, and how long what lies before it may take."""

from math import inf

from models.case import Case
from models.decimals import told_apart
from models.gear import Thing
from models.stages import present, stages_for_access
from models.trip import Stage

ROUNDING = 1e-9
"""Part of a limit that the arithmetic of the machine may be off by: what meets it exactly holds."""

MOST_DECIMALS = 6
"""No stopwatch tells more of a second."""


def asked_at(case: Case, thing: Thing) -> list[Stage | None]:
    """The stages at which its access word asks for a thing, which is there then; None: once, in no condition."""
    stages = stages_for_access(case.trip, thing.access)
    return [stage for stage in stages if stage is None or present(thing, stage)]


def digging_s(case: Case, thing: Thing, chain_s: float) -> float:
    """Seconds left for moving other things once the way is open; below 0 where that alone takes too long."""
    return left(case.rulebook.access.words[thing.access].seconds, chain_s) if asked_at(case, thing) else inf


def told_s(seconds: float, limit: float) -> tuple[str, str]:
    """Seconds and a limit that they pass, with as many decimals as it takes to see it."""
    told, most = told_apart(seconds, limit, 0, MOST_DECIMALS)
    return f"{told} s", f"{most} s"


def left(limit: float, taken: float) -> float:
    """What is left of a limit, below 0 where it is passed by more than the arithmetic may be off."""
    return limit * (1 + ROUNDING) - taken
