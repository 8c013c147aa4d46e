"""restraint: enclosed, behind a barrier, in a holder or tied; tops below the barrier's and the seat backs'."""

from models.rules import Rule
from solver.blocks import Body
from solver.build import Build
from solver.exclusions import exclude
from solver.problem import Room
from solver.rows import at_most, inside_g
from solver.state import is_tied


def add(build: Build) -> None:
    """Exclusions, tops, and what the tie-downs of each room hold."""
    exclude(build, Rule.RESTRAINT)
    for body in build.moving:
        for index, here in body.rooms.items():
            highest = _highest(build, body, build.problem.rooms[index])
            if highest is not None:
                build.when([here], body.box.high[2] <= highest)
    for index in build.rooms:
        _ties(build, build.problem.rooms[index])


def _highest(build: Build, body: Body, room: Room) -> int | None:
    """How high a piece may reach in a room; None: to the ceiling."""
    vehicle, space = build.problem.case.vehicle, room.space
    if space.holds == "barrier" and vehicle.cargo_barrier:
        return vehicle.cargo_barrier.top_z_mm
    loose = space.holds == "none" or (body.piece.hard and space.holds == "tie_downs")
    backs = [seat.back_top_z_mm for seat in vehicle.seats if seat.back_top_z_mm is not None]
    return min(backs) if loose and backs and vehicle.air[space.air] == "people" else None


def _ties(build: Build, room: Room) -> None:
    if room.tied_g is None:
        return
    for t in range(len(build.problem.stages)):
        tied = inside_g(build, room.index, lambda p, t=t: p.most_g[t] if is_tied(p, room) else 0)  # type: ignore[misc]
        at_most(build, tied, room.tied_g - build.fixed.sums.tied_g[room.index][t])
