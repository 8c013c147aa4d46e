"""Leaving checks: per stage what changes, what is tightest now, which can to empty next and what that does."""

from dataclasses import dataclass

from models.trip import Stage
from report.fullest import fullest
from report.sheet.asked import Asked
from report.sheet.changes import changes
from report.sheet.drive import reserved
from report.sheet.emptying import Can, cans
from report.sheet.numbers import Figure, centre, limit_of, load, located, margin_of, total
from report.told import MASS_RULES, Finding, Totals, Weighed

GROUND = {"sealed_road": "sealed road", "off_road": "off the road", "parked": "parked"}


@dataclass(frozen=True)
class Tight:
    """The limit of which least is left at a stage."""

    subject: str
    load: Figure
    reserve_kg: float
    limit: Figure
    margin: Figure
    holds: bool | None


@dataclass(frozen=True)
class Emptied:
    """What emptying one can does at a stage: the sums afterwards and by how much they change."""

    number: int
    name: str
    letter: str
    how: str
    front: Figure
    rear: Figure
    height: Figure
    change: tuple[str, str, str]
    """Of front axle, rear axle and height."""


@dataclass(frozen=True)
class Leaving:
    """A stage."""

    number: int
    name: str
    ground: str
    changes: tuple[str, ...]
    mass: Figure
    front: Figure
    rear: Figure
    height: Figure
    height_empty: Figure
    ball: str | None
    tight: Tight | None
    space: Tight | None
    """Of the spaces the one that is nearest to full. None: none has a limit."""
    emptied: tuple[Emptied, ...]
    """The can to empty first comes first."""


def leaving(asked: Asked) -> tuple[Leaving, ...]:
    """Tell every stage."""
    stages, ready = asked.case.trip.stages, cans(asked)
    before = (None, *stages)
    return tuple(_stage(asked, n, stage, before[n - 1], ready) for n, stage in enumerate(stages, start=1))


def _stage(asked: Asked, n: int, stage: Stage, before: Stage | None, ready: tuple[Can, ...]) -> Leaving:
    sums = asked.verdict.totals[stage.name]
    tight = tightest_at(asked.verdict, stage.name)
    full = fullest(asked.verdict.findings, stage.name)
    return Leaving(
        number=n,
        name=stage.name,
        ground=GROUND[stage.surface],
        changes=changes(asked, stage, before),
        mass=total(sums, stage.name, "mass_kg"),
        front=total(sums, stage.name, "front_axle_kg"),
        rear=total(sums, stage.name, "rear_axle_kg"),
        height=centre(sums, stage.name, "cg_mm", 2),
        height_empty=centre(sums, stage.name, "cg_without_load_mm", 2),
        ball=f"{sums.ball_kg:.0f} kg on the ball" if sums.ball_kg else None,
        tight=None if tight is None else _tight(asked, tight),
        space=_tight(asked, full[0]) if full else None,
        emptied=tuple(_emptied(asked, can, stage) for can in _first_first(ready, stage.name)),
    )


def tightest_at(weighed: Weighed, stage: str) -> Finding | None:
    """The finding in kg of the whole vehicle with the least left at a stage."""
    found = [f for f in weighed.findings if f.rule in MASS_RULES and f.stage == stage and f.margin is not None]
    in_kg = [one for one in found if one.unit == "kg"]
    return min(in_kg, key=lambda one: one.margin or 0.0, default=None)


def _tight(asked: Asked, one: Finding) -> Tight:
    reserve = reserved(asked, one)
    return Tight(one.subject, load(one, reserve), reserve, limit_of(one), margin_of(one), one.holds)


def _first_first(ready: tuple[Can, ...], stage: str) -> list[Can]:
    """Cans with something in them, that first which leaves most of the tightest limit; of equals the lowest centre."""
    return sorted((can for can in ready if stage in can.stages), key=lambda can: _worth(can, stage))


def _worth(can: Can, stage: str) -> tuple[float, float]:
    tight = tightest_at(can.weighed, stage)
    # To 0.1 kg: what pours from can to tank keeps the total, and rounding must not decide.
    return (-round(0.0 if tight is None else tight.margin or 0.0, 1), can.weighed.totals[stage].cg_mm[2] or 0.0)


def _emptied(asked: Asked, can: Can, stage: Stage) -> Emptied:
    now, then = asked.verdict.totals[stage.name], can.weighed.totals[stage.name]
    name = asked.case.called(can.copy)
    key, into = (name, stage.name), can.into[stage.name]
    parts = ("front_axle_kg", "rear_axle_kg")
    front, rear = (
        Figure(total(then, *key[1:], part).text, getattr(then, part), located("emptied", *key, part)) for part in parts
    )
    height = Figure(centre(then, key[1], "cg_mm", 2).text, then.cg_mm[2], located("emptied", *key, "cg_mm", "2"))
    return Emptied(
        number=asked.number[can.copy],
        name=name,
        letter=asked.scene.letter[asked.placed[can.copy].space],
        how=f"poured into {' and '.join(into)}" if into else f"{can.fluid} used",
        front=front,
        rear=rear,
        height=height,
        change=_change(now, then),
    )


def _change(now: Totals, then: Totals) -> tuple[str, str, str]:
    pairs = (
        (now.front_axle_kg, then.front_axle_kg), (now.rear_axle_kg, then.rear_axle_kg), (now.cg_mm[2], then.cg_mm[2]),
    )  # fmt: skip
    front, rear, height = ("unknown" if a is None or b is None else f"{b - a:+.1f}" for a, b in pairs)
    return front, rear, height
