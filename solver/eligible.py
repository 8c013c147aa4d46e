"""Which things may be in which spaces whatever else is carried, and every reason why not."""

from collections.abc import Iterator

from models.case import Case
from models.gear import Thing
from models.geometry import TURNS, Point, turned
from models.plan import Turn
from models.rulebook import Hazard
from models.rules import Rule
from models.spaces import Space
from models.stages import (
    aboard,
    conditions,
    opening_chain,
    opening_seconds,
    present,
    stuck_conditions,
    tent_up,
    towed,
)
from models.vehicle import AirKind, CargoBarrier
from solver.clear import in_the_way
from solver.held import heaviest_kg, hold_there, too_loose
from solver.in_hand import asked_at, digging_s, left, told_s
from solver.suits import Reason, wrong_words


def reasons(case: Case, thing: Thing, space: Space) -> list[Reason]:
    """Every rule that by itself keeps a thing out of a space; empty where it may go."""
    return list(_one_by_one(case, thing, space))


def allowed(case: Case, thing: Thing, space: Space) -> bool:
    """Whether no rule by itself keeps a thing out of a space; ends at the first that does."""
    return not any(_one_by_one(case, thing, space))


def _one_by_one(case: Case, thing: Thing, space: Space) -> Iterator[Reason]:
    yield from wrong_words(thing, space)
    for family in (_size, _clear, _mass, _air, _reach, _incident, _restraint, _weather, _available):
        yield from family(case, thing, space)


def chain_seconds(case: Case, space: Space) -> float:
    """Seconds to open everything in front of a space."""
    return sum(opening_seconds(o, case.rulebook) for o in opening_chain(case.vehicle, space.opening))


def stuck_in(case: Case, space: Space, now: frozenset[str]) -> bool:
    """Whether the way to a space is stuck in some conditions."""
    return any(stuck_conditions(o, case.rulebook) & now for o in opening_chain(case.vehicle, space.opening))


def not_opened(case: Case, space: Space, now: frozenset[str]) -> str | None:
    """What does not open on the way to a space in some conditions, and why, the frontmost first; None: all opens."""
    for opening in reversed(opening_chain(case.vehicle, space.opening)):
        stuck = sorted(stuck_conditions(opening, case.rulebook) & now)
        if stuck:
            return f"{opening.name} does not open ({', '.join(stuck)})"
    return None


def listed_sizes(thing: Thing) -> tuple[tuple[Turn, Point], ...]:
    """The turns of a thing with a listed size, one for each different box, air gaps included."""
    if thing.size_mm is None:
        return ()
    by_size: dict[tuple[Point, Turn | None], Turn] = {}
    for turn in TURNS[thing.turns]:
        # A square base looks alike in both turns, and its air lies on other sides.
        own = None if thing.air_gap_mm is None else turn
        by_size.setdefault((turned(thing.size_mm, turn), own), turn)
    return tuple((turn, size) for (size, _), turn in by_size.items())


def _size(case: Case, thing: Thing, space: Space) -> list[Reason]:
    if thing.size_mm is None:
        room = space.size_mm[0] * space.size_mm[1] * space.size_mm[2] / 1e6
        wanted = thing.volume_l or 0
        return (
            [Reason(Rule.INSIDE, f"it takes {wanted:g} L and {space.name} has {room:.0f} L")]
            if _passes(wanted, room)
            else []
        )
    short, *more = _short_sides_mm(thing, space) or [0]
    says = f"it is {short} mm too long for {space.name} in every turn it may take"
    if more:
        others = "a second side" if len(more) == 1 else "the other two sides"
        says += f", and {' and '.join(map(str, more))} mm on {others}"
    if thing.turns != "any" and any(along <= 0 and across <= 0 for along, across, _ in _over_mm(thing, space)):
        says = f"it is {short} mm too tall for {space.name} and has to stay upright"
    return [Reason(Rule.INSIDE, says)] if short else []


def short_mm(thing: Thing, space: Space) -> int:
    """By how many mm a thing of a listed size is too long for a space in the turn that comes nearest; 0: it goes in."""
    return max(_short_sides_mm(thing, space), default=0)


def _short_sides_mm(thing: Thing, space: Space) -> list[int]:
    """By how many mm its sides are too long in that turn, the worst first; empty where it goes in."""
    by_turn = ([mm for mm in over if mm > 0] for over in _over_mm(thing, space))
    return min((sorted(sides, reverse=True) for sides in by_turn), default=[])


def _over_mm(thing: Thing, space: Space) -> list[Point]:
    """By turn: how many mm longer than a space a thing of a listed size is along each axis, free air included."""
    gap = thing.air_gap_mm
    extra = (gap.front + gap.rear, gap.left + gap.right, gap.top + gap.bottom) if gap else (0, 0, 0)
    found = []
    for turn, size in listed_sizes(thing):
        around = extra if turn == "lwh" else (extra[1], extra[0], extra[2])
        along, across, up = (size[i] + around[i] - space.size_mm[i] for i in range(3))
        found.append((along, across, up))
    return found


