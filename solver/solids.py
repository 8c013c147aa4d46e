"""What is built into a space as boxes that share no room, so that a base on two of them stands on no part twice."""

from collections.abc import Iterable

from solver.pieces import Six, meet


def disjoint(boxes: Iterable[Six]) -> tuple[Six, ...]:
    """Boxes that fill the same room and of which no two meet; those that met none stay as they are."""
    found: list[Six] = []
    for one in boxes:
        parts = [one]
        for other in found:
            parts = [rest for part in parts for rest in _without(part, other)]
        found += parts
    return tuple(found)


def _without(one: Six, other: Six) -> list[Six]:
    """What is left of a box beside another, then above and below it: whole columns first, as things stand on tops."""
    if not meet(one, other):
        return [one]
    found, low, high = [], list(one[:3]), list(one[3:])
    for axis in range(3):
        if low[axis] < other[axis]:
            found.append(_box(low, [*high[:axis], other[axis], *high[axis + 1 :]]))
            low[axis] = other[axis]
        if other[axis + 3] < high[axis]:
            found.append(_box([*low[:axis], other[axis + 3], *low[axis + 1 :]], high))
            high[axis] = other[axis + 3]
    return found


def _box(low: list[int], high: list[int]) -> Six:
    return (low[0], low[1], low[2], high[0], high[1], high[2])
