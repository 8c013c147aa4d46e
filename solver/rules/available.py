"""available: a seat with a person in it, and a space closed at a stage, hold nothing then."""

from models.rules import Rule
from solver.build import Build
from solver.exclusions import exclude


def add(build: Build) -> None:
    """Keep out of taken seats and closed spaces."""
    exclude(build, Rule.AVAILABLE)
