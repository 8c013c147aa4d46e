"""The order of things: what goes in first, what comes out, what must be moved to get at one."""

from packing.daily import getting_at_s, uses_per_day
from packing.digging import handling_seconds, seconds_to_hand, to_move_first
from packing.finding import WayTo, way_to
from packing.matching import numbered_as_before, renumbered
from packing.moves import Move, MoveList, minutes_of_copy, moves_between
from packing.order import loading_order
from packing.replay import first_fault
from packing.standing import in_other_spaces
from packing.steps import LoadStep, Tangle, shut_by_trailer
from packing.surplus import easiest_gone
from packing.unlisted import known_in, with_unlisted

__all__ = [
    "LoadStep",
    "Move",
    "MoveList",
    "Tangle",
    "WayTo",
    "easiest_gone",
    "first_fault",
    "getting_at_s",
    "handling_seconds",
    "in_other_spaces",
    "known_in",
    "loading_order",
    "minutes_of_copy",
    "moves_between",
    "numbered_as_before",
    "renumbered",
    "seconds_to_hand",
    "shut_by_trailer",
    "to_move_first",
    "uses_per_day",
    "way_to",
    "with_unlisted",
]
