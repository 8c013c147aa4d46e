"""Putting pieces down one by one, lowest place first, limits respected."""

import heapq
from collections.abc import Iterable, Iterator
from random import Random

from solver.drawn import Drawn
from solver.footing import floating
from solver.geometry import spots
from solver.hosts import held_by
from solver.limits import lean_g, room_for_company, room_for_mass, room_on_axles
from solver.pieces import Piece
from solver.problem import Problem
from solver.state import Lying, State


def put(
    state: State,
    piece: Piece,
    rooms: Iterable[int] | None = None,
    random: Random | None = None,
    drawn: Drawn | None = None,
) -> bool:
    """Put a piece at the lowest place that holds all limits; False where there is none.

    `drawn`: shapes to be tried by themselves first; one in which its kind finds no place is taken out of it.
    """
    if drawn and piece.kind in drawn:
        if _put(state, piece, rooms, random, drawn[piece.kind]):
            return True
        del drawn[piece.kind]
    return _put(state, piece, rooms, random, None)


def _put(state: State, piece: Piece, rooms: Iterable[int] | None, random: Random | None, only: int | None) -> bool:
    for chosen in [rooms] if rooms is not None else wanted_rooms(state, piece):
        for it in places(state, piece, chosen, random, only):
            if room_on_axles(state, piece, it):
                state.add(it)
                return True
    return False


def wanted_rooms(state: State, piece: Piece) -> Iterator[list[int]]:
    """Rooms to try first, where a kit stays together, copies spread or a second thing against fire goes; then all."""
    problem, thing = state.problem, piece.thing
    every = list(problem.fits[piece.index])
    first: list[int] = []
    if thing.together and thing.kit:
        here = state.rooms_with(problem.kits[thing.kit])
        first = [room for room in every if room in here]
    elif thing.spread > 1 and 0 < len(taken := state.rooms_with([piece.kind])) < thing.spread:
        first = [room for room in every if room not in taken]
    elif piece.kind in problem.fire_kinds:
        wanted = _fire_rooms(state)
        first = [room for room in every if room in wanted]
    if first:
        yield first
    yield every


def _fire_rooms(state: State) -> set[int]:
    """Rooms for the next copy for a fire: at a belted seat, then outside; without more of these, near, then apart."""
    problem = state.problem
    taken = [state.at[index].room for index in problem.fire_copies if index in state.at]
    lacking = problem.fire_outside if any(problem.fire_belted[room] for room in taken) else problem.fire_belted
    first = {room for room, good in enumerate(lacking) if good and room not in taken}
    if first or not taken:
        return first
    near = {r for r, (a, b) in enumerate(zip(problem.fire_belted, problem.fire_outside, strict=True)) if a or b}
    if sum(room in near for room in taken) < 2:
        return near
    return set(range(len(problem.rooms))).difference(taken) if len(set(taken)) < 2 else set()


def places(
    state: State,
    piece: Piece,
    rooms: Iterable[int] | None = None,
    random: Random | None = None,
    only: int | None = None,
) -> Iterator[Lying]:
    """Places for a piece by rising height of its centre, over all rooms that may take it.

    `only`: the one shape in which it may lie, in rooms that take it so.
    """
    problem = state.problem
    fits = problem.fits[piece.index]
    chosen = list(fits) if rooms is None else [room for room in rooms if room in fits]
    if len(chosen) == 1:
        if open_to(state, piece, chosen[0]):
            yield from spots(state, piece, problem.rooms[chosen[0]], fits[chosen[0]], _rank(state, random), only)
        return
    # A room is looked into only when it may hold the lowest place: most are never opened.
    queue: list[tuple[int, float, int, Lying | None, Iterator[Lying]]] = [
        (fits[room].lowest2, random.random() if random else float(problem.rooms[room].low[0]), room, None, iter(()))
        for room in chosen
    ]
    heapq.heapify(queue)
    while queue:
        _, tie, room, it, found = heapq.heappop(queue)
        if it is not None:
            yield it
        elif open_to(state, piece, room):
            found = spots(state, piece, problem.rooms[room], fits[room], _rank(state, random), only)
        following = next(found, None)
        if following is not None:
            heapq.heappush(queue, (following.box[2] + following.box[5], tie, room, following, found))


def _rank(state: State, random: Random | None) -> int:
    return random.randrange(4) if random else side_rank(state)


def open_to(state: State, piece: Piece, room: int) -> bool:
    """Whether a room takes a piece by mass, by company and by the thing that it is part of."""
    if not room_for_mass(state, piece, room) or not room_for_company(state, piece, room):
        return False
    return room not in state.problem.host or _hosted(state, room)


def _hosted(state: State, room: int) -> bool:
    it = state.at.get(state.problem.host[room])
    return it is not None and held_by(it, state.problem.rooms[room])


def side_rank(state: State) -> int:
    """Front first; left first when the load leans to the right."""
    t = state.problem.driving[0] if state.problem.driving else 0
    return 2 if lean_g(state, t) < 0 else 0


def hardest_first(problem: Problem, pieces: Iterable[Piece]) -> list[Piece]:
    """Hosts, then pieces with few rooms, then heavy ones."""
    hosts = set(problem.host.values())

    def key(piece: Piece) -> tuple[int, int, int, int]:
        few = min(len(problem.fits[piece.index]), 4)
        return (0 if piece.index in hosts else 1, few, -piece.heaviest_g, piece.index)

    return sorted(pieces, key=key)


def put_all(
    state: State, pieces: Iterable[Piece], random: Random | None = None, drawn: Drawn | None = None
) -> list[Piece]:
    """Put pieces down in the order given; returns those that found no place.

    As long as a locked thing has too little under it, rooms with such a thing are tried first.
    """
    left, first = [], _to_fill(state)
    for piece in pieces:
        if first and put(state, piece, first, random, drawn):
            first = _to_fill(state)
        elif not put(state, piece, random=random, drawn=drawn):
            left.append(piece)
    return left


def _to_fill(state: State) -> list[int]:
    return list(dict.fromkeys(it.room for it in floating(state))) if state.locked else []


def jittered(problem: Problem, pieces: Iterable[Piece], random: Random, spread: float = 0.4) -> list[Piece]:
    """Hardest first, shaken: the keys of each are multiplied by a random factor."""
    hosts = set(problem.host.values())

    def key(piece: Piece) -> tuple[int, float, float, int]:
        few = min(len(problem.fits[piece.index]), 4) + random.random() * 1.5
        mass = piece.heaviest_g * random.uniform(1 - spread, 1 + spread)
        return (0 if piece.index in hosts else 1, round(few), -mass, piece.index)

    return sorted(pieces, key=key)
