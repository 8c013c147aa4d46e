"""The case as integers: grams, millimetres, and what may go where. Rounded against the user."""

from __future__ import annotations

import copy
import math
from functools import cached_property
from typing import TYPE_CHECKING, Any

from models.case import Case, Copy, copy_of
from models.gear import Thing
from models.geometry import Point, box
from models.plan import Plan
from models.rulebook import Totals
from models.spaces import Space
from models.stages import Which, conditions, mass_kg, tent_up
from models.trip import Lock
from packing import handling_seconds
from solver.bare import Constants, constants
from solver.clear import ways_through
from solver.coming import Coming, coming
from solver.demands import Fixed, fixed
from solver.drawers import Drawn, alike, drawers
from solver.eligible import allowed, chain_seconds, stuck_in, way_in
from solver.heights import heights
from solver.holding import held_kg
from solver.hosts import hosts
from solver.in_hand import digging_s, left, wanted
from solver.lanes import pack_limits
from solver.nested import bearers, limit_kg, most_kg, within_kg
from solver.pieces import Fit, MassLeft, Piece, Room
from solver.shapes import Shape, seen_shapes, seen_turns, shapes_of
from solver.solids import disjoint
from solver.vetoes import Vetoes, vetoes

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from solver.patterns import Patterns


class Problem:
    """All that a search needs of a case, in a canonical order: shuffled files give the same problem."""

    def __init__(
        self, case: Case, *, use_reserve: bool = True, locks: tuple[Lock, ...] = (), before: Plan | None = None
    ) -> None:
        """A case to search; soft things may also keep the shapes, and hard ones the turns, of the plan `before`."""
        self.case = case
        self._seen, self.turns = seen_shapes(before), seen_turns(case, before)
        self.aboard = frozenset(map(copy_of, before.placements if before is not None else ()))
        """Copies that the plan before carries."""
        self.locks = (*case.trip.locks, *locks)
        self.use_reserve = use_reserve
        self.work = 0
        """Corners looked at so far: how much has been searched, alike on every machine."""
        self.levels: dict[tuple[int, int, int], list[tuple[int, int, int, int]]] = {}
        """By room, its content and kind of thing: shapes and heights that are not known to find no place there."""
        self.remembered_s: dict[tuple[int, int], float] = {}
        """Seconds a day of getting at things, by room and its content."""
        self._open: list[frozenset[int]] = []
        """By kind: the rooms that no rule by itself keeps it out of."""
        self._lies: dict[tuple[int, int], Fit | None] = {}
        """By kind and room: how it may be there by itself when nothing is locked."""
        self.at_home: frozenset[str] = frozenset()
        """Things that a search leaves at home whatever it finds."""
        self.patterns: Patterns | None = None
        """What has lain in one room so far, where a search asks for it."""
        self.stages = case.trip.stages
        self.driving = tuple(i for i, stage in enumerate(self.stages) if stage.driving)
        self.bearers = bearers(case)
        self.rooms = tuple(self._room(i, s) for i, s in enumerate(sorted(case.vehicle.spaces, key=lambda s: s.name)))
        self.room_of = {room.space.name: room.index for room in self.rooms}
        self.things = tuple(sorted(case.things, key=lambda thing: thing.name))
        self._wanted = wanted(case)
        self.pieces = tuple(self._pieces())
        self.piece_of = {piece.copy: piece.index for piece in self.pieces}
        self.fixed = tuple(fixed(self.locks, piece.copy) for piece in self.pieces)
        self.fits = self.every_fit()
        self.host = hosts(self, before)

    def __deepcopy__(self, memo: dict[int, Any]) -> Problem:
        """A problem that remembers by itself; what its case says never changes, and is shared."""
        memo.update((id(piece), piece) for piece in self.pieces)
        other = memo[id(self)] = copy.copy(self)
        if id(self.levels) not in memo:  # problems of one search share it, and it is long: copied once for all of them
            memo[id(self.levels)] = {key: list(found) for key, found in self.levels.items()}
        other.levels = memo[id(self.levels)]
        for name in ("remembered_s", "_lies", "patterns"):
            setattr(other, name, copy.deepcopy(getattr(self, name), memo))
        return other

    def allow(self, fits: Iterable[dict[int, Fit]]) -> None:
        """Let every piece be where it is said now, and forget what was made of what was said before."""
        self.fits = tuple(fits)
        vars(self).pop("lowest2", None)

    @cached_property
    def lowest2(self) -> tuple[int, ...]:
        """By piece: twice the least height of its middle in any room in mm."""
        return tuple(min((fit.lowest2 for fit in fits.values()), default=0) for fits in self.fits)

    @cached_property
    def rooms_on(self) -> tuple[frozenset[int], ...]:
        """By bearer: the rooms that load it."""
        return tuple(frozenset(r.index for r in self.rooms if n in r.bearers) for n in range(len(self.bearers)))

    @cached_property
    def constants(self) -> Constants:
        """Masses, moments and limits of all that does not move."""
        return constants(self.case, self.use_reserve)

    @cached_property
    def drawers(self) -> tuple[tuple[Drawn, ...], ...]:
        """By room: drawers of things that may come, whose way meets it."""
        return drawers(self)

    @cached_property
    def alike(self) -> tuple[int, ...]:
        """By piece: a number that it shares with those that any place in a room is as free to as to it."""
        return alike(self)

    @cached_property
    def mass_left(self) -> tuple[MassLeft, ...]:
        """By room: the mass that it may hold."""
        most, stages = self.constants.bearers_left, len(self.stages)
        return tuple(
            MassLeft(
                pack_limits([room.limit_g] * stages),
                pack_limits([room.tied_g] * stages),
                tuple((bearer, most[bearer]) for bearer in room.bearers),
            )
            for room in self.rooms
        )

    @cached_property
    def coming(self) -> Coming:
        """Pieces that have to come, each with the one that brings it along."""
        return coming(self)

    @cached_property
    def totals(self) -> dict[str, tuple[tuple[str, ...], Totals]]:
        """By hazard word with totals for the vehicle: the words that count in them, its own first, and the totals."""
        found = {word: hazard.totals for word, hazard in self.case.rulebook.hazards.items()}
        return {
            word: ((word, *one.counts_with), one)
            for word, one in found.items()
            if any(most is not None for most in (one.total_l, one.total_kg, one.total_count))
        }

    @cached_property
    def totals_of(self) -> dict[str, tuple[tuple[tuple[str, ...], Totals], ...]]:
        """By hazard word: all totals for the vehicle in which it counts, with the words that count in them."""
        words = self.case.rulebook.hazards
        return {word: tuple(one for one in self.totals.values() if word in one[0]) for word in words}

    @cached_property
    def vetoes(self) -> Vetoes:
        """Pairs that may not ride together."""
        return vetoes(self.case, self.things, [room.space for room in self.rooms])

    def _room(self, index: int, space: Space) -> Room:
        low, size = space.corner_mm, space.size_mm
        own = box(low, size)
        held = held_kg(space.tie_downs, self.case.rulebook.restraint)
        tied = math.floor(held * 1000 + 1e-6) if space.tie_downs else None
        limit, most = limit_kg(self.case, space), most_kg(self.case, space)
        return Room(
            index,
            space,
            own.low,
            own.high,
            None if limit is None else math.floor(limit * 1000 + 1e-6),
            None if most is None else math.floor(most * 1000 + 1e-6),
            tied,
            tuple(n for n, bearer in enumerate(self.bearers) if space.name in bearer.spaces),
            disjoint((*b.low, *b.high) for b in (box(s.corner_mm, s.size_mm) for s in space.solid)),
            tuple((*way.low, *way.high) for way in ways_through(self.case, space).values()),
            chain_seconds(self.case, space),
        )

    def _pieces(self) -> list[Piece]:
        made: list[Piece] = []
        for kind, thing in enumerate(self.things):
            rooms = [room for room in self.rooms if allowed(self.case, thing, room.space)]
            self._open.append(frozenset(room.index for room in rooms))
            free = [self._free(thing, room) for room in rooms]
            shapes = shapes_of(self.case, thing, [room.size for room in rooms], free, self._seen.get(thing.name, ()))
            for number in range(1, thing.count + 1):
                made.append(self._piece(len(made), Copy(thing.name, number), thing, kind, shapes))
        return made

    def _piece(self, index: int, copy: Copy, thing: Thing, kind: int, shapes: tuple[Shape, ...]) -> Piece:
        def grams(which: Which, rounded: Callable[[float], int]) -> tuple[int, ...]:
            return tuple(rounded(mass_kg(thing, stage, which) * 1000) for stage in self.stages)

        book = self.case.rulebook
        bears = thing.bears_kg if thing.bears_kg is not None else (None if thing.shape == "hard" else 0.0)
        uses = thing.uses_per_day
        return Piece(
            index,
            copy,
            thing,
            kind,
            grams("most", lambda g: math.ceil(g - 1e-6)),
            grams("most", lambda g: math.floor(g + 1e-6)),
            grams("least", lambda g: math.floor(g + 1e-6)),
            grams("likely", round),
            shapes,
            thing.shape == "hard",
            None if bears is None else math.floor(bears * 1000 + 1e-6),
            self._wanted[thing.name],
            math.ceil(within_kg(self.case, thing) * 1000 - 1e-6),
            math.ceil(handling_seconds(thing.mass_kg.most, book) - 1e-6),
            book.access.words[thing.access].uses_per_day if uses is None else uses,
        )

    def every_fit(self) -> tuple[dict[int, Fit], ...]:
        """By piece; made once for copies with the same locks."""
        known: dict[tuple[int, Fixed], dict[int, Fit]] = {}
        for piece in self.pieces:
            alike = (piece.kind, self.fixed[piece.index])
            if alike not in known:
                known[alike] = self._fits(piece)
        return tuple(dict(known[piece.kind, self.fixed[piece.index]]) for piece in self.pieces)

    def _fits(self, piece: Piece) -> dict[int, Fit]:
        found = ((room.index, self.fit_by_itself(piece, room)) for room in self.rooms)
        return {room: fit for room, fit in found if fit is not None and fit.shapes}

    def fit_by_itself(self, piece: Piece, room: Room) -> Fit | None:
        """How a piece may be in a room by itself, of its shapes those that fit, even none; None where it may not be."""
        key = (piece.kind, room.index)
        if key not in self._lies:
            fit = self._fit(piece, room) if room.index in self._open[piece.kind] else None
            self._lies[key] = fit if fit is not None and fit.dig_s >= 0 else None
        return self._lies[key] if self.fixed[piece.index].admits(self.case, room.space) else None

    def _free(self, thing: Thing, room: Room) -> Point:
        """The sides in mm of what a thing may use of a room."""
        least_z, greatest_top = heights(self.case, thing, room.space)
        return (room.size[0], room.size[1], greatest_top - least_z)

    def _fit(self, piece: Piece, room: Room) -> Fit:
        least_z, greatest_top = heights(self.case, piece.thing, room.space)
        shapes = tuple(
            i
            for i, shape in enumerate(piece.shapes)
            if all(shape.size[k] + shape.before[k] + shape.behind[k] <= room.size[k] for k in range(3))
            and shape.size[2] <= greatest_top - least_z
        )
        seconds = 0.0 if piece.kept_free else digging_s(self.case, piece.thing, room.chain_s)
        lowest2 = 2 * least_z + min((piece.shapes[i].size[2] for i in shapes), default=0)
        return Fit(shapes, least_z, greatest_top, seconds, lowest2)

    @cached_property
    def spread_kinds(self) -> tuple[int, ...]:
        """Kinds of which the copies have to be in more than one room."""
        return tuple(i for i, thing in enumerate(self.things) if thing.spread > 1)

    @cached_property
    def kits(self) -> dict[str, list[int]]:
        """The kinds of every kit that stays together."""
        found: dict[str, list[int]] = {}
        for kind, thing in enumerate(self.things):
            if thing.together and thing.kit:
                found.setdefault(thing.kit, []).append(kind)
        return found

    @cached_property
    def fire_kinds(self) -> list[int]:
        """Kinds that are needed in a fire."""
        return [i for i, thing in enumerate(self.things) if "fire" in thing.needed_when]

    @cached_property
    def fire_copies(self) -> list[int]:
        """Numbers of the copies of these kinds."""
        return [piece.index for piece in self.pieces if piece.kind in self.fire_kinds]

    @cached_property
    def fire_belted(self) -> tuple[bool, ...]:
        """By room: whether a belted person reaches it in time."""
        most_s = self.case.rulebook.belted_s.value
        near = [bool(room.space.in_reach_when) and left(most_s, room.chain_s) >= 0 for room in self.rooms]
        return tuple(near[room.index] and self._opens_on_the_road(room) for room in self.rooms)

    @cached_property
    def fire_outside(self) -> tuple[bool, ...]:
        """By room: whether it is reached from outside in time, on the road and wherever people are on a rack."""
        limit = self.case.rulebook.at_once_s.value
        near = ("inside" not in way_in(self.case, r.space) and left(limit, r.chain_s) >= 0 for r in self.rooms)
        also = frozenset({"tent up"} if tent_up(self.case.trip) else ())
        opens = (self._opens_on_the_road(r) and not stuck_in(self.case, r.space, also) for r in self.rooms)
        return tuple(here and open_too for here, open_too in zip(near, opens, strict=True))

    def _opens_on_the_road(self, room: Room) -> bool:
        return not any(stuck_in(self.case, room.space, conditions(self.case.trip, s)) for s in self.stages if s.driving)
