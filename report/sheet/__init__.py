"""The sheet that a person holds in the driveway: one HTML file, the same as JSON, or in short for a terminal."""

from report.sheet.content import Sheet, sheet_of, sheet_view
from report.sheet.page import sheet_html, tradeoff_html
from report.sheet.short import sheet_text

__all__ = ["Sheet", "sheet_html", "sheet_of", "sheet_text", "sheet_view", "tradeoff_html"]
