"""Why a thing stays at home, in words: what the search ran into when it tried to take it along."""

from collections.abc import Sequence
from math import inf

from solver.insert import put
from solver.lanes import lane
from solver.limits import excess, room_for_company, room_for_mass, room_on_axles
from solver.misses import Miss, miss_words, misses, on_the_whole, over_totals
from solver.pieces import Piece
from solver.repack import Score, score
from solver.state import State, lying
from solver.unloaded import reserve_words

NO_ROOM = "no room was found for it beside the rest"
KEPT_OUT = "as the rest lies, it is kept out of every space by"
"""How that begins which holds of one layout and may not hold of the next."""
TOTALS = ("total", "with trailer")
"""Limits that are passed wherever things lie."""
LEAST_TOLD = 0.1
"""Least that is told, in kg and in mm: less reads as nothing."""


def led(extra: Sequence[Piece]) -> list[Piece]:
    """Of things that come together those that the rest only comes with: why the rest stays is asked of it by itself."""
    return [piece for piece in extra if piece.kind == extra[0].kind]


def with_what(extra: Sequence[Piece]) -> str:
    """What comes together, the first of it as *it*: figures count all of it."""
    mine = led(extra)
    others = dict.fromkeys(piece.thing.name for piece in extra if piece not in mine)
    *some, last = (f"all {len(mine)} of it" if len(mine) > 1 else "it", *others)
    return f"{', '.join(some)} and {last}" if some else last


def too_much(state: State, extra: Sequence[Piece]) -> str | None:
    """A sentence where a total alone forbids it, the vehicle's own or that with its trailer; the one missed most."""
    over = over_totals(state.problem, lambda t: lane(state.sums.most_g, t) + sum(piece.most_g[t] for piece in extra))
    worst = max(over, key=lambda miss: miss.kg, default=None)
    return None if worst is None else _with_it(state, extra, worst)


def _with_it(state: State, extra: Sequence[Piece], miss: Miss) -> str:
    over = miss_words(state.problem, miss, max(LEAST_TOLD, miss.kg))
    return f"the vehicle with {with_what(extra)} {over}{reserve_words(state.problem, miss)}"


def behind_words(state: State, extra: Sequence[Piece]) -> str | None:
    """What stands against things that a layout leaves behind, the rest as it lies; None where they could come."""
    trial, wanted = state.copy(), [*state.carried(), *extra]
    for piece in extra:
        put(trial, piece)
    now = score(trial, wanted, State.height_mm)
    # Of the height nothing is asked here.
    return None if now.holds else too_much(state, extra) or told(trial, state, extra, now, inf)


def told(state: State, before: State, extra: Sequence[Piece], score: Score, highest_mm: float) -> str:
    """What the best layout that was tried lacks; `before` is the one without the extra things."""
    if score.missing:
        return no_room(before, extra)
    if score.misses > 0:
        return _missed(state, extra)
    return lifted_words(score.cost - highest_mm, extra)


def no_room(state: State, extra: Sequence[Piece]) -> str:
    """Why there is no room for things, the rest as it lies: what keeps one out of every space, if that is it."""
    return next((why for why in (_kept_out(state, piece) for piece in extra) if why), NO_ROOM)


def lifted_words(over_mm: float, extra: Sequence[Piece]) -> str:
    """By how much things lift the layout beyond what is allowed, as far as was found: another may lift it less."""
    over_mm = max(LEAST_TOLD, over_mm)
    lifts = f"lifts the centre of gravity {over_mm:.1f} mm beyond what was allowed for optional things"
    return f"the best layout found with {with_what(extra)} {lifts} (`choose_within_mm` of the trip)"


def _kept_out(state: State, piece: Piece) -> str | None:
    """A sentence where mass or company forbids every space that may hold it, as the rest lies."""
    problem = state.problem
    against = {_against(state, piece, room) for room in problem.fits[piece.index]}
    if "room" in against or not against:
        return None
    return f"{KEPT_OUT} {' or by '.join(sorted(against))}"


def _against(state: State, piece: Piece, room: int) -> str:
    problem = state.problem
    if not room_for_mass(state, piece, room):
        return "the limit of a space, of a rack or of its tie-downs"
    if not room_for_company(state, piece, room):
        return "what it may not ride with"
    low, high = problem.rooms[room].low, problem.rooms[room].high
    shapes = ((s, piece.shapes[s].size[0]) for s in problem.fits[piece.index][room].shapes)
    corners = ((s, (x, low[1], low[2])) for s, side in shapes for x in (low[0], high[0] - side))
    if not any(room_on_axles(state, piece, lying(problem, piece.index, room, s, *at)) for s, at in corners):
        return "the rear axle"
    return "room"


def _missed(state: State, extra: Sequence[Piece]) -> str:
    """The limit on the whole that is missed the most."""
    found = f"the best layout found with {with_what(extra)}"
    worst = max(misses(state), key=lambda miss: miss.kg, default=None)
    if worst is not None and worst.subject in TOTALS:
        return _with_it(state, extra, worst)
    if worst is not None:  # where things lie decides it: another layout may hold
        told_kg = max(LEAST_TOLD, worst.kg)
        return f"{found} {miss_words(state.problem, worst, told_kg)}"
    kg = excess(state)
    if kg > 0:
        missed = f"{max(LEAST_TOLD, kg):.1f} kg"
        return f"in {found} the front share or left against right would be missed by {missed}"
    says = [says for _, says in on_the_whole(state)] or ["leaves too little under what stays where it is for a lock"]
    return f"{found} {'; it '.join(says)}"
