"""By how much a layout misses each limit of the whole vehicle, in words; a layout of nothing is the vehicle itself."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from models.rules import Rule
from solver.footing import floating
from solver.limits import against_fire, over_g, unmet
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import State
from solver.wording import some_of

NAMED = 5
"""So many things without a place are named."""


@dataclass(frozen=True)
class Miss:
    """A limit of the whole vehicle that is missed, at the stage where it is missed most."""

    subject: str
    """total, with trailer, rear axle, front axle, front share or side."""
    stage: int
    kg: float
    """Above 0."""


def misses(state: State) -> tuple[Miss, ...]:
    """Every limit of the whole vehicle that a layout misses."""
    worst: dict[str, Miss] = {}
    for t in state.problem.driving:
        for subject, grams in over_g(state, t):
            if grams > 0 and (subject not in worst or grams / 1000 > worst[subject].kg):
                worst[subject] = Miss(subject, t, grams / 1000)
    return tuple(worst.values())


def over_totals(problem: Problem, load_g: Callable[[int], int], spare_g: int = 0) -> Iterator[Miss]:
    """Every total that a load of so many grams at a stage passes by more than `spare_g`, stage by stage."""
    for t in problem.driving:
        grams = load_g(t)
        for subject, left in problem.constants.stages[t].totals:
            if grams > left + spare_g:
                yield Miss(subject, t, (grams - left) / 1000)


def miss_words(problem: Problem, miss: Miss, kg: float) -> str:
    """A miss of so many kilograms as what follows "it"."""
    limits, whole, at = problem.case.vehicle.limits, problem.constants, problem.stages[miss.stage].name
    if miss.subject == "total":
        return f"is {kg:.1f} kg over the total allowed at {at}"
    if miss.subject == "with trailer":
        return f"is {kg:.1f} kg over the total allowed of vehicle and trailer together at {at}"
    if miss.subject == "rear axle":
        return f"puts {kg:.1f} kg too much on the rear axle at {at}, which may carry {limits.rear_axle_kg.kg:g} kg"
    if miss.subject == "front axle":
        return f"puts {kg:.1f} kg too much on the front axle at {at}, which may carry {limits.front_axle_kg.kg:g} kg"
    if miss.subject == "front share":
        return f"has {kg:.1f} kg too little on the front axle at {at}, which has to carry {whole.front_share:.0%} of it"
    return f"differs by {kg:.1f} kg too much between its left and right wheels at {at}"


def closest_words(state: State, wanted: list[Piece]) -> tuple[str, ...]:
    """By how much the layout that came closest misses what is asked."""
    problem = state.problem
    homeless = [piece.name for piece in wanted if piece.index not in state.at]
    found = [miss_words(problem, miss, miss.kg) for miss in misses(state) if miss.kg >= 0.05]
    if homeless:
        found.insert(0, f"has no place left for {some_of(homeless, NAMED)}")
    names = [problem.pieces[it.piece].copy for it in floating(state)]
    found += [f"leaves too little under {name}, which stays where it is for a lock" for name in names]
    found += [says for _, says in on_the_whole(state)]
    return (f"The layout that came closest {'; it '.join(found)}.",) if found else ()


def on_the_whole(state: State) -> tuple[tuple[Rule, str], ...]:
    """What a layout misses of the demands on the whole but for what is in the air, by rule; the words follow "it"."""
    if unmet(state) == len(floating(state)):
        return ()
    return tuple(_on_the_whole(state)) or ((Rule.INSIDE, "uses a space without the thing that it is part of"),)


def _on_the_whole(state: State) -> Iterator[tuple[Rule, str]]:
    """Which copies are too near each other, which kit is parted, what is out of reach in a fire."""
    problem = state.problem
    for kind in problem.spread_kinds:
        thing, here = problem.things[kind], state.rooms_with([kind])
        if 0 < len(here) < thing.spread:
            yield Rule.SPREAD, f"has {thing.name} in {len(here)} of the {thing.spread} spaces that are asked for"
    for kit, kinds in sorted(problem.kits.items()):
        if len(state.rooms_with(kinds)) > 1:
            yield Rule.KIT, f"parts the kit {kit}"
    yield from ((Rule.INCIDENT, says) for says in against_fire(state))
