"""From a layout to a plan that people can keep, and back."""

from models.case import copy_of
from models.geometry import gaps_as_placed
from models.plan import Claims, LeftAtHome, Placement, Plan
from solver.problem import Problem
from solver.state import Lying, State


def to_plan(state: State, *, reserve_kept_kg: float, trip: str = "trip.yaml", locks: tuple[object, ...] = ()) -> Plan:
    """The plan of a layout, with what the search claims of it."""
    problem, k = state.problem, state.problem.constants
    placements = []
    for piece in problem.pieces:
        it = state.at.get(piece.index)
        if it is None:
            continue
        shape = piece.shapes[it.shape]
        x, y, z = it.box[:3]
        placements.append(
            Placement.model_construct(
                thing=piece.copy.thing,
                copy_number=piece.copy.number,
                space=problem.rooms[it.room].space.name,
                corner_mm=(x, y, z),
                size_mm=shape.size,
                turn=shape.turn,
                facing=shape.facing,
            )
        )
    order = {copy: i for i, copy in enumerate(problem.case.copies)}
    placements.sort(key=lambda placement: order[copy_of(placement)])
    home = [copy for copy in problem.case.copies if problem.piece_of[copy] not in state.at]
    claims = Claims(
        cg_height_mm={problem.stages[t].name: round(state.height2(t), 1) for t in problem.driving},
        rear_axle_kg=_axles(state, "rear") if k.axles_known else {},
        front_axle_kg=_axles(state, "front") if k.axles_known else {},
        mass_kg={
            problem.stages[t].name: round((k.stages[t].mass_g + state.sums.likely_g[t]) / 1000, 1)
            for t in problem.driving
        },
    )
    return Plan(
        trip=trip,
        trip_digest=problem.case.digest or None,
        locks=locks,
        placements=tuple(placements),
        left_at_home=tuple(LeftAtHome.model_validate({"thing": c.thing, "copy": c.number}) for c in home),
        reserve_kept_kg=reserve_kept_kg,
        claims=claims,
    )


def _axles(state: State, axle: str) -> dict[str, float]:
    problem, k = state.problem, state.problem.constants
    behind = problem.case.vehicle.limits.tow_ball_behind_rear_axle_mm or 0
    found = {}
    for t in problem.driving:
        stage = k.stages[t]
        moment = stage.moment[0] + state.sums.likely_x[t] / 2
        rear = moment / k.wheelbase + stage.ball_g * (1 + behind / k.wheelbase)
        mass = stage.mass_g + state.sums.likely_g[t] + stage.ball_g
        found[problem.stages[t].name] = round((rear if axle == "rear" else mass - rear) / 1000, 1)
    return found


def lying_of(problem: Problem, placement: Placement) -> Lying | None:
    """A placement as it lies; None when it names nothing that exists or has sides it may not have."""
    index = problem.piece_of.get(copy_of(placement))
    room = problem.room_of.get(placement.space)
    if index is None or room is None:
        return None
    (x, y, z), (a, b, c) = placement.corner_mm, placement.size_mm
    piece = problem.pieces[index]
    shape = next(
        (
            i
            for i, form in enumerate(piece.shapes)
            if form.size == placement.size_mm and form.facing == placement.facing
        ),
        None,
    )
    if shape is None:
        return None
    gap = gaps_as_placed(piece.thing.air_gap_mm, placement.facing)
    own = (x, y, z, x + a, y + b, z + c)
    big = (
        x - gap["front"],
        y - gap["left"],
        z - gap["bottom"],
        x + a + gap["rear"],
        y + b + gap["right"],
        z + c + gap["top"],
    )
    return Lying(index, room, shape, own, big)


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
