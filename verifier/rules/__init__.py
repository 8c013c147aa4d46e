"""The rules, one module each, in the order of `models.rules.Rule`."""

from collections.abc import Callable, Iterator

from verifier.finding import Finding
from verifier.layout import Layout
from verifier.rules import (
    apart,
    available,
    axle,
    balance,
    carried,
    gross_mass,
    hazard,
    incident,
    inside,
    kit,
    lock,
    overlap,
    rack,
    reach,
    restraint,
    segregation,
    space_mass,
    spread,
    support,
    weather,
)

RULES: tuple[Callable[[Layout], Iterator[Finding]], ...] = (
    carried.find,
    inside.find,
    overlap.find,
    support.find,
    space_mass.find,
    rack.find,
    gross_mass.find,
    axle.find,
    balance.find,
    hazard.find,
    segregation.find,
    reach.find,
    incident.find,
    restraint.find,
    weather.find,
    available.find,
    apart.find,
    kit.find,
    spread.find,
    lock.find,
)
"""Every rule of a lawful plan; each gives at least one finding."""
