"""Figures with as many decimals as it takes to tell them apart."""


def told_apart(one: float, other: float, fewest: int, most: int) -> tuple[str, str]:
    """Two figures with the fewest decimals, of some to so many, with which they read differently."""
    for decimals in range(fewest, most + 1):
        told = f"{one:.{decimals}f}", f"{other:.{decimals}f}"
        if told[0] != told[1]:
            break
    return told
