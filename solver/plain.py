"""What cannot be, told before any search: locks against a rule, things with no place at all, too much mass."""

from collections.abc import Sequence

from models.case import Case
from models.gear import Thing
from models.locks import locks_on
from models.spaces import Space
from models.trip import Lock
from solver.answers import Conflict, Demand
from solver.company import causes, company_conflict, company_words, copies_asked
from solver.demands import taken_together
from solver.eligible import short_mm
from solver.enough import enough_conflict
from solver.floats import floating_words
from solver.given import given_conflict
from solver.heights import every_reason
from solver.misses import Miss, miss_words, over_totals
from solver.pieces import PROOF_SPARE_G, Piece, Room, meet
from solver.pins import fits_there, needed
from solver.problem import Problem
from solver.state import Lying, lying
from solver.suits import Reason, wrong_words
from solver.taking_part import loosened, needless
from solver.unloaded import reserve_conflict, reserve_of, reserve_words, unloaded_conflict
from solver.wording import limit_holds, lock_demand, lock_words, must_come, reserve_kept

HEAVIEST = 5
"""How many of the heaviest things are told."""


def plain_conflict(problem: Problem) -> Conflict | None:
    """A conflict that needs no search to be seen, or None."""
    # What only the reserve makes impossible is told last: the rest cannot be without it either.
    return (
        given_conflict(problem)
        or unloaded_conflict(problem)
        or _locks(problem)
        or company_conflict(problem)
        or _homeless(problem)
        or enough_conflict(problem)
        or _too_heavy(problem)
        or reserve_conflict(problem)
    )


def _locks(problem: Problem) -> Conflict | None:
    for lock in problem.locks:
        thing = problem.case.thing_named[lock.thing]
        why = _against(problem, thing, lock)
        if why:
            says = f"{lock_words(lock)}: by itself this lock breaks a rule."
            return Conflict((lock_demand(lock),), (says, *why))
    return None


def breaks_alone(problem: Problem, lock: Lock) -> bool:
    """Whether a lock breaks a rule by itself, whatever else is asked."""
    return bool(_against(problem, problem.case.thing_named[lock.thing], lock))


def _against(problem: Problem, thing: Thing, lock: Lock) -> list[str]:
    """Every rule that a lock breaks by itself, as sentences."""
    if lock.in_ is None:
        return []
    why = every_reason(problem.case, thing, problem.case.space_named[lock.in_])
    told = [f"{reason.rule}: {reason.says}." for reason in why]
    if lock.at_mm is not None and not told and thing.count > 1 and lock.copy_number is None:
        return [f"overlap: {thing.count} copies cannot all lie at one corner."]
    if lock.at_mm is not None and not told and not _goes_there(problem, thing, lock):
        meets = "does not lie within the walls, or meets what is fixed there, however it is turned"
        return [f"inside: at {list(lock.at_mm)} in {lock.in_} it {meets}."]
    return told or floating_words(problem.case, thing, lock)


def _goes_there(problem: Problem, thing: Thing, lock: Lock) -> bool:
    room, corner = problem.room_of[lock.in_ or ""], lock.at_mm or (0, 0, 0)
    for piece in problem.pieces:
        if not lock.is_on(piece.copy):
            continue
        if room not in problem.fits[piece.index]:
            return True  # Another lock is against it; that is told elsewhere.
        shapes = problem.fits[piece.index][room].shapes
        ways = (lying(problem, piece.index, room, shape, *corner) for shape in shapes)
        # What is given by volume has more shapes than are tried here.
        place = problem.rooms[room]
        return thing.size_mm is None or any(fits_there(problem, piece, it) and _clear(place, it) for it in ways)
    return True


def _clear(room: Room, it: Lying) -> bool:
    """Whether it meets nothing that is fixed in a room, nor the way of a space of the vehicle that slides."""
    return not any(meet(it.big, block) for block in room.solids) and not any(meet(it.box, w) for w in room.keep_out)


def _homeless(problem: Problem) -> Conflict | None:
    """A thing with no lawful place, or with none that its locks leave open."""
    for piece in problem.pieces:
        if not needed(problem, piece) or problem.fits[piece.index]:
            continue
        case, thing = problem.case, piece.thing
        mine = [one for one in locks_on(problem.locks, piece.copy) if one.in_ or one.not_in]
        open_now = [room.space for room in problem.rooms if not every_reason(case, thing, room.space)]
        locks = tuple(lock_demand(one) for one in _blaming(case, mine, [space.name for space in open_now]))
        asks = () if any(one.in_ for one in mine) else causes(problem, piece)
        if locks and open_now:
            spaces = ", ".join(space.name for space in open_now[:6])
            return Conflict(
                (*locks, *asks), (f"{piece.name} has no place that its locks leave open; lawful: {spaces}.",)
            )
        none = f"{thing.name} has no lawful place in this vehicle."
        says = (*company_words(problem, piece), none, *nearest(case, problem, piece.kind))
        return Conflict(causes(problem, piece), says)
    return None


def _blaming(case: Case, locks: Sequence[Lock], names: Sequence[str]) -> list[Lock]:
    """The fewest of the locks that leave none of the spaces open, dropped one at a time."""
    kept = list(locks)
    for one in locks:
        rest = [other for other in kept if other is not one]
        if not any(_open(case, rest, name) for name in names):
            kept = rest
    return kept


