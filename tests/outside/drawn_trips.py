"""Small trips by chance, each with a plan that `check` takes and limits that it just meets.

Spaces with solids, slides, barriers and lids, and in a chest, are filled until little more goes in; what breaks a rule
is taken out again. Then limits are set to what the plan comes to. All that came along must come.
"""

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import dataclass, field
from itertools import product
from math import prod
from random import Random
from typing import Any

from models.case import Case
from models.geometry import TURNS
from models.plan import Plan
from models.reading import case_from
from tests.outside.conftest import Bench
from verifier import Verdict, check

CELL = 100
"""Everything lies on a grid of so many mm."""
TRIES = 14
"""So many boxes are tried in a space."""
LEAST = 6
"""So many things a trip has at least."""
EXACTLY_30_S = (("slowest", 3.8), ("slower", 11.9), ("slow", 14.3))
"""Openings one before the other; the machine adds them up to a little more than 30 s."""
Cell = tuple[int, int, int]
Space = dict[str, Any]
WANTED = ("seldom", "seldom", "seldom", "at_once", "each_stop", "each_camp")


@dataclass
class Drawn:
    """A trip drawn by chance, with a plan."""

    chance: Random
    bench: Bench = field(default_factory=Bench)
    fire: bool = False
    """Whether two things for a fire are free, so that others need not be."""

    def maybe(self, share: float) -> bool:
        return self.chance.random() < share

    def case(self) -> Case:
        trip = deepcopy(self.bench.trip)
        if not any("uses_up" in thing for thing in self.bench.things):
            for stage in trip["stages"]:
                del stage["left"]
        return case_from(self.bench.vehicle, self.bench.things, trip)

    def plan(self) -> Plan:
        return Plan.model_validate({"trip": "t", "placements": self.bench.places})

    def verdict(self) -> Verdict:
        return check(self.case(), self.plan())

    @property
    def spaces(self) -> list[Space]:
        found: list[Space] = self.bench.vehicle["spaces"]
        return found


def drawn(seed: int) -> Drawn:
    """A trip and a plan that holds, every limit met exactly."""
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    while True:
        made = Drawn(chance)
        verdict = _made(made)
        if len(made.bench.things) >= LEAST:
            _tighten(made, verdict)
            return made


def _made(made: Drawn) -> Verdict:
    """What a plan comes to that holds."""
    vehicle = made.bench.vehicle
    vehicle["air"]["cabin"] = "people"
    vehicle["seats"] = [{"name": "driver", "at_mm": [900, 380, 800], "back_top_z_mm": 1150}]
    vehicle["cargo_barrier"] = {"behind_seats": ["driver"], "rated_kg": 5000, "top_z_mm": 3000}
    names = [name for name, _ in EXACTLY_30_S]
    vehicle["openings"] += [
        {"name": name, "side": "rear", "seconds": seconds, "after": names[max(0, i - 1) : i]}
        for i, (name, seconds) in enumerate(EXACTLY_30_S)
    ]
    vehicle["openings"] += [{"name": "bolted", "side": "rear", "seconds": 400}]
    made.bench.trip["stages"] = [
        {"name": "go", "surface": "off_road", "left": {"food": 0.5}},
        {"name": "camp", "surface": "parked", "left": {"food": 0.0}},
    ]
    _against_fire(made)
    _spaces(made)
    for space in [*made.spaces]:
        _fill(made, space)
    return _mended(made)


