"""The page: one HTML file with everything in it, no network, no script."""

from functools import cache
from unicodedata import bidirectional

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from report.drawings.marks import definitions
from report.drawings.tradeoff import tradeoff_picture
from report.sheet.content import Sheet
from report.terminal.cautions import CODES, WEIGH
from report.tradeoff import Tradeoff

SLOPE_CAUTION = "A millimetre of height is fine tuning and permits nothing; limits and hazards are safety."
"""What stands beside heights that are compared."""
RIGHT_TO_LEFT = frozenset({"R", "AL"})
"""Kinds of letters that run from right to left (Unicode Standard Annex 9)."""
OWN_DIRECTION, END_OF_IT = "\u2068", "\u2069"
"""FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE, of the same annex."""


def sheet_html(sheet: Sheet) -> str:
    """A sheet as one HTML file."""
    return _templates().get_template("sheet.html").render(sheet=sheet, definitions=Markup(definitions()))  # noqa: S704


def tradeoff_html(found: Tradeoff) -> str:
    """A comparison of plans as one HTML file, in the look of the sheet."""
    return (
        _templates()
        .get_template("tradeoff.html")
        .render(found=found, picture=tradeoff_picture(found), slope=SLOPE_CAUTION, weigh=WEIGH, codes=CODES)
    )


def isolated(told: object) -> object:
    """A text with letters that run from right to left, in a direction of its own: figures beside it keep their place.

    By the characters of Unicode for it, as it may stand in an attribute too. What a macro made has been through here.
    """
    if not isinstance(told, str) or isinstance(told, Markup):
        return told
    if not RIGHT_TO_LEFT.intersection(map(bidirectional, told)):
        return told
    return f"{OWN_DIRECTION}{told}{END_OF_IT}"


@cache
def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("report", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=isolated,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    # A picture escapes what people wrote by itself, in report/drawings/svg.py.
    made.filters["drawn"] = lambda picture: Markup(picture.svg)  # noqa: S704
    return made
