"""Shares as people say them."""

from models.decimals import told_apart

FEWEST_DECIMALS, MOST_DECIMALS = 2, 5
"""Of percent; nothing that anybody writes needs more."""


def percent(share: float, bound: float) -> str:
    """A share, with as many decimals as it takes to see on which side of a bound it is."""
    told, _ = told_apart(100 * share, 100 * bound, FEWEST_DECIMALS, MOST_DECIMALS)
    return f"{told.rstrip('0').rstrip('.')}%"
