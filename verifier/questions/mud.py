"""A question on mud: whether what is needed with the sills down can be got at then."""

from collections.abc import Iterator

from models.case import Case
from models.spaces import Space
from models.stages import opening_chain
from verifier.layout import Layout

SILL_MM = 600
"""Height of a floor above ground below which a side opening may lie in the mud with the sills down, in mm.
Common practice, no source."""


def bogged(layout: Layout) -> Iterator[str]:
    """Ask about what is needed when bogged and lies low behind a side opening that nobody said is free then."""
    found: dict[str, list[str]] = {}
    for one, space in layout.located:
        if "bogged" in one.thing.needed_when and space.corner_mm[2] < SILL_MM and _taken_for_free(layout.case, space):
            found.setdefault(space.name, []).append(one.name)
    for name, things in found.items():
        space = layout.case.space_named[name]
        yield (
            f"{', '.join(things)}, needed when bogged, {'is' if len(things) == 1 else 'are'} in {name}, "
            f"{space.corner_mm[2]} mm above ground behind {space.opening}: does that open with the sills in the mud? "
            "Say so in its `stuck_when`."
        )


def _taken_for_free(case: Case, space: Space) -> bool:
    """Whether a side opening of the chain leaves out when it is stuck, and by default is not when bogged."""
    chain = opening_chain(case.vehicle, space.opening)
    return any(opening.side in {"left", "right"} and opening.stuck_when is None for opening in chain)
