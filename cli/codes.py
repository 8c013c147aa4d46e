"""Exit codes, so that a script can tell answers apart."""

from enum import IntEnum


class Code(IntEnum):
    """What a command ends with."""

    HOLDS = 0
    """Done, and all limits hold."""
    BROKEN = 1
    """A limit is broken."""
    BAD_INPUT = 2
    """Something typed in cannot be used."""
    NO_PLAN = 3
    """No plan exists, proven."""
    NOT_FOUND = 4
    """None was found in the time given."""
    UNKNOWN_LIMIT = 5
    """Nothing is broken, but a limit is unknown, or no driving stage is in the trip."""
    OUR_FAULT = 70
    """A mistake of lowstow itself."""

    @classmethod
    def of(cls, holds: bool | None) -> "Code":
        """The code of a verdict."""
        return {True: cls.HOLDS, False: cls.BROKEN, None: cls.UNKNOWN_LIMIT}[holds]
