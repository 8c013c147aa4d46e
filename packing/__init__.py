"""In which order things go in and come out, and what must be moved first."""

from packing.digging import handling_seconds, seconds_to_hand, to_move_first

__all__ = ["handling_seconds", "seconds_to_hand", "to_move_first"]
