"""Whether a piece may join a layout by mass, air and neighbours; and by how much a layout misses the rest."""

from collections.abc import Iterator, Sequence

from models.rulebook import UpTo
from solver.bare import Constants
from solver.footing import floating
from solver.hosts import held_by
from solver.lanes import lane
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import Lying, State, is_tied, tied_lanes

AMOUNT_SLACK = 1e-9
"""Sums of amounts of a hazard, in litres or kilograms, may be off by so much for their rounding."""


def room_for_mass(state: State, piece: Piece, room: int) -> bool:
    """Whether space, racks and tie-downs still hold a piece, at every stage."""
    problem, sums, most = state.problem, state.sums, piece.most_lanes
    left, signs = problem.mass_left[room], problem.constants.signs
    if (left.whole - sums.room_g[room] - most) & signs:
        return False
    for bearer, on_it in left.bearers:
        if (on_it - sums.bearer_g[bearer] - most) & signs:
            return False
    place = problem.rooms[room]
    return not is_tied(piece, place) or not (left.tied - sums.tied_g[room] - tied_lanes(piece, place)) & signs


def masses_hold(state: State) -> bool:
    """Whether every space, with its racks and tie-downs, holds what lies there, at every stage."""
    return all(_mass_holds(state, room) for room, here in enumerate(state.inside) if here)


def _mass_holds(state: State, room: int) -> bool:
    left, signs, sums = state.problem.mass_left[room], state.problem.constants.signs, state.sums
    if (left.whole - sums.room_g[room]) & signs or (left.tied - sums.tied_g[room]) & signs:
        return False
    return not any((most - sums.bearer_g[bearer]) & signs for bearer, most in left.bearers)


def room_for_company(state: State, piece: Piece, room: int) -> bool:
    """Whether nothing that is carried forbids a piece in a room: pairs apart, amounts in the air."""
    problem = state.problem
    where = state.rooms_of
    for kind, rooms in problem.vetoes.forbidden[piece.kind]:
        if where[kind] & rooms[room]:
            return False
    return not piece.thing.hazard or room_for_hazard(state, piece, room)


def room_for_hazard(state: State, piece: Piece, room: int) -> bool:
    """Whether amounts of a hazard, in one air and in the vehicle, leave room for a piece."""
    thing, word = piece.thing, piece.thing.hazard or ""
    case, space = state.problem.case, state.problem.rooms[room].space
    hazard = case.rulebook.hazards[word]
    litres, kilos = thing.holds_l or 0.0, thing.net_kg or 0.0
    bound = hazard.air.get(case.vehicle.air[space.air])
    if bound is None:
        return False  # a plan may have it where the book forbids it
    in_air = state.sums.amount.get((word, space.air), (0.0, 0.0))
    if passed_in_air(bound, in_air[0] + litres, in_air[1] + kilos) is not None:
        return False
    return passed_total(state, piece) is None


def passed_in_air(bound: UpTo, litres: float, kilos: float) -> tuple[float, float, str] | None:
    """Of an amount in one air: what is more than that may hold, how much it may hold, and the unit; None: it holds."""
    for most, now, unit in ((bound.up_to_l, litres, "L"), (bound.up_to_kg, kilos, "kg")):
        if most is not None and now > most + AMOUNT_SLACK:
            return now, most, unit
    return None


def passed_total(state: State, piece: Piece) -> tuple[str, ...] | None:
    """Hazard words of which, counted together, the vehicle carries as much as it may before a piece; or None."""
    thing = piece.thing
    litres, kilos = thing.holds_l or 0.0, thing.net_kg or 0.0
    for words, most in state.problem.totals_of[thing.hazard or ""]:
        sums = [state.sums.hazard[word] for word in words if word in state.sums.hazard]
        if (
            (most.total_l is not None and sum(one[1] for one in sums) + litres > most.total_l + AMOUNT_SLACK)
            or (most.total_kg is not None and sum(one[2] for one in sums) + kilos > most.total_kg + AMOUNT_SLACK)
            or (most.total_count is not None and sum(one[0] for one in sums) + 1 > most.total_count)
        ):
            return words
    return None


def room_on_axles(state: State, piece: Piece, it: Lying) -> bool:
    """Whether the total and the rear axle still hold a piece where it would lie."""
    k, sums, most = state.problem.constants, state.sums, piece.most_lanes
    if (k.total_left - sums.most_g - most) & k.signs:
        return False
    cx = it.box[0] + it.box[3]
    return cx <= 0 or not (k.rear_left - sums.rear - most * cx) & k.signs


