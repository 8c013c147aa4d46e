"""The conversation with a plan: locks by chance, revisions, explanations against a long search, trips that cannot be.

Run: python -m benchmarks.conversation [--count 100] [--changes 20] [--rows 30] [--trips 50] [--long 60] [--only locks].
A plan may have fewer rows to explain than asked for: then all there are count, and their number is told.
"""

import time
from argparse import Namespace
from collections import Counter
from random import Random
from statistics import mean, median

from benchmarks.questions import impossible_trip, some_change, some_locks, with_locks
from benchmarks.reference import Reference, Row
from benchmarks.table import arguments, heading, scenarios, table
from models.case import Case, copy_of
from models.plan import Plan
from solver import Demand, Options, Revision, Status, WayOut, how_much, propose, revise, why_not
from solver.asking import Asked, dropped
from solver.problem import Problem
from verifier import check

DEFAULT = Options()
"""The default effort and time of a command."""


def outcome(case: Case, found: Revision) -> str:
    """How an attempt ended: plan, conflict shown, conflict not shown, not found, or refused by the verifier."""
    proposal = found.proposal
    if proposal.plan is not None:
        return "plan" if check(case, proposal.plan).holds is not False else "REFUSED"
    conflict = proposal.conflict
    if proposal.status is Status.IMPOSSIBLE and conflict is not None:
        return "conflict shown" if any(one.shown for one in conflict.demands) else "conflict, no member shown"
    return "not found, a way out shown" if conflict is not None and conflict.ways_out else "not found"


def locked(case: Case, plan: Plan, count: int) -> tuple[Counter[str], list[str]]:
    """Outcomes of sets of locks, and those that ended in neither plan nor shown conflict."""
    problem, ends, rest = Problem(case, locks=plan.locks), Counter[str](), []
    for seed in range(count):
        locks = some_locks(problem, plan, Random(seed))  # noqa: S311
        end = outcome(case, revise(case, with_locks(plan, *locks), DEFAULT))
        ends[end] += 1
        if end not in ("plan", "conflict shown"):
            told = ", ".join(
                f"{one.thing} #{one.copy_number} in {one.in_}{' at its corner' * (one.at_mm is not None)}"
                for one in locks
            )
            rest.append(f"seed {seed}: {end}: {told}")
    return ends, rest


def revised(case: Case, plan: Plan, count: int, long_s: float, few: int) -> tuple[list[object], list[str]]:
    """Median and slowest seconds, outcomes, and minutes against the best of a long run on a few."""
    seconds, ends, ratios, told = [], Counter[str](), list[float](), []
    for seed in range(count):
        words, changed, now = some_change(case, plan, Random(seed))  # noqa: S311
        began = time.monotonic()
        found = revise(changed, now, DEFAULT)
        seconds.append(time.monotonic() - began)
        end = outcome(changed, found)
        ends[end] += 1
        told.append(f"{words}: {end}, {seconds[-1]:.2f} s, {found.minutes:.1f} min, {len(found.moved)} moved")
        if end == "plan" and found.minutes > 0 and len(ratios) < few and not found.left_behind:
            best = min([found.minutes, *long_minutes(changed, now, long_s)])
            ratios.append(found.minutes / best if best else 1.0)
    worst = max(ratios, default=None)
    return [median(seconds), max(seconds), dict(ends), len(ratios), worst], told


def long_minutes(case: Case, plan: Plan, seconds: float) -> list[float]:
    """Minutes of revisions with more effort and other seeds, until a time is over; none may leave more behind."""
    ends, found, seed = time.monotonic() + seconds, [], 0
    while time.monotonic() < ends:
        seed += 1
        one = revise(case, plan, Options(effort=8.0, seconds=ends - time.monotonic(), seed=seed))
        if one.proposal.plan is not None and not one.left_behind:
            found.append(one.minutes)
    return found


def explained(case: Case, plan: Plan, count: int, effort: float) -> tuple[list[object], list[str]]:
    """Seconds, and how many sampled rows agree with a long search in sign and class; the mean error in mm."""
    reference = Reference(case, plan)
    rows, seconds = sampled(case, plan, count, reference)
    reference.search(rows, effort)
    long = {row: reference.price_mm(row) for row in rows}
    same = sum(word_class(price) == word_class(long[row]) for row, price in rows.items())
    errors = [abs(price - long[row]) for row, price in rows.items()]
    few = [f"only {len(rows)} rows of the {count} asked for: there are no more"] * (len(rows) < count)
    return [*middle_and_most(seconds), len(rows), same, mean(errors) if errors else None], [
        *few,
        *(
            f"{copy} in {space}: {price:.2f} mm, long search {long[copy, space]:.2f} mm"
            + " !" * (word_class(price) != word_class(long[copy, space]))
            for (copy, space), price in rows.items()
        ),
    ]


