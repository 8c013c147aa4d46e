"""The order of loading, with what asks for care, and who can work beside whom."""

from collections.abc import Iterator
from dataclasses import dataclass

from models.case import Case
from models.stages import towing
from packing import LoadStep, shut_by_trailer
from packing.steps import loaded_kg, opened_in_order
from packing.together import Turn
from report.advice_words import by_zones, for_one, lifted_by, recommended, way_out
from report.figures import kilograms, whole
from report.sheet.asked import Asked
from report.terminal.moves import keeps_shut


@dataclass(frozen=True)
class Item:
    """One copy goes in."""

    number: int
    name: str
    kg: str
    """As it is loaded: at the first stage at which it is there."""
    marks: tuple[str, ...]
    on: str
    """What it stands on."""
    care: tuple[str, ...]
    """What lifting it asks for, in words."""


@dataclass(frozen=True)
class Work:
    """What one packer does in one space."""

    packer: str
    space: str
    letter: str
    through: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class Alone:
    """One copy that takes more than one person."""

    number: int
    name: str
    space: str
    kg: str
    """At its heaviest stage."""
    recommended: str
    zones: str
    """The second opinion, for the weaker and the stronger."""
    helps: str


@dataclass(frozen=True)
class Loading:
    """The whole order, or one packer's part of it."""

    rounds: tuple[tuple[Work, ...], ...]
    """Of each round, what is worked at the same time; a round without work of this packer is empty."""
    tangle: str | None
    """Why there is no order; None: there is one."""
    trailer: str | None
    """That the trailer, on at the first stage, keeps openings shut; None: it does not."""
    nothing: str | None
    """That nothing comes along of what this packer packs. None: something does, or the sheet is the whole one."""
    budget: tuple[str, ...]
    """How much each packer loads."""
    lifting: str
    """The figures behind the warnings, with their source."""
    alone: tuple[Alone, ...]
    """What takes more than one person, most over what is recommended for one first."""
    recommending: str
    """What is recommended, with its source."""


def loading(asked: Asked) -> Loading:
    """Tell the order in which everything goes in."""
    found = tuple(
        tuple(work for work in (_work(asked, turn) for turn in turns) if work.items) for turns in asked.rounds
    )
    tangle = None if asked.tangle is None else str(asked.tangle)
    lifting = _lifting(asked.case), tuple(_alone(asked)), _recommending(asked.case)
    return Loading(found, tangle, _trailer(asked), _nothing(asked), _budget(asked), *lifting)


def _trailer(asked: Asked) -> str | None:
    stages = asked.case.trip.stages
    if not stages or not towing(asked.case.trip, stages[0]):
        return None
    spaces = dict.fromkeys(step.space for step in asked.steps if asked.mine(step.copy))
    shut = shut_by_trailer(asked.case, spaces)
    return f"Load before the trailer is on: {keeps_shut(shut)}." if shut else None


def _nothing(asked: Asked) -> str | None:
    if asked.packer is None or any(asked.mine(copy) for copy in asked.placed):
        return None
    return f"Nothing that {asked.packer} packs comes along."


def _work(asked: Asked, turn: Turn) -> Work:
    space = asked.case.space_named[turn.space]
    return Work(
        packer=turn.packer or "anybody",
        space=space.name,
        letter=asked.scene.letter[space.name],
        through=", then ".join(opened_in_order(asked.case, space.opening)),
        items=tuple(_item(asked, step) for step in turn.steps if asked.mine(step.copy)),
    )


def _item(asked: Asked, step: LoadStep) -> Item:
    on = ", ".join(f"{asked.number[other]} {asked.case.called(other)}" for other in step.rests_on)
    return Item(
        number=asked.number[step.copy],
        name=asked.case.called(step.copy),
        kg=kilograms(loaded_kg(asked.case, asked.case.thing_named[step.copy.thing], "most")),
        marks=tuple(mark.word for mark in asked.marks[step.copy]),
        on=on or "the floor",
        care=tuple(_care(asked, step)),
    )


def _care(asked: Asked, step: LoadStep) -> Iterator[str]:
    lifts, alone = asked.case.rulebook.handling, asked.too_heavy.get(step.copy)
    if step.two_person or step.heavy:
        yield lifted_by(step.people, lifts.single_person_kg)
    elif alone is not None:
        yield f"for one: {recommended(alone)}"
    if step.above_shoulder:
        yield f"heavy above the shoulder ({lifts.shoulder_mm:.0f} mm): do not lift it there alone"


def _alone(asked: Asked) -> Iterator[Alone]:
    for copy, one in asked.too_heavy.items():
        if asked.mine(copy) and copy in asked.number:
            kg, what = kilograms(one.kg), for_one(one)
            yield Alone(asked.number[copy], one.name, one.space, kg, what, by_zones(one), way_out(one))


def _budget(asked: Asked) -> tuple[str, ...]:
    sums: dict[str, float] = {}
    for step in asked.steps:
        if asked.mine(step.copy):
            name = step.packer or "anybody"
            thing = asked.case.thing_named[step.copy.thing]
            sums[name] = sums.get(name, 0.0) + loaded_kg(asked.case, thing, "likely")
    return tuple(f"{name} {whole(kg)} kg" for name, kg in sorted(sums.items()))


def _lifting(case: Case) -> str:
    lifts = case.rulebook.handling
    return (
        f"Two people lift what weighs more than {lifts.single_person_kg:g} kg or is marked so; more people, each with "
        f"as much, or a hoist what weighs more than {2 * lifts.single_person_kg:g} kg. More than "
        f"{lifts.above_shoulder_kg:g} kg above {lifts.shoulder_mm:.0f} mm is warned of. Source: {lifts.source}."
    )


def _recommending(case: Case) -> str:
    return (
        "Recommended for one person who lifts it from the ground to where it goes, by the NIOSH lifting equation; "
        "beside it what HSE's zones give, less for turning. Advice and no limit: local practice comes first. "
        f"Source: {case.rulebook.lifting.source}."
    )
