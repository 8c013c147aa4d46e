"""Lifts that are undone: what goes to its place and out again before it goes there for good."""

from collections.abc import Sequence
from dataclasses import replace

from models.case import Case
from models.geometry import contact_mm2, placed_box
from packing.roadside import Step


def without_detours(case: Case, steps: Sequence[Step]) -> tuple[Step, ...]:
    """The same ends with fewer lifts: what would come out again stays on the ground, or at home, until it stays.

    Where anything was put on it or into it meanwhile the detour stays, as that had to rest on something.
    """
    kept = list(steps)
    for n in reversed(range(len(steps))):  # what was put on a thing makes its detour first
        out = _undone(case, kept, n) if n < len(kept) else None
        if out is not None:
            source = kept[n].source
            del kept[out]
            kept[n : n + 1] = [] if source is None else [replace(kept[n], target=None)]
    return tuple(kept)


def _undone(case: Case, steps: Sequence[Step], n: int) -> int | None:
    """The step that takes out what a step puts in, where it is put in again later."""
    step = steps[n]
    if step.target is None:
        return None
    later = [m for m in range(n + 1, len(steps)) if steps[m].copy == step.copy]
    if len(later) < 2 or steps[later[0]].target is not None:
        return None
    between = steps[n + 1 : later[0]]
    return None if any(_needs(case, step, other) for other in between) else later[0]


def _needs(case: Case, step: Step, other: Step) -> bool:
    """Whether a copy that is put down rests on another where that was put, or lies within it."""
    if step.target is None or other.target is None:
        return False
    if case.space_named[other.target.space].inside_of == step.copy.thing:
        return True
    return contact_mm2(placed_box(other.target), placed_box(step.target)) > 0
