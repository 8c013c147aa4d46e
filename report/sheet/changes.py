"""What changes from one stage to the next, in words."""

from collections.abc import Iterator

from models.case import Case
from models.stages import aboard, mass_kg, trailer_at
from models.trip import Stage
from report.figures import kilograms, whole
from report.sheet.asked import Asked


def changes(asked: Asked, stage: Stage, before: Stage | None) -> tuple[str, ...]:
    """Tell what is otherwise than at the stage before; at the first, than with everything full and everyone aboard."""
    first, start = before is None, before or Stage(name="start", surface=stage.surface)
    told = (
        *_ground(stage, before),
        *_people(asked.case, stage, start, first),
        *_tanks(asked.case, stage, start, first),
        *_contents(asked, stage, start),
        *_rest(asked.case, stage, start),
    )
    if told:
        return told
    fills = any(asked.case.thing_named[step.copy.thing].fills for step in asked.steps)
    full = "everything that is used up full, what fills on the way empty" if fills else "everything full"
    return (f"{full}, everyone aboard",) if before is None else ("nothing but the place",)


def _ground(stage: Stage, before: Stage | None) -> Iterator[str]:
    words = {"sealed_road": "sealed road", "off_road": "off the road", "parked": "parked"}
    if before is not None and before.surface != stage.surface:
        yield f"now {words[stage.surface]}"


def _people(case: Case, stage: Stage, before: Stage, first: bool) -> Iterator[str]:
    here, there = aboard(case.trip, stage), aboard(case.trip, before)
    seats = {person.name: person.seat for person in case.trip.people}
    for name in here:
        if name not in there:
            yield f"{name} gets in ({seats[name]} is taken)"
    out = [name for name in there if name not in here]
    if out and first:
        yield f"without {' and '.join(out)}"
    elif out:
        yield f"{', '.join(out)} {'gets' if len(out) == 1 else 'get'} out"
    for rack in sorted({*stage.on_racks, *before.on_racks}):
        now, then = stage.on_racks.get(rack, 0.0), before.on_racks.get(rack, 0.0)
        if now != then:
            yield f"{now:g} kg of people on {rack}" if now else f"nobody is on {rack} any more"


def _tanks(case: Case, stage: Stage, before: Stage, first: bool) -> Iterator[str]:
    for tank in case.vehicle.tanks:
        now, then = stage.tanks.get(tank.name, 1.0), before.tanks.get(tank.name, 1.0)
        if now != then:
            by = f", {abs(now - then) * tank.holds_l:.0f} L {'more' if now > then else 'less'}"
            yield f"{tank.name} at {now:.0%}{'' if first else by}"
    for fluid, litres in stage.taken_on_l.items():
        yield f"{litres:g} L of {fluid} taken on"


def _contents(asked: Asked, stage: Stage, before: Stage) -> Iterator[str]:
    for stream in sorted({*stage.left, *before.left, *stage.filled, *before.filled}):
        for word, now, then in (
            ("left", stage.left.get(stream, 1.0), before.left.get(stream, 1.0)),
            ("filled", stage.filled.get(stream, 0.0), before.filled.get(stream, 0.0)),
        ):
            if now != then:
                yield f"{stream}: {now:.0%} {word}{_by(asked, stream, stage, before)}"


def _by(asked: Asked, stream: str, stage: Stage, before: Stage) -> str:
    """The copies whose mass a stream changes, with how much each gets lighter or heavier."""
    parts: dict[str, tuple[list[str], float]] = {}
    for step in asked.steps:
        thing = asked.case.thing_named[step.copy.thing]
        if stream in thing.uses_up or stream in thing.fills:
            change = mass_kg(thing, stage, "likely") - mass_kg(thing, before, "likely")
            parts.setdefault(thing.name, ([], change))[0].append(str(asked.number[step.copy]))
    told = (
        f"{name} ({', '.join(numbers)}) {kilograms(abs(change))} kg {'lighter' if change < 0 else 'heavier'}"
        + (" each" if len(numbers) > 1 else "")
        for name, (numbers, change) in parts.items()
    )
    listed = "; ".join(told)
    return f": {listed}" if listed else ""


def _rest(case: Case, stage: Stage, before: Stage) -> Iterator[str]:
    for name in stage.closed:
        if name not in before.closed:
            yield f"{name} must be empty"
    for name in before.closed:
        if name not in stage.closed:
            yield f"{name} may hold things again"
    yield from _trailer(case, stage, before)


def _trailer(case: Case, stage: Stage, before: Stage) -> Iterator[str]:
    """Whether it is on now or off, and what it weighs where that is otherwise."""
    now, then = trailer_at(case.trip, stage), trailer_at(case.trip, before)
    if now is None and then is not None:
        yield "the trailer is off"
    elif now is not None and now != (then or case.trip.towing):
        begin = "the trailer is on and" if then is None else "the trailer"
        yield f"{begin} weighs {whole(now.trailer_kg)} kg, {whole(now.ball_kg)} kg of them on the ball"
    elif now is not None and then is None:
        yield "the trailer is on"
