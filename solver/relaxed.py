"""Who could be where if masses, volumes and pairs were all that mattered: what is impossible here is impossible.

Every demand of a person carries a switch, so that a set of demands which cannot hold together can be shown.
"""

from collections import defaultdict
from collections.abc import Collection, Sequence
from math import floor

import numpy as np

from models.geometry import LEAST_SOFT_SIDE_MM
from models.locks import keeps_out
from models.trip import Lock
from solver.bare import RESERVED
from solver.cuts import clashes
from solver.library import cp_model
from solver.pieces import PROOF_SPARE_G, Piece
from solver.problem import Problem
from solver.state import is_tied
from solver.steady import steady

Key = tuple[str, str]
"""A demand: its kind, as of `Demand`, and its subject."""

WORK = 2.0
"""Work of one look, in the unit of `steady`."""
MOST_OVER_G = 10_000_000
"""No limit is passed by more grams than this."""
FEWER_G = 1_000_000
"""Grams that a thing less left at home is worth."""


class Relaxed:
    """A relaxation of a case: pieces in rooms, no positions."""

    def __init__(self, free: Problem, asked: Problem) -> None:
        """`free` is the case without locks, `asked` with them."""
        self.free, self.asked = free, asked
        self.model = cp_model.CpModel()
        self.switches: dict[Key, cp_model.IntVar] = {}
        self.over: dict[str, cp_model.IntVar] = {}
        """By limit: grams that it is passed by, 0 unless that is asked."""
        self.inside = {
            (piece.index, room): self.model.new_bool_var("")
            for piece in free.pieces
            for room in sorted(free.fits[piece.index])
        }
        self.of_room: dict[int, list[tuple[int, cp_model.IntVar]]] = defaultdict(list)
        for (index, room), variable in self.inside.items():
            self.of_room[room].append((index, variable))
        for piece in free.pieces:
            self.model.add(self.carried(piece) <= 1)
        self._company()
        self._demands()
        self._volumes()
        self._pairs()
        self._pairs_across()
        self._kits()
        self._limits()

    def switch(self, kind: str, subject: str) -> cp_model.IntVar:
        """The switch of a demand."""
        key = (kind, subject)
        if key not in self.switches:
            self.switches[key] = self.model.new_bool_var(f"{kind}: {subject}")
        return self.switches[key]

    def asked_for(self, use_reserve: bool) -> set[Key]:
        """Every demand, the reserve only where it is kept."""
        return {key for key in self.switches if use_reserve or key[0] != "reserve"}

    def limit(self, subject: str) -> cp_model.IntVar:
        """The switch of a limit that may be passed by some grams."""
        self.over.setdefault(subject, self.model.new_int_var(0, MOST_OVER_G, f"over {subject}"))
        return self.switch("limit", subject)

    def carried(self, piece: Piece) -> cp_model.LinearExprT:
        """Whether a piece comes, as a sum."""
        return sum(self.inside[piece.index, room] for room in self.free.fits[piece.index])

    def few(self, on: set[Key], seconds: float) -> set[Key]:
        """Fewer of some demands that cannot hold together, as the search first sees them: a start for dropping more."""
        model, solver = self._closed(), steady(seconds, WORK)
        keys = {switch.index: key for key, switch in self.switches.items() if key in on}
        model.add_assumptions([model.get_bool_var_from_proto_index(index) for index in sorted(keys)])
        if solver.solve(model) != cp_model.INFEASIBLE:
            return on
        found = {keys[index] for index in solver.sufficient_assumptions_for_infeasibility() if index in keys}
        return found if self.impossible(found, seconds) is True else on

    def impossible(self, on: set[Key], seconds: float) -> bool | None:
        """Whether a set of demands cannot hold; None when that stayed open."""
        model, solver = self._closed(), steady(seconds, WORK)
        self._switch(model, on, frozenset(self.switches))
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return True
        return False if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None

    def least_over_g(self, subject: str, on: set[Key], seconds: float) -> int:
        """A proven least by how many grams a limit is passed while all else of some demands holds."""
        model, solver = self._closed(subject), steady(seconds, WORK)
        self._switch(model, on, frozenset(self.switches))
        model.minimize(model.get_int_var_from_proto_index(self.over[subject].index))
        status = solver.solve(model)
        over_g = int(solver.best_objective_bound) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else 0
        return over_g + PROOF_SPARE_G if over_g > 0 else 0

    def fewest_gone(self, on: set[Key], names: Sequence[str], least_kg: float, seconds: float) -> tuple[str, ...]:
        """The fewest and then lightest things that make room when they need not come; they weigh so much at least.

        What is left out here may still not be enough: positions are not looked at. Empty where none was found.
        """
        model, solver = self._closed(), steady(seconds, WORK)
        free = {("must come", name) for name in names}
        self._switch(model, on, frozenset(self.switches) - free)
        named = self.free.case.thing_named
        grams = {name: round(named[name].mass_kg.most * named[name].count * 1000) for name in names}
        stays = {name: model.get_bool_var_from_proto_index(self.switches["must come", name].index) for name in names}
        model.add(sum(grams[name] * (1 - stays[name]) for name in names) >= round(least_kg * 1000))
        model.minimize(sum((FEWER_G + grams[name]) * (1 - stays[name]) for name in names))
        if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return ()
        return tuple(name for name in names if not solver.boolean_value(stays[name]))

    def _closed(self, but: str = "") -> cp_model.CpModel:
        """The model in which no limit is passed, but one where that is asked."""
        model = self.model.clone()
        for subject, variable in self.over.items():
            if subject != but:
                model.add(model.get_int_var_from_proto_index(variable.index) == 0)
        return model

    def _switch(self, model: cp_model.CpModel, on: set[Key], keys: frozenset[Key]) -> None:
        for key in sorted(keys):
            variable = model.get_bool_var_from_proto_index(self.switches[key].index)
            model.add(variable == (1 if key in on else 0))

    def _demands(self) -> None:
        for piece in self.free.pieces:
            fixed = self.asked.fixed[piece.index]
            if piece.thing.must and not fixed.at_home:
                self.model.add(self.carried(piece) == 1).only_enforce_if(self.switch("must come", piece.thing.name))
            mine = [(n, lock) for n, lock in enumerate(self.asked.locks) if lock.is_on(piece.copy)]
            for n, lock in mine:
                switch = self.switch("lock", str(n))
                if lock.at_home:
                    self.model.add(self.carried(piece) == 0).only_enforce_if(switch)
                elif lock.in_ is not None or lock.carried:
                    self.model.add(self.carried(piece) == 1).only_enforce_if(switch)
                for room in self.free.fits[piece.index]:
                    if not self.open(lock, room):
                        self.model.add(self.inside[piece.index, room] == 0).only_enforce_if(switch)

    def _company(self) -> None:
        """Who comes has its companions along; copies that come all or none do."""
        of_name: dict[str, list[Piece]] = defaultdict(list)
        for piece in self.free.pieces:
            of_name[piece.thing.name].append(piece)
        for piece in self.free.pieces:
            for name in piece.thing.with_:
                self.model.add(self.carried(piece) <= sum(self.carried(other) for other in of_name[name]))
            first = of_name[piece.thing.name][0]
            if piece.thing.all_or_none and piece is not first:
                switch = self.switch("all or none", piece.thing.name)
                self.model.add(self.carried(piece) == self.carried(first)).only_enforce_if(switch)

    def open(self, lock: Lock, room: int) -> bool:
        """Whether a lock leaves a room open to its thing."""
        space = self.free.rooms[room].space
        if lock.in_ is not None and lock.in_ != space.name:
            return False
        return not keeps_out(self.free.case, lock, space)

    def _volumes(self) -> None:
        for room, here in self.of_room.items():
            x, y, z = self.free.rooms[room].size
            volume = x * y * z // 1000
            self.model.add(sum(min(self._volume(i), volume + 1) * v for i, v in here) <= volume)

    def _volume(self, index: int) -> int:
        thing = self.free.pieces[index].thing
        if thing.size_mm is None:
            return int((thing.volume_l or 0) * 1000)
        x, y, z = thing.size_mm
        return x * y * z // 1000

    def _pairs(self) -> None:
        for room in self.free.rooms:
            here = self.of_room.get(room.index, [])
            if len(here) < 2:
                continue
            apart = self._clashes(room.index, [i for i, _ in here])
            for n, (i, v) in enumerate(here):
                against = self.free.vetoes.of[self.free.pieces[i].kind]
                for m in range(n + 1, len(here)):
                    j, w = here[m]
                    if (apart[n, m] and not self._soft(i) and not self._soft(j)) or against.get(
                        self.free.pieces[j].kind
                    ):
                        self.model.add_bool_or([~v, ~w])

    def _pairs_across(self) -> None:
        """Pairs that may not share air or a wall, in two different rooms."""
        vetoes = self.free.vetoes
        placed = list(self.inside.items())
        for n, ((i, room), here) in enumerate(placed):
            against = vetoes.of[self.free.pieces[i].kind]
            for (j, other), there in placed[n + 1 :] if against else ():
                found = against.get(self.free.pieces[j].kind, ())
                if i != j and room != other and any(vetoes.apart(veto, room, other) for veto in found):
                    self.model.add_bool_or([~here, ~there])

    def _kits(self) -> None:
        """A kit that stays together is in one room."""
        kits = sorted({piece.thing.kit for piece in self.free.pieces if piece.thing.kit and piece.thing.together})
        for kit in kits:
            pieces = [p for p in self.free.pieces if p.thing.kit == kit and p.thing.together]
            if len(pieces) < 2:
                continue
            chosen = {room.index: self.model.new_bool_var("") for room in self.free.rooms}
            self.model.add_exactly_one(chosen.values())
            switch = self.switch("together", kit)
            for piece in pieces:
                for room in self.free.fits[piece.index]:
                    self.model.add_bool_or([~self.inside[piece.index, room], chosen[room], ~switch])

    def _soft(self, index: int) -> bool:
        """Whether a piece has more shapes than the few that are tried, and so proves nothing by its sides."""
        return self.free.pieces[index].thing.size_mm is None

    def _clashes(self, room: int, indices: list[int]) -> "np.ndarray[tuple[int, int], np.dtype[np.bool_]]":
        sizes = []
        for i in indices:
            shapes = self.free.pieces[i].shapes
            sizes.append(np.array([shapes[s].size for s in self.free.fits[i][room].shapes]))
        top = self.free.rooms[room].space.face == "top"
        return clashes(
            sizes, self.free.rooms[room].size, [top and self.free.pieces[i].wanted.never_under for i in indices]
        )

    def _limits(self) -> None:
        problem = self.free
        for t, stage in enumerate(problem.constants.stages):
            for room in problem.rooms:
                name = room.space.name
                if room.proof_limit_g is not None:
                    self._mass(t, {room.index}, room.proof_limit_g, f"space {name}")
                if room.tied_g is not None:
                    self._mass(t, {room.index}, room.tied_g, f"tie-downs {name}", tied=True)
            for bearer, left in enumerate(stage.bearers_proof_g):
                if left is not None:
                    self._mass(t, problem.rooms_on[bearer], left, problem.bearers[bearer].limit)
            if t in problem.driving:
                self._driving(t)

    def _driving(self, t: int) -> None:
        reserve_g = floor(self.free.case.reserve_kg * 1000 + 1e-6)
        base = self.free.constants.wheelbase
        stage = self.free.constants.stages[t]
        for kept, more in ((0, []), (reserve_g, [self.switch("reserve", "reserve")])):
            for subject, left in stage.totals:
                if not more or subject in RESERVED:
                    self._mass(t, None, left - kept, subject, more)
            if stage.rear_left is not None:
                self._rear(t, stage.rear_left - kept * base, more)

    def _mass(
        self,
        t: int,
        rooms: Collection[int] | None,
        limit_g: int,
        subject: str,
        more: Sequence[cp_model.IntVar] = (),
        *,
        tied: bool = False,
    ) -> None:
        """`tied`: only what is tied down there counts."""
        pieces, every = self.free.pieces, self.free.rooms
        here = ((pieces[i], room, v) for (i, room), v in self.inside.items() if rooms is None or room in rooms)
        terms = [piece.proof_g[t] * v for piece, room, v in here if not tied or is_tied(piece, every[room])]
        if terms:
            switches = [*more, self.limit(subject)]
            self.model.add(sum(terms) <= limit_g + PROOF_SPARE_G + self.over[subject]).only_enforce_if(*switches)

    def _rear(self, t: int, left: int, more: Sequence[cp_model.IntVar]) -> None:
        terms = []
        for (i, room), v in self.inside.items():
            shapes = self.free.fits[i][room].shapes
            listed = min(self.free.pieces[i].shapes[s].size[0] for s in shapes)
            shortest = LEAST_SOFT_SIDE_MM if self._soft(i) else listed
            twice = 2 * self.free.rooms[room].low[0] + shortest
            terms.append(self.free.pieces[i].proof_g[t] * twice * v)
        switches = [*more, self.limit("rear axle")]
        over = 2 * self.free.constants.wheelbase * (PROOF_SPARE_G + self.over["rear axle"])
        self.model.add(sum(terms) <= 2 * left + over).only_enforce_if(*switches)
