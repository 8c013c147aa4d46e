"""Proposes a plan, revises it around what people have decided, and explains it."""
