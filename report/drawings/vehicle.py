"""The laden vehicle from a side: spaces by letter, things by number, the centre of gravity empty and laden."""

from collections.abc import Iterator, Sequence

from report.drawings.body import axle_lines, body, outline_box, scale_bar
from report.drawings.frames import ABOVE, BEHIND, Frame, View, depth, extent
from report.drawings.gravity import Centres, cross_rects, crosses
from report.drawings.labels import Rect, around, clear, inside, spread
from report.drawings.marks import hatched
from report.drawings.scene import Scene, Shown, space_box
from report.drawings.svg import Picture, dot, line, rectangle, words

WIDTH = 700.0
BEHIND_WIDTH = 480.0
"""Width of a picture in its own units; a page shows a unit as a pixel or less."""
LETTER, NUMBER, WORD = 19.0, 14.0, 15.0
"""Sizes of text: letters of spaces, numbers of things, words."""
STRIP = 58.0
"""Room above and below the vehicle for the letters and their lines."""


def vehicle_picture(scene: Scene, view: View, centres: Centres) -> Picture:
    """Draw the vehicle with all it carries, seen straight from a side."""
    frame, (width, height) = _frame(scene, view)
    parts = (
        *body(scene.case.vehicle, frame),
        *_walls(scene, frame),
        *_things(scene, frame),
        *crosses(frame, centres),
        *_lettered(scene, frame, width, height),
        *_all_numbers(scene, frame, cross_rects(frame, centres)),
        *axle_lines(scene.case.vehicle, frame, height - 12, WORD),
        *_side(view, height),
        *scale_bar(frame, (_bar_left(scene, frame, width), height - 12), WORD),
    )
    title = f"The laden vehicle {view.name}"
    return Picture(f"view-{view.key}", title, _told(scene, view), (width, height), parts, frame.mm_per_unit)


def _frame(scene: Scene, view: View) -> tuple[Frame, tuple[float, float]]:
    boxes = [outline_box(scene.case.vehicle), *scene.boxes()]
    (left, right), (low, high) = extent(boxes, view.across), extent(boxes, view.up)
    width = BEHIND_WIDTH if view == BEHIND else WIDTH
    margin = 24.0
    scale = (right - left) / (width - 2 * margin)
    height = (high - low) / scale + 2 * STRIP + 24
    return Frame(view, left, high, scale, (margin, STRIP)), (width, height)


def _bar_left(scene: Scene, frame: Frame, width: float) -> float:
    """Where the scale begins: between the axles' names, or at the right where there are none."""
    if frame.view == BEHIND:
        return width - frame.units(1000) - 40
    return frame.spot((scene.case.vehicle.wheelbase_mm / 2 - 700, 0, 0))[0]


def _walls(scene: Scene, frame: Frame) -> Iterator[str]:
    for space in scene.spaces:
        left, top, right, bottom = frame.rect(space_box(space))
        kind = "space" if scene.within(space.name) else "space empty"
        yield rectangle((left, top), (right - left, bottom - top), class_=kind, data_space=space.name)


def _far_first(scene: Scene, frame: Frame) -> list[Shown]:
    """Far things before near ones; what holds a space of its own before what is in it."""
    return sorted(scene.things, key=lambda one: (one.copy.thing not in scene.hosts, depth(frame.view, one.box)))


def _things(scene: Scene, frame: Frame) -> Iterator[str]:
    for one in _far_first(scene, frame):
        left, top, right, bottom = frame.rect(one.box)
        yield rectangle(
            (left, top), (right - left, bottom - top), class_=hatched(one.marks), rx=4 if one.soft else 0,
            data_number=str(one.number),
        )  # fmt: skip


def _all_numbers(scene: Scene, frame: Frame, taken: Sequence[Rect]) -> Iterator[str]:
    far_first = _far_first(scene, frame)
    rects = [frame.rect(one.box) for one in far_first]
    for n, one in enumerate(far_first):
        yield from _numbered(one, rects[n], [*rects[n + 1 :], *taken])


def _numbered(one: Shown, rect: Rect, nearer: Sequence[Rect]) -> Iterator[str]:
    """The number of a thing where there is room for it that nothing nearer hides."""
    text = str(one.number)
    for share_x, share_y in ((0.5, 0.5), (0.5, 0.25), (0.5, 0.75), (0.25, 0.5), (0.75, 0.5)):
        at = (rect[0] + share_x * (rect[2] - rect[0]), rect[1] + share_y * (rect[3] - rect[1]))
        room = around(*at, text, NUMBER)
        if inside(room, rect) and clear(room, nearer):
            yield words(at, text, "number", NUMBER)
            return


def _lettered(scene: Scene, frame: Frame, width: float, height: float) -> Iterator[str]:
    """The letter of every space above or below the vehicle, with a line to the edge of the space."""
    rects = [(scene.letter[space.name], frame.rect(space_box(space))) for space in scene.spaces]
    by_height = sorted(rects, key=lambda one: one[1][1] + one[1][3])
    half = (len(by_height) + 1) // 2
    for row, y, edge in ((by_height[:half], LETTER * 0.7, 1), (by_height[half:], height - 24 - LETTER * 0.7, 3)):
        places = spread([(r[0] + r[2]) / 2 for _, r in row], LETTER * 1.6, LETTER, width - LETTER)
        for (letter, rect), x in zip(row, places, strict=True):
            inset = min(5.0, (rect[2] - rect[0]) / 3)
            end = (min(max(x, rect[0] + inset), rect[2] - inset), rect[edge])
            yield line((x, y + (LETTER * 0.6 if edge == 1 else -LETTER * 0.6)), end, "leader")
            yield dot(end, 2.4, "leader-end")
            yield words((x, y), letter, "letter", LETTER)


def _side(view: View, height: float) -> Iterator[str]:
    """Which side of the vehicle lies where, beside its front corner from above and at the foot from behind."""
    if view == ABOVE:
        yield words((4, STRIP - 10), "right side", "word", WORD, "start")
    elif view == BEHIND:
        yield words((4, height - 12), "left side", "word", WORD, "start")


def _told(scene: Scene, view: View) -> str:
    held = [s for s in scene.spaces if scene.within(s.name)]
    spaces = "; ".join(
        f"{scene.letter[s.name]} {s.name}: {', '.join(str(one.number) for one in scene.within(s.name))}" for s in held
    )
    left = "the left side" if view == BEHIND else "the front"
    return f"To scale, seen {view.name}, {left} to the left. By space, the numbers of the loading order: {spaces}."
