"""A space opened up: what is in it, in as many steps as it takes to see each thing."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from models.geometry import AXIS_OF_FACE, Box
from models.spaces import Space
from report.drawings.labels import spread
from report.drawings.marks import hatched
from report.drawings.paper import NUMBER, Paper, fitting
from report.drawings.projection import Eye, eye_for, faces, far_first, far_walls, hides, outline
from report.drawings.scene import Scene, Shown, space_box
from report.drawings.seeing import DOT, label_spot, sight, still_seen
from report.drawings.svg import Picture, Spot, dot, line, polygon, words


@dataclass(frozen=True)
class Step:
    """What goes in until all of it can still be seen at once."""

    earlier: tuple[Shown, ...]
    now: tuple[Shown, ...]


def steps_of(scene: Scene, space: Space) -> tuple[Step, ...]:
    """The contents of a space in the order of loading, cut wherever a thing would be hidden by a later one."""
    eye, paper = _seen(space)
    done: list[Step] = []
    earlier: tuple[Shown, ...] = ()
    now: tuple[Shown, ...] = ()
    spots: list[Spot | None] = []
    for one in scene.within(space.name):
        found = _all_seen(eye, paper, now, spots, one)
        if now and found is None:
            done.append(Step(earlier, now))
            earlier, now = earlier + now, ()
            found = _all_seen(eye, paper, now, [], one)
        now, spots = (*now, one), [None] if found is None else found
    return (*done, Step(earlier, now)) if now else tuple(done)


def _seen(space: Space) -> tuple[Eye, Paper]:
    room = space_box(space)
    eye = eye_for(space.face, room.centre_mm[1])
    return eye, fitting(eye, (room, _arrow_box(space)))


def _all_seen(
    eye: Eye, paper: Paper, now: Sequence[Shown], spots: Sequence[Spot | None], one: Shown
) -> list[Spot | None] | None:
    """Where each of some things and one more is seen, with where each was before that; None: one of them is not.

    Only what the new one stands before is looked at again: it takes from what is seen of others, and adds nothing.
    """
    boxes = [*(other.box for other in now), one.box]
    found: list[Spot | None] = []
    for box, before in zip(boxes, (*spots, None), strict=True):
        at = before if before is not None and still_seen(eye, paper, box, before, one.box) else None
        at = sight(eye, paper, box, boxes) if at is None else at
        if at is None:
            return None
        found.append(at)
    return found


def space_pictures(scene: Scene, space: Space) -> tuple[tuple[Picture, Step], ...]:
    """A picture for each step of a space that holds something."""
    steps = steps_of(scene, space)
    return tuple((_picture(scene, space, step, n, len(steps)), step) for n, step in enumerate(steps, start=1))


def _picture(scene: Scene, space: Space, step: Step, n: int, of: int) -> Picture:
    eye, paper = _seen(space)
    letter = scene.letter[space.name]
    ghosts = [one for one in step.earlier if any(hides(eye, one.box, new.box) for new in step.now)]
    solid = [one for one in (*step.earlier, *step.now) if one not in ghosts]
    parts = (
        *_edges(paper, far_walls(eye, space_box(space)), "wall"),
        *_bodies(eye, paper, space, solid, step),
        *(polygon(paper.spots(side), "ghost") for one in ghosts for side in faces(eye, one.box)),
        *_edges(paper, faces(eye, space_box(space)), "edge"),
        *_arrow(eye, paper, space),
        *_numbers(eye, paper, step.now),
    )
    title = f"{letter} {space.name} opened up, step {n} of {of}"
    return Picture(f"space-{letter}-{n}", title, _told(space, step, eye), paper.size, parts, paper.mm_per_unit)


def _told(space: Space, step: Step, eye: Eye) -> str:
    now = ", ".join(f"{one.number} {one.name}" for one in step.now)
    there = f" Already in: {', '.join(str(one.number) for one in step.earlier)}." if step.earlier else ""
    return f"Seen from {eye.says} and above; it is loaded by its {space.face}. Going in: {now}.{there}"


def _bodies(eye: Eye, paper: Paper, space: Space, things: Sequence[Shown], step: Step) -> Iterator[str]:
    solids = [Box(s.corner_mm, _far_corner(s.corner_mm, s.size_mm)) for s in space.solid]
    boxes = [*solids, *(one.box for one in things)]
    for n in far_first(eye, boxes):
        one = None if n < len(solids) else things[n - len(solids)]
        kind = "solid" if one is None else hatched(one.marks) if one in step.now else "thing old"
        mark = None if one is None else str(one.number)
        for side in faces(eye, boxes[n]):
            yield polygon(paper.spots(side), kind, data_number=mark)


def _far_corner(low: tuple[int, int, int], size: tuple[int, int, int]) -> tuple[int, int, int]:
    return (low[0] + size[0], low[1] + size[1], low[2] + size[2])


def _edges(paper: Paper, sides: Iterable[Sequence[Spot]], kind: str) -> Iterator[str]:
    for side in sides:
        yield polygon(paper.spots(side), kind)


def _arrow_box(space: Space) -> Box:
    """A box without width from outside the face that one loads by almost to it: the arrow, in mm.

    It lies level with the floor or above the top, where it covers nothing that is in the space.
    """
    room = space_box(space)
    axis, outward = AXIS_OF_FACE[space.face]
    length = max(100, max(room.size_mm) // 5)
    x, y, z = (int(part) for part in room.centre_mm)
    low = [x, y, z if axis == 2 else room.low[2]]
    high = list(low)
    near, far = (room.high[axis], 1) if outward > 0 else (room.low[axis], -1)
    low[axis], high[axis] = sorted((near + far * length // 4, near + far * length * 5 // 4))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _arrow(eye: Eye, paper: Paper, space: Space) -> Iterator[str]:
    """An arrow into the space, through the face that one loads by."""
    box = _arrow_box(space)
    _, outward = AXIS_OF_FACE[space.face]
    outer, inner = (box.high, box.low) if outward > 0 else (box.low, box.high)
    start, end = paper.spot(eye.flat(outer)), paper.spot(eye.flat(inner))
    along = (end[0] - start[0], end[1] - start[1])
    length = hypot(*along)
    (x, y), (u, v) = end, (along[0] / length, along[1] / length)
    yield line(start, (x - 8 * u, y - 8 * v), "arrow-line")
    yield polygon([end, (x - 10 * u - 5 * v, y - 10 * v + 5 * u), (x - 10 * u + 5 * v, y - 10 * v - 5 * u)], "arrow")


def _numbers(eye: Eye, paper: Paper, now: Sequence[Shown]) -> Iterator[str]:
    """The number of each thing on it, or beside the drawing with a line to it."""
    boxes = [one.box for one in now]
    aside: list[tuple[str, Spot]] = []
    for one, box in zip(now, boxes, strict=True):
        at = label_spot(eye, paper, box, boxes, str(one.number))
        if at is not None:
            yield words(at, str(one.number), "number", NUMBER)
        else:
            aside.append((str(one.number), sight(eye, paper, box, boxes) or _middle(paper.spots(outline(eye, box)))))
    yield from _aside(paper, aside)


def _middle(corners: Sequence[Spot]) -> Spot:
    return (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))


def _aside(paper: Paper, labels: Sequence[tuple[str, Spot]]) -> Iterator[str]:
    width, height = paper.size
    places = spread([at[1] for _, at in labels], NUMBER * 1.25, NUMBER * 0.7, height - NUMBER * 0.7)
    for (text, at), y in zip(labels, places, strict=True):
        yield line(at, (width - 26, y), "leader")
        yield dot(at, DOT, "leader-end")
        yield words((width - 14, y), text, "number", NUMBER)
