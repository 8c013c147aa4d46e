"""What stands against a space as a plan stands, as far as one look shows, in words with figures."""

from collections.abc import Iterator, Sequence

from models.rules import Rule
from solver.contrast import Against
from solver.footing import floating
from solver.insert import put
from solver.lanes import lane
from solver.limits import excess, passed_in_air, passed_total, room_for_company, room_for_mass, room_on_axles
from solver.misses import Miss, on_the_whole, over_totals
from solver.pieces import Piece, Room
from solver.state import Lying, State, lying
from solver.trying import Trial
from solver.unloaded import reserve_words
from solver.wording import all_of, floor_kg, some_of

RULE_OF = {"rack": Rule.RACK, "space": Rule.SPACE_MASS, "tie-downs": Rule.RESTRAINT}
"""The rule behind a limit that several rooms share, by what it is a limit of."""


def against_space(trial: Trial, index: int, room: int) -> Against:
    """What stands against a room as this plan stands, as far as one look shows."""
    piece, name = trial.problem.pieces[index], trial.problem.rooms[room].space.name
    state = trial.now.copy()
    state.problem = trial.bound_to(index, [room], one_more=True)
    state.remove(index)
    found: list[tuple[Rule, str]] = []
    if not room_for_mass(state, piece, room):
        found += mass(state, piece, room)
    if not room_for_company(state, piece, room):
        found += company(state, piece, room)
    if not found:
        found += whole(state) if put(state, piece) else _room(state, piece, room, name)
    return (*_in_the_air(state), *found)


def _in_the_air(state: State) -> Iterator[tuple[Rule, str]]:
    """What stays where it is for a lock at a corner, and would have too little under it."""
    for it in floating(state):
        name = state.problem.pieces[it.piece].name
        yield Rule.SUPPORT, f"{name}, which stays where it is for a lock, would have too little under it"


def whole(state: State) -> list[tuple[Rule, str]]:
    """What the layout as a whole would miss with a thing that found a place."""
    over, found = excess(state), list[tuple[Rule, str]]()
    if over > 0:
        found.append((Rule.AXLE, f"axles, total or left and right would be {over:.1f} kg beyond what is allowed"))
    found += ((rule, f"the layout that came closest {says}") for rule, says in on_the_whole(state))
    return found


def mass(state: State, piece: Piece, room: int) -> list[tuple[Rule, str]]:
    """The space, rack or tie-downs that have no mass left, with their figures."""
    place, sums, found = state.problem.rooms[room], state.sums, list[tuple[Rule, str]]()
    need, stages = piece.heaviest_g / 1000, range(len(state.problem.stages))
    if place.limit_g is not None:
        left = min(place.limit_g - lane(sums.room_g[room], t) for t in stages) / 1000
        if left < need:
            found.append((Rule.SPACE_MASS, f"{place.space.name} has {left:.1f} kg left and it weighs {need:.1f} kg"))
    for bearer in place.bearers:
        limits = [stage.bearers_left_g[bearer] for stage in state.problem.constants.stages]
        lefts = [limit - lane(sums.bearer_g[bearer], t) for t, limit in enumerate(limits) if limit is not None]
        if lefts and min(lefts) / 1000 < need:
            told = (
                f"{state.problem.bearers[bearer].name} has {min(lefts) / 1000:.1f} kg left and it weighs {need:.1f} kg"
            )
            found.append((RULE_OF[state.problem.bearers[bearer].kind], told))
    return found or [(Rule.RESTRAINT, _tied(state, need, place))]


def _tied(state: State, need: float, place: Room) -> str:
    stages = range(len(state.problem.stages))
    left = min((place.tied_g or 0) - lane(state.sums.tied_g[place.index], t) for t in stages) / 1000
    return f"the tie-downs of {place.space.name} hold {floor_kg(left)} kg more and it weighs {need:.1f} kg"


def company(state: State, piece: Piece, room: int) -> list[tuple[Rule, str]]:
    """The things a piece may not ride with, where they are in this plan."""
    vetoes, found = state.problem.vetoes, []
    for it in state.at.values():
        other = state.problem.pieces[it.piece]
        for veto in vetoes.of[piece.kind].get(other.kind, ()):
            if vetoes.apart(veto, room, it.room):
                name = state.problem.rooms[it.room].space.name
                found.append((veto.rule, f"it may not ride with {other.name}, which is in {name}"))
    return list(dict.fromkeys(found)) or [(Rule.HAZARD, _no_more(state, piece, room))]


