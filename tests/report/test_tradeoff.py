"""Height against handling time: the chosen plan, its neighbours, and a page in the look of the sheet."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from models.case import Copy
from report.sheet import tradeoff_html
from report.terminal.tradeoff import tradeoff_report
from report.tradeoff import Offer, tradeoff


def offer(allow_mm: float, height_mm: float, seconds: float, home: int = 1, holds: bool | None = True) -> Offer:
    return Offer(allow_mm, height_mm, "leaving", seconds, holds, home)


OFFERS = (offer(0, 700.0, 300), offer(2, 701.5, 250), offer(5, 704.8, 240), offer(10, 709.0, 200, home=2))


def test_the_chosen_plan_is_the_one_the_trip_allows():
    found = tradeoff("Trip", "Van", OFFERS, 2)
    assert [row.offer.allow_mm for row in found.rows if row.chosen] == [2]
    assert [(row.more_mm, row.more_s) for row in found.rows] == [
        (pytest.approx(-1.5), 50), (0, 0), (pytest.approx(3.3), -10), (pytest.approx(7.5), -50),
    ]  # fmt: skip


def test_where_it_was_not_found_the_nearest_stands_in():
    assert [row.offer.allow_mm for row in tradeoff("Trip", "Van", OFFERS, 6).rows if row.chosen] == [5]


def test_another_load_is_said_to_be_one():
    notes = {row.offer.allow_mm: row.note for row in tradeoff("Trip", "Van", OFFERS, 2).rows}
    assert "2 stay at home instead of 1" in notes[10]
    assert notes[0] == ""


def test_another_load_of_as_many_things_is_said_to_be_one_and_never_the_same_as_the_chosen():
    tent, stove = (frozenset({Copy(name, 1)}) for name in ("tent", "stove"))
    offers = [replace(offer(0, 700.0, 300), load=tent), replace(offer(2, 700.0, 300), load=stove)]
    assert [row.note for row in tradeoff("Trip", "Van", offers, 0).rows] == [
        "chosen: it keeps to what the trip allows", "as many stay at home, and not the same ones: not the same load",
    ]  # fmt: skip


def test_one_thing_stays_and_several_stay():
    notes = [row.note for row in tradeoff("Trip", "Van", OFFERS, 10).rows]
    assert "1 stays at home instead of 2: not the same load" in notes[0]


def test_a_row_that_gains_nothing_gives_way_to_the_plan_beside_it():
    # As searches of a few seconds found them: the one for 5 mm the lowest, that for 1 mm beaten by that for 10 mm.
    noisy = ((0, 795.8, 1593), (1, 794.7, 1625), (2, 795.1, 1609), (5, 793.1, 1691), (10, 794.7, 1613))
    rows = tradeoff("Trip", "Van", [offer(*one) for one in noisy], 2).rows
    assert [(row.offer.height_mm, row.offer.getting_at_s) for row in rows] == [
        (793.1, 1691), (793.1, 1691), (795.1, 1609), (795.8, 1593), (795.8, 1593),
    ]  # fmt: skip
    assert [row.note for row in rows] == [
        "", "the same as for 0 mm", "chosen: it keeps to what the trip allows", "", "the same as for 5 mm",
    ]  # fmt: skip


def test_a_row_that_is_higher_and_hardly_quicker_gives_way_too():
    rows = tradeoff("Trip", "Van", [offer(0, 700.0, 300), offer(2, 701.0, 299.8)], 0).rows
    assert [row.offer.height_mm for row in rows] == [700.0, 700.0]
    assert rows[1].note == "the same as the chosen one"


def test_what_is_the_same_as_the_chosen_one_is_said_to_be_so_once():
    rows = tradeoff("Trip", "Van", [offer(allow, 700.0, 300) for allow in (0, 2, 5)], 2).rows
    assert [row.note for row in rows] == [
        "the same as the chosen one", "chosen: it keeps to what the trip allows", "the same as the chosen one",
    ]  # fmt: skip


def test_a_plan_with_less_aboard_is_beaten_by_one_with_more():
    rows = tradeoff("Trip", "Van", [offer(0, 700.0, 300), offer(2, 701.0, 310, home=2)], 0).rows
    assert "the plan for 0 mm is no higher and no slower" in rows[1].note


def test_the_page_draws_every_plan_where_it_belongs():
    html = tradeoff_html(tradeoff("Trip <1>", "Van", OFFERS, 2, ("None at 1 mm.",)))
    spots = [(float(x), float(y)) for x, y in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="6"', html)]
    assert len(spots) == len(OFFERS)
    assert [a[1] > b[1] for a, b in pairwise(spots)] == [True] * 3
    assert spots[0][0] > spots[1][0]
    assert "Trip &lt;1&gt;" in html
    assert "None at 1 mm." in html
    assert html.count("◉") == 1
    assert len(re.findall('class="ring"', html)) == 1


def test_one_plan_alone_can_be_drawn():
    assert "<svg" in tradeoff_html(tradeoff("Trip", "Van", OFFERS[:1], 2))


def test_the_terminal_fits_eighty_columns():
    text = tradeoff_report(tradeoff("Trip", "Van", OFFERS, 2, ("None at 1 mm.",)), 80)
    assert max(map(len, text.splitlines())) <= 80
    assert "* 2" in text
    assert "None at 1 mm." in text


def test_an_unknown_limit_is_told():
    unknown = tradeoff("Trip", "Van", (offer(0, 700, 300, holds=None),), 0)
    assert "a limit is unknown" in " ".join(tradeoff_report(unknown, 80).split())
    assert "one is unknown" in tradeoff_html(unknown)
