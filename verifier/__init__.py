"""Recomputes every limit from a plan and its files; knows nothing of how the plan was made."""