def _open(case: Case, locks: Sequence[Lock], name: str) -> bool:
    return taken_together(locks).admits(case, case.space_named[name])


def nearest(case: Case, problem: Problem, kind: int, count: int = 3) -> list[str]:
    """The spaces that come nearest, with what stands against each: those made for it, in air that it may ride in first.

    How many more there are is told last.
    """
    thing = problem.things[kind]
    against = [(every_reason(case, thing, room.space), room.space) for room in problem.rooms]
    against.sort(key=lambda pair: (_far(case, thing, *pair), pair[1].name))
    made_for_it = [one for one in against if len(one[0]) == 1 or not wrong_words(thing, one[1])] or against
    told = [f"{space.name}: {_told(thing, why, space)}." for why, space in made_for_it[:count] if why]
    return [*told, *_others(len(against) - len(told))]


def _others(count: int) -> list[str]:
    if count < 1:
        return []
    return [f"The {'other space' if count == 1 else f'{count} other spaces'} may not hold it either."]


def _told(thing: Thing, why: Sequence[Reason], space: Space) -> str:
    """What stands against a space, and where that is a word alone, how it is given."""
    told = "; ".join(_beside(space, reason) for reason in why)
    if not space.accepts or list(why) != wrong_words(thing, space):
        return told
    return f"{told}; if it belongs there, give it `holder: {space.accepts[0]}`"


def _far(case: Case, thing: Thing, why: Sequence[Reason], space: Space) -> tuple[int, int, int]:
    """How far a space is from taking a thing: by its air and its words, by how many rules, and by how many mm."""
    air = case.vehicle.air[space.air]
    not_breathed = thing.hazard is not None and air not in case.rulebook.hazards[thing.hazard].air
    # Of a thing without a word it is not known that it does not belong into a space that asks for one.
    elsewhere = thing.holder is not None and bool(wrong_words(thing, space))
    return not_breathed + elsewhere, len(why), short_mm(thing, space)


def _beside(space: Space, reason: Reason) -> str:
    """What a reason says, to go after the name of its space."""
    told = reason.says.removeprefix(f"{space.name}: ").removeprefix(f"{space.name} ")
    return told.replace(f" mm too long for {space.name} in ", " mm too long in ").replace(
        f" mm too tall for {space.name} and ", " mm too tall and "
    )


def _too_heavy(problem: Problem) -> Conflict | None:
    must = [piece for piece in problem.pieces if needed(problem, piece)]
    over = over_totals(problem, lambda t: sum(piece.proof_g[t] for piece in must), PROOF_SPARE_G)
    worst = max(over, key=lambda miss: miss.kg, default=None)
    if not must or worst is None:
        return None
    case, reserve_kg = problem.case, reserve_of(problem, worst)
    only_the_reserve = worst.kg <= reserve_kg
    kg = worst.kg if only_the_reserve else worst.kg - reserve_kg
    kept = reserve_words(problem, worst) if only_the_reserve else ""
    more = f"; {worst.kg:.1f} kg with {reserve_kg:g} kg of reserve" if reserve_kg and not kept else ""
    says = f"What must come {miss_words(problem, worst, kg)}{kept}{more}."
    demands = _carriers(problem, worst, 0.0 if only_the_reserve else reserve_kg)
    if only_the_reserve:
        demands.append(reserve_kept(case))
    demands.append(limit_holds(case, worst.subject))
    return Conflict(tuple(demands), (says, _heaviest(must)))


def _carriers(problem: Problem, miss: Miss, but_kg: float) -> list[Demand]:
    """What makes too much come, as few as were found: locks, those on the lightest left out first, and what must.

    So many kilograms of the miss do not count.
    """
    named = problem.case.thing_named
    carrying = [lock for lock in problem.locks if lock.carried or lock.in_]
    mine = [lock for lock in carrying if not named[lock.thing].must]
    mine.sort(key=lambda lock: named[lock.thing].mass_kg.most * (1 if lock.copy_number else named[lock.thing].count))

    def too_much(gone: Sequence[Lock], *, musts: bool = True) -> bool:
        less = loosened(problem, gone, musts=musts)
        come = [piece for piece in less.pieces if needed(less, piece)]
        over = over_totals(less, lambda t: sum(piece.proof_g[t] for piece in come), PROOF_SPARE_G)
        return any(one.subject == miss.subject and one.kg > but_kg for one in over)

    gone = needless(mine, too_much)
    kept = [lock_demand(lock) for lock in problem.locks if lock in mine and lock not in gone]
    on_musts = [lock for lock in carrying if lock not in mine]
    if kept and too_much([*gone, *on_musts], musts=False):
        return [*kept, *copies_asked(loosened(problem, [*gone, *on_musts], musts=False))]
    must = tuple(sorted({piece.thing.name for piece in problem.pieces if needed(problem, piece) and piece.thing.must}))
    asked = [must_come(problem.case, must)] if must else []
    return [*kept, *copies_asked(loosened(problem, gone)), *asked]


def _heaviest(pieces: Sequence[Piece]) -> str:
    heavy = sorted({(-piece.heaviest_g, piece.copy.thing) for piece in pieces})[:HEAVIEST]
    return "The heaviest of it: " + ", ".join(f"{name} {-mass / 1000:.1f} kg" for mass, name in heavy) + "."
