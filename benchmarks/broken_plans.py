"""Breaks good plans by construction, each recipe naming its rule: the verifier must name it every time.

Run: python -m benchmarks.broken_plans [--many 2000] [--seed 1]; with --edges 1, `many` plans for each rule, half of
them just beyond a limit (must be named) and half just within it (must not be).
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from random import Random

from benchmarks.generate import Wanted, made_case
from benchmarks.quick import first_plan
from benchmarks.recipes import RECIPES, Base, Recipe, Spoiled
from benchmarks.table import arguments, heading, scenarios, table
from models.case import Case
from models.rules import Rule
from verifier import check

MOST_TRIES = 60
"""Draws of a recipe before it is said not to apply."""


def good(cases: Sequence[Case]) -> list[Base]:
    """Plans that hold every limit, one for each case for which one was found quickly."""
    found = []
    for case in cases:
        plan = first_plan(case)
        if plan is not None and check(case, plan).holds:
            found.append(Base(case, plan))
    return found


def few() -> list[Base]:
    """Two good plans of trips made by chance, quickly made."""
    return good([made_case(seed, Wanted(18, 8, 3)) for seed in (1, 2)])


def many() -> list[Base]:
    """Good plans of the worked trips and of trips made by chance."""
    return good([*scenarios().values(), *(made_case(seed, Wanted(30, 12, 4)) for seed in range(1, 7))])


def named(spoiled: Spoiled) -> bool:
    """Whether the verifier names the rule, and the subject where there is one."""
    broken = check(spoiled.case, spoiled.plan).broken
    return any(f.rule == spoiled.rule and spoiled.subject in {None, f.subject} for f in broken)


def spoil(bases: Sequence[Base], recipe: Recipe, chance: Random, beyond: bool) -> Spoiled | None:
    """A plan spoiled by a recipe; None where it applies to none."""
    for _ in range(MOST_TRIES):
        spoiled = recipe(chance.choice(bases), chance, beyond)
        if spoiled is not None:
            return spoiled
    return None


def broken(bases: Sequence[Base], how_many: int, seed: int) -> tuple[Counter[Rule], list[str]]:
    """How many plans were broken for each rule, and what the verifier missed."""
    chance = Random(seed)  # noqa: S311
    counts: Counter[Rule] = Counter()
    missed = []
    recipes = _turns(RECIPES)
    while counts.total() < how_many:
        recipe = next(recipes)
        spoiled = spoil(bases, recipe, chance, beyond=True)
        if spoiled is None:
            continue
        counts[spoiled.rule] += 1
        if not named(spoiled):
            missed.append(f"{recipe.__name__}: {spoiled.rule} of {spoiled.subject}")
    return counts, missed


def _turns(recipes: Sequence[Recipe]) -> Iterator[Recipe]:
    while True:
        yield from recipes


def edges(bases: Sequence[Base], a_rule: int, seed: int) -> tuple[dict[Rule, list[int]], list[str]]:
    """For each rule the plans just beyond and just within, and what the verifier got wrong."""
    chance = Random(seed)  # noqa: S311
    counts: dict[Rule, list[int]] = {rule: [0, 0] for rule in Rule}
    wrong = []
    dry: Counter[str] = Counter()
    recipes = list(RECIPES)
    while recipes:
        for recipe in list(recipes):
            for beyond in (True, False):
                spoiled = spoil(bases, recipe, chance, beyond)
                if spoiled is None:
                    dry[recipe.__name__] += 1
                    continue
                if sum(counts[spoiled.rule]) >= a_rule or dry[recipe.__name__] > 20:
                    recipes = [other for other in recipes if other is not recipe]
                    break
                counts[spoiled.rule][not beyond] += 1
                if named(spoiled) != beyond:
                    side = "beyond" if beyond else "within"
                    wrong.append(f"{recipe.__name__}, just {side}: {spoiled.rule} of {spoiled.subject}")
            if dry[recipe.__name__] > 20:
                recipes = [other for other in recipes if other is not recipe]
    return counts, wrong


def main() -> int:
    """Print the table; 1 when the verifier was wrong once."""
    given = arguments(__doc__, many=2000, seed=1, edges=0)
    bases = many()
    print(heading(), f"{len(bases)} good plans", sep="; ")
    if given.edges:
        sides, wrong = edges(bases, given.many, given.seed)
        print(table(("rule", "just beyond", "just within"), [(rule, *two) for rule, two in sides.items()]))
    else:
        counts, wrong = broken(bases, given.many, given.seed)
        print(table(("rule", "plans broken"), [(rule, counts[rule]) for rule in Rule]))
    print(f"verifier wrong: {len(wrong)}")
    print("\n".join(wrong[:40]))
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
