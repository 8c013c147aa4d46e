"""At which stages a thing has to be in hand, and how long what lies before it may take."""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

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


class Wanted(NamedTuple):
    """When others may be in the way of a thing: a bit for every stage, and one more for a look in no condition."""

    quick: bool
    """Every lawful plan leaves nothing to be moved before it that is there when it is asked for."""
    there: int
    """Where something of it is there."""
    asked: int
    """Where what is there may be in its way: by its access word, and where an incident may ask for it."""
    minds_all: bool
    """No thing of the list is gone wherever it is asked for."""
    never_under: bool
    """Every lawful plan leaves nothing at all before it: it is quick, and nothing is gone wherever it is there."""


def wanted(case: Case) -> dict[str, Wanted]:
    """When others may be in the way, by thing."""
    once = 1 << len(case.trip.stages)
    bits = {stage.name: 1 << t for t, stage in enumerate(case.trip.stages)}
    there = {one.name: _sum(bits, [stage for stage in case.trip.stages if present(one, stage)]) for one in case.things}
    found = {}
    for one in case.things:
        stages = asked_at(case, one)
        own = there[one.name] or once
        asked = _sum(bits, stages) | (once if None in stages else 0)
        asked |= own if {"fire", "injury"} & set(one.needed_when) else 0
        quick = "injury" in one.needed_when or (one.access in ("belted", "at_once") and bool(stages))
        minds_all = not asked or all(asked & (others | once) for others in there.values())
        never_under = quick and all(own & (others | once) for others in there.values())
        found[one.name] = Wanted(quick, there[one.name] | once, asked, minds_all, never_under)
    return found


def _sum(bits: dict[str, int], stages: Sequence[Stage | None]) -> int:
    return sum(bits[stage.name] for stage in stages if stage is not None)
