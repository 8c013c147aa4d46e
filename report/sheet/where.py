"""Where is it: every carried thing by name, its door, how deep it lies, what to move first, how long it takes."""

from dataclasses import dataclass
from math import inf

from models.case import Copy
from models.geometry import AXIS_OF_FACE, placed_box
from models.rules import Rule
from models.spaces import Space
from packing import in_other_spaces, seconds_to_hand, to_move_first, way_to
from packing.steps import opened_in_order
from report.drawings.scene import space_box
from report.figures import seconds
from report.sheet.asked import Asked
from report.sheet.numbers import Figure, located


@dataclass(frozen=True)
class Place:
    """Where one copy is and how to get at it."""

    name: str
    number: int
    space: str
    letter: str
    door: str
    depth_mm: int
    """From the face that things go in and out by to the thing."""
    first: tuple[str, ...]
    """What to move first."""
    seconds: Figure
    """Until it is in hand as packed, as `find` has it: with what lies in other spaces and is moved first."""
    counted: Figure | None
    """What the rule counts, without what lies in other spaces. None: the same."""
    marks: tuple[str, ...]
    valuable: bool


def places(asked: Asked) -> tuple[Place, ...]:
    """Every carried copy by its name."""
    copies = sorted(asked.placed, key=lambda copy: (copy.thing.casefold(), copy.number))
    return tuple(place(asked, copy) for copy in copies if asked.mine(copy))


def place(asked: Asked, copy: Copy) -> Place:
    """Where one copy is."""
    space = asked.case.space_named[asked.placed[copy].space]
    others = in_other_spaces(asked.case, asked.placed, copy)
    before = (*to_move_first(asked.case, asked.placed, copy), *others)
    ruled = seconds_figure(asked, copy)
    return Place(
        name=asked.case.called(copy),
        number=asked.number[copy],
        space=space.name,
        letter=asked.scene.letter[space.name],
        door=", then ".join(opened_in_order(asked.case, space.opening)),
        depth_mm=_depth_mm(asked, copy, space),
        first=tuple(
            f"{asked.number[other]} {asked.case.called(other)}"
            for other in sorted(before, key=lambda one: -asked.number[one])
        ),
        seconds=_in_all(asked, copy) if others else ruled,
        counted=ruled if others else None,
        marks=tuple(mark.word for mark in asked.marks[copy]),
        valuable=asked.case.thing_named[copy.thing].valuable,
    )


def _in_all(asked: Asked, copy: Copy) -> Figure:
    value = way_to(asked.case, asked.placed, copy).seconds
    return Figure(seconds(value), value, located("seconds", asked.case.called(copy)))


def _depth_mm(asked: Asked, copy: Copy, space: Space) -> int:
    axis, outward = AXIS_OF_FACE[space.face]
    at, walls = placed_box(asked.placed[copy]), space_box(space)
    return walls.high[axis] - at.high[axis] if outward > 0 else at.low[axis] - walls.low[axis]


def seconds_figure(asked: Asked, copy: Copy) -> Figure:
    """Seconds to hand as the verifier has them, at the slowest stage; reckoned here only where it looks at none."""
    name = asked.case.called(copy)
    mine = (one for one in asked.verdict.findings if one.rule == Rule.REACH and one.subject == name and one.unit == "s")
    found = {one.stage: one.value for one in mine if one.value is not None}
    if found:
        stage = max(found, key=found.__getitem__)
        return Figure(seconds(found[stage]), found[stage], located("finding", "reach", name, stage, "value"))
    value = seconds_to_hand(asked.case, asked.placed, copy)
    return Figure(seconds(value), None if value == inf else value, located("seconds", name))
