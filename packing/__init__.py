"""The order of things: what goes in first, what comes out, what must be moved to get at one."""

from packing.digging import handling_seconds, seconds_to_hand, to_move_first
from packing.order import loading_order
from packing.replay import first_fault
from packing.steps import LoadStep, Tangle

__all__ = [
    "LoadStep",
    "Tangle",
    "first_fault",
    "handling_seconds",
    "loading_order",
    "seconds_to_hand",
    "to_move_first",
]
