"""Tells people: terminal, sheet, drawings and lists."""
