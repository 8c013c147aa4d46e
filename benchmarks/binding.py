"""Which rules bind in the worked trips: each is lifted alone, and the answer is compared.

Run: python -m benchmarks.binding [--effort 0.3]
"""

from collections.abc import Callable
from pathlib import Path

from benchmarks.table import arguments, heading, table
from models.case import Case
from models.reading import read_case
from models.rulebook import RuleBook, UpTo
from solver import Options, Proposal, propose

SCENARIOS = Path(__file__).parents[1] / "scenarios"


def changed(case: Case, **parts: object) -> Case:
    """The case with vehicle, things, trip or rule book replaced."""
    whole = {"vehicle": case.vehicle, "things": case.things, "trip": case.trip, "rulebook": case.rulebook, **parts}
    return Case(**whole)  # type: ignore[arg-type]


def _things(case: Case, **update: object) -> Case:
    return changed(case, things=tuple(thing.model_copy(update=update) for thing in case.things))


def _vehicle(case: Case, **update: object) -> Case:
    return changed(case, vehicle=case.vehicle.model_copy(update=update))


def _limits(case: Case, *fields: str) -> Case:
    limits = case.vehicle.limits
    open_ended = {field: getattr(limits, field).model_copy(update={"kg": None}) for field in fields}
    return _vehicle(case, limits=limits.model_copy(update=open_ended))


def _hazard(case: Case) -> Case:
    book: RuleBook = case.rulebook
    anywhere = {kind: UpTo() for kind in ("people", "sealed", "vented", "locker", "open")}
    freed = {
        word: hazard.model_copy(update={"air": anywhere, "in_holder": False, "upright": False, "not_hot": False})
        for word, hazard in book.hazards.items()
    }
    return changed(case, rulebook=book.model_copy(update={"hazards": freed}))


LIFTED: dict[str, Callable[[Case], Case]] = {
    "gross_mass": lambda c: _limits(c, "gvm_kg", "gcm_kg"),
    "axle": lambda c: _limits(c, "rear_axle_kg", "front_axle_kg"),
    "rack": lambda c: _vehicle(
        c, racks=tuple(r.model_copy(update={"limits": type(r.limits)()}) for r in c.vehicle.racks)
    ),
    "space_mass": lambda c: _vehicle(
        c,
        spaces=tuple(
            s.model_copy(update={"limit_kg": s.limit_kg.model_copy(update={"kg": None})}) for s in c.vehicle.spaces
        ),
    ),
    "hazard": _hazard,
    "segregation": lambda c: changed(c, rulebook=c.rulebook.model_copy(update={"segregation": ()})),
    "incident": lambda c: _things(c, needed_when=()),
    "reach": lambda c: _things(c, access="seldom"),
    "weather": lambda c: _things(c, weather="any", wet=False, keep="any", electrical=False),
    "lock": lambda c: changed(c, trip=c.trip.model_copy(update={"locks": ()})),
}


def told(proposal: Proposal) -> tuple[float | None, float | None]:
    """Value carried and height of an answer."""
    values = {level.name: level.value for level in proposal.levels}
    return values.get("value carried"), values.get("height")


def main() -> None:
    """Print the table."""
    given = arguments(__doc__, effort=0.3)
    print(heading())
    options = Options(effort=given.effort, seconds=120)
    rows: list[list[object]] = []
    for folder in sorted(path.parent for path in SCENARIOS.glob("*/trip.yaml")):
        case = read_case(folder / "trip.yaml").case
        value, height = told(propose(case, options))
        rows.append([folder.name, "none", value, height, None, None])
        for rule, lift in LIFTED.items():
            other, level = told(propose(lift(case), options))
            more = None if other is None or value is None else other - value
            lower = None if level is None or height is None else height - level
            rows.append([folder.name, rule, other, level, more, lower])
    print(table(("trip", "lifted alone", "value", "height mm", "more value", "lower by mm"), rows))


if __name__ == "__main__":
    main()
