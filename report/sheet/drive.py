"""May we drive: the answer, every limit at its tightest stage, what stays at home, what is dangerous aboard."""

from dataclasses import dataclass

from models.plan import asked_otherwise
from models.rules import Rule
from report.fullest import fullest
from report.sheet.asked import Asked
from report.sheet.numbers import Figure, doubt, limit_of, load, margin_of
from report.terminal.doubts import weigh_first
from report.terminal.heading import ASK_FIRST, grouped, reserve_broken, reserve_note, with_reserve
from report.terminal.heading import answer as answered
from report.terminal.height import overall
from report.terminal.masses import front_share
from report.terminal.spaces import at_home
from report.told import Finding

SHOWN = (Rule.GROSS_MASS, Rule.AXLE, Rule.BALANCE, Rule.RACK)
"""Rules whose limits are shown as bars."""
NO_PROOF = "Whether more can be kept is unknown here, as a plan carries no proof; `suggest` and `revise` tell it."
"""What a sheet says of how good the reserve is that is kept."""
DOUBTED = {"total": "total_kg", "front axle": "front_axle_kg", "rear axle": "rear_axle_kg"}


@dataclass(frozen=True)
class Bar:
    """A limit at its tightest stage. Shares are parts of the bar's length."""

    subject: str
    stage: str
    load: Figure
    reserve_kg: float
    limit: Figure
    margin: Figure
    doubt: Figure | None
    holds: bool | None
    source: str
    load_share: float
    reserve_share: float
    limit_share: float


@dataclass(frozen=True)
class Drive:
    """The first page."""

    answer: str
    sentence: str
    changed: tuple[str, ...]
    """That the files have changed since the plan was made, and what they no longer know. Empty: they have not."""
    reserve_note: str | None
    weigh_first: str | None
    """Limits that hold by less than their doubt. None: there is none."""
    questions: tuple[str, ...]
    ask_first: str
    """What stands above the questions."""
    broken: tuple[str, ...]
    unknown: tuple[str, ...]
    overall: str
    """How high the laden vehicle stands."""
    before_water: str | None
    """What to lift or to bag before deep water. None: nothing."""
    beside: tuple[str, ...]
    """Where one side carries noticeably more, and where the steering gets light on a climb."""
    bars: tuple[Bar, ...]
    front_share: str | None
    at_home: tuple[str, ...]
    comes: str
    """What is said where nothing stays at home."""


def drive(asked: Asked) -> Drive:
    """Tell whether one may drive, and how near each limit is."""
    answer, sentence = answered(asked.verdict, len(asked.questions))
    home = at_home(asked.case, asked.plan, {}, 10_000)
    return Drive(
        answer=answer,
        sentence=sentence,
        changed=asked.changed,
        reserve_note=_reserve_note(asked),
        weigh_first=weigh_first(asked.case, asked.plan, asked.verdict),
        questions=asked.questions,
        ask_first=ASK_FIRST,
        broken=tuple(_worst(group) for group in grouped(asked.verdict.findings, False)),
        unknown=tuple(_worst(group) for group in grouped(asked.verdict.findings, None)),
        overall=overall(asked.verdict),
        before_water=asked.verdict.before_water,
        beside=tuple(told for told in (asked.verdict.leaning, asked.verdict.climbing) if told),
        bars=tuple(_bar(asked, one) for one in (*tightest(asked), *fullest(asked.verdict.findings)[:1])),
        front_share=_front_share(asked),
        at_home=tuple(told.removeprefix("  - ") for told in home[1:]),
        comes=home[0],
    )


def _reserve_note(asked: Asked) -> str | None:
    told = reserve_note(asked.case, asked.plan, asked.verdict)
    kept = not asked_otherwise(asked.plan, asked.case.reserve_kg) and not reserve_broken(asked.verdict)
    return f"{told} {NO_PROOF}" if told and kept else told


def _worst(group: list[Finding]) -> str:
    also = len({one.stage for one in group}) - 1
    return group[0].says + (f" Likewise at {also} more {'stage' if also == 1 else 'stages'}." if also else "")


def tightest(asked: Asked) -> tuple[Finding, ...]:
    """The finding of each weighed limit where least is left, in the order of the rules; racks by name and surface."""
    found: dict[tuple[Rule, str], Finding] = {}
    for one in asked.verdict.findings:
        if one.rule in SHOWN and one.unit == "kg":
            key = (one.rule, one.subject)
            found[key] = min(found.get(key, one), one, key=_left)
    return tuple(sorted(found.values(), key=lambda one: SHOWN.index(one.rule)))


def _left(one: Finding) -> tuple[int, float]:
    """What is passed first, then what is unknown, the heavier as the worse, then what is left."""
    if one.margin is None:
        return 1, -(one.value or 0.0)
    return 0 if one.holds is False else 2, one.margin


def reserved(asked: Asked, one: Finding) -> float:
    """The reserve in kg that a finding's value holds."""
    return asked.reserve_kg if with_reserve(one) else 0.0


def _bar(asked: Asked, one: Finding) -> Bar:
    reserve = reserved(asked, one)
    told = load(one, reserve)
    whole = max(one.value or 0.0, one.limit or 0.0, 1.0) * 1.04
    stage = one.stage or ""
    part = DOUBTED.get(one.subject) if one.rule in {Rule.AXLE, Rule.GROSS_MASS} else None
    return Bar(
        subject=one.subject,
        stage=stage,
        load=told,
        reserve_kg=reserve,
        limit=limit_of(one),
        margin=margin_of(one),
        doubt=doubt(asked.verdict.doubts[stage], stage, part) if part and stage in asked.verdict.doubts else None,
        holds=one.holds,
        source=one.source or "not said",
        load_share=max(0.0, told.value or 0.0) / whole,
        reserve_share=reserve / whole if one.value is not None else 0.0,
        limit_share=(one.limit or 0.0) / whole,
    )


def _front_share(asked: Asked) -> str | None:
    told = front_share(asked.verdict)
    return None if told is None else f"Least on the front wheels: {told}."
