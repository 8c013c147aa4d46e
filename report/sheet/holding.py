"""Holding it down: per thing that has to be tied, its forces, straps and where, as the verifier reckons them."""

from collections.abc import Iterator
from dataclasses import dataclass

from models.case import Case
from models.rules import Rule
from report.advice_words import in_all, loaded, one_point, points, pressed, strap_range, straps
from report.figures import limit, whole
from report.sheet.asked import Asked
from report.sheet.numbers import Figure, limit_of, located, margin_of, value_of
from report.told_advice import Tie as Advice
from report.told_advice import TiedSpace as AdviceOfSpace

AGAIN = (
    "A strap goes from a point to the thing and not only over it; a hard thing has two at least, so that it cannot "
    "turn. Push it against the front wall where there is one. Check every strap again after the first rough hour, and "
    "at every stop after that (common practice, no source)."
)
"""How to use the counts, and when to look again."""

ALL_THERE = "for all that is tied there"
"""Said on one packer's sheet of a figure that others have a part in."""


@dataclass(frozen=True)
class Tie:
    """One copy that has to be tied."""

    number: int
    name: str
    kg: str
    """At its heaviest stage, with what lies in it, and how much of it that is."""
    pull: Figure
    """Newtons that braking asks for."""
    rearward: Figure
    sideways: Figure
    upward: Figure
    how_many: str
    """Straps to points of the space."""
    why: str
    """The counts behind that."""
    above: str
    """Ways in which it tips, so that it is tied above its middle; empty: it does not."""


@dataclass(frozen=True)
class TiedSpace:
    """A space with things that have to be tied."""

    space: str
    letter: str
    points: str
    straps: str
    """From all lashed together to each thing by itself; on one packer's sheet of what others tie there too."""
    together: str
    """Whose pull and margin are told."""
    pressed: str | None
    """What a strap holds there that only presses from above."""
    pull: Figure | None
    holds_n: Figure | None
    margin: Figure | None
    holds: bool | None
    ties: tuple[Tie, ...]


@dataclass(frozen=True)
class Holding:
    """All that has to be tied, and the figures behind it."""

    spaces: tuple[TiedSpace, ...]
    nothing: str
    """What is said where there are no spaces."""
    loose: str | None
    """What nothing holds, as it is soft and light. None: there is nothing of that, or there are no spaces."""
    straps: str | None
    """Straps of the whole vehicle, to compare with the strap bag. None: one packer's sheet, or nothing is tied."""
    rule: str
    source: str
    advice: str
    """What is counted beside strength, with its source."""
    pressing: str
    """Why a strap that only presses is not counted, with its source."""
    barrier: tuple[str, ...]
    crash: str | None
    """The heaviest thing behind the barrier in a crash. None: there is none."""


def holding(asked: Asked) -> Holding:
    """Tell how each thing that needs it is tied."""
    book, told = asked.case.rulebook, asked.verdict.tying
    spaces, loose = tuple(one for one in (_space(asked, s) for s in told.spaces) if one.ties), _loose(asked)
    whole_sheet = asked.packer is None and told.spaces
    return Holding(
        spaces=spaces,
        nothing=_nothing(asked),
        loose=f"Nothing holds what is soft and light: {loose}." if spaces and loose else None,
        straps=in_all(told) if whole_sheet else None,
        rule=(
            f"Braking asks for {book.restraint.forward_g:g} of the weight ({book.restraint.gravity_m_s2:g} N/kg), "
            f"friction not counted; of a tie-down's rating {book.restraint.tie_down_share:.0%} counts, 1 daN taken as "
            f"{book.restraint.newton_per_dan:g} N."
        ),
        source=book.restraint.source,
        advice=_advice(asked.case),
        pressing=_pressing(asked.case),
        barrier=tuple(_barrier(asked)),
        crash=_crash(asked),
    )


