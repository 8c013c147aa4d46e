"""Questions on names: what tells of a hazard and is marked with none, and two names that may be one thing."""

from collections.abc import Iterable, Iterator

from verifier.layout import Layout
from verifier.questions.telling import told_hazard


def no_hazard(layout: Layout) -> Iterator[str]:
    """Ask about carried things whose names tell of a hazard that they are not marked with."""
    carried = {one.thing.name for one in layout.placed}
    told = {thing.name: told_hazard(thing) for thing in layout.case.things if thing.name in carried}
    found = {name: hazard for name, hazard in told.items() if hazard is not None}
    if found:
        yield (
            f"No `hazard` is given for {', '.join(found)}, so {'it was' if len(found) == 1 else 'they were'} allowed "
            "in any air, also where people breathe: does nothing in there burn, gas, poison, corrode or explode? Give "
            f"the hazard word{_such_as(layout, found.values())}, or `hazard: none`."
        )


def _such_as(layout: Layout, hazards: Iterable[str]) -> str:
    """The words that may be meant, of those that the trip's rule book knows."""
    known = [f"`{hazard}`" for hazard in dict.fromkeys(hazards) if hazard in layout.case.rulebook.hazards]
    return f" (perhaps {', '.join(known)})" if known else ""


def alike(layout: Layout) -> Iterator[str]:
    """Ask about carried things whose names are the same but for capitals, blanks and signs."""
    groups: dict[str, list[str]] = {}
    for name in dict.fromkeys(one.thing.name for one in layout.placed):
        groups.setdefault("".join(sign for sign in name.casefold() if sign.isalnum()) or name, []).append(name)
    for names in groups.values():
        if len(names) > 1:
            yield (
                f"{' and '.join(map(repr, names))} have names that differ in capitals, blanks or signs alone, and all "
                "are carried: is that one thing, listed twice?"
            )