def sampled(case: Case, plan: Plan, count: int, reference: Reference) -> tuple[dict[Row, float], list[float]]:
    """Prices by row of some things by chance, two rows of each, more only where all things give too few.

    Each thing is asked once, and its seconds come along. There are fewer rows where the plan has no more.
    """
    random, seconds, rows, rest = Random(0), [], dict[Row, float](), dict[Row, float]()  # noqa: S311
    for copy in random.sample(copies := [copy_of(place) for place in plan.placements], len(copies)):
        if len(rows) >= count:
            break
        began = time.monotonic()
        found = why_not(case, plan, copy)
        seconds.append(time.monotonic() - began)
        priced = {(copy, row.space): row.told_mm for row in found.rows if row.told_mm is not None}
        reference.take(found.lowest, *(row.lowest for row in found.rows if row.lowest and row.told_mm is not None))
        some = random.sample(list(priced), min(2, len(priced), count - len(rows)))
        rows |= {row: priced[row] for row in some}
        rest |= {row: price for row, price in priced.items() if row not in some}
    more = random.sample(list(rest), min(len(rest), count - len(rows)))
    return rows | {row: rest[row] for row in more}, seconds


def middle_and_most(seconds: list[float]) -> list[object]:
    """Median and slowest; two dashes where nothing was asked."""
    return [median(seconds), max(seconds)] if seconds else [None, None]


def word_class(higher_mm: float) -> str:
    """Hardly matters either way, better by a millimetre and more, 1 to 5 mm, or more."""
    return "hardly matters" if abs(higher_mm) < 1 else how_much(higher_mm)


def impossible(case: Case, plan: Plan, count: int) -> tuple[list[object], list[str]]:
    """Made-up impossible trips: outcomes, members told and shown, and the ways out; what does not work is counted."""
    ends, members, shown, wrong, told = Counter[str](), 0, 0, 0, []
    none, ways = 0, list[WayOut]()
    for seed in range(count):
        words, changed, now = impossible_trip(case, plan, Random(seed))  # noqa: S311
        found = revise(changed, now, DEFAULT)
        end = outcome(changed, found)
        ends[end] += 1
        conflict = found.proposal.conflict
        demands = () if conflict is None or found.proposal.plan is not None else conflict.demands
        bad = [one for one in demands if one.shown and not gives_a_plan(changed, now, one)]
        members, shown = members + len(demands), shown + sum(one.shown for one in demands)
        wrong += len(bad)
        out = () if conflict is None or found.proposal.plan is not None else conflict.ways_out
        none, ways = none + (found.proposal.plan is None and not out), [*ways, *out]
        told.append(
            f"{words}: {end}, {len(demands)} members, {len(out)} ways out" + "".join(f" WRONG {d.says}" for d in bad)
        )
    return [dict(ends), members, shown, wrong, none, len(ways), sum(not works(way) for way in ways)], told


def works(way: WayOut) -> bool:
    """Whether a way out has a plan that the verifier accepts for the case as it is changed."""
    return way.plan is not None and way.case is not None and check(way.case, way.plan).holds is not False


def gives_a_plan(case: Case, plan: Plan, demand: Demand) -> bool:
    """Whether dropping a member gives a plan that the verifier accepts."""
    asked = dropped(Asked(case, plan.locks, True), demand)
    options = Options(effort=0.05, seconds=10.0, use_reserve=asked.use_reserve)
    found = propose(asked.case, options, locks=asked.locks, before=plan)
    if found.plan is None or (found.reserve_given_up and asked.use_reserve):
        return False
    return check(asked.case, found.plan).holds is not False


PARTS: dict[str, tuple[str, ...]] = {
    "locks": ("trip", "sets", "ends"),
    "revise": ("trip", "median s", "slowest s", "ends", "compared", "worst minutes to best"),
    "explain": ("trip", "median s", "slowest s", "rows", "agree", "mean error mm"),
    "impossible": ("trip", "ends", "members", "shown", "shown but no plan", "without a way out", "ways out", "refused"),
}
"""The tables and their columns."""


def part(name: str, case: Case, plan: Plan, given: Namespace) -> tuple[list[object], list[str]]:
    """One row of one table, and what it is made of."""
    if name == "locks":
        ends, rest = locked(case, plan, given.count)
        return [given.count, dict(ends)], rest
    if name == "revise":
        return revised(case, plan, given.changes, given.long, given.few)
    if name == "explain":
        return explained(case, plan, given.rows, given.full)
    return impossible(case, plan, given.trips)


def main() -> None:
    """Print four tables, each with what its rows are made of; `--only` names one of them."""
    given = arguments(__doc__, count=100, changes=20, rows=30, trips=50, long=60.0, few=3, full=0.7, only="")
    print(heading())
    plans = {name: (case, propose(case, DEFAULT).plan) for name, case in scenarios().items()}
    for name, columns in PARTS.items():
        if given.only not in ("", name):
            continue
        rows, lines = [], []
        for trip, (case, plan) in plans.items():
            if plan is not None:
                row, told = part(name, case, plan, given)
                rows.append([trip, *row])
                lines += [f"\n{trip}", *told]
        print(f"\n{name}\n\n{table(columns, rows)}\n" + "\n".join(lines), flush=True)


if __name__ == "__main__":
    main()
