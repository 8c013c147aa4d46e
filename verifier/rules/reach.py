"""reach: seconds to hand are within what the access word promises, and nothing on the way is stuck."""

from collections.abc import Iterator

from models.rules import Rule
from models.spaces import Space
from models.stages import conditions, present, stages_for_access
from models.trip import Stage
from verifier.access import most_moved_first, not_opened, seconds_to_hand
from verifier.finding import Finding, against, at, or_held, plain, within
from verifier.layout import Layout, Placed

NOTHING_MOVED = ("belted", "at_once")
"""Access words that let nothing be moved first."""


def _at(layout: Layout, one: Placed, space: Space, stage: Stage | None) -> Finding:
    word = layout.case.rulebook.access.words[one.thing.access]
    source = layout.case.rulebook.access.source
    name = None if stage is None else stage.name
    stuck = None if stage is None else not_opened(layout.case, space, conditions(layout.case.trip, stage))
    if stuck is not None:
        says = f"{one.name} is out of reach{at(name)}: {stuck}."
        return Finding(Rule.REACH, one.name, name, None, word.seconds, "s", None, False, source, says)
    value = seconds_to_hand(layout, one, space, stage)
    says = f"{one.name} is in hand{at(name)} after {against(value, word.seconds, 's', 0)}."
    return within(Rule.REACH, one.name, name, value, word.seconds, "s", says, source)


def _demands(layout: Layout, one: Placed, space: Space, here: list[Stage | None]) -> Iterator[Finding]:
    source = layout.case.rulebook.access.source
    before = most_moved_first(layout, one, space, here) if one.thing.access in NOTHING_MOVED else ()
    if before:
        says = f"{one.name} must be free, and {', '.join(other.name for other in before)} must be moved first."
        yield plain(Rule.REACH, one.name, False, says, source=source)
    if one.thing.access == "belted" and not space.in_reach_when:
        says = f"{one.name} must be in reach with a belt on, and {space.name} is not."
        yield plain(Rule.REACH, one.name, False, says, source=source)


def _copy(layout: Layout, one: Placed, space: Space) -> Iterator[Finding]:
    stages = stages_for_access(layout.case.trip, one.thing.access)
    here = [stage for stage in stages if stage is None or present(one.thing, stage)]
    yield from (_at(layout, one, space, stage) for stage in here)
    if here:
        yield from _demands(layout, one, space, here)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge how every thing is reached at every stage that its access word names."""
    found = (finding for one, space in layout.located for finding in _copy(layout, one, space))
    return or_held(found, Rule.REACH, "Nothing is carried that has to be in reach.")
