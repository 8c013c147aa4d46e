"""A weighbridge ticket beside a plan."""

from collections.abc import Iterable, Iterator, Sequence
from math import ceil

from models.case import Case
from models.stages import trailer_at
from models.trip import Towing
from report.figures import UNKNOWN, left, limit, over, share_beside, told_beside, whole
from report.terminal.table import bullets, paragraph, table
from report.terminal.whole import NARROW, WIDE
from report.told import Finding
from report.told_weighing import Correction, Difference, MissingMass, Place, Weighing

SHOWN = 5
"""How many corrections are told."""

NAMED = 6
"""How many places are named that a missing mass may be in; the others are counted."""

COARSE_MM = 500.0
"""From this doubt on a place is told to 100 mm, below it to 50 mm."""

WITH_TRAILER = "with trailer"
"""The subject of vehicle and trailer together."""

BALL = "tow ball"
"""The subject of what the trailer puts on the ball."""

AS_TYPED = "people and tanks are as typed in and everything lies where the plan says"
"""On what corrections of masses rest."""

STALE = "A ticket holds for what was on the scale: weigh again when the load has changed."


def weigh_report(case: Case, found: Weighing, width: int = NARROW, remarks: Sequence[str] = ()) -> str:
    """The answer, the table, what to ask, where the missing mass probably sits, and which masses to look at.

    `remarks` are on the plan that was weighed.
    """
    width = min(max(width, NARROW), WIDE)
    parts = [
        paragraph(f"{case.trip.name} with {case.vehicle.name}, weighed at '{found.stage}'", width),
        [*paragraph(_answer(found), width, "Within the limits?  "), *bullets(_broken(found), width)],
        [line for text in remarks for line in paragraph(text, width)],
        _table(case, found, width),
        _part("Ask first, before anything is concluded", found.questions, width),
        [line for text in _concluded(case, found) for line in paragraph(text, width)],
        _part(_likely(found), _corrections(found), width),
        ["Caution", *bullets((STALE,), width)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _part(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = bullets(texts, width)
    return [*paragraph(title, width), *lines] if lines else []


def _answer(found: Weighing) -> str:
    if found.holds is not None:
        return "YES, as weighed." if found.holds else "NO, as weighed."
    why = _unsure(found)
    if all(one.holds is not False for one in found.limits):
        return f"NOT SIGNED OFF. Nothing is over as weighed, but {why}."
    parked = f"no mass is over as weighed, but {why}, and" if why else "it breaks no limit, but"
    return f"NOT SIGNED OFF. Parked at '{found.stage}' {parked} it may not drive as it was weighed."


def _unsure(found: Weighing) -> str | None:
    """Why nobody can say that all limits are held, as far as they are of masses. None: nothing is in doubt."""
    if found.questions:
        return "the ticket itself is in question"
    return "a limit is unknown" if any(one.holds is None for one in found.limits) else None


def _broken(found: Weighing) -> Iterator[str]:
    for one in found.limits:
        if one.holds is False:
            source = f" Limit from: {one.source}." if one.source else ""
            yield f"{one.says}{source}"
        elif one.holds is None:
            yield f"The limit of the {'vehicle ' if one.subject == WITH_TRAILER else ''}{one.subject} is unknown."


def _table(case: Case, found: Weighing, width: int) -> list[str]:
    limits = {one.subject: one for one in found.limits if one.unit == "kg"}
    rows = [_row(one, limits.get(one.subject)) for one in found.differences]
    header = ("kg", "predicted", "doubt", "measured", "difference", "limit", "left")
    lines = table(header, rows, width)
    told = (
        "predicted: with the most likely masses, where a check takes the heaviest; doubt: two standard deviations of "
        "the empty vehicle and the things, with people, tanks and the ball as typed in; "
        f"the scale tells steps of {found.ticket.division_kg:g} kg"
    )
    lines += paragraph(told, width)
    trailer = _trailer(case, found)
    if trailer is not None and WITH_TRAILER in limits:
        told = f"its {whole(trailer.trailer_kg)} kg are as typed in, and not weighed; what it puts on the ball"
        lines += paragraph(f"{told} is on the scale already", width, "With trailer: ", "  ")
    if BALL in limits:
        lines += paragraph(_ball(limits[BALL]), width, "On the tow ball: ", "  ")
    for one in found.limits:
        if one.unit == "share" and one.value is not None and one.limit is not None:
            told, asked = share_beside(one.value, one.limit, one.holds)
            told = f"{told} of the mass; {asked} is asked for"
            lines += paragraph(told, width, "On the front wheels: ", "  ")
        if one.subject == "left and right":
            lines += paragraph(_aside(one, found.driving), width, "Left and right differ by ", "  ")
    return lines


def _trailer(case: Case, found: Weighing) -> Towing | None:
    """The trailer that is on at the stage at which it was weighed."""
    return trailer_at(case.trip, next(one for one in case.trip.stages if one.name == found.stage))


def _ball(one: Finding) -> str:
    """What the trailer puts on the ball: typed in, so it has no row among what was weighed."""
    carried, allowed = told_beside(one.value, one.limit, one.holds), limit(one.limit)
    if one.holds is False and one.margin is not None:
        return f"{carried} kg as typed in, and not weighed: {over(-one.margin)} kg more than its limit of {allowed} kg"
    ends = "its limit is unknown" if one.holds is None else f"its limit is {allowed} kg"
    return f"{carried} kg as typed in, and not weighed; {ends}"


def _aside(one: Finding, driving: bool) -> str:
    if one.holds is False and one.margin is not None:
        return f"{whole(one.value)} kg, {over(-one.margin)} kg more than is allowed{'' if driving else ' when driving'}"
    return f"{told_beside(one.value, one.limit, one.holds)} kg of {limit(one.limit)} kg"


def _row(one: Difference, bound: Finding | None) -> tuple[str, ...]:
    doubt = "-" if one.doubt_kg is None else f"+/- {one.doubt_kg:.0f}"
    ends = ("-", "-") if bound is None else (limit(bound.limit), left(bound.margin, bound.holds))
    allowed, holds = (None, None) if bound is None else (bound.limit, bound.holds)
    measured = told_beside(one.measured_kg, allowed, holds)
    return (one.subject, whole(one.predicted_kg), doubt, measured, _signed(one.difference_kg), *ends)


def _signed(kg: float | None) -> str:
    return UNKNOWN if kg is None else f"{kg:+.0f}" if abs(kg) >= 0.5 else "0"


def _concluded(case: Case, found: Weighing) -> Iterator[str]:
    if found.questions:
        return
    if found.missing is not None:
        yield _missing(found.missing)
    elif found.shifted_kg is not None:
        yield _shifted(found.shifted_kg, found.could_shift_kg or 0.0)
    elif found.off_axle is not None:
        off = next(one.difference_kg for one in found.differences if one.subject == found.off_axle)
        yield (
            f"The total fits, but the {found.off_axle} is off by {_signed(off)} kg, which neither the step of the "
            "scale nor the doubt of the masses explains: look at where heavy things stand, and weigh once more."
        )
    elif any(one.difference_kg is None for one in found.differences):
        if found.missing_total_kg is not None:
            yield _missing_total(found, found.missing_total_kg)
        yield f"What the axles carry cannot be predicted: {_what_first(case, found)}."
    elif found.aside_kg is None:
        yield "The ticket agrees with the plan, within the step of the scale or the doubt of the masses."
    if found.aside_kg is not None:
        yield _aside_told(found, found.aside_kg)


def _shifted(shifted_kg: float, could_kg: float) -> str:
    end, kg = "rear" if shifted_kg > 0 else "front", abs(shifted_kg)
    begin = f"The total fits, but {kg:.0f} kg more than predicted rest on the {end} axle"
    if kg <= could_kg:
        empty = "or the axles of the empty vehicle are not as typed in"
        return f"{begin}: something is further to the {end} than the plan says, {empty}."
    return (
        f"{begin}, and all things and people that are aboard, were they as far to the {end} as can be, would put "
        f"{ceil(could_kg)} kg more there: look at the axles of the empty vehicle as typed in, at the wheelbase and at "
        "the ticket itself."
    )


def _aside_told(found: Weighing, aside_kg: float) -> str:
    off = {one.subject: one.difference_kg or 0.0 for one in found.differences}
    left_kg, right_kg = off["left wheels"], off["right wheels"]
    begin = (
        f"The left wheels are off by {_signed(left_kg)} kg and the right wheels by {_signed(right_kg)} kg, which "
        "neither the step of the scale nor the doubt of the masses explains"
    )
    if left_kg * right_kg > 0:
        return f"{begin}: weigh the sides once more."
    side = "right" if aside_kg > 0 else "left"
    return (
        f"{begin}: something is further to the {side} than the plan says, or the empty vehicle is heavier there "
        "(`right_of_centre_mm` of the kerb)."
    )


def _what_first(case: Case, found: Weighing) -> str:
    """What the axles wait for."""
    if case.vehicle.kerb.front_kg is None:
        return "weigh the empty vehicle axle by axle first"
    if _trailer(case, found) is not None and case.vehicle.limits.tow_ball_behind_rear_axle_mm is None:
        return "give `tow_ball_behind_rear_axle_mm` of the vehicle first"
    return "give a place (`at_mm`) to all that the vehicle's file names first"


def _how_much(kg: float) -> str:
    return f"{abs(kg):.0f} kg are {'on the scale and not in the plan' if kg > 0 else 'in the plan only'}"


def _missing_total(found: Weighing, kg: float) -> str:
    off = {one.subject: one.difference_kg for one in found.differences}
    sides = [off.get(name) for name in ("left wheels", "right wheels")]
    told = [_signed(side) for side in sides if side is not None]
    aside = f", {told[0]} kg on the left wheels and {told[1]} kg on the right" if len(told) == 2 else ""
    return f"{_how_much(kg)}, more than the step of the scale and the doubt of the masses explain{aside}."


def _missing(one: MissingMass) -> str:
    begin = _how_much(one.mass_kg)
    place = f"{_about(one.x_mm, one.x_doubt_mm)} {'behind' if one.x_mm >= 0 else 'ahead of'} the front axle"
    if one.right_mm is not None and one.right_doubt_mm is not None:
        side = "right" if one.right_mm >= 0 else "left"
        place += f" and {_about(one.right_mm, one.right_doubt_mm)} {side} of the middle"
    if not one.in_vehicle:
        return f"{begin}. One thing alone does not explain it: its place would be {place}, outside the vehicle."
    near = f". Nearest first, look at {_listed(one.places)}" if one.places else ", where no space, seat or tank is"
    verb = "most likely sits" if one.mass_kg > 0 else "would most likely sit"
    return f"{begin}. If it is one thing, its middle {verb} {place}{near}."


def _likely(found: Weighing) -> str:
    if found.missing:
        return f"If nothing is missing, {AS_TYPED}: most likely masses"
    return f"If {AS_TYPED}: most likely masses, each doubt by its size"


def _about(mm: float, doubt_mm: float) -> str:
    """A place with its doubt, as fine as that bears."""
    step = 100 if doubt_mm >= COARSE_MM else 50
    return f"{step * round(abs(mm) / step)} +/- {step * ceil(doubt_mm / step)} mm"


def _listed(places: Sequence[Place]) -> str:
    names = [_named(one) for one in places[:NAMED]]
    more = len(places) - len(names)
    if more:
        names.append(f"{more} more")
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {'and' if more else 'or'} {names[-1]}"


def _named(one: Place) -> str:
    if one.kind == "seat":
        return f"{one.name} ({'seat of ' + ' and '.join(one.people) if one.people else 'empty seat'})"
    return f"{one.name} (tank)" if one.kind == "tank" else one.name


def _corrections(found: Weighing) -> list[str]:
    return [_correction(one) for one in found.corrections[:SHOWN]]


def _correction(one: Correction) -> str:
    each = " each" if one.pieces > 1 else ""
    doubt = f"known to +/- {2 * one.deviation_kg:.1f} kg before, +/- {2 * one.left_kg:.1f} kg with this ticket"
    return f"{one.subject} ({one.known_from}): {one.each_kg:+.1f} kg{each}; {doubt}"
