"""A sheet of the starter trip, and its page taken apart."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

import pytest

import verifier
from models.trip import Stream
from report.sheet import Sheet, sheet_html, sheet_of

VOID = {"meta", "input", "br", "hr", "link", "img"}


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    parent: "Element | None"
    children: list["Element"] = field(default_factory=list)
    pieces: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text in it, in no promised order between pieces and children."""
        return " ".join("".join([*self.pieces, *(f" {c.text} " for c in self.children)]).split())

    def get(self, name: str) -> str:
        return self.attributes.get(name, "")

    def all(self) -> list["Element"]:
        return [self, *(inner for child in self.children for inner in child.all())]


class Page(HTMLParser):
    """Reads a page into a tree and refuses what is not closed."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.root = self.at = Element("", {}, None)
        self.feed(text)
        assert self.at is self.root, f"<{self.at.tag}> is not closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = Element(tag, {key: value or "" for key, value in attrs}, self.at)
        self.at.children.append(made)
        if tag not in VOID:
            self.at = made

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.at.children.append(Element(tag, {key: value or "" for key, value in attrs}, self.at))

    def handle_endtag(self, tag: str) -> None:
        assert self.at.tag == tag, f"</{tag}> ends <{self.at.tag}>"
        assert self.at.parent is not None
        self.at = self.at.parent

    def handle_data(self, data: str) -> None:
        self.at.pieces.append(data)

    def named(self, *tags: str) -> list[Element]:
        return [one for one in self.root.all() if one.tag in tags]

    def by_id(self, name: str) -> Element:
        (found,) = [one for one in self.root.all() if one.get("id") == name]
        return found


@dataclass
class Made:
    told: Any
    sheet: Sheet
    html: str
    page: Page


def sheet_made(told: Any, packer: str | None = None) -> Made:
    made = sheet_of(told.case, told.plan, told.verdict, verifier, packer)
    html = sheet_html(made)
    return Made(told, made, html, Page(html))


@pytest.fixture
def make():
    return sheet_made


@pytest.fixture
def made(told) -> Made:
    return sheet_made(told)


@pytest.fixture
def cans(folder) -> Made:
    """The starter's cans hold diesel that the main tank has room for, halfway; past the check of their hazard."""
    told = folder.told
    trip = told.case.trip.model_copy(update={"streams": {"drinking water": Stream(fluid="diesel")}})
    told.case = told.case.model_copy(update={"trip": trip})
    told.verdict = verifier.check(told.case, told.plan)
    return sheet_made(told)


@pytest.fixture
def broken(folder) -> Made:
    folder.change("vehicle.yaml", "gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2393.8,")
    folder.change("vehicle.yaml", "rear_axle_kg: {kg: 1850, source: plate}", "rear_axle_kg: unknown")
    return sheet_made(folder.told)
