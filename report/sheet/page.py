"""The page: one HTML file with everything in it, no network, no script."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from report.drawings.marks import definitions
from report.sheet.content import Sheet


def sheet_html(sheet: Sheet) -> str:
    """A sheet as one HTML file."""
    return _templates().get_template("sheet.html").render(sheet=sheet, definitions=Markup(definitions()))  # noqa: S704


@cache
def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("report", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    # A picture escapes what people wrote by itself, in report/drawings/svg.py.
    made.filters["drawn"] = lambda picture: Markup(picture.svg)  # noqa: S704
    return made
