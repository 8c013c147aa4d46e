"""The report on the terminal: plain text that fits 80 columns and uses 120 where they are."""

from report.terminal.refusal import refusal_report
from report.terminal.whole import plan_report

__all__ = ["plan_report", "refusal_report"]
