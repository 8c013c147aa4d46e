"""Questions on people: whether somebody drives, and whether things lie where they sit."""

import re
from collections.abc import Iterator

from models.geometry import box
from models.spaces import Space
from models.stages import aboard, present
from models.trip import Person, Stage, Trip
from models.vehicle import Seat
from verifier.layout import Layout
from verifier.stage import people_at
from verifier.statics import total_kg


def nobody_drives(layout: Layout) -> Iterator[str]:
    """Ask about driving stages at which nobody is aboard."""
    trip = layout.case.trip
    empty = [f"'{stage.name}'" for stage in trip.stages if stage.driving and not aboard(trip, stage)]
    if empty:
        yield (
            f"Nobody is aboard at {', '.join(empty)}: who drives? The people and what they weigh are in no sum there; "
            "name them under `people`."
        )


DRIVER = re.compile(r"\bdriv(?:er|ing)", re.IGNORECASE)
"""What the driver's seat has in its name. Common practice, no source."""
ANOTHER = re.compile(r"\b(?:rear|back|behind|side|passenger|co)\b", re.IGNORECASE)
"""What makes it another seat: the one behind the driver. Common practice, no source."""


def nobody_at_the_wheel(layout: Layout) -> Iterator[str]:
    """Ask about driving stages at which people are aboard and none of them is in the driver's seat."""
    trip = layout.case.trip
    wheel = _driver_s_seat(layout)
    empty = [stage for stage in trip.stages if stage.driving and aboard(trip, stage) and _without_driver(layout, stage)]
    if empty:
        names = list(dict.fromkeys(name for stage in empty for name in aboard(trip, stage)))
        stages = ", ".join(f"'{stage.name}'" for stage in empty)
        yield (
            f"Nobody is in the seat {wheel} at {stages}, and {' and '.join(names)} "
            f"{'is' if len(names) == 1 else 'are'} aboard: who drives? What the driver weighs is in no sum there; "
            f"give the one who drives `seat: {wheel}`, and name who is aboard under `people`."
        )


def _driver_s_seat(layout: Layout) -> str | None:
    """The one seat whose name says that it is the driver's. None: no name says so, or several do."""
    names = [seat.name for seat in layout.case.vehicle.seats]
    found = [name for name in names if DRIVER.search(name) and not ANOTHER.search(name)]
    return found[0] if len(found) == 1 else None


def _without_driver(layout: Layout, stage: Stage) -> bool:
    """Whether it is known which seat is the driver's, and nobody aboard sits there."""
    wheel, here = _driver_s_seat(layout), set(aboard(layout.case.trip, stage))
    taken = {person.seat for person in layout.case.trip.people if person.name in here}
    return wheel is not None and wheel not in taken


CHILD_KG = 36
"""Up to this mass people sit in a child restraint, strapped in so that they reach nothing (UN Regulation 44, mass group
III ends at 36 kg)."""


def nobody_beside(layout: Layout) -> Iterator[str]:
    """Ask about what only a belted passenger reaches where the driver is alone, or with small children."""
    trip = layout.case.trip
    driven = [stage for stage in trip.stages if stage.driving and not _without_driver(layout, stage)]
    things = _passengers(layout)
    for alone, who in (
        ([stage for stage in driven if len(aboard(trip, stage)) == 1], "alone"),
        ([stage for stage in driven if _with_children(trip, stage)], "alone with children"),
    ):
        if alone and things:
            stages = ", ".join(f"'{stage.name}'" for stage in alone)
            yield (
                f"At {stages} the driver is {who}, and only a belted passenger reaches {', '.join(things)}: can "
                "the driver? Say so in the `in_reach_when` of the space."
            )


def _with_children(trip: Trip, stage: Stage) -> bool:
    """Whether several are aboard, and one at most is too heavy for a child restraint."""
    here = set(aboard(trip, stage))
    grown = [person for person in trip.people if person.name in here and person.mass_kg > CHILD_KG]
    return len(here) > 1 and len(grown) <= 1


def _passengers(layout: Layout) -> list[str]:
    """What is wanted with a belt on, or against a fire, and the driver does not reach with one."""
    belted = [(one, space) for one, space in layout.located if space.in_reach_when]
    far = [(one, space) for one, space in belted if "belted driver" not in space.in_reach_when]
    by_driver = any("fire" in one.thing.needed_when for one, space in belted if "belted driver" in space.in_reach_when)
    return [
        one.name
        for one, _ in far
        if one.thing.access == "belted" or ("fire" in one.thing.needed_when and not by_driver)
    ]


BESIDES_KG = 20
"""So much more than the people themselves may be typed in for them in a roof tent, such as their bedding, in kg. Common
practice, no source."""


def twice(layout: Layout) -> Iterator[str]:
    """Ask about parked stages at which those on racks and those aboard are more than all people of the trip."""
    trip = layout.case.trip
    all_kg = sum(person.mass_kg for person in trip.people)
    told = {
        stage.name: (on_racks_kg, aboard_kg)
        for stage in trip.stages
        if not stage.driving
        for on_racks_kg, aboard_kg in [(sum(stage.on_racks.values()), total_kg(people_at(layout.case, stage)))]
        if on_racks_kg > 0 and aboard_kg > 0 and on_racks_kg + aboard_kg > all_kg + BESIDES_KG
    }
    for stage, (on_racks_kg, aboard_kg) in list(told.items())[:1]:
        others = ", ".join(f"'{name}'" for name in told if name != stage)
        likewise = f" Likewise at {others}." if others else ""
        yield (
            f"At '{stage}' {on_racks_kg:g} kg of people are on racks and {aboard_kg:g} kg aboard, and all people of "
            f"the trip weigh {all_kg:g} kg: is somebody counted twice? Name under the stage's `people` who is in the "
            f"vehicle then (`people: []` for nobody); left out, everyone is.{likewise}"
        )


def on_laps(layout: Layout) -> Iterator[str]:
    """Ask about spaces with things in them that reach over a person who is aboard."""
    for space in layout.case.vehicle.spaces:
        if space.seat is None:
            sitting = dict.fromkeys(
                person.name for stage in layout.case.trip.stages for person in _sitting_in(layout, space, stage)
            )
            if sitting:
                yield (
                    f"{space.name} reaches over the place of {' and '.join(sitting)}, and things are in it then: do "
                    f"they lie on somebody's lap? Give the space `seat:`, or mend its corner and size."
                )


def _sitting_in(layout: Layout, space: Space, stage: Stage) -> Iterator[Person]:
    """People aboard whose place is within a space, at a stage at which it holds something."""
    if any(present(one.thing, stage) for one in layout.by_space[space.name]):
        here = set(aboard(layout.case.trip, stage))
        for person in layout.case.trip.people:
            seat = layout.case.seat_named.get(person.seat)
            if person.name in here and seat is not None and _within(space, seat):
                yield person


def _within(space: Space, seat: Seat) -> bool:
    low, high = box(space.corner_mm, space.size_mm)
    return all(low[i] <= seat.at_mm[i] <= high[i] for i in range(3))
