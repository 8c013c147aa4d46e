"""OR-Tools is loaded without pandas, and with it where that is asked for or needed."""

import subprocess
import sys

import pytest

from tests.chances import some

SOLVES = """
model = library.cp_model.CpModel()
count = model.new_int_var(0, 5, "count")
model.maximize(count)
solver = library.cp_model.CpSolver()
assert solver.solve(model) == library.cp_model.OPTIMAL
assert solver.value(count) == 5
"""

CASES = {
    "not loaded": "from solver import library; assert 'pandas' not in sys.modules",
    "there for others afterwards": "from solver import library; import pandas; assert pandas.Series([1, 2]).sum() == 3",
    "loaded before": "import pandas; from solver import library; assert sys.modules['pandas'] is pandas\n"
    "assert library.cp_model.pd is pandas",
    "a library that needs more of it": "import importlib\n"
    "load = importlib.import_module\n"
    "importlib.import_module = lambda name, package=None: (\n"
    "    refuse(name) if 'ortools' in name else load(name, package))\n"
    "from solver import library; assert library.cp_model.pd is sys.modules['pandas']\n"
    "assert library.cp_model.pd.Series([1, 2]).sum() == 3",
}
REFUSE = "def refuse(name): raise ModuleNotFoundError(name)"


@pytest.mark.parametrize("name", some(CASES, 1))  # the others load pandas, which takes seconds
def test_the_library_solves(name: str) -> None:
    code = CASES[name]
    told = "\n".join(("import sys", REFUSE, code, SOLVES))
    subprocess.run([sys.executable, "-c", told], check=True, capture_output=True, text=True)
