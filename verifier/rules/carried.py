"""carried: every must copy once, every optional one at most once, with its companions."""

from collections import Counter
from collections.abc import Iterator

from models.case import Copy, copy_of
from models.gear import Thing
from models.rules import Rule
from verifier.finding import Finding, or_held, plain
from verifier.layout import Layout


def _broken(subject: str, says: str) -> Finding:
    return plain(Rule.CARRIED, subject, False, says)


def _unlisted(layout: Layout) -> Iterator[Finding]:
    listed = set(layout.case.copies)
    home = [Copy(left.thing, left.copy_number) for left in layout.plan.left_at_home]
    named = [copy_of(placement) for placement in layout.plan.placements] + home
    for copy in dict.fromkeys(named):
        if copy not in listed:
            several = max(other.number for other in named if other.thing == copy.thing)
            name = layout.case.called(copy) if copy.thing in layout.case.thing_named else copy.called(several)
            yield _broken(name, f"The plan names {name}, which the gear list does not have.")


def _copy(thing: Thing, copy: Copy, times: int, at_home: bool) -> Iterator[Finding]:
    name = copy.called(thing.count)
    if times > 1:
        yield _broken(name, f"{name} is placed {times} times.")
    elif times == 1 and at_home:
        yield _broken(name, f"{name} is both placed and left at home.")
    elif times == 0 and thing.must:
        where = "is left at home" if at_home else "has no place"
        yield _broken(name, f"{name} must come and {where}.")


def _copies(layout: Layout) -> Iterator[Finding]:
    times = Counter(copy_of(placement) for placement in layout.plan.placements)
    home = {Copy(left.thing, left.copy_number) for left in layout.plan.left_at_home}
    for copy in layout.case.copies:
        yield from _copy(layout.case.thing_named[copy.thing], copy, times[copy], copy in home)


def _together(layout: Layout) -> Iterator[Finding]:
    for thing in layout.case.things:
        here = {one.copy for one in layout.copies_of(thing.name)}
        if not here:
            continue
        for name in thing.with_:
            if not layout.copies_of(name):
                yield _broken(thing.name, f"{thing.name} comes without its {name}.")
        if thing.all_or_none and not thing.must and len(here) < thing.count:
            come = "comes" if len(here) == 1 else "come"
            yield _broken(thing.name, f"{len(here)} of {thing.count} {thing.name} {come}; it is all or none.")


def _all(layout: Layout) -> Iterator[Finding]:
    yield from _unlisted(layout)
    yield from _copies(layout)
    yield from _together(layout)


def find(layout: Layout) -> Iterator[Finding]:
    """Judge which copies come."""
    return or_held(_all(layout), Rule.CARRIED, "Everything that must come has one place, and companions come along.")
