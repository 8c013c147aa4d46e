"""The rules, one word each: the same word in the solver, the verifier, the tests and the docs."""

from enum import StrEnum


class Rule(StrEnum):
    """A rule that a lawful plan holds, in the order in which the docs tell them."""

    CARRIED = "carried"
    INSIDE = "inside"
    OVERLAP = "overlap"
    SUPPORT = "support"
    SPACE_MASS = "space_mass"
    RACK = "rack"
    GROSS_MASS = "gross_mass"
    AXLE = "axle"
    BALANCE = "balance"
    HAZARD = "hazard"
    SEGREGATION = "segregation"
    REACH = "reach"
    INCIDENT = "incident"
    RESTRAINT = "restraint"
    WEATHER = "weather"
    AVAILABLE = "available"
    APART = "apart"
    KIT = "kit"
    SPREAD = "spread"
    LOCK = "lock"
