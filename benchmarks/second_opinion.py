"""The best height and whether there is an answer at all, by us and by a general-purpose solver of the registry.

Run: python -m benchmarks.second_opinion [--many 100]
"""

from collections import Counter

from benchmarks.assignment import bars_by_chance, case_of, second_opinion_mm
from benchmarks.table import arguments, heading, table
from solver import Options, Proposal, Status, propose

CLOSE_MM = 1e-3
"""Two heights closer than this are the same."""


def verdict(seed: int) -> str:
    """How the two opinions on one small trip compare; anything but agreement begins with `disagree`."""
    bars = bars_by_chance(seed)
    other_mm, proven = second_opinion_mm(bars)
    if not proven:
        return "the second opinion ended unknown"
    ours = propose(case_of(bars), Options(effort=0.1, seconds=600))
    if other_mm is None:
        return _no_answer(ours)
    if ours.height is None:
        return f"disagree: no answer ({ours.status}) where {other_mm:.3f} mm is possible"
    if ours.height.bound is not None and ours.height.bound > other_mm + CLOSE_MM:
        return f"disagree: bound {ours.height.bound:.3f} mm above {other_mm:.3f} mm"
    if abs(ours.height.value - other_mm) > CLOSE_MM:
        return f"disagree: {ours.height.value:.3f} mm against {other_mm:.3f} mm"
    return f"same height, {ours.height.state}"


def _no_answer(ours: Proposal) -> str:
    if ours.status == Status.FOUND:
        return "disagree: an answer where there is none"
    return f"no answer, {ours.status}"


def main() -> int:
    """Print the table; 1 when there is any disagreement."""
    given = arguments(__doc__, many=100)
    print(heading("scipy"))
    found = [verdict(seed) for seed in range(given.many)]
    print(table(("opinions", "trips"), sorted(Counter(found).items())))
    return int(any(one.startswith("disagree") for one in found))


if __name__ == "__main__":
    raise SystemExit(main())
