"""A case: all that one question is about, the files read and their names resolved."""

from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from pydantic import ConfigDict

from models.base import Described
from models.gear import Thing
from models.geometry import box, contains
from models.plan import LeftAtHome, Placement
from models.rulebook import RuleBook
from models.spaces import Space
from models.stages import opening_chain
from models.trip import Trip
from models.vehicle import Opening, Rack, Seat, Vehicle


class Copy(NamedTuple):
    """One copy of a thing, numbered from 1."""

    thing: str
    number: int

    def __str__(self) -> str:
        return self.called(1)

    def called(self, count: int) -> str:
        """A copy as people call it where so many of its thing are listed: with its number where there are several."""
        return f"{self.thing} #{self.number}" if max(count, self.number) > 1 else self.thing


class Case(Described):
    """A vehicle, things, a trip and a rule book that fit together."""

    model_config = ConfigDict(
        frozen=True, arbitrary_types_allowed=True, extra="forbid", ignored_types=(cached_property,)
    )

    vehicle: Vehicle
    things: tuple[Thing, ...]
    trip: Trip
    rulebook: RuleBook
    digest: str = ""
    """Digest of the files it was read from; empty for one made in memory."""
    folder: Path = Path()
    """Where the trip's file is."""

    @property
    def reserve_kg(self) -> float:
        """Kilograms kept free of the total and of each axle: as the trip asks, or else as its rule book does."""
        own = self.trip.reserve_kg
        return self.rulebook.reserve_kg.value if own is None else own

    @cached_property
    def thing_named(self) -> dict[str, Thing]:
        """Things by name."""
        return {thing.name: thing for thing in self.things}

    @cached_property
    def space_named(self) -> dict[str, Space]:
        """Spaces by name."""
        return {space.name: space for space in self.vehicle.spaces}

    @cached_property
    def rack_named(self) -> dict[str, Rack]:
        """Racks by name."""
        return {rack.name: rack for rack in self.vehicle.racks}

    @cached_property
    def opening_named(self) -> dict[str, Opening]:
        """Openings by name."""
        return {opening.name: opening for opening in self.vehicle.openings}

    @cached_property
    def seat_named(self) -> dict[str, Seat]:
        """Seats by name."""
        return {seat.name: seat for seat in self.vehicle.seats}

    @cached_property
    def copies(self) -> tuple[Copy, ...]:
        """Every copy of every thing, in the order of the list."""
        return tuple(Copy(thing.name, n) for thing in self.things for n in range(1, thing.count + 1))

    def called(self, copy: Copy) -> str:
        """A copy as people call it, the same everywhere."""
        thing = self.thing_named.get(copy.thing)
        return copy.called(1 if thing is None else thing.count)

    def racks_under(self, space: Space) -> tuple[str, ...]:
        """Racks that a space loads, directly, through others, or through what it is part of, each once."""
        found: dict[str, None] = {}
        for name in (name for one in (space, *self.around(space)) for name in one.on):
            found.update(dict.fromkeys(self.rack_line(name)))
        return tuple(found)

    def around(self, space: Space) -> tuple[Space, ...]:
        """Spaces around one that is part of a thing: what lies in it weighs on them too. None around any other."""
        return self._around.get(space.name, ())

    @cached_property
    def _around(self) -> dict[str, tuple[Space, ...]]:
        parts = [space for space in self.vehicle.spaces if space.inside_of is not None]
        walls = {space.name: box(space.corner_mm, space.size_mm) for space in self.vehicle.spaces} if parts else {}
        directly = {
            part.name: [
                space
                for space in self.vehicle.spaces
                if space.inside_of != part.inside_of
                and contains(walls[space.name], walls[part.name])
                and self._may_hold(space, self.thing_named.get(part.inside_of or ""))
            ]
            for part in parts
        }
        found: dict[str, tuple[Space, ...]] = {}
        for name in directly:
            around = {name: self.space_named[name]}
            waiting = [name]
            while waiting:
                for space in directly.get(waiting.pop(), ()):
                    if space.name not in around:
                        around[space.name] = space
                        waiting.append(space.name)
            found[name] = tuple(around.values())[1:]
        return found

    def opened_with(self, space: Space) -> tuple[Space, ...]:
        """Other spaces whose opening is that of a space or must be open before it, none around or in one another."""
        return self._opened_with[space.name]

    @cached_property
    def _opened_with(self) -> dict[str, tuple[Space, ...]]:
        found: dict[str, tuple[Space, ...]] = {}
        for space in self.vehicle.spaces:
            chain = {opening.name for opening in opening_chain(self.vehicle, space.opening)}
            found[space.name] = tuple(
                other
                for other in self.vehicle.spaces
                if other.name != space.name and other.opening in chain
                if other not in self.around(space) and space not in self.around(other)
            )
        return found

    @staticmethod
    def _may_hold(space: Space, thing: Thing | None) -> bool:
        """Whether a space takes a thing by the words of both and by its sides, whichever way it is turned."""
        if thing is None:
            return False
        words = {thing.holder} if thing.holder else set(thing.suits)
        taken = not thing.holder if space.accepts is None else not words.isdisjoint(space.accepts)
        sides = zip(sorted(thing.size_mm or ()), sorted(space.size_mm), strict=False)
        return taken and all(own <= room for own, room in sides)

    def rack_line(self, name: str) -> tuple[str, ...]:
        """A rack and those it is mounted on, down to the vehicle."""
        line: list[str] = []
        at: str | None = name
        while at is not None and at not in line:
            line.append(at)
            at = self.rack_named[at].on
        return tuple(line)


def copy_of(part: Placement | LeftAtHome) -> Copy:
    """The copy that a part of a plan places, or leaves at home."""
    return Copy(part.thing, part.copy_number)


def fresh(
    case: Case, *, vehicle: Vehicle | None = None, things: tuple[Thing, ...] | None = None, trip: Trip | None = None
) -> Case:
    """A case with parts replaced and nothing remembered of the old ones, as a mere copy would."""
    return Case(
        vehicle=vehicle or case.vehicle,
        things=case.things if things is None else things,
        trip=trip or case.trip,
        rulebook=case.rulebook,
        digest=case.digest,
        folder=case.folder,
    )