def _no_more(state: State, piece: Piece, room: int) -> str:
    """Of what, in the vehicle or in one air, there may be no more, with what there is."""
    words = passed_total(state, piece)
    if words is None:
        return _no_more_in_the_air(state, piece, state.problem.rooms[room].space.air)
    aboard = {state.problem.pieces[it.piece].thing.hazard for it in state.at.values()} | {piece.thing.hazard}
    told = [word for word in words if word in aboard]
    return f"no more {all_of(told)} may ride in the vehicle"


def _no_more_in_the_air(state: State, piece: Piece, air: str) -> str:
    """What is in an air already, what comes with a piece, and how much of it the air may hold."""
    problem, word = state.problem, piece.thing.hazard or ""
    kind = problem.case.vehicle.air[air]
    bound, in_air = problem.case.rulebook.hazards[word].air.get(kind), state.sums.amount.get((word, air), (0.0, 0.0))
    if bound is None:
        return f"no {word} may ride in {kind} air"
    there = (problem.pieces[it.piece] for it in state.at.values() if problem.rooms[it.room].space.air == air)
    beside = list(dict.fromkeys(one.name for one in there if one.thing.hazard == word))
    passed = passed_in_air(bound, in_air[0] + (piece.thing.holds_l or 0.0), in_air[1] + (piece.thing.net_kg or 0.0))
    if passed is not None:
        now, most, unit = passed
        of_it = f"{now:g} of {most:g} {unit} of {word}"
        return f"the air of {air} would hold {of_it}" + (f" with {some_of(beside, 3)}" if beside else "")
    return f"no more {word} may ride in that air"


def _over_already(state: State, piece: Piece) -> Iterator[tuple[Rule, str]]:
    """The totals that the plan passes before anything moves: where a piece lies changes none of them."""
    problem, worst = state.problem, dict[str, Miss]()
    for miss in over_totals(problem, lambda t: lane(state.sums.most_g, t) + piece.most_g[t]):
        worst[miss.subject] = max(worst.get(miss.subject, miss), miss, key=lambda one: (one.kg, one.stage))
    for subject, miss in worst.items():
        whole = "the total" if subject == "total" else "the total of vehicle and trailer"
        at = f"{problem.stages[miss.stage].name}{reserve_words(problem, miss)}"
        yield Rule.GROSS_MASS, f"{whole} is {miss.kg:.1f} kg over at {at}, before anything moves"


def _on_the_rear(state: State, piece: Piece, it: Lying) -> str:
    """By how much the rear axle would be passed with a piece as far forward as a space allows."""
    problem, sums, cx = state.problem, state.sums, it.box[0] + it.box[3]
    limits = ((t, problem.constants.stages[t].rear_left) for t in problem.driving)
    over = [(lane(sums.rear, t) + piece.most_g[t] * cx - 2 * left, t) for t, left in limits if left is not None]
    grams, t = max(over)
    kg = grams / (2000 * problem.constants.wheelbase)
    return f"the rear axle would be at least {kg:.1f} kg over at {problem.stages[t].name} with it there"


def _room(state: State, piece: Piece, room: int, name: str) -> Sequence[tuple[Rule, str]]:
    """Why it found no place: a total that is passed already, the rear axle, else the things that lie there."""
    low = state.problem.rooms[room].low
    shape = state.problem.fits[piece.index][room].shapes[0]
    it = lying(state.problem, piece.index, room, shape, *low)
    if not room_on_axles(state, piece, it):
        return list(_over_already(state, piece)) or [(Rule.AXLE, _on_the_rear(state, piece, it))]
    there = [state.problem.pieces[it.piece].name for it in state.inside[room]]
    if not there:
        return []
    verbs = ("lies", "leaves") if len(there) == 1 else ("lie", "leave")
    return [(Rule.OVERLAP, f"{some_of(there, 3)} {verbs[0]} in {name} and {verbs[1]} no room for it")]
