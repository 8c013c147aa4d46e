"""The page can be read by everybody, on its own: headings, tables, pictures, focus, contrast; nothing from outside."""

import itertools
import re
from pathlib import Path

import pytest

import report
import verifier
from report.sheet import sheet_html, sheet_of
from report.sheet.page import isolated

STYLE, DRAWN, PRINT = (
    (Path(report.__file__).parent / "templates" / name).read_text(encoding="utf-8")
    for name in ("style.css", "drawings.css", "print.css")
)


@pytest.fixture(params=["made", "broken", "cans"])
def page(request):
    return request.getfixturevalue(request.param).page


def test_language_and_title(page):
    (html,), (title,) = page.named("html"), page.named("title")[:1]
    assert html.get("lang") == "en"
    assert "Starter trip" in title.text
    assert len(page.named("main")) == 1


def test_headings_are_in_order(page):
    levels = [int(one.tag[1]) for one in page.named("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert [(a, b) for a, b in itertools.pairwise(levels) if b > a + 1] == []


def test_headings_say_something(page):
    assert [one for one in page.named("h1", "h2", "h3", "h4") if not one.text] == []


def test_ids_are_unique_and_every_reference_leads_somewhere(page):
    ids = [one.get("id") for one in page.root.all() if one.get("id")]
    assert sorted(set(ids)) == sorted(ids)
    wanted = [part for one in page.root.all() for part in one.get("aria-labelledby").split()]
    wanted += [one.get("for") for one in page.named("label")]
    wanted += [one.get("href")[1:] for one in page.named("a", "use")]
    assert wanted
    assert set(wanted) - set(ids) == set()


def test_every_picture_is_told(page):
    for svg in page.named("svg"):
        if svg.get("aria-hidden") == "true":
            continue
        assert svg.get("role") == "img"
        inner = {child.tag: child.text for child in svg.children}
        assert svg.get("aria-label") or (inner.get("title") and inner.get("desc"))


def test_tables_have_headers_with_a_scope(page):
    tables = page.named("table")
    assert tables
    for table in tables:
        heads = [one for one in table.all() if one.tag == "th"]
        assert {one.get("scope") for one in heads} == {"col", "row"}
        rows = [[c for c in row.children if c.tag in {"th", "td"}] for row in table.all() if row.tag == "tr"]
        assert {len(row) for row in rows} == {len(rows[0])}
        assert all(row[0].tag == "th" for row in rows)


def test_every_tick_box_has_its_label(page):
    boxes, labels = page.named("input"), {one.get("for"): one.text for one in page.named("label")}
    assert boxes
    assert [one.get("id") for one in boxes if not labels.get(one.get("id"))] == []


def test_what_scrolls_takes_the_keyboard_and_has_a_name(page):
    scrolling = [one for one in page.root.all() if "pan" in one.get("class").split()]
    assert scrolling
    assert all(
        one.get("tabindex") == "0" and one.get("role") == "region" and one.get("aria-label") for one in scrolling
    )
    assert [one for one in page.root.all() if one.get("tabindex") not in {"", "0", "-1"}] == []
    assert ":focus-visible" in STYLE


def test_nothing_comes_from_outside_and_nothing_runs(made):
    assert made.page.named("script", "link", "img", "iframe", "object", "embed") == []
    assert re.findall(r"https?:|@import|url\((?!#)|\son\w+=", made.html) == []


def luminance(colour: str) -> float:
    digits = colour * 2 if len(colour) == 3 else colour
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    lit = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]


@pytest.mark.parametrize("scheme", [0, 1])
@pytest.mark.parametrize(("part", "least"), [("ink", 12), ("quiet", 7), ("warn", 6), ("line", 3), ("load", 3)])
def test_contrast(scheme, part, least):
    palette = [dict(re.findall(r"--(\w+): #(\w+);", block)) for block in re.findall(r":root \{(.*?)\}", STYLE)][scheme]
    bright, dim = sorted((luminance(palette[part]), luminance(palette["paper"])), reverse=True)
    assert (bright + 0.05) / (dim + 0.05) >= least


def test_names_that_look_like_markup_stay_words(folder, make):
    odd = "<b onclick=x>chair</b> & 'co'"
    for name in ("gear.yaml", "plan.yaml"):
        file = folder.path / name
        file.write_text(file.read_text("utf-8").replace("camp chair", f'"{odd}"'), "utf-8")
    made = make(folder.told)
    assert made.page.named("b")
    assert not [one for one in made.page.named("b") if one.get("onclick")]
    assert any(odd in one.text for one in made.page.named("th"))
    assert any(odd in one.text for one in made.page.named("desc"))


def test_a_name_that_runs_from_right_to_left_has_a_direction_of_its_own(folder):
    """The tent's number, its name that ends in a figure and its mass would change places."""
    name = "خيمة كبيرة 2"
    for file in ("gear.yaml", "plan.yaml"):
        text = (folder.path / file).read_text("utf-8")
        (folder.path / file).write_text(re.sub(r"(name|thing): tent\b", rf'\1: "{name}"', text), "utf-8")
    told = folder.told
    html = sheet_html(sheet_of(told.case, told.plan, told.verdict, verifier))
    body = re.sub(r"<svg.*?</svg>", "", html, flags=re.DOTALL)
    assert body.count(name) > 1
    assert body.count(f"\u2068{name}\u2069") > 1
    assert name not in re.sub("\u2068[^\u2069]*\u2069", "", body)
    assert [isolated(text) for text in ("tent #2", "été", 12)] == ["tent #2", "été", 12]


def test_whatever_is_smaller_than_the_text_is_at_least_8_pt_on_paper():
    small = re.findall(r"^([^{@}\n]+) \{[^}]*font-size: 0\.\d+r?em", f"{STYLE}{DRAWN}", re.MULTILINE)
    smaller = {one.strip() for line in small for one in line.split(",")}
    (floored,) = re.findall(r"^  ([^{}\n]+) \{ font-size: max\(8pt, ", PRINT, re.MULTILINE)
    assert len(smaller) > 5
    assert smaller <= {one.strip() for one in floored.split(",")}


def test_paper_is_not_left_empty_by_force():
    assert re.findall(r"^  ([^{}\n]+) \{[^}]*break-(?:before|after): page", PRINT, re.MULTILINE) == [".first"]


def test_the_opened_spaces_keep_with_their_heading(page):
    (ahead,) = [one for one in page.root.all() if one.get("class") == "ahead"]
    assert [one.tag for one in ahead.children] == ["h3", "p"]
    assert ".ahead { break-inside: avoid;" in PRINT
