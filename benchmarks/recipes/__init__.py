"""Ways to break a plan by construction, or to keep it just within the limit, each naming its rule."""

from benchmarks.recipes.masses import MASSES
from benchmarks.recipes.places import PLACES
from benchmarks.recipes.reach import REACH
from benchmarks.recipes.spoil import Base, Recipe, Spoiled
from benchmarks.recipes.wishes import WISHES
from benchmarks.recipes.words import WORDS

RECIPES: tuple[Recipe, ...] = (*PLACES, *MASSES, *WORDS, *REACH, *WISHES)
"""Every recipe; together they name every rule."""

__all__ = ["RECIPES", "Base", "Recipe", "Spoiled"]
