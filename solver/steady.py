"""The search of an exact model, set so that it gives the same answer every time, unless the clock cuts in."""

from math import inf

from solver.library import cp_model


def steady(seconds: float, work: float = inf) -> cp_model.CpSolver:
    """A search of so many seconds by the clock at most, and of so much `work` in the library's unit, about a second."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = work
    solver.parameters.max_time_in_seconds = seconds
    # Left to itself it takes Ctrl-C for good, and the next one would end us without an answer.
    solver.parameters.catch_sigint_signal = False
    return solver
