"""Shares as people say them."""

MOST_DECIMALS = 6
"""Nothing that anybody writes needs more."""


def percent(share: float, bound: float) -> str:
    """A share, with as many decimals as it takes to see on which side of a bound it is."""
    for decimals in range(2, MOST_DECIMALS):
        told, against = (f"{100 * one:.{decimals}f}".rstrip("0").rstrip(".") for one in (share, bound))
        if told != against:
            break
    return f"{told}%"
