"""The case in which a copy is free of some locks."""

from collections.abc import Sequence

from models.case import Case, Copy, fresh
from models.locks import without
from models.trip import Lock


def unlocked(case: Case, lifted: Sequence[Lock], copy: Copy) -> Case:
    """The case in which a copy is free of some locks of the trip, to judge a plan that does not keep them."""
    locks = without(case, case.trip.locks, lifted, [copy])
    return fresh(case, trip=case.trip.model_copy(update={"locks": locks}))
