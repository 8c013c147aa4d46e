"""Questions on a plan: what no rule forbids and hardly anybody means; told beside the answer."""

from collections.abc import Callable, Iterator

from verifier.layout import Layout
from verifier.questions import bolted, called_so, incidents, mud, names, people, waste, ways

QUESTIONS: tuple[Callable[[Layout], Iterator[str]], ...] = (
    people.nobody_drives,
    people.nobody_at_the_wheel,
    people.nobody_beside,
    people.twice,
    people.on_laps,
    bolted.on_no_rack,
    names.no_hazard,
    called_so.unmarked,
    names.alike,
    names.called_alike,
    waste.beside_food,
    mud.bogged,
    incidents.left_home,
    ways.beyond,
    ways.on_the_lid,
    ways.in_a_thing,
)
"""Every question, in the order in which they are told."""


def questions(layout: Layout) -> Iterator[str]:
    """Ask what is odd about a plan, a sentence each."""
    for ask in QUESTIONS:
        yield from ask(layout)
