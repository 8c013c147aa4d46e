"""What people have fixed, copy by copy."""

from dataclasses import dataclass

from models.case import Case, Copy
from models.geometry import Point
from models.spaces import Space
from models.trip import Lock


@dataclass(frozen=True)
class Fixed:
    """All locks on one copy, taken together."""

    spaces: tuple[str, ...] = ()
    """The space it stays in; more than one name cannot hold together."""
    corner_mm: Point | None = None
    out_of: tuple[str, ...] = ()
    """Spaces and racks it stays out of."""
    at_home: bool = False
    carried: bool = False
    """It comes, because somebody said so or fixed its place."""

    def admits(self, case: Case, space: Space) -> bool:
        """Whether a space is still open to the copy."""
        if self.at_home or any(name != space.name for name in self.spaces):
            return False
        return space.name not in self.out_of and not set(self.out_of) & set(case.racks_under(space))


def fixed(case: Case, locks: tuple[Lock, ...], copy: Copy) -> Fixed:
    """The locks on a copy."""
    mine = [lock for lock in locks if lock.thing == copy.thing and lock.copy_number in (None, copy.number)]
    spaces = tuple(sorted({lock.in_ for lock in mine if lock.in_ is not None}))
    return Fixed(
        spaces,
        next((lock.at_mm for lock in mine if lock.at_mm is not None), None),
        tuple(sorted({lock.not_in for lock in mine if lock.not_in is not None})),
        any(lock.at_home for lock in mine),
        any(lock.carried for lock in mine) or bool(spaces),
    )
