"""General-purpose packing libraries of the registry, each behind one function: boxes into one space.

Each is optional: `pip install packingsolver3d==0.0.5 packer3d==0.5.1 py3dbp==1.1.2` in an environment of its own.
"""

import importlib
import importlib.util
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

Three = tuple[int, int, int]


class Box(NamedTuple):
    """A box to be packed; it may be turned in every way."""

    name: str
    size_mm: Three
    mass_g: int


class Put(NamedTuple):
    """Where a box was put: corner within the space, sides as it lies, in mm."""

    name: str
    corner_mm: Three
    size_mm: Three


Packer = Callable[[Sequence[Box], Three, int], list[Put]]
"""Boxes, size of the space in mm, what it bears in grams; boxes that found no place are left out."""


def with_packingsolver3d(boxes: Sequence[Box], room_mm: Three, limit_g: int, seconds: float = 1.0) -> list[Put]:
    """As much mass as it can, in so many seconds; it asks for no support."""
    lib: Any = importlib.import_module("packingsolver3d")
    x, y, z = room_mm
    items = [
        lib.ItemType(x=b.size_mm[0], y=b.size_mm[1], z=b.size_mm[2], profit=b.mass_g, weight=b.mass_g, copies=1,
                     rotations=lib.ALL_ROTATIONS)
        for b in boxes
    ]  # fmt: skip
    bins = [lib.BinType(x=x, y=y, z=z, maximum_weight=limit_g)]
    instance = lib.Instance(bin_types=bins, item_types=items, objective=lib.Objective.KNAPSACK)
    found = lib.box.solve(instance, time_limit=seconds)
    return [Put(boxes[p.item_type_id].name, (p.x, p.y, p.z), (p.lx, p.ly, p.lz)) for p in found.placements]


def with_packer3d(boxes: Sequence[Box], room_mm: Three, limit_g: int) -> list[Put]:
    """With its own rule of support: the floor, or the middle over contact."""
    packer: Any = importlib.import_module("packer3d").Packer()
    packer.add_box(id="room", width=room_mm[0], length=room_mm[1], height=room_mm[2], max_weight=limit_g, quantity=1)
    for b in boxes:
        x, y, z = b.size_mm
        packer.add_item(id=b.name, width=x, length=y, height=z, weight=b.mass_g, quantity=1, rotation="any")
    packer.set_options(support_mode="stable", time_limit_ms=1000)
    found = packer.pack()
    return [_from_centre(item) for used in found["bins"] for item in used["items"]]


def _from_centre(item: dict[str, Any]) -> Put:
    along, across = (item["length"], item["width"]) if item["angle"] % 180 else (item["width"], item["length"])
    corner = (round(item["x"] - along / 2), round(item["y"] - across / 2), round(item["z"]))
    return Put(item["id"], corner, (round(along), round(across), round(item["height"])))


def with_py3dbp(boxes: Sequence[Box], room_mm: Three, limit_g: int) -> list[Put]:
    """Bigger boxes first at pivots; it knows no support, and its third axis is taken as up."""
    lib: Any = importlib.import_module("py3dbp")
    packer = lib.Packer()
    packer.add_bin(lib.Bin("room", *room_mm, limit_g))
    for b in boxes:
        packer.add_item(lib.Item(b.name, *b.size_mm, b.mass_g))
    packer.pack(bigger_first=True)
    return [Put(i.name, _three(i.position), _three(i.get_dimension())) for used in packer.bins for i in used.items]


def _three(values: Sequence[Any]) -> Three:
    return (round(float(values[0])), round(float(values[1])), round(float(values[2])))


PACKERS: dict[str, tuple[str, Packer]] = {
    "packingsolver3d 0.0.5, 1 s a space": ("packingsolver3d", with_packingsolver3d),
    "packer3d 0.5.1, stable": ("packer3d", with_packer3d),
    "py3dbp 1.1.2": ("py3dbp", with_py3dbp),
}
"""Name for the table, module and function of each library."""


def there(module: str) -> bool:
    """Whether a library is installed."""
    return importlib.util.find_spec(module) is not None
