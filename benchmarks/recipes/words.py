"""Recipes about what things are: hazard, segregation, weather, available."""

from random import Random
from typing import Any

from benchmarks.recipes.spoil import (
    Base,
    Recipe,
    Spoiled,
    any_placed,
    name_of,
    pairs_in_one_space,
    pairs_in_two_spaces,
    space_of,
    thing_of,
    with_part,
    with_thing,
    with_things,
    with_trip,
)
from models.case import Case
from models.gear import FOOD, Thing
from models.plan import Placement
from models.rules import Rule
from models.stages import present


def harmless(case: Case) -> Case:
    """A case in which nothing is dangerous, food, bedding or clothes."""
    plain = {"hazard": None, "food": False, "clothes": False, "suits": (), "holds_l": None, "net_kg": None}
    return with_things(case, lambda thing: {**plain, "uses_up": _uneaten(thing)})


def _uneaten(thing: Thing) -> dict[str, float]:
    return {name: kg for name, kg in thing.uses_up.items() if name.casefold() != FOOD}


def in_forbidden_air(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A thing is something that its air may hold, or may not."""
    one = any_placed(base, chance)
    if one is None:
        return None
    space = space_of(base, one)
    kind, hazards = base.case.vehicle.air[space.air], base.case.rulebook.hazards
    words = [w for w, h in hazards.items() if (kind not in h.air) == beyond]
    if not beyond:
        plain = [w for w in words if not (hazards[w].in_holder or hazards[w].not_hot or hazards[w].upright)]
        words = [w for w in plain if not hazards[w].approved_can]
    if not words:
        return None
    word = chance.choice(words)
    case = with_thing(harmless(base.case), one.thing, hazard=word, holds_l=0.0, net_kg=0.0)
    return Spoiled(case, base.plan, Rule.HAZARD, name_of(base, one))


def too_much_in_all(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """The vehicle carries as much of something as it may, or a thousandth more."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).count == 1)
    totals = {w: h.totals for w, h in base.case.rulebook.hazards.items()}
    bounds = [(w, "holds_l", t.total_l) for w, t in totals.items() if t.total_l is not None]
    bounds += [(w, "net_kg", t.total_kg) for w, t in totals.items() if t.total_kg is not None]
    if one is None or not bounds:
        return None
    word, kind, limit = chance.choice(bounds)
    amount: dict[str, Any] = {"holds_l": 0.0, "net_kg": 0.0, kind: limit + 0.001 * beyond}
    case = with_thing(harmless(base.case), one.thing, hazard=word, **amount)
    return Spoiled(case, base.plan, Rule.HAZARD, word)


def too_much_in_one_air(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """One air holds as much of something as it may, or a thousandth more."""
    one = any_placed(base, chance, lambda p: thing_of(base, p).count == 1)
    if one is None:
        return None
    air = space_of(base, one).air
    kind = base.case.vehicle.air[air]
    ups = {w: h.air[kind] for w, h in base.case.rulebook.hazards.items() if kind in h.air}
    bounds = [(w, "holds_l", up.up_to_l) for w, up in ups.items() if up.up_to_l is not None]
    bounds += [(w, "net_kg", up.up_to_kg) for w, up in ups.items() if up.up_to_kg is not None]
    if not bounds:
        return None
    word, what, limit = chance.choice(bounds)
    amount: dict[str, Any] = {"holds_l": 0.0, "net_kg": 0.0, what: limit + 0.001 * beyond}
    case = with_thing(harmless(base.case), one.thing, hazard=word, **amount)
    return Spoiled(case, base.plan, Rule.HAZARD, f"{word} in {air}")


def _is(word: str) -> dict[str, Any]:
    if word in ("food", "clothes"):
        return {word: True}
    return {"suits": ("bedding",)} if word == "bedding" else {"hazard": word}


def _in_one_locker(base: Base, one: Placement, other: Placement) -> bool:
    airs = {space_of(base, one).air, space_of(base, other).air}
    return len(airs) == 1 and base.case.vehicle.air[airs.pop()] == "locker"


def side_by_side(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Two things that must be apart are in one space, or in two where a space between is enough."""
    pairs = pairs_in_one_space(base) if beyond else pairs_in_two_spaces(base)
    pairs = [pair for pair in pairs if beyond or not _in_one_locker(base, *pair)]
    levels: dict[tuple[str, str], set[str]] = {}
    for rule in base.case.rulebook.segregation:
        for pair in rule.pairs:
            levels.setdefault(pair, set()).add(rule.level)
    words = [between for between, found in levels.items() if beyond or found == {"space"}]
    if not pairs or not words:
        return None
    (one, other), (a, b) = chance.choice(pairs), chance.choice(words)
    case = with_thing(with_thing(harmless(base.case), one.thing, **_is(a)), other.thing, **_is(b))
    return Spoiled(case, base.plan, Rule.SEGREGATION, f"{one.thing} and {other.thing}")


def only_a_wall_between(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """Two things with a wall to keep between them are in spaces 51 mm apart, or 50 mm."""
    pairs = pairs_in_two_spaces(base)
    book = base.case.rulebook
    walls = [pair for rule in book.segregation if rule.level == "wall" for pair in rule.pairs]
    other_levels = [pair for rule in book.segregation if rule.level != "wall" for pair in rule.pairs]
    words = [between for between in walls if between not in other_levels]
    if not pairs or not words:
        return None
    (one, other), (a, b) = chance.choice(pairs), chance.choice(words)
    first, second = space_of(base, one), space_of(base, other)
    axis = chance.randrange(3)
    corner = list(first.corner_mm)
    corner[axis] += first.size_mm[axis] + 51 - beyond
    case = with_thing(with_thing(harmless(base.case), one.thing, **_is(a)), other.thing, **_is(b))
    for space, at in ((first, first.corner_mm), (second, tuple(corner))):
        case = with_part(case, "spaces", space.name, corner_mm=at, solid_wall_between=())
    return Spoiled(case, base.plan, Rule.SEGREGATION, f"{one.thing} and {other.thing}")


def below_the_water(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """An electrical thing stands at the wading line, or 1 mm below it."""
    one = any_placed(base, chance, lambda p: p.corner_mm[2] > 1)
    if one is None:
        return None
    case = with_thing(base.case, one.thing, electrical=True)
    vehicle = case.vehicle.model_copy(update={"wading_line_mm": one.corner_mm[2] + beyond})
    case = case.__class__(vehicle=vehicle, things=case.things, trip=case.trip, rulebook=case.rulebook)
    return Spoiled(case, base.plan, Rule.WEATHER, name_of(base, one))


def too_wet_or_too_hot(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A space is as wet and as hot as a thing tolerates, or a step more."""
    one = any_placed(base, chance)
    if one is None:
        return None
    wet = chance.choice([("dry", "dry", "splash"), ("splash", "splash", "exposed")])
    warm = chance.choice([("cool", "cool", "cabin"), ("cabin", "cabin", "hot")])
    by_water = chance.random() < 0.5
    case = with_thing(base.case, one.thing, weather=wet[0], keep=warm[0], wet=False)
    case = with_things(case, lambda thing: {"wet": False})  # noqa: ARG005
    case = with_part(case, "spaces", one.space, weather=wet[1 + (beyond and by_water)],
                     heat=warm[1 + (beyond and not by_water)])  # fmt: skip
    return Spoiled(case, base.plan, Rule.WEATHER, name_of(base, one))


def in_a_closed_space(base: Base, chance: Random, beyond: bool) -> Spoiled | None:
    """A space is closed at a stage with a thing in it, or another one is."""
    number = chance.randrange(len(base.case.trip.stages))
    stage = base.case.trip.stages[number]
    one = any_placed(base, chance, lambda p: present(thing_of(base, p), stage))
    others = [space.name for space in base.case.vehicle.spaces if one is None or space.name != one.space]
    if one is None or not others:
        return None
    closed = stage.model_copy(update={"closed": (one.space if beyond else chance.choice(others),)})
    stages = (*base.case.trip.stages[:number], closed, *base.case.trip.stages[number + 1 :])
    return Spoiled(with_trip(base.case, stages=stages), base.plan, Rule.AVAILABLE, name_of(base, one))


WORDS: tuple[Recipe, ...] = (
    in_forbidden_air, too_much_in_all, too_much_in_one_air, side_by_side, only_a_wall_between,
    below_the_water, too_wet_or_too_hot, in_a_closed_space,
)  # fmt: skip
