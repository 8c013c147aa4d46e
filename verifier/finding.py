"""A finding: one thing that was checked, and whether it holds. Findings are data and one plain sentence."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from models.decimals import share_told
from models.rules import Rule

ROUNDING = 1e-9
"""Part of a limit that the arithmetic of the machine may be off by; a limit met exactly holds."""
MOST_DECIMALS = 6
"""Decimals with which what is broken is told at most."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One check of one subject, at one stage or once for all (stage None)."""

    rule: Rule
    subject: str
    stage: str | None
    value: float | None
    """What was found. None: no number, or unknown."""
    limit: float | None
    """What is allowed. None: no number, or unknown."""
    unit: str
    """Unit of value, limit and margin; empty without a number."""
    margin: float | None
    """How much is left; negative where it is broken."""
    holds: bool | None
    """None: unknown, because a limit or a figure is."""
    source: str | None
    """Where the limit comes from."""
    says: str
    """The finding in one sentence, for people."""


def within(
    rule: Rule,
    subject: str,
    stage: str | None,
    value: float | None,
    limit: float | None,
    unit: str,
    says: str,
    source: str | None = None,
) -> Finding:
    """Tell whether a value is at most a limit; unknown where either is."""
    if value is None or limit is None:
        return Finding(rule, subject, stage, value, limit, unit, None, None, source, says)
    holds = at_most(value, limit)
    return Finding(rule, subject, stage, value, limit, unit, limit - value, holds, source, says)


def at_most(value: float, limit: float) -> bool:
    """Whether a value is at most a limit, but for the rounding of the arithmetic."""
    return value <= limit + ROUNDING * abs(limit)


def at_least(
    rule: Rule,
    subject: str,
    stage: str | None,
    value: float | None,
    limit: float | None,
    unit: str,
    says: str,
    source: str | None = None,
) -> Finding:
    """Tell whether a value is at least a limit; unknown where either is."""
    if value is None or limit is None:
        return Finding(rule, subject, stage, value, limit, unit, None, None, source, says)
    holds = value >= limit - ROUNDING * abs(limit)
    return Finding(rule, subject, stage, value, limit, unit, value - limit, holds, source, says)


def plain(
    rule: Rule, subject: str, holds: bool | None, says: str, stage: str | None = None, source: str | None = None
) -> Finding:
    """Tell a finding without a number."""
    return Finding(rule, subject, stage, None, None, "", None, holds, source, says)


def or_held(found: Iterable[Finding], rule: Rule, says: str) -> Iterator[Finding]:
    """Pass findings on, and tell that the rule holds where there are none."""
    yield from _or(found, plain(rule, "all things", True, says))


def or_not_checked(found: Iterable[Finding], rule: Rule, what: str) -> Iterator[Finding]:
    """Pass findings at driving stages on; where there is no such stage, tell that something was not checked."""
    says = f"No driving stage is in the trip, so {what} not checked."
    yield from _or(found, plain(rule, "driving", None, says))


def _or(found: Iterable[Finding], instead: Finding) -> Iterator[Finding]:
    none = True
    for finding in found:
        none = False
        yield finding
    if none:
        yield instead


def at(stage: str | None) -> str:
    """Tell the stage as the end of a sentence."""
    return "" if stage is None else f" at '{stage}'"


def against(value: float | None, limit: float | None, unit: str, decimals: int = 1) -> str:
    """Tell value and limit as people say them."""
    if value is None:
        return "is not known"
    if limit is None:
        return f"{value:.{decimals}f} {unit}".strip() + "; the limit is not known"
    over = value - limit
    broken = over > ROUNDING * abs(limit)
    while broken and decimals < MOST_DECIMALS and round(over, 6) < 10**-decimals:
        decimals += 1  # what is too much is never told as nothing
    if not broken:
        return f"{value:.{decimals}f} {unit}".strip() + f" of {limit:.{decimals}f} {unit}".rstrip()
    excess = f"{_up(over, decimals)}" if round(over, decimals) > 0 else f"less than {10**-decimals:.{decimals}f}"
    told, allowed = (f"{one} {unit}".strip() for one in (_up(value, decimals), f"{limit:.{decimals}f}"))
    return f"{told} of {allowed}, {excess} {unit} too much"


def _up(value: float, decimals: int) -> str:
    """What is too much, rounded up, so that who takes that much away is within the limit."""
    return f"{ceil(round(value * 10**decimals, MOST_DECIMALS)) / 10**decimals:.{decimals}f}"


def against_least(share: float, least: float, decimals: int = 1) -> tuple[str, str]:
    """Tell a share and the least that is allowed, in percent; what is too little is never told as enough.

    The share is rounded down, and the least told with as many decimals as it was given with.
    """
    return share_told(share, least, decimals, broken=share < least - ROUNDING * abs(least))
