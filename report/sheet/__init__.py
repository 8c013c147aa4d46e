"""The sheet that a person holds in the driveway: one HTML file, or the same as JSON."""

from report.sheet.content import Sheet, sheet_of, sheet_view
from report.sheet.page import sheet_html

__all__ = ["Sheet", "sheet_html", "sheet_of", "sheet_view"]
