"""Questions on names: what tells of a hazard and is marked with none, and two names that may be one thing."""

from collections.abc import Iterator, Mapping

from verifier.layout import Layout
from verifier.questions.telling import NO_WORD, told_hazard


def no_hazard(layout: Layout) -> Iterator[str]:
    """Ask about carried things whose names tell of a hazard that they are not marked with."""
    carried = {one.thing.name for one in layout.placed}
    told = {thing.name: told_hazard(thing) for thing in layout.case.things if thing.name in carried}
    found = {name: hazard for name, hazard in told.items() if hazard is not None}
    if found:
        yield (
            f"No `hazard` is given for {_named(layout, found)}, so {'it was' if len(found) == 1 else 'they were'} "
            "allowed in any air, also where people breathe: does nothing in there burn, gas, poison, corrode or "
            f"explode? Give the hazard word{_for_all(layout, found)}, or `hazard: none`."
        )


def _named(layout: Layout, found: Mapping[str, str]) -> str:
    """Names, those with like hazard words together; the word beside them where several may be meant."""
    if len(set(found.values())) == 1:
        return ", ".join(found)
    groups: dict[str, list[str]] = {}
    for name, hazard in found.items():
        groups.setdefault(hazard, []).append(name)
    return ", ".join(f"{' and '.join(names)}{_perhaps(layout, hazard)}" for hazard, names in groups.items())


def _for_all(layout: Layout, found: Mapping[str, str]) -> str:
    """The word that may be meant of all of them; nothing where each has its own."""
    first, *others = dict.fromkeys(found.values())
    return "" if others else _perhaps(layout, first)


def _perhaps(layout: Layout, hazard: str) -> str:
    """The word that may be meant, or that the trip's rule book has none."""
    if hazard == NO_WORD:
        return " (the rule book has no word for it)"
    return f" (perhaps `{hazard}`)" if hazard in layout.case.rulebook.hazards else ""


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


def called_alike(layout: Layout) -> Iterator[str]:
    """Ask about things that are called as a copy of another thing is."""
    case = layout.case
    for copy in case.copies:
        name = case.called(copy)
        if name != copy.thing and name in case.thing_named:
            yield (
                f"{name!r} is a thing by itself, and copy {copy.number} of {copy.thing!r} is called so too: will you "
                "find the right one? Give one of them another name."
            )
