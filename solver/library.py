"""OR-Tools, loaded without pandas, which it can take its variables from and which nothing here uses.

Loading pandas takes 0.2 to 0.3 s of every command that searches and 35 MB of each process. Every other module of the
solver has the library from here.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from importlib import import_module
from types import ModuleType


class _Nothing(ModuleType):
    """A module in which every name is a class of its own, of which there are no objects."""

    def __getattr__(self, name: str) -> type:
        if name.startswith("__"):
            raise AttributeError(name)
        made = type(name, (), {})
        setattr(self, name, made)
        return made


@contextmanager
def without_pandas() -> Iterator[None]:
    """While it lasts, who imports pandas gets nothing; where it is loaded already, it is what they get."""
    if "pandas" in sys.modules:
        yield
        return
    sys.modules["pandas"] = _Nothing("pandas")
    try:
        yield
    finally:
        del sys.modules["pandas"]


with suppress(ImportError), without_pandas():  # a version that needs more of pandas gets it below
    import_module("ortools.linear_solver.python.model_builder")
    import_module("ortools.sat.python.cp_model")

from ortools.linear_solver.python import model_builder, model_builder_helper  # noqa: E402 - once it is loaded as told above
from ortools.sat.python import cp_model, cp_model_helper  # noqa: E402

__all__ = ["cp_model", "cp_model_helper", "model_builder", "model_builder_helper"]
