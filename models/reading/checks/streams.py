"""Litres of a fluid in tanks and cans never rise between stages but by what was taken on."""

from collections.abc import Iterable, Iterator

from models.gear import Thing
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.stages import tank_litres
from models.trip import Stage

ROUNDING_L = 0.05
"""Litres by which figures that people round may disagree: masses with three decimals over a few cans, and levels."""


def litres(draft: Draft) -> Iterator[Fault]:
    """Every fluid from stage to stage, with the musts alone and with everything aboard."""
    book = draft.rulebook
    if book is None or not draft.gear_complete or draft.trip is None or draft.vehicle is None:
        return
    stages = draft.stages
    if len(stages) != len(draft.names("stages") or ()):
        return  # a stage is faulty: the steps cannot be compared
    for fluid, density in book.fluids_kg_per_l.items():
        for things in ((t.part for t in draft.things if t.part.must), (t.part for t in draft.things)):
            found = list(_rises(draft, fluid, density.value, list(things), stages))
            yield from found
            if found:
                break


def _rises(
    draft: Draft, fluid: str, density: float, things: list[Thing], stages: tuple[Entry[Stage], ...]
) -> Iterator[Fault]:
    before: float | None = None
    for stage in stages:
        now = _in_tanks(draft, fluid, stage.part) + _in_cans(draft, fluid, density, things, stage.part)
        taken = stage.part.taken_on_l.get(fluid, 0.0)
        if before is not None and now > before + taken + ROUNDING_L:
            cans = "cans that must come" if _may_stay(draft, fluid, things) else "cans"
            found = f"{now:.1f} litres of {fluid} in tanks and {cans} at {shown(stage.part.name)}"
            more = f" and {taken:g} taken on" if taken else ""
            allowed = f"at most the {before:.1f} litres of the stage before{more}"
            key = "tanks" if stage.part.tanks else "name"
            hint = "what a stage does not name counts as full; `taken_on_l` says what was filled up"
            yield stage.fault(key, found, allowed, hint)
        before = now


def _may_stay(draft: Draft, fluid: str, things: Iterable[Thing]) -> bool:
    """Whether cans of a fluid are not among some things, as they may stay at home."""
    names = {name for name, stream in draft.streams.items() if stream.fluid == fluid}
    others = (thing.part for thing in draft.things if thing.part not in things)
    return any(not names.isdisjoint((*thing.uses_up, *thing.fills)) for thing in others)


def _in_tanks(draft: Draft, fluid: str, stage: Stage) -> float:
    return tank_litres((tank.part for tank in draft.tanks if tank.part.fluid == fluid), stage)


def _in_cans(draft: Draft, fluid: str, density: float, things: Iterable[Thing], stage: Stage) -> float:
    names = {name for name, stream in draft.streams.items() if stream.fluid == fluid}
    return sum(
        thing.count * kg * share / density
        for thing in things
        for streams, levels, default in ((thing.uses_up, stage.left, 1.0), (thing.fills, stage.filled, 0.0))
        for name, kg in streams.items()
        if name in names and density > 0
        for share in (levels.get(name, default),)
    )
