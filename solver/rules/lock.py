"""lock: what people fixed stays."""

from solver.build import Build


def add(build: Build) -> None:
    """Rooms, corners, home and coming along as people fixed them."""
    problem = build.problem
    for body in build.moving:
        fixed = problem.fixed[body.piece.index]
        if fixed.at_home:
            build.hold(build.carried(body.piece), False)
        if fixed.carried:
            build.hold(build.carried(body.piece))
        for room, here in body.rooms.items():
            if not fixed.admits(problem.case, problem.rooms[room].space):
                build.hold(here, False)
        for axis, place in enumerate(fixed.corner_mm or ()):
            build.when([build.carried(body.piece)], build.corner(body.piece)[axis] == place)