def _nothing(asked: Asked) -> str:
    whose = "" if asked.packer is None else f" that {asked.packer} packs"
    loose = _loose(asked)
    but = f", but for what lies loose: {loose}" if loose else ""
    return f"Nothing{whose} has to be tied: all is held by what it is in{but}."


def _loose(asked: Asked) -> str:
    return ", ".join(name for copy, name in asked.verdict.tying.loose if asked.mine(copy))


def _advice(case: Case) -> str:
    book, tip = case.rulebook.restraint, case.rulebook.strapping
    return (
        f"Rearward {book.rearward_g:g}, sideways {book.sideways_g:g} and upward {book.upward_g:g} of the weight, more "
        f"upward on rough tracks. By length: a second opinion. What tips is too narrow for its height, taken at "
        f"{tip.sideways_tip_g:g} sideways. Advice, no limit. Source: {tip.source}."
    )


def _pressing(case: Case) -> str:
    press = case.rulebook.pressing
    return (
        f"A strap over the top holds by friction alone, reckoned here at {press.friction:g}, at {press.angle_deg:g} "
        f"degrees and pulled to {press.tension_share:.0%} of its rating: told, and never counted. "
        f"Source: {press.source}."
    )


def _space(asked: Asked, told: AdviceOfSpace) -> TiedSpace:
    found = next(
        (f for f in asked.verdict.findings if f.rule == Rule.RESTRAINT and f.subject == told.space and f.unit == "N"),
        None,
    )
    mine = [tie for tie in told.ties if asked.mine(tie.copy) and tie.copy in asked.number]
    shared = any(not asked.mine(tie.copy) for tie in told.ties)
    return TiedSpace(
        space=told.space,
        letter=asked.scene.letter.get(told.space, ""),
        points=points(told.points_dan) + one_point(told),
        straps=strap_range(told.straps_together, told.straps_apart) + (f" {ALL_THERE}" if shared else ""),
        together="Together with what others pack there" if shared else "Together",
        pressed=pressed(told),
        pull=None if found is None else value_of(found),
        holds_n=None if found is None else limit_of(found),
        margin=None if found is None else margin_of(found),
        holds=found.holds if found else None,
        ties=tuple(_tie(asked, tie) for tie in sorted(mine, key=lambda tie: asked.number[tie.copy])),
    )


def _tie(asked: Asked, told: Advice) -> Tie:
    return Tie(
        number=asked.number[told.copy],
        name=told.name,
        kg=loaded(told),
        pull=_force("pull", told.name, told.forward_n),
        rearward=_force("rearward", told.name, told.rearward_n),
        sideways=_force("sideways", told.name, told.sideways_n),
        upward=_force("upward", told.name, told.upward_n),
        how_many="no point to tie to counts" if told.straps is None else straps(told.straps),
        why=_why(told),
        above=", ".join(told.tips),
    )


def _force(kind: str, name: str, newton: float) -> Figure:
    return Figure(whole(newton), newton, located(kind, name))


def _why(told: Advice) -> str:
    strength = "no number" if told.by_strength is None else f"{told.by_strength}"
    return f"by strength {strength}, by length {told.by_length}"


def _barrier(asked: Asked) -> Iterator[str]:
    for one in asked.verdict.findings:
        if one.rule == Rule.RESTRAINT and one.unit in {"kg", "mm"} and one.holds is not True:
            yield one.says


def _crash(asked: Asked) -> str | None:
    one, book = asked.verdict.tying.barrier, asked.case.rulebook.crash
    if one is None:
        return None
    push, energy = f"{one.force_n / 1000:.1f} kN", f"{one.energy_j / 1000:.1f} kJ"
    return (
        f"Heaviest behind the barrier: {one.name}, {loaded(one)}; the barrier is rated for "
        f"{limit(one.rated_kg)} kg. At {book.deceleration_g:g} times its weight it pushes with {push}, at "
        f"{book.speed_km_h:g} km/h it brings {energy}. Source: {book.source}."
    )