def _spaces(made: Drawn) -> None:
    chance, x = made.chance, 1500
    for n in range(chance.randint(2, 4)):
        size = [CELL * chance.randint(2, 4), CELL * chance.randint(2, 3), CELL * chance.randint(2, 4)]
        more: dict[str, Any] = {"face": chance.choice(("top", "rear", "left"))}
        more["opening"] = chance.choice(("tailgate", "tailgate", EXACTLY_30_S[-1][0], "bolted"))
        if made.maybe(0.3):
            more["holds"] = "barrier"
        if made.maybe(0.3):
            solid = [CELL, CELL, CELL * chance.randint(1, size[2] // CELL - 1)]
            more["solid"] = [{"corner_mm": [x, -200, 500], "size_mm": solid}]
        made.bench.space(f"space {n}", [x, -200, 500], size, **more)
        if made.maybe(0.4):
            _chest(made, made.spaces[-1])
        x += size[0] + CELL
    for one, other in zip(made.spaces, made.spaces[1:], strict=False):
        plain = not one.get("inside_of") and not other.get("inside_of") and "solid" not in other
        if plain and other["face"] == "rear" and made.maybe(0.3):
            one["slides"] = {"to": "rear", "mm": 2 * CELL}


def _chest(made: Drawn, outer: Space) -> None:
    """A thing as large as a space, with one or two spaces of its own."""
    if "solid" in outer:
        return
    name, (x, y, z), size = f"chest of {outer['name']}", outer["corner_mm"], outer["size_mm"]
    outer["accepts"] = [name]
    made.bench.thing(name, made.chance.choice((4, 10.0005)), size, turns="fixed", holder=name)
    _put(made, name, outer, [x, y, z], size)
    parts = made.chance.randint(1, 2)
    for n in range(parts):
        corner, inner = [x + n * CELL, y, z], [CELL if parts == 2 else size[0], *size[1:]]
        face = made.chance.choice(("top", "rear"))
        made.bench.space(f"{n} in {outer['name']}", corner, inner, inside_of=name, face=face, opening=outer["opening"])


def _against_fire(made: Drawn) -> None:
    """At times one of what is for a fire at a belted seat and one from outside."""
    made.fire = made.maybe(0.5)
    if not made.fire:
        return
    size = [CELL] * 3
    near = {"air": "cabin", "opening": "door", "face": "top", "in_reach_when": ["belted driver"]}
    made.bench.space("at the seat", [700, 0, 500], size, accepts=["fire"], **near)
    made.bench.space("at the side", [900, -600, 500], size, accepts=["fire"], opening="left flap", face="left")
    for space in made.spaces:
        name = f"extinguisher {space['name']}"
        made.bench.thing(name, 2, size, needed_when=["fire"], holder="fire")
        _put(made, name, space, space["corner_mm"], size)


def _put(made: Drawn, name: str, space: Space, corner: Sequence[int], size: Sequence[int], **more: Any) -> None:
    place = {"thing": name, "space": space["name"], "corner_mm": [*corner], "size_mm": [*size], "turn": "lwh"}
    made.bench.places.append(place | more)


def _fill(made: Drawn, space: Space) -> None:
    if any(place["space"] == space["name"] for place in made.bench.places):
        return
    wide, deep, high = (side // CELL for side in space["size_mm"])
    taken: set[Cell] = set()
    for solid in space.get("solid", ()):
        along, across, up = (side // CELL for side in solid["size_mm"])
        taken |= set(product(range(along), range(across), range(up)))
    for _ in range(made.chance.randint(1, TRIES)):
        size: Cell = (made.chance.randint(1, 2), made.chance.randint(1, 2), made.chance.randint(1, 2))
        corners = list(product(range(high), range(wide), range(deep)))
        for z, x, y in corners:
            cells = {(x + a, y + b, z + c) for a, b, c in product(*map(range, size))}
            inside = x + size[0] <= wide and y + size[1] <= deep and z + size[2] <= high
            under = {(a, b, z - 1) for a, b, _ in cells}
            if inside and not cells & taken and (z == 0 or under <= taken):
                taken |= cells
                _add(made, space, (x, y, z), size)
                break


def _add(made: Drawn, space: Space, cell: Cell, cells: Cell) -> None:
    chance, name = made.chance, f"thing {len(made.bench.things):02}"
    corner = [low + CELL * at for low, at in zip(space["corner_mm"], cell, strict=True)]
    size = [CELL * side for side in cells]
    more: dict[str, Any] = {"access": chance.choice(WANTED)}
    more["needed_when"] = [word for word, share in (("fire", 0.3 * made.fire), ("injury", 0.05)) if made.maybe(share)]
    more["turns"] = chance.choice(("any", "upright", "fixed"))
    turn = chance.choice(TURNS[more["turns"]])
    listed = dict(zip(turn, size, strict=True))
    kg = chance.choice((1, 2, 5, 12, 18))
    if made.maybe(0.4):
        more["uses_up"] = {"food": chance.choice((0.001, kg))}
    if made.maybe(0.2):
        more["holder"] = name
        space.setdefault("accepts", []).append(name)
    if made.maybe(0.2) and more["turns"] != "any":
        more["air_gap_mm"] = {"top": chance.choice((20, CELL))}
    facing = {"facing": "rear" if turn == "lwh" else "left"} if "air_gap_mm" in more else {}
    made.bench.thing(name, kg, [listed[side] for side in "lwh"], **more)
    if not facing and made.maybe(0.15):
        _soften(made.bench.things[-1], size)
        turn = "lwh"
    _put(made, name, space, corner, size, turn=turn, **facing)


def _soften(thing: dict[str, Any], size: Sequence[int]) -> None:
    """Give a thing by the volume that it has where it lies, to the last cubic millimetre."""
    for key in ("size_mm", "turns"):
        thing.pop(key)
    thing |= {"shape": "soft", "volume_l": prod(size) / 1e6}


def _mended(made: Drawn) -> Verdict:
    """What the plan comes to once all that breaks a rule stays out of it."""
    for space in made.spaces:
        # What a space takes by a word it takes alone: all that lies there has the word.
        for place in made.bench.places if space.get("accepts") else ():
            if place["space"] == space["name"]:
                thing = next(one for one in made.bench.things if one["name"] == place["thing"])
                space["accepts"] = [*dict.fromkeys([*space["accepts"], thing.setdefault("holder", thing["name"])])]
    while True:
        verdict = made.verdict()
        broken = [one for one in verdict.findings if one.holds is not True]
        if not broken:
            return verdict
        names = [thing["name"] for thing in made.bench.things]
        to_blame = [name for name in names if any(name in f"{one.subject} {one.says}" for one in broken[:1])]
        _leave(made, made.chance.choice(to_blame or names))


def _leave(made: Drawn, gone: str) -> None:
    """Leave a thing out, with the spaces that are part of it and what lies there."""
    parts = {space["name"] for space in made.spaces if space.get("inside_of") == gone}
    with_it = {gone, *(place["thing"] for place in made.bench.places if place["space"] in parts)}
    made.bench.vehicle["spaces"] = [space for space in made.spaces if space["name"] not in parts]
    made.bench.things = [one for one in made.bench.things if one["name"] not in with_it]
    made.bench.places = [one for one in made.bench.places if one["thing"] not in with_it]


def _tighten(made: Drawn, verdict: Verdict) -> None:
    """Set limits to what the plan comes to, at times those of spaces, and keep some things where they are."""
    value = dict[str, float]()
    for one in verdict.findings:
        if one.unit == "kg" and one.value is not None:
            value[f"{one.rule} {one.subject}"] = max(value.get(f"{one.rule} {one.subject}", 0.0), one.value)
    made.bench.vehicle["limits"] |= {"gvm_kg": value["gross_mass total"], "rear_axle_kg": value["axle rear axle"]}
    for space in made.spaces:
        if f"space_mass {space['name']}" in value and made.maybe(0.5):
            space["limit_kg"] = value[f"space_mass {space['name']}"]
    held = [kg for name, kg in value.items() if name.startswith("restraint ")]
    made.bench.vehicle["cargo_barrier"]["rated_kg"] = max(held, default=1)
    locks = [{"thing": place["thing"], "in": place["space"]} for place in made.bench.places if made.maybe(0.3)]
    made.bench.trip["locks"] = locks
    assert made.verdict().holds is True
