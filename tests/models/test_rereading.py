"""Whatever a name holds that the reader takes is written so that the reader takes it back."""

from pathlib import Path
from random import Random

import pytest
from pydantic import TypeAdapter, ValidationError

import models.amending
import models.rereading
from models.amending import write_locks
from models.base import Text, Word
from models.plan import Plan
from models.reading.yamlfile import sheet_from_yaml
from models.rereading import NotReadBackError, reads_back, replace_plan
from models.trip import Lock
from models.writing import plan_text

ODD = (
    "\u00a0\u0085\u2028\u2029\ufeff\u200d\u202e\ufffe\uffff\ufffd\U0001fffe\U0010ffff\ue000\u00ad"
    "\t\r\n\x07'\"\\#:,{}[]-?|> "
)
"""Signs that some writers of YAML stumble over."""
KINDS: tuple[str | tuple[int, int], ...] = (
    ODD,
    (0x20, 0x7E),
    (0x80, 0x2FF),
    (0x300, 0x36F),
    (0x2000, 0x206F),
    (0xD7A0, 0xFFFF),
    (0x1F300, 0x1F9FF),
    (0xE0000, 0xE007F),
    (0xF0000, 0x10FFFF),
)
"""Signs, or the first and the last of a range of them."""
FAMILY = "\U0001f468\u200d\U0001f469\u200d\U0001f467 tent"
FLAG = "\U0001f3f4" + "\U000e0067" * 119
"""A text of signs that are not seen, as long as a name may be."""


def drawn(chance: Random, longest: int) -> str:
    """A text of any signs, from 1 to 8 of them or as long as may be."""
    signs = chance.choice([chance.randint(1, 8), longest])
    kinds = chance.sample(KINDS, chance.randint(1, 3))
    return "".join(
        chance.choice(kind) if isinstance(kind, str) else chr(chance.randint(*kind))
        for kind in (chance.choice(kinds) for _ in range(signs))
    )


def taken(chance: Random, adapter: TypeAdapter[str], longest: int) -> str:
    """A text that a file may hold."""
    while True:
        try:
            return adapter.validate_python(drawn(chance, longest))
        except (ValidationError, UnicodeEncodeError):  # a half of a sign is none
            continue


def plan_with(name: str, because: str = "so it is") -> Plan:
    return Plan.model_validate(
        {
            "trip": "trip.yaml",
            "locks": [{"thing": name, "in": name, "by": name, "because": because}],
            "placements": [{"thing": name, "space": name, "corner_mm": [0, 0, 0], "size_mm": [1, 1, 1]}],
            "left_at_home": [{"thing": name, "copy": 2}],
            "claims": {"cg_height_mm": {name: 700.5}},
        }
    )


@pytest.mark.parametrize("seed", range(10))
def test_whatever_a_name_holds_reads_back(seed):
    chance, names, texts = Random(seed), TypeAdapter[str](Word), TypeAdapter[str](Text)  # noqa: S311 - no secret
    for _ in range(40):
        plan = plan_with(taken(chance, names, 120), taken(chance, texts, 400))
        assert reads_back(plan_text(plan), plan), plan


@pytest.mark.parametrize("name", [FAMILY, FLAG, "\U0001f6d2\u00a0", "\u2028", "\uffff\U0001f6d2", "\ufeff", "a\xad"])
def test_an_odd_name_reads_back(name):
    plan = plan_with(name, f"{name}\nand\tmore")
    assert reads_back(plan_text(plan), plan)


def test_what_is_seen_is_written_as_it_is():
    assert 'thing: "🛒 réchaud\\u00a0à gaz"' in plan_text(plan_with("🛒 réchaud\u00a0à gaz"))


def test_a_lock_on_a_thing_with_an_odd_name_keeps_the_file(tmp_path: Path):
    path, plan = tmp_path / "p.yaml", plan_with(FAMILY)
    text = plan_text(plan).replace("trip: trip.yaml", "trip: trip.yaml  # ours")
    path.write_text(text, "utf-8")
    write_locks(path, plan, [*plan.locks, Lock.model_validate({"thing": FAMILY, "at_home": True})])
    now = path.read_text("utf-8")
    assert "# ours" in now
    assert [one["thing"] for one in sheet_from_yaml("", now)[0].data["locks"]] == [FAMILY, FAMILY]


UNREADABLE = 'trip: "\\ud83d"\n'


@pytest.mark.parametrize("text", [UNREADABLE, "trip: other.yaml\n", "trip: [\n", "- trip\n", "trip: ''\n"])
def test_a_text_that_does_not_say_the_plan_is_not_written(tmp_path, text):
    path = tmp_path / "p.yaml"
    path.write_text("old", "utf-8")
    with pytest.raises(NotReadBackError, match="nothing was written"):
        replace_plan(path, text, Plan(trip="trip.yaml"))
    assert path.read_text("utf-8") == "old"
    replace_plan(path, "trip: trip.yaml\n", Plan(trip="trip.yaml"))
    assert path.read_text("utf-8") == "trip: trip.yaml\n"


def test_locks_that_cannot_be_written_leave_the_file(tmp_path, monkeypatch):
    path, plan = tmp_path / "p.yaml", plan_with("tent")
    path.write_text(plan_text(plan), "utf-8")
    monkeypatch.setattr(models.amending, "entry_lines", lambda _: ["  - {thing: [}"])
    monkeypatch.setattr(models.amending, "plan_text", lambda _: UNREADABLE)
    with pytest.raises(NotReadBackError):
        write_locks(path, plan, [*plan.locks, Lock.model_validate({"thing": "tent", "at_home": True})])
    assert path.read_text("utf-8") == plan_text(plan)
