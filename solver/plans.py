"""From a layout to a plan that people can keep, and back."""

from models.case import copy_of
from models.plan import Claims, LeftAtHome, Placement, Plan
from models.trip import Lock
from solver.lanes import lane
from solver.problem import Problem
from solver.state import Lying, State, lying


def to_plan(state: State, *, reserve_kept_kg: float, trip: str = "trip.yaml", locks: tuple[Lock, ...] = ()) -> Plan:
    """The plan of a layout, with what the search claims of it."""
    case, index = state.problem.case, state.problem.piece_of
    home = [copy for copy in case.copies if index[copy] not in state.at]
    return Plan(
        trip=trip,
        trip_digest=case.digest or None,
        locks=locks,
        placements=tuple(_placement(state, index[copy]) for copy in case.copies if index[copy] in state.at),
        left_at_home=tuple(LeftAtHome.model_validate({"thing": c.thing, "copy": c.number}) for c in home),
        reserve_kept_kg=reserve_kept_kg,
        claims=_claims(state),
    )


def _placement(state: State, index: int) -> Placement:
    """Where a piece lies; made without a look at its fields, as searches make thousands of them."""
    piece, it = state.problem.pieces[index], state.at[index]
    shape = piece.shapes[it.shape]
    return Placement.model_construct(
        thing=piece.copy.thing,
        copy_number=piece.copy.number,
        space=state.problem.rooms[it.room].space.name,
        corner_mm=it.box[:3],
        size_mm=shape.size,
        turn=state.problem.turns.get((piece.copy, shape.size), shape.turn),
        facing=shape.facing,
    )


def _claims(state: State) -> Claims:
    problem, k = state.problem, state.problem.constants
    named = [(problem.stages[t].name, t) for t in problem.driving]
    return Claims(
        cg_height_mm={name: round(state.height2(t), 1) for name, t in named},
        rear_axle_kg=_axles(state, "rear") if k.axles_known else {},
        front_axle_kg=_axles(state, "front") if k.axles_known else {},
        mass_kg={name: round((k.stages[t].mass_g + lane(state.sums.likely_g, t)) / 1000, 1) for name, t in named},
    )


def _axles(state: State, axle: str) -> dict[str, float]:
    problem, k = state.problem, state.problem.constants
    behind = problem.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
    found = {}
    for t in problem.driving:
        stage = k.stages[t]
        moment = stage.moment[0] + lane(state.sums.likely_x, t) / 2
        rear = moment / k.wheelbase + stage.ball_g * (1 + behind / k.wheelbase)
        mass = stage.mass_g + lane(state.sums.likely_g, t) + stage.ball_g
        found[problem.stages[t].name] = round((rear if axle == "rear" else mass - rear) / 1000, 1)
    return found


def lying_of(problem: Problem, placement: Placement) -> Lying | None:
    """A placement as it lies; None when it names nothing that exists or has sides it may not have."""
    index = problem.piece_of.get(copy_of(placement))
    room = problem.room_of.get(placement.space)
    if index is None or room is None:
        return None
    piece = problem.pieces[index]
    # As check reads it: no facing is to the rear, and nothing that needs no free air faces anywhere.
    facing = None if piece.thing.air_gap_mm is None else placement.facing or "rear"
    looks = (placement.size_mm, facing)
    shape = next((i for i, form in enumerate(piece.shapes) if (form.size, form.facing) == looks), None)
    return None if shape is None else lying(problem, index, room, shape, *placement.corner_mm)


def from_plan(problem: Problem, plan: Plan, locked: frozenset[int] = frozenset()) -> State:
    """A layout with all that a plan places, as it lies, lawful or not, where its sides are those of the thing.

    `locked`: pieces that stay where they are.
    """
    state = State(problem)
    state.locked = locked
    for placement in plan.placements:
        it = lying_of(problem, placement)
        if it is not None and it.piece not in state.at:
            state.add(it)
    return state