def _clear(case: Case, thing: Thing, space: Space) -> list[Reason]:
    sizes = [size for _, size in listed_sizes(thing)]
    return [Reason(rule, says) for rule, says in in_the_way(case, sizes, space)]


def _mass(case: Case, thing: Thing, space: Space) -> list[Reason]:
    heaviest, found = heaviest_kg(case, thing), []
    if space.limit_kg.kg is not None and _passes(heaviest, space.limit_kg.kg):
        found.append(
            Reason(Rule.SPACE_MASS, f"it weighs {heaviest:.1f} kg and {space.name} holds {space.limit_kg.kg:g} kg")
        )
    return found


def _passes(amount: float, limit: float) -> bool:
    """Whether an amount is more than a limit by more than the arithmetic of the machine may be off."""
    return left(limit, amount) < 0


def _air(case: Case, thing: Thing, space: Space) -> list[Reason]:
    if thing.hazard is None:
        return []
    hazard = case.rulebook.hazards[thing.hazard]
    found = [*_breathed(hazard, thing, case.vehicle.air[space.air], space), *_container(hazard, thing)]
    if hazard.in_holder and hold_there(thing, space) not in ("holder", "bracket"):
        found.append(f"{hazard.words} must ride in its own holder or bracket")
    if hazard.not_hot and space.heat == "hot":
        found.append(f"{hazard.words} may not ride where it gets hot")
    return [Reason(Rule.HAZARD, says) for says in found]


def _breathed(hazard: Hazard, thing: Thing, kind: AirKind, space: Space) -> list[str]:
    """What the kind of air has against a hazard."""
    if kind not in hazard.air:
        allowed = ", ".join(hazard.air)
        return [f"{hazard.words} may not ride in {kind} air ({space.air}); allowed: {allowed}"]
    bound, found = hazard.air[kind], []
    if bound.up_to_l is not None and _passes(thing.holds_l or 0, bound.up_to_l):
        found.append(f"at most {bound.up_to_l:g} L of {hazard.words} may ride in {kind} air")
    if bound.up_to_kg is not None and _passes(thing.net_kg or 0, bound.up_to_kg):
        found.append(f"at most {bound.up_to_kg:g} kg of {hazard.words} may ride in {kind} air")
    return found


def _container(hazard: Hazard, thing: Thing) -> list[str]:
    """What is against its container, wherever it rides."""
    found = []
    if hazard.approved_can and not thing.approved_can:
        found.append(f"{hazard.words} must be in an approved container")
    if hazard.totals.each_l is not None and _passes(thing.holds_l or 0, hazard.totals.each_l):
        found.append(f"one container of {hazard.words} may hold {hazard.totals.each_l:g} L")
    if hazard.totals.each_kg is not None and _passes(thing.net_kg or 0, hazard.totals.each_kg):
        found.append(f"one container of {hazard.words} may hold {hazard.totals.each_kg:g} kg")
    if hazard.upright and thing.size_mm is not None and not upright_turns(thing):
        found.append(f"{hazard.words} must stand upright")
    return found


def upright_turns(thing: Thing) -> bool:
    """Whether a thing can stand as listed."""
    return any(turn.endswith("h") for turn, _ in listed_sizes(thing))


def _reach(case: Case, thing: Thing, space: Space) -> list[Reason]:
    found, asked = [], asked_at(case, thing)
    limit = case.rulebook.access.words[thing.access].seconds
    seconds = chain_seconds(case, space)
    if asked and thing.access == "belted" and not space.in_reach_when:
        found.append(Reason(Rule.REACH, f"nobody reaches {space.name} with a belt on"))
    if digging_s(case, thing, seconds) < 0:
        told, most = told_s(seconds, limit)
        found.append(Reason(Rule.REACH, f"{space.name} takes {told} to open and it must be in hand in {most}"))
    for stage in asked:
        shut = not_opened(case, space, conditions(case.trip, stage)) if stage else None
        if stage and shut:
            found.append(Reason(Rule.REACH, f"{shut} at {stage.name}"))
            break
    return found


