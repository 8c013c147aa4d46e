"""What is dangerous aboard, where it rides, and how well it is kept."""

from dataclasses import dataclass

from models.case import Copy
from report.sheet.asked import Asked

AIR = {
    "people": "air that people breathe",
    "sealed": "a closed room",
    "vented": "a vented room",
    "locker": "a vented locker",
    "open": "open air",
}
"""What a person calls a kind of air."""


@dataclass(frozen=True)
class Danger:
    """A carried copy with a hazard word."""

    number: int
    name: str
    what: str
    un_class: str | None
    space: str
    letter: str
    air: str
    source: str


def dangers(asked: Asked) -> tuple[Danger, ...]:
    """List what burns, gasses, poisons or corrodes, with the place and the source of the rule for it."""
    found = (
        copy for copy, _ in asked.located() if asked.case.thing_named[copy.thing].hazard in asked.case.rulebook.hazards
    )
    return tuple(_danger(asked, copy) for copy in found)


def _danger(asked: Asked, copy: Copy) -> Danger:
    case = asked.case
    hazard = case.rulebook.hazards[case.thing_named[copy.thing].hazard or ""]
    space = case.space_named[asked.placed[copy].space]
    return Danger(
        number=asked.number[copy],
        name=case.called(copy),
        what=hazard.words,
        un_class=hazard.un_class,
        space=space.name,
        letter=asked.scene.letter[space.name],
        air=AIR.get(case.vehicle.air.get(space.air, ""), "unknown air"),
        source=hazard.source,
    )
