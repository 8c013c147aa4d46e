"""Seats and locks: one person a seat, and a lock that says something possible by itself."""

from collections.abc import Iterator

from models.gear import Thing
from models.reading.draft import Draft, Entry
from models.reading.faults import Fault, shown
from models.trip import Lock


def seats(draft: Draft) -> Iterator[Fault]:
    """No two people in one seat at a stage."""
    people = draft.people
    told: set[tuple[str, str]] = set()
    for stage in draft.stages:
        taken: dict[str, str] = {}
        for person in people:
            name, seat = person.part.name, person.part.seat
            if stage.part.people is not None and name not in stage.part.people:
                continue
            if seat in taken and (taken[seat], name) not in told:
                told.add((taken[seat], name))
                found = f"{shown(taken[seat])} and {shown(name)} both on {shown(seat)}"
                key = "people" if stage.part.people is not None else "name"
                yield stage.fault(key, found, "one person on each seat at a stage")
            taken.setdefault(seat, name)


def locks(draft: Draft) -> Iterator[Fault]:
    """Locks that say something, of copies that exist, of a thing that may do so."""
    things = {thing.part.name: thing.part for thing in draft.things}
    for lock in draft.locks:
        yield from says_something(lock)
        thing = things.get(lock.part.thing)
        if thing is not None:
            yield from _of_thing(lock, thing)


def says_something(lock: Entry[Lock]) -> Iterator[Fault]:
    """A lock fixes one thing, and not two that exclude each other."""
    part = lock.part
    if part.in_ is None and part.not_in is None and part.at_mm is None and not part.at_home and not part.carried:
        allowed = "one of in, at_mm with in, not_in, at_home, carried"
        yield lock.fault((), f"a lock on {shown(part.thing)} that fixes nothing", allowed)
    if part.at_mm is not None and part.in_ is None:
        yield lock.fault("at_mm", "a corner without a space", "`at_mm` together with `in`")
    if part.in_ is not None and part.in_ == part.not_in:
        yield lock.fault("not_in", f"in and not_in of {shown(part.in_)} in one lock", "one of the two")
    if part.at_home and (part.carried or part.in_ is not None):
        other = "carried" if part.carried else "in"
        yield lock.fault("at_home", f"at_home and {other} in one lock", "one of the two")


def _of_thing(lock: Entry[Lock], thing: Thing) -> Iterator[Fault]:
    part = lock.part
    yield from of_a_copy(lock, thing)
    if part.at_home and thing.must:
        allowed = "a thing with a value: give it `carry: 1` to `carry: 100` first"
        yield lock.fault("at_home", f"{shown(thing.name)}, which must come", allowed)


def of_a_copy(lock: Entry[Lock], thing: Thing) -> Iterator[Fault]:
    """A lock is on a copy that the list has."""
    number = lock.part.copy_number
    if number is not None and number > thing.count:
        yield lock.fault("copy", f"copy {number} of {shown(thing.name)}", f"a copy from 1 to {thing.count}")
