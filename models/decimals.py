"""Figures with as many decimals as it takes to tell them apart."""

from math import floor

MOST_DECIMALS = 6
"""A share is told in percent with no more decimals than that."""


def told_apart(one: float, other: float, fewest: int, most: int) -> tuple[str, str]:
    """Two figures with the fewest decimals, of some to so many, with which they read differently."""
    for decimals in range(fewest, most + 1):
        told = f"{one:.{decimals}f}", f"{other:.{decimals}f}"
        if told[0] != told[1]:
            break
    return told


def share_told(share: float, least: float, decimals: int, *, broken: bool) -> tuple[str, str]:
    """A share in percent, rounded down, and the least that it may be, told as exactly as it was given.

    What is enough never looks too little, and what is too little never looks enough.
    """
    value, allowed = share * 100, least * 100
    while decimals < MOST_DECIMALS and abs(round(allowed, decimals) - allowed) > 1e-9:
        decimals += 1
    while broken and decimals < MOST_DECIMALS and f"{value:.{decimals}f}" == f"{allowed:.{decimals}f}":
        decimals += 1
    if broken and f"{value:.{decimals}f}" == f"{allowed:.{decimals}f}":
        return f"less than {allowed:.{decimals}f}%", f"{allowed:.{decimals}f}%"
    down = floor(round(value * 10**decimals, MOST_DECIMALS)) / 10**decimals
    return f"{down if broken else max(down, allowed):.{decimals}f}%", f"{allowed:.{decimals}f}%"