def _incident(case: Case, thing: Thing, space: Space) -> list[Reason]:
    found = []
    trailer = {"trailer on"} if towed(case.trip) else set()

    def shut(*now: str) -> str | None:
        return not_opened(case, space, frozenset({*now, *trailer}))

    if "rolled over" in thing.needed_when and (on_its_side := shut("on left side") or shut("on right side")):
        found.append(f"rolled over: {on_its_side}")
    if "bogged" in thing.needed_when and (bogged := shut("sills down", "tail blocked")):
        found.append(f"bogged: {bogged}")
    late = left(case.rulebook.at_once_s.value, chain_seconds(case, space)) < 0
    in_camp = shut(*(("tent up",) if tent_up(case.trip) else ()))
    if "injury" in thing.needed_when and (in_camp or late):
        found.append(f"injury: {in_camp or _too_slow(case, space)}")
    if "roadside at night" in thing.needed_when and (shut() or not roadside_safe(case, space)):
        unsafe = f"{space.name} is not reached from a seat, or from the ground away from traffic"
        found.append(f"roadside at night: {shut() or unsafe}")
    return [Reason(Rule.INCIDENT, says) for says in found]


def _too_slow(case: Case, space: Space) -> str:
    return f"{space.name} is not open within {case.rulebook.at_once_s.value:.0f} s"


def roadside_safe(case: Case, space: Space) -> bool:
    """Whether nobody stands in traffic to reach a space; through the cabin, from a seat or a door on the other side."""
    sides, on_left = way_in(case, space), case.trip.traffic_on == "left"
    if sides == {"inside"} and not space.in_reach_when:
        return space.corner_mm[1] + space.size_mm[1] > 0 if on_left else space.corner_mm[1] < 0
    return sides <= {"inside", "rear", "right" if on_left else "left"}


def way_in(case: Case, space: Space) -> set[str]:
    """The sides at which somebody opens something on the way to a space."""
    return {opening.side for opening in opening_chain(case.vehicle, space.opening)}


def _restraint(case: Case, thing: Thing, space: Space) -> list[Reason]:
    found = []
    barrier = case.vehicle.cargo_barrier
    in_people_air = case.vehicle.air[space.air] == "people"
    held = hold_there(thing, space)
    if held == "none" and (passes := too_loose(case, thing, space)) is not None:
        made = f", a {space.holds} not made for it" if space.holds != "none" else ""
        found.append(f"nothing holds it in {space.name}{made}{passes}")
    if space.holds == "barrier" and barrier is None:
        found.append("there is no cargo barrier")
    if space.holds == "barrier" and barrier and _passes(heaviest_kg(case, thing), barrier.rated_kg):
        found.append(f"the barrier is rated for {barrier.rated_kg:g} kg")
    if space.holds == "barrier" and barrier and in_people_air:
        found += _exposed(case, barrier, thing, space)
    weighs = heaviest_kg(case, thing) > 0 or any(one.inside_of == thing.name for one in case.vehicle.spaces)
    nothing = weighs and not space.tie_downs
    if nothing and thing.asks_for_ties and held in ("enclosed", "barrier", "none"):
        found.append(f"it must be tied and {space.name} has nothing to tie to")
    if nothing and held == "tie_downs":
        found.append(f"{space.name} has nothing to tie to")
    return [Reason(Rule.RESTRAINT, says) for says in found]


def _exposed(case: Case, barrier: CargoBarrier, thing: Thing, space: Space) -> list[str]:
    """That somebody sits behind the last seats that the barrier stands behind, ahead of a space with a thing in it."""
    ends = space.corner_mm[0] + space.size_mm[0]
    begins = max((case.seat_named[name].at_mm[0] for name in barrier.behind_seats), default=ends)
    seat_of = {person.name: person.seat for person in case.trip.people}
    for stage in case.trip.stages:
        taken = [seat_of[name] for name in aboard(case.trip, stage)] if stage.driving and present(thing, stage) else []
        for seat in taken:
            if begins < case.seat_named[seat].at_mm[0] < ends:
                return [f"somebody in {seat} sits behind the barrier too"]
    return []


def _weather(case: Case, thing: Thing, space: Space) -> list[Reason]:
    found = []
    rank = {"dry": 0, "splash": 1, "exposed": 2, "any": 2}
    if rank[space.weather] > rank[thing.weather]:
        found.append(f"{space.name} is {space.weather} and it needs {thing.weather}")
    heat = {"cool": 0, "cabin": 1, "hot": 2, "any": 2}
    if heat[space.heat] > heat[thing.keep]:
        found.append(f"{space.name} gets too warm")
    line = case.vehicle.wading_line_mm
    if thing.electrical and line is not None and space.corner_mm[2] + space.size_mm[2] <= line:
        found.append(f"{space.name} is below the wading line")
    return [Reason(Rule.WEATHER, says) for says in found]


def _available(case: Case, thing: Thing, space: Space) -> list[Reason]:
    seat_of = {person.name: person.seat for person in case.trip.people}
    for stage in case.trip.stages:
        if not present(thing, stage):
            continue
        taken = space.seat is not None and space.seat in {seat_of[name] for name in aboard(case.trip, stage)}
        if taken or space.name in stage.closed:
            why = "somebody sits there" if taken else "it is closed"
            return [Reason(Rule.AVAILABLE, f"{space.name}: {why} at {stage.name}")]
    return []
