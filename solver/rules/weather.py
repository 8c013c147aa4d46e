"""weather: dry where it is dry, clean from wet, cool from hot, electrical things above the water."""

from models.rules import Rule
from solver.build import Build
from solver.exclusions import exclude, separate


def add(build: Build) -> None:
    """Exclusions, wet from dry and food, and the wading line."""
    exclude(build, Rule.WEATHER)
    separate(build, Rule.WEATHER)
    line = build.problem.case.vehicle.wading_line_mm
    for piece in build.free:
        if piece.thing.electrical and line is not None:
            build.when([build.carried(piece)], build.corner(piece)[2] >= line)
