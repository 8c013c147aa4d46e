"""Holding it down: per thing that needs tying, how many tie-downs of which rating, by the rule book's own numbers."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from models.case import Copy
from models.rules import Rule
from models.spaces import Space
from models.stages import mass_kg
from report.figures import whole
from report.sheet.asked import Asked
from report.sheet.loading import kilograms
from report.sheet.numbers import Figure, limit_of, located, margin_of, value_of

AGAIN = (
    "The counts are strength alone: tie each hard thing at two places at least, so that it cannot turn. Check every "
    "strap again after the first rough hour, and at every stop after that (common practice, no source)."
)
"""What strength does not say, and when to look again."""


@dataclass(frozen=True)
class Tie:
    """One copy that has to be tied."""

    number: int
    name: str
    kg: str
    """At its heaviest stage."""
    pull: Figure
    """Newtons that braking asks for."""
    how_many: str
    """Tie-downs of the space that hold it by themselves."""


@dataclass(frozen=True)
class TiedSpace:
    """A space with things that have to be tied."""

    space: str
    letter: str
    points: str
    pull: Figure | None
    holds_n: Figure | None
    margin: Figure | None
    holds: bool | None
    ties: tuple[Tie, ...]


@dataclass(frozen=True)
class Holding:
    """All that has to be tied, and the figures behind it."""

    spaces: tuple[TiedSpace, ...]
    rule: str
    source: str
    barrier: tuple[str, ...]


def holding(asked: Asked) -> Holding:
    """Tell how each thing that needs it is tied."""
    book = asked.case.rulebook.restraint
    return Holding(
        spaces=tuple(one for one in (_space(asked, s) for s in asked.case.vehicle.spaces) if one.ties),
        rule=(
            f"Braking asks for {book.forward_g:g} of the weight ({book.gravity_m_s2:g} N/kg), friction not counted; "
            f"of a tie-down's rating {book.tie_down_share:.0%} counts, 1 daN taken as {book.newton_per_dan:g} N."
        ),
        source=book.source,
        barrier=tuple(_barrier(asked)),
    )


def _space(asked: Asked, space: Space) -> TiedSpace:
    found = next(
        (f for f in asked.verdict.findings if f.rule == Rule.RESTRAINT and f.subject == space.name and f.unit == "N"),
        None,
    )
    tied = [copy for copy, where in asked.located() if where == space and copy in asked.tied and asked.mine(copy)]
    return TiedSpace(
        space=space.name,
        letter=asked.scene.letter.get(space.name, ""),
        points=_points(space),
        pull=None if found is None else value_of(found),
        holds_n=None if found is None else limit_of(found),
        margin=None if found is None else margin_of(found),
        holds=found.holds if found else None,
        ties=tuple(_tie(asked, copy, space) for copy in tied),
    )


def _points(space: Space) -> str:
    ratings = sorted((tie.rated_dan for tie in space.tie_downs), reverse=True)
    counted = {rating: ratings.count(rating) for rating in ratings}
    return ", ".join(f"{count} of {rating:g} daN" for rating, count in counted.items()) or "no tie-down points"


def _tie(asked: Asked, copy: Copy, space: Space) -> Tie:
    thing, book = asked.case.thing_named[copy.thing], asked.case.rulebook.restraint
    kg = max(mass_kg(thing, stage, "most") for stage in asked.case.trip.stages)
    pull = asked.verifier.required_restraint_n(kg, book.forward_g, book.gravity_m_s2)
    name = asked.case.called(copy)
    return Tie(
        asked.number[copy], name, kilograms(kg), Figure(whole(pull), pull, located("pull", name)),
        _how_many(asked, pull, space),
    )  # fmt: skip


def _how_many(asked: Asked, pull_n: float, space: Space) -> str:
    """How many points of the weakest rating in the space hold a thing by itself."""
    if not space.tie_downs:
        return "no tie-down points given"
    book, weakest = asked.case.rulebook.restraint, min(tie.rated_dan for tie in space.tie_downs)
    each = asked.verifier.tie_down_capacity_n([weakest], book.tie_down_share, book.newton_per_dan)
    count = max(1, ceil(pull_n / each - 1e-9)) if each > 0 else 0
    return f"{count} of {weakest:g} daN" if count else "no tie-down counts"


def _barrier(asked: Asked) -> Iterator[str]:
    for one in asked.verdict.findings:
        if one.rule == Rule.RESTRAINT and one.unit in {"kg", "mm"} and one.holds is not True:
            yield one.says
