"""apart: what people want apart is not in one space."""

from models.rules import Rule
from solver.build import Build
from solver.exclusions import separate


def add(build: Build) -> None:
    """Keep the pairs of the trip apart."""
    separate(build, Rule.APART)
