"""segregation: pairs of the rule book share no space, no air or no wall."""

from models.rules import Rule
from solver.build import Build
from solver.exclusions import separate


def add(build: Build) -> None:
    """Keep the pairs of the rule book apart."""
    separate(build, Rule.SEGREGATION)