def excess(state: State) -> float:
    """By how much a layout misses the limits that only the whole can meet, in kilograms; 0 when all hold."""
    problem = state.problem
    return sum(_axle_excess(state, t) for t in problem.driving) / 1000


def _axle_excess(state: State, t: int) -> float:
    over = dict(over_g(state, t))
    slack = len(state.problem.pieces)
    total = max(0.0, over.get("total", 0.0), over.get("with trailer", 0.0))
    axles = max(0.0, over.get("rear axle", 0.0)) + max(0.0, over.get("front axle", 0.0))
    share = max(0.0, over["front share"] + slack) if "front share" in over else 0.0
    return total + axles + share + max(0.0, over["side"] + slack)


def over_g(state: State, t: int, whole: Constants | None = None) -> Iterator[tuple[str, float]]:
    """By how many grams a layout passes each known limit of the whole vehicle at a stage; below 0 where it does not.

    The limits are those of `whole`, else those that the layout was made for.
    """
    whole, sums = whole or state.problem.constants, state.sums
    k, base2 = whole.stages[t], 2 * whole.wheelbase
    for subject, left in k.totals:
        yield subject, lane(sums.most_g, t) - left
    if k.rear_left is not None:
        yield "rear axle", (lane(sums.rear, t) - 2 * k.rear_left) / base2
    if k.front_left is not None:
        yield "front axle", (lane(sums.front, t) - 2 * k.front_left) / base2
    mass = k.mass_g + lane(sums.likely_g, t)
    if whole.axles_known:
        behind = state.problem.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
        front = (
            mass - (k.moment[0] + lane(sums.likely_x, t) / 2) / whole.wheelbase - k.ball_g * behind / whole.wheelbase
        )
        yield "front share", whole.front_share * (mass + k.ball_g) - front
    yield "side", abs(lean_g(state, t, whole)) - whole.side_share * mass


def lean_g(state: State, t: int, whole: Constants | None = None) -> float:
    """How many grams more the right wheels carry than the left ones at a stage; `whole` as in `over_g`."""
    whole, sums = whole or state.problem.constants, state.sums
    return 2 * (whole.stages[t].moment[1] + lane(sums.likely_y, t) / 2) / whole.track


def unmet(state: State) -> int:
    """How many demands on the whole are not met: spread, one space for a kit, something against fire, under a lock."""
    problem = state.problem
    taken = ((problem.things[kind].spread, len(state.rooms_with([kind]))) for kind in problem.spread_kinds)
    missing = sum(max(0, asked - rooms) for asked, rooms in taken if rooms)
    missing += sum(max(0, len(state.rooms_with(kinds)) - 1) for kinds in problem.kits.values())
    return missing + len(against_fire(state)) + _hosts(state) + len(floating(state))


def against_fire(state: State) -> tuple[str, ...]:
    """What a layout misses of what is needed in a fire; nothing where nothing for one is carried at all."""
    problem = state.problem
    here = [(problem.pieces[index], state.at[index].room) for index in problem.fire_copies if index in state.at]
    buried = [room for piece, room in here if piece.beyond_fire]
    return fire_lacks(problem, [room for piece, room in here if not piece.beyond_fire], buried)


def fire_lacks(problem: Problem, in_hand: Sequence[int], buried: Sequence[int] = ()) -> tuple[str, ...]:
    """Sentences of what is missing where each copy for a fire, in hand or under things, lies in one of these rooms."""
    if not in_hand and not buried:
        return ()
    belted = sum(problem.fire_belted[room] for room in in_hand)
    outside = sum(problem.fire_outside[room] for room in in_hand)
    if not belted or not outside:
        nothing = (("of a belted seat", belted), ("from outside", outside))
        return tuple(f"has nothing for a fire in reach {way}" for way, found in nothing if not found)
    if sum(problem.fire_belted[room] or problem.fire_outside[room] for room in in_hand) < 2:
        return ("has one thing alone for a fire in reach of a belted seat and from outside",)
    return ("has all for a fire in one space",) if len({*in_hand, *buried}) < 2 else ()


def _hosts(state: State) -> int:
    """Rooms in use whose thing is not there or does not hold them."""
    missing = 0
    for room, host in state.problem.host.items():
        if state.inside[room]:
            it = state.at.get(host)
            missing += it is None or not held_by(it, state.problem.rooms[room])
    return missing
