"""The rules as parts of the exact model, one module each, in the order of `models.rules.Rule`."""

from collections.abc import Callable

from solver.build import Build
from solver.rules import (
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

RULES: tuple[Callable[[Build], None], ...] = (
    carried.add,
    inside.add,
    overlap.add,
    support.add,
    space_mass.add,
    rack.add,
    gross_mass.add,
    axle.add,
    balance.add,
    hazard.add,
    segregation.add,
    reach.add,
    incident.add,
    restraint.add,
    weather.add,
    available.add,
    apart.add,
    kit.add,
    spread.add,
    lock.add,
)
"""Every rule of a lawful plan."""
