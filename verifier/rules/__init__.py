"""The rules, one module each: what each finds, by its word."""

from collections.abc import Callable, Iterator

from models.rules import Rule
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

Find = Callable[[Layout], Iterator[Finding]]
"""What a rule finds of a layout, at least one finding."""

FIND: dict[Rule, Find] = {
    Rule.CARRIED: carried.find,
    Rule.INSIDE: inside.find,
    Rule.OVERLAP: overlap.find,
    Rule.SUPPORT: support.find,
    Rule.SPACE_MASS: space_mass.find,
    Rule.RACK: rack.find,
    Rule.GROSS_MASS: gross_mass.find,
    Rule.AXLE: axle.find,
    Rule.BALANCE: balance.find,
    Rule.HAZARD: hazard.find,
    Rule.SEGREGATION: segregation.find,
    Rule.REACH: reach.find,
    Rule.INCIDENT: incident.find,
    Rule.RESTRAINT: restraint.find,
    Rule.WEATHER: weather.find,
    Rule.AVAILABLE: available.find,
    Rule.APART: apart.find,
    Rule.KIT: kit.find,
    Rule.SPREAD: spread.find,
    Rule.LOCK: lock.find,
}
"""Every rule of a lawful plan, in the order in which the docs tell them."""
