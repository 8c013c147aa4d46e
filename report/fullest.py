"""The spaces that are nearest to full, by the share of the mass limit that is left and not by the kilograms."""

from collections.abc import Iterable

from models.rules import Rule
from report.told import Finding


def fullest(findings: Iterable[Finding], stage: str | None = None) -> list[Finding]:
    """The finding of each space where least is left, that space first of whose limit the least share is left.

    `stage`: at that stage alone. None: at any.
    """
    worst: dict[str, Finding] = {}
    for one in findings:
        if one.rule == Rule.SPACE_MASS and one.margin is not None and stage in {None, one.stage}:
            worst[one.subject] = min(worst.get(one.subject, one), one, key=_share_left)
    return sorted(worst.values(), key=_share_left)


def _share_left(one: Finding) -> float:
    return (one.margin or 0.0) / max(one.limit or 0.0, 1e-3)
