"""Whatever stands in any of the files, it is read or refused in sentences; no other end, in any format."""

import json
import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, seed, settings
from hypothesis import strategies as st

from models.reading import InputFaults, read_case, read_plan
from models.schema import schema_of
from models.starter import starter_files

FILES = ("trip.yaml", "vehicle.yaml", "gear.yaml", "more.csv", "own.yaml", "plan.yaml")
LONGEST = 900
"""A sentence for a person is shorter, in letters; the folder's name not counted."""
EXAMPLES = int(os.environ.get("LOWSTOW_FUZZ", "5"))
"""Examples of each test: few in every run, many once in a while (LOWSTOW_FUZZ=20000)."""
SEED = os.environ.get("LOWSTOW_FUZZ_SEED")
"""Left out: the same examples in every run; a number: others (LOWSTOW_FUZZ_SEED=7)."""
USUAL_SETTINGS = settings(max_examples=EXAMPLES, suppress_health_check=[HealthCheck.function_scoped_fixture])


def usual(test: Any) -> Any:
    """How often and from which seed a test draws."""
    found = USUAL_SETTINGS(test)
    return found if SEED is None else seed(int(SEED))(found)


PLAN = "trip: trip.yaml\nplacements:\n  - {thing: tent, space: left shelf, corner_mm: [1, 2, 3], size_mm: [4, 5, 6]}\n"
CSV = "name,count,mass_kg,size_mm\nrope bag,1,4.5,300x200x200\n"


def keys_of(name: str) -> list[str]:
    """Every key that a file may hold, at any depth."""
    kind = {"more.csv": "gear", "own.yaml": "rulebook"}.get(name, name.removesuffix(".yaml"))
    found: set[str] = set()
    waiting: list[Any] = [schema_of(kind)]
    while waiting:
        part = waiting.pop()
        if isinstance(part, dict):
            found |= set(part.get("properties", {}))
            waiting += part.values()
        elif isinstance(part, list):
            waiting += part
    return sorted(found)


SCALAR = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**20), 10**20),
    st.floats(),
    st.text(max_size=20),
    st.sampled_from(["unknown", "must", "anything", "33 lb", "1.2 m", "5 gal", "lwh", "tent", "left shelf", "rear"]),
)


def value_for(name: str) -> st.SearchStrategy[Any]:
    key = st.one_of(st.sampled_from(keys_of(name)), st.text(max_size=8))
    return st.recursive(
        SCALAR,
        lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(key, inner, max_size=6)),
        max_leaves=12,
    )


def write_sound(folder: Path) -> None:
    for name, text in starter_files().items():
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "more.csv").write_text(CSV)
    (folder / "own.yaml").write_text("reserve_kg: {value: 30, source: our club}\n")
    (folder / "plan.yaml").write_text(PLAN)
    trip = folder / "trip.yaml"
    text = trip.read_text().replace("[gear.yaml]", "[gear.yaml, more.csv]").replace("locks: []", "rulebook: own.yaml")
    trip.write_text(text)


def must_end_well(folder: Path) -> None:
    """Both doors: a case and a plan, or faults that are sentences."""
    for read, name in ((read_case, "trip.yaml"), (read_plan, "plan.yaml")):
        try:
            read(folder / name)
        except InputFaults as refused:
            sentences = [str(fault) for fault in refused.faults]
            assert sentences
            for says in sentences:
                assert "\n" not in says
                assert len(says) <= LONGEST + len(str(folder))


@pytest.mark.parametrize("name", FILES)
def test_any_bytes(name, tmp_path):
    @usual
    @given(st.binary(max_size=200))
    def holds(content):
        write_sound(tmp_path)
        (tmp_path / name).write_bytes(content)
        must_end_well(tmp_path)

    holds()


@pytest.mark.parametrize("name", FILES)
def test_any_values_under_the_right_keys(name, tmp_path):
    value = value_for(name)
    keyed = st.dictionaries(st.sampled_from(keys_of(name)), value, min_size=1, max_size=8)
    data = st.one_of(keyed, st.lists(keyed, min_size=1, max_size=3))

    @usual
    @given(data)
    def holds(found):
        write_sound(tmp_path)
        # JSON is YAML; what it calls NaN and Infinity are words there.
        (tmp_path / name).write_text(json.dumps(found, ensure_ascii=False), encoding="utf-8", errors="surrogatepass")
        must_end_well(tmp_path)

    holds()


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_any_spreadsheet(separator, tmp_path):
    cell = st.one_of(
        st.text(max_size=12),
        st.sampled_from(["4,5", "4.5", "13/14/16", "300x200x100", "food=6.0; water=2", "yes", "1e9", '"', "=1+1"]),
    )
    row = st.lists(cell, max_size=6)
    header = st.lists(st.one_of(st.sampled_from(keys_of("more.csv")), cell), max_size=6)

    @usual
    @given(header, st.lists(row, max_size=4), st.booleans())
    def holds(names, rows, mark):
        write_sound(tmp_path)
        text = "\n".join(separator.join(cells) for cells in [["name", *names], *rows])
        (tmp_path / "more.csv").write_text("\ufeff" * mark + text, encoding="utf-8", errors="surrogatepass")
        must_end_well(tmp_path)

    holds()


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_a_hundred_megabytes_is_refused_unread(name, tmp_path):
    write_sound(tmp_path)
    with (tmp_path / name).open("wb") as file:
        file.truncate(100_000_000)
    read = read_plan if name == "plan.yaml" else read_case
    with pytest.raises(InputFaults, match=r"100\.0 MB"):
        read(tmp_path / ("plan.yaml" if name == "plan.yaml" else "trip.yaml"))


def test_the_files_are_sound_before_they_are_changed(tmp_path):
    write_sound(tmp_path)
    case = read_case(tmp_path / "trip.yaml").case
    assert "rope bag" in case.thing_named
    assert case.rulebook.reserve_kg.value == 30
