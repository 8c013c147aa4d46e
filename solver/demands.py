"""What people have fixed, copy by copy."""

from collections.abc import Sequence
from dataclasses import dataclass

from models.case import Case, Copy
from models.geometry import Point
from models.locks import locks_on, out_names
from models.spaces import Space
from models.trip import Lock


@dataclass(frozen=True)
class Fixed:
    """All locks on one copy, taken together."""

    spaces: tuple[str, ...] = ()
    """The space it stays in; more than one name cannot hold together."""
    corners: tuple[Point, ...] = ()
    """The corner it stays at; more than one cannot hold together."""
    out_of: tuple[str, ...] = ()
    """Spaces and racks it stays out of."""
    at_home: bool = False
    carried: bool = False
    """It comes, because somebody said so or fixed its place."""

    @property
    def corner_mm(self) -> Point | None:
        """The corner it stays at; None: any."""
        return self.corners[0] if self.corners else None

    def admits(self, case: Case, space: Space, corner_mm: Point | None = None) -> bool:
        """Whether a space is still open to the copy, and a least corner where one is given."""
        if self.at_home or any(name != space.name for name in self.spaces):
            return False
        if len(self.corners) > 1 or (self.corners and corner_mm not in {None, *self.corners}):
            return False
        return not out_names(case, space).intersection(self.out_of)


def forbids(case: Case, lock: Lock, space: Space, corner_mm: Point | None = None) -> bool:
    """Whether a lock does not let what is under it be in a space, or with its least corner there."""
    return not taken_together([lock]).admits(case, space, corner_mm)


def fixed(locks: Sequence[Lock], copy: Copy) -> Fixed:
    """The locks on a copy."""
    return taken_together(locks_on(locks, copy))


def taken_together(mine: Sequence[Lock]) -> Fixed:
    """Some locks on one copy as one."""
    spaces = tuple(sorted({lock.in_ for lock in mine if lock.in_ is not None}))
    corners = tuple(sorted({lock.at_mm for lock in mine if lock.at_mm is not None}))
    return Fixed(
        spaces,
        corners,
        tuple(sorted({lock.not_in for lock in mine if lock.not_in is not None})),
        any(lock.at_home for lock in mine),
        any(lock.carried for lock in mine) or bool(spaces),
    )
