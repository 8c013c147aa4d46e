"""What an explanation tells of a search's answer: every figure recomputed by the verifier."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from cli.figures import broken_count, figures, height_mm, sound_offer, weighing
from models.case import Case, Copy, copy_of
from models.plan import Plan
from models.reading import PlanRead
from models.rules import Rule
from models.trip import Lock
from report.explained import Explained, Figures, HomeExplained, LockTold, Offer, RowTold, WayTold
from solver import (
    Explanation,
    HomeExplanation,
    Options,
    Row,
    WayToTake,
    forbids,
    how_much,
    lock_words,
    unlocked,
    why_home,
    why_not,
    with_more,
)
from verifier import judge

STILL_BROKEN = "what this plan breaks would stay broken"
"""What is told of a change that is found from a broken plan and does not mend it."""

NAMED = 3
"""So many things that lie elsewhere are named, more are counted."""
HALVINGS = 9
"""Steps to find the mass at which a price would be under a millimetre: to a five-hundredth of the mass."""


def why_here(read: PlanRead, plan_file: str, copy: Copy, instead: str | None, options: Options) -> Explained:
    """Why a copy is where it is; `instead` looks closely at one space."""
    found = why_not(read.case, read.plan, copy, options, instead)
    files = LockFiles(read, plan_file, copy)
    as_it_lies = judge(read.case, read.as_it_lies)
    now = figures(read.case, read.plan, None if read.lost else as_it_lies)
    teller = _Teller(read.case, read.plan, files, found, now, deep=instead is not None)
    return Explained(
        copy,
        found.space,
        tuple(files.told(found.locks)),
        tuple(teller.row(row) for row in found.rows),
        plan_file,
        tuple((c, p.space) for p in read.plan.placements if (c := copy_of(p)).thing == copy.thing and c != copy),
        deep=instead is not None,
        broken=broken_count(as_it_lies),
        above_mm=(now.height_mm or teller.lowest_mm) - teller.lowest_mm,
    )


class LockFiles:
    """Locks on a copy as people hear of them, with the file that says so."""

    def __init__(self, read: PlanRead, plan_file: str, copy: Copy) -> None:
        self._case = read.case
        self._here = next((place for place in read.plan.placements if copy_of(place) == copy), None)
        trip = str(Path(plan_file).parent / read.plan.trip)
        self._files = ((read.case.trip.locks, trip, True), (read.plan.locks, plan_file, False))

    def told(self, locks: Sequence[Lock]) -> Iterator[LockTold]:
        """Some locks, once for each file that has them."""
        for lock in locks:
            for has, file, of_trip in self._files:
                if lock in has:
                    out, kept = lock.not_in is not None, self._kept(lock)
                    yield LockTold(lock_words(lock), file, of_trip, out, kept, _unlock_options(lock))

    def _kept(self, lock: Lock) -> bool:
        """Whether the plan keeps a lock on the copy."""
        if self._here is None:
            return lock.in_ is None
        return not forbids(self._case, lock, self._case.space_named[self._here.space], self._here.corner_mm)


def _unlock_options(lock: Lock) -> tuple[str, ...]:
    """Options of `unlock` that mean a lock by what it says, of what it says the narrowest."""
    if lock.not_in is not None:
        return ("--not-in", lock.not_in)
    if lock.in_ is not None and lock.at_mm is not None:
        return ("--at-corner", f"{lock.in_}@{','.join(map(str, lock.at_mm))}")
    return ("--at-home",) if lock.in_ is None else ("--in", lock.in_)


class _Teller:
    """The rows of an explanation, one after the other."""

    def __init__(
        self, case: Case, plan: Plan, files: LockFiles, found: Explanation, now: Figures, *, deep: bool
    ) -> None:
        self.case, self.plan, self.files, self.found, self.now, self.deep = case, plan, files, found, now, deep
        self.lowest_mm = height_mm(case, found.lowest)

    def row(self, row: Row) -> RowTold:
        """A space with what stands against it, or with its price."""
        told = self._row(row)
        return replace(told, at_corner=row.corner_mm is not None, against_corner=_texts(row.against_corner))

    def _row(self, row: Row) -> RowTold:
        why = _texts(row.rules)
        lifted = tuple(self.files.told(row.lifted))
        if row.plan is None or row.lowest is None:
            demands = () if row.conflict is None else tuple(one.says for one in row.conflict.demands)
            return RowTold(row.space, row.kind, why, row.in_any_plan, demands=demands, lifted=lifted)
        told = self._offer(row.plan, row)
        if told is None:
            locked = (f"{Rule.LOCK.value}: {lock_words(lock)}" for lock in row.lifted)
            return RowTold(row.space, "none found", (*why, *locked, STILL_BROKEN), lifted=lifted)
        there_mm = height_mm(self.case, row.lowest)
        found = there_mm - self.lowest_mm
        price = found if row.about_mm is None else row.about_mm
        word = how_much(price)
        lowest = self._offer(row.lowest, row) if self.deep or word == "better" else None
        if word == "better":  # that plan, and not the one that moves least and may be higher than this one
            told = lowest or told
        return RowTold(
            row.space,
            row.kind,
            why,
            offer=told,
            about_mm=row.about_mm,
            found_mm=found,
            lowest_mm=(self.lowest_mm, there_mm),
            word=word,
            under_kg=self._under_kg(row.lowest, price) if self.deep else None,
            lifted=lifted,
        )

    def _offer(self, plan: Plan, row: Row) -> Offer | None:
        case = unlocked(self.case, row.lifted, self.found.copy)
        return sound_offer(
            case, self.plan, plan, f"explain {self.case.called(self.found.copy)} in {row.space}", self.now
        )

    def _under_kg(self, lowest: Plan, price: float) -> float | None:
        """The mass of the thing under which the two lowest layouts would differ by less than a millimetre."""
        thing = self.found.copy.thing
        low, high = 0.0, self.case.thing_named[thing].mass_kg.likely
        if price < 1 or self._difference(thing, 0.0, lowest) >= 1:
            return None
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self._difference(thing, middle, lowest) < 1 else (low, middle)
        return low

    def _difference(self, thing: str, mass_kg: float, lowest: Plan) -> float:
        case = weighing(self.case, thing, mass_kg)
        return height_mm(case, lowest) - height_mm(case, self.found.lowest)


def _texts(against: Iterable[tuple[Rule, str]]) -> tuple[str, ...]:
    """What stands against something, each with its rule."""
    return tuple(f"{rule.value}: {says}" for rule, says in against)


def why_at_home(
    read: PlanRead, plan_file: str, copy: Copy, options: Options, instead: str | None = None
) -> HomeExplained:
    """Why a copy stays at home, and ways to take it; `instead` looks at one space alone."""
    found = why_home(read.case, read.plan, copy, options, instead)
    against = tuple((space, _texts(why)) for space, why in found.rules)
    broken, files = broken_count(judge(read.case, read.as_it_lies)), LockFiles(read, plan_file, copy)
    ways = _ways(read, files, found)
    locks, heights = tuple(files.told(found.locks)), _heights(read, found, ways)
    return HomeExplained(
        copy, locks, against, found.lawful, ways, broken, found.lacks, found.bars, plan_file, instead, heights
    )


def _heights(read: PlanRead, found: HomeExplanation, ways: Sequence[WayTold]) -> tuple[float, float] | None:
    """Height in mm of what must come alone and with the copy; None where they are not known to hold."""
    if not ways or found.alone is None or found.lowest is None:
        return None
    case = unlocked(read.case, found.ways[0].lifted, found.copy)
    lowest = found.lowest.model_copy(update={"locks": found.ways[0].plan.locks})
    if any(judge(case, plan).broken for plan in (found.alone, lowest)):
        return None
    return height_mm(case, found.alone), height_mm(case, lowest)


def _ways(read: PlanRead, files: LockFiles, found: HomeExplanation) -> tuple[WayTold, ...]:
    told = (_way(read, files, found.copy, one) for one in found.ways)
    return tuple(one for one in told if one is not None)


def _way(read: PlanRead, files: LockFiles, copy: Copy, way: WayToTake) -> WayTold | None:
    free = unlocked(read.case, way.lifted, copy)
    case = free if way.limit is None else with_more(free, way.limit, way.more_kg)
    told = sound_offer(case, read.plan, way.plan, f"explain --left {read.case.called(copy)}")
    lifted = tuple(files.told(way.lifted))
    against = _texts(way.against_corner)
    if told is None:
        return None
    others = [one for one in told.moves.moved if one not in (copy, *way.along)]
    there = next((place.space for place in way.plan.placements if copy_of(place) == copy), None)
    says = way_words(read.case, way, others)
    return WayTold(says, told, way.limit is None, lifted, against, there if way.as_it_is else None)


def once_moved(case: Case, moved: Sequence[Copy]) -> str:
    """On what terms there is room: as it is, or once some other things lie elsewhere."""
    if not moved:
        return "as it is"
    if len(moved) > NAMED:
        return f"once {len(moved)} other things lie elsewhere"
    return f"once {' and '.join(map(case.called, moved))} {'lie' if moved[1:] else 'lies'} elsewhere"


def way_words(case: Case, way: WayToTake, moved: Sequence[Copy]) -> str:
    """What a way asks for; `moved`: what changes its place for it beside what comes."""
    called = ", ".join(map(case.called, way.along))
    along = f", and {called} come{'' if way.along[1:] else 's'} along" if called else ""
    if way.limit is not None:
        return f"with {way.more_kg:g} kg more of the limit of the {way.limit}{along}"
    if way.leave is None:
        return f"there is room for it {once_moved(case, moved)}{along}"
    worth = case.thing_named[way.leave.thing].carry
    return f"leave {case.called(way.leave)} at home instead (worth {worth:g} of 100 to you){along}"
