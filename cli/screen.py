"""The terminal: how wide it is, and a line of progress where a person watches."""

import shutil
import sys
from math import ceil


def width() -> int:
    """Columns to use: what the terminal has, 80 where there is none; a report takes 80 to 120 of them."""
    return shutil.get_terminal_size(fallback=(80, 24)).columns


class ProgressLine:
    """One line on the error output that is written over; silent where nobody watches."""

    def __init__(self) -> None:
        self._watched = sys.stderr.isatty()
        self._drawn = 0

    def step(self, elapsed_s: float, phase: str, height_mm: float | None, bound_mm: float | None) -> None:
        """Draw how far the search is: seconds, phase, height in mm and how much lower may still be possible."""
        if not self._watched:
            return
        told = progress_text(elapsed_s, phase, height_mm, bound_mm)[: width() - 1]
        sys.stderr.write(f"\r{told.ljust(self._drawn)}")
        sys.stderr.flush()
        self._drawn = len(told)

    def done(self) -> None:
        """Take the line away."""
        if self._drawn:
            sys.stderr.write(f"\r{' ' * self._drawn}\r")
            sys.stderr.flush()
            self._drawn = 0


def progress_text(elapsed_s: float, phase: str, height_mm: float | None, bound_mm: float | None) -> str:
    """What the line of progress says."""
    parts = [f"{elapsed_s:.0f} s", phase]
    if height_mm is not None:
        parts.append(f"height {height_mm:.1f} mm")
        if bound_mm is not None:
            parts.append(f"at most {max(0, ceil(height_mm - bound_mm))} mm lower possible")
    return ", ".join(parts)
