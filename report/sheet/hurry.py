"""In a hurry: for each incident what is where, and what can still be reached with an opening stuck."""

from dataclasses import dataclass
from math import inf

from models.case import Copy
from models.rules import Rule
from models.stages import tent_up, towed
from packing.digging import chain_seconds
from report.sheet.asked import Asked
from report.sheet.where import Place, place

INCIDENTS = {
    "fire": "Fire",
    "rolled over": "Rolled over",
    "bogged": "Bogged",
    "injury": "Injury",
    "roadside at night": "Roadside at night",
}
"""Incidents in the order in which they are told."""

CONDITIONS = {
    "tail blocked": "tail blocked",
    "sills down": "sills down",
    "on left side": "on its left side",
    "on right side": "on its right side",
}
"""States of the vehicle in which openings are stuck, as people say them; a tent stands only where the trip has it."""


@dataclass(frozen=True)
class Needed:
    """A thing that is needed in a hurry."""

    place: Place
    still: tuple[tuple[str, bool], ...]
    """For each state of the vehicle whether its openings still open."""


@dataclass(frozen=True)
class Incident:
    """One incident with what it needs."""

    name: str
    holds: bool
    says: tuple[str, ...]
    """What is wrong; empty where all is well."""
    things: tuple[Needed, ...]

    @property
    def word(self) -> str:
        """What the rule says of them (of a fire two are enough), the same on the page and in the terminal."""
        return "in reach" if self.holds else "NOT ALL IN REACH"


@dataclass(frozen=True)
class Hurry:
    """All incidents that something is carried for."""

    incidents: tuple[Incident, ...]
    conditions: tuple[str, ...]
    hitched: bool
    """Whether every answer also holds with the trailer on."""
    nothing_for: tuple[str, ...]
    """Incidents that nothing aboard is marked for."""


def hurry(asked: Asked) -> Hurry:
    """Tell what must be reached in a hurry, against each incident."""
    found = tuple(_incident(asked, need) for need in INCIDENTS)
    return Hurry(
        incidents=tuple(one for one in found if one.things),
        conditions=tuple(_conditions(asked).values()),
        hitched=towed(asked.case.trip),
        nothing_for=tuple(one.name.lower() for one in found if not one.things),
    )


def _conditions(asked: Asked) -> dict[str, str]:
    """The states that the table has columns for, as people say them."""
    return CONDITIONS | ({"tent up": "tent up"} if tent_up(asked.case.trip) else {})


def _incident(asked: Asked, need: str) -> Incident:
    wanted = [copy for copy in asked.placed if need in asked.case.thing_named[copy.thing].needed_when]
    subjects = {"fire"} if need == "fire" else {f"{asked.case.called(copy)}, {need}" for copy in wanted}
    findings = [one for one in asked.verdict.findings if one.rule == Rule.INCIDENT and one.subject in subjects]
    broken = tuple(one.says for one in findings if not one.holds)
    things = sorted((_needed(asked, copy) for copy in wanted), key=lambda one: one.place.name.casefold())
    return Incident(INCIDENTS[need], not broken, broken, tuple(things))


def _needed(asked: Asked, copy: Copy) -> Needed:
    opening = asked.case.space_named[asked.placed[copy].space].opening
    also = {"trailer on"} if towed(asked.case.trip) else set()
    still = (
        (told, chain_seconds(asked.case, opening, frozenset({condition, *also})) < inf)
        for condition, told in _conditions(asked).items()
    )
    return Needed(place(asked, copy), tuple(still))
