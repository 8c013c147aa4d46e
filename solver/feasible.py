"""What tries to find a plan for the sake of a sentence, and how much time one try may take."""

from typing import Protocol

from models.plan import Plan
from solver.clock import Clock
from solver.problem import Problem
from solver.repack import Cost

TRY_SHARE = 0.2
"""Share of the time left that one try may take."""


class Feasible(Protocol):
    """Tries to find a plan."""

    def __call__(
        self,
        problem: Problem,
        clock: Clock,
        near: Plan | None = None,
        cost: Cost | None = None,
        *,
        keenly: bool = False,
    ) -> Plan | None:
        """A plan for a problem, looked for near a plan and with a small cost where they are given; None: none found.

        `keenly`: with as many steps as a first layout, as far as the time goes, before it is given up.
        """
