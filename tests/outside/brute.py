"""One space packed by trying everything on a grid, with nothing of ours but the rule in words.

A box stands on the floor or on tops level with its bottom: at least 70 % of its base in contact, and the middle of its
base over contact. Boxes are laid from the bottom up, so that what bears a box is there before it; those that stand
equally high bear each other in no order, and are laid in the one of their numbers.
"""

from collections.abc import Iterator
from itertools import permutations
from typing import NamedTuple

Three = tuple[int, int, int]


class Laid(NamedTuple):
    """A box on the grid: least corner and sides in cells."""

    at: Three
    size: Three


def turns(size: Three, upright: bool) -> set[Three]:
    """The sides of a box in each way it may be turned."""
    return {(a, b, c) for a, b, c in permutations(size) if not upright or c == size[2]}


def stands(box: Laid, laid: list[Laid]) -> bool:
    """Whether a box is held up by the floor or by what is already laid."""
    (x, y, z), (a, b, _) = box
    if z == 0:
        return True
    under = [other for other in laid if other.at[2] + other.size[2] == z]
    cells = {
        (i, j) for o in under for i in range(o.at[0], o.at[0] + o.size[0]) for j in range(o.at[1], o.at[1] + o.size[1])
    }
    contact = [(i, j) for i in range(x, x + a) for j in range(y, y + b) if (i, j) in cells]
    if 10 * len(contact) < 7 * a * b:
        return False
    mx, my = 2 * x + a, 2 * y + b
    return any(2 * i <= mx <= 2 * i + 2 and 2 * j <= my <= 2 * j + 2 for i, j in contact)


def _free(box: Laid, laid: list[Laid]) -> bool:
    return not any(
        all(box.at[k] < o.at[k] + o.size[k] and o.at[k] < box.at[k] + box.size[k] for k in range(3)) for o in laid
    )


def _places(size: Three, upright: bool, room: Three, least_z: int) -> Iterator[Laid]:
    for sides in sorted(turns(size, upright)):
        for z in range(least_z, room[2] - sides[2] + 1):
            for x in range(room[0] - sides[0] + 1):
                for y in range(room[1] - sides[1] + 1):
                    yield Laid((x, y, z), sides)


def lowest(boxes: list[tuple[Three, bool, float]], room: Three) -> float | None:
    """Least Σ mass · height of the middle, in kg·cells; None where the boxes do not go in.

    `boxes`: sides, whether the top stays up, mass in kg.
    """
    least = [min(turned[2] for turned in turns(size, up)) * kg / 2 for size, up, kg in boxes]
    best: list[float | None] = [None]

    def lay(left: tuple[int, ...], laid: list[Laid], last: int, so_far: float) -> None:
        if best[0] is not None and so_far + sum(least[i] for i in left) >= best[0] - 1e-9:
            return
        if not left:
            best[0] = so_far
            return
        floor = laid[-1].at[2] if laid else 0
        for i in left:
            size, up, kg = boxes[i]
            rest = tuple(j for j in left if j != i)
            least_left = so_far + sum(least[j] for j in rest)
            for box in _places(size, up, room, floor if i > last else floor + 1):
                moment = kg * (box.at[2] + box.size[2] / 2)
                if best[0] is not None and least_left + moment >= best[0] - 1e-9:
                    continue
                if _free(box, laid) and stands(box, laid):
                    lay(rest, [*laid, box], i, so_far + moment)

    lay(tuple(range(len(boxes))), [], -1, 0.0)
    return best[0]
