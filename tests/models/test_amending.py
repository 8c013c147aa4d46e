"""Locks in a plan's file that a person wrote: all the rest stays letter for letter."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from models.amending import write_locks
from models.plan import Plan
from models.reading import InputFaults
from models.reading.yamlfile import sheet_from_yaml
from models.trip import Lock

TENT, SHOVEL, CAN = (
    Lock.model_validate({"thing": thing, "in": "left bay"}) for thing in ("tent", "shovel", "water can")
)
LINE = "{thing: tent, in: left bay}"
ADDED = "{thing: water can, in: left bay}"
REST = "placements:  # by hand\n- {thing: tent, space: left bay, corner_mm: [0, 0, 0], size_mm: [1, 1, 1]}\n"
"""Ends as most files do."""


def amended(path: Path, text: str, locks: Sequence[Lock], had: Sequence[Lock]) -> str:
    """What stands in the file once a plan with some locks has others."""
    path.write_bytes(text.encode())
    data = sheet_from_yaml("", text.removeprefix("\ufeff"))[0].data
    write_locks(path, Plan.model_validate({**data, "locks": had}), locks)
    return path.read_bytes().decode()


ADDING = {
    f"trip: a.yaml\nlocks:  # so far\n{REST}": f"trip: a.yaml\nlocks:  # so far\n  - {ADDED}\n{REST}",
    f"trip: a.yaml\n{REST}locks: ~ # none": f"trip: a.yaml\n{REST}locks: # none\n  - {ADDED}\n",
    f"trip: a.yaml\nlocks:\n{REST}".replace("\n", "\r"): f"trip: a.yaml\nlocks:\n  - {ADDED}\n{REST}".replace(
        "\n", "\r"
    ),
    "  trip: trip.yaml\n  # x\n": f"  trip: trip.yaml\n  locks:\n    - {ADDED}\n  # x\n",
    "trip: a.yaml\nlocks: [  # so far\n]\n": f"trip: a.yaml\nlocks: [  # so far\n{ADDED}]\n",
    f"# ours\ntrip: trip.yaml  # here\n{REST}": f"# ours\ntrip: trip.yaml  # here\nlocks:\n  - {ADDED}\n{REST}",
    f"trip: a.yaml\nlocks: []  # so far\n{REST}": f"trip: a.yaml\nlocks:  # so far\n  - {ADDED}\n{REST}",
    "# x\ntrip: trip.yaml": f"# x\ntrip: trip.yaml\nlocks:\n  - {ADDED}\n",
}
"""What stands in a file before and after its first lock."""


@pytest.mark.parametrize("text", ADDING)
def test_a_first_lock_leaves_the_rest(tmp_path, text):
    assert amended(tmp_path / "p.yaml", text, [CAN], []) == ADDING[text]


LONG = "- thing: shovel\n  in: left bay\n  because: >\n    it is\n    long\n"
BLOCKS = [
    f"trip: trip.yaml\nlocks:\n- {LINE}  # mine\n# hers\n{LONG}",
    f"trip: trip.yaml\nlocks:\n    -   {LINE}\n    -\n        thing: shovel\n        in: left bay\n",
]


@pytest.mark.parametrize("block", BLOCKS)
@pytest.mark.parametrize("after", ["", "\n# then\n" + REST, REST.replace("\n", "\r\n")])
def test_a_lock_more_comes_behind_the_others(tmp_path, block, after):
    data = sheet_from_yaml("", block)[0].data
    had = [Lock.model_validate(one) for one in data["locks"]]
    now = amended(tmp_path / "p.yaml", block + after, [*had, CAN], had)
    added = [line for line in now.splitlines() if ADDED in line]
    assert len(added) == 1
    assert now.replace(added[0] + ("\r\n" if "\r" in after else "\n"), "", 1).rstrip() == (block + after).rstrip()


@pytest.mark.parametrize("block", BLOCKS)
def test_a_lock_less_takes_its_own_lines(tmp_path, block):
    had = [Lock.model_validate(one) for one in sheet_from_yaml("", block)[0].data["locks"]]
    now = amended(tmp_path / "p.yaml", block + REST, [had[0]], had)
    assert LINE in now
    assert "shovel" not in now
    assert now.endswith(REST)
    assert ("# mine" in now) == ("# mine" in block)


@pytest.mark.parametrize("block", BLOCKS)
def test_with_the_last_lock_gone_an_empty_list_is_left(tmp_path, block):
    had = [Lock.model_validate(one) for one in sheet_from_yaml("", block)[0].data["locks"]]
    now = amended(tmp_path / "p.yaml", block + REST, [], had)
    assert sheet_from_yaml("", now)[0].data["locks"] == []
    assert now.endswith(REST)
    assert ("# hers" in now) == ("# hers" in block)


def test_of_two_locks_alike_one_goes(tmp_path):
    text = f"trip: trip.yaml\nlocks:\n- {LINE}\n- {LINE}  # again\n{REST}"
    assert amended(tmp_path / "p.yaml", text, [TENT], [TENT, TENT]) == text.replace(f"- {LINE}\n", "", 1)


def test_locks_that_the_plan_has_lost_stay_in_its_file(tmp_path):
    text = f"trip: trip.yaml\nlocks:\n- {{thing: gone, in: left bay}}  # sold\n- {LINE}\n{REST}"
    assert amended(tmp_path / "p.yaml", text, [TENT, CAN], [TENT]) == text.replace(LINE, f"{LINE}\n- {ADDED}")


OTHERWISE = [f"{{trip: trip.yaml, locks: [{LINE}]}}", f"\ufefftrip: trip.yaml\nlocks: [{LINE}]\n"]


@pytest.mark.parametrize("text", OTHERWISE)
def test_what_is_written_otherwise_says_the_same(tmp_path, text):
    now = amended(tmp_path / "p.yaml", text, [TENT, SHOVEL], [TENT])
    locks = sheet_from_yaml("", now.removeprefix("\ufeff"))[0].data["locks"]
    assert [one["thing"] for one in locks] == ["tent", "shovel"]


SEVERAL = f"trip: trip.yaml\nlocks: [\n  {LINE},  # mine\n  {{thing: shovel, in: left bay}}  # hers\n]  # ours\n{REST}"


def test_a_list_in_brackets_over_several_lines_keeps_its_comments(tmp_path):
    added = SEVERAL.replace("]  # ours", f", {ADDED}]  # ours")
    assert amended(tmp_path / "p.yaml", SEVERAL, [TENT, SHOVEL, CAN], [TENT, SHOVEL]) == added
    gone = SEVERAL.replace(f"  {LINE},  # mine\n", "")
    assert amended(tmp_path / "p.yaml", SEVERAL, [SHOVEL], [TENT, SHOVEL]) == gone


@pytest.mark.parametrize(
    ("text", "lost"),
    [
        ("{trip: a.yaml, locks: [{thing: tent, in: left bay, because: 'see #2, or # 3'}]}", False),
        ("{trip: a.yaml, locks: [{thing: tent, in: left bay, because: 'see #2'}]}  # ours", True),
        (f"trip: a.yaml\nlocks:  # agreed\n  # dry\n  [{LINE}]\n", False),
        (f"trip: a.yaml\nlocks:\n  # dry\n- {LINE}  # its own\n", False),
    ],
)
def test_it_is_told_whether_comments_of_others_are_lost(tmp_path, text, lost):
    data = sheet_from_yaml("", text)[0].data
    plan = Plan.model_validate(data)
    (tmp_path / "p.yaml").write_text(text, "utf-8")
    assert write_locks(tmp_path / "p.yaml", plan, []) is lost


def test_a_file_that_is_another_by_now_is_left_as_it_is(tmp_path):
    (tmp_path / "p.yaml").write_text("[what, else", "utf-8")
    with pytest.raises(InputFaults, match="another content than a moment ago"):
        write_locks(tmp_path / "p.yaml", Plan(trip="a.yaml"), [TENT])
    assert (tmp_path / "p.yaml").read_text("utf-8") == "[what, else"


STALE = "{thing: gone, space: left bay, corner_mm: [0, 0, 0], size_mm: [1, 1, 1]}"


def test_a_file_written_anew_keeps_what_the_plan_has_lost(tmp_path):
    text = f"{{trip: trip.yaml, locks: [{LINE}, {{thing: gone, in: left bay}}], placements: [{STALE}]}}  # all in one"
    now = sheet_from_yaml("", amended(tmp_path / "p.yaml", text, [CAN], [TENT]))[0].data
    assert [one["thing"] for one in now["locks"]] == ["gone", "water can"]
    assert [one["thing"] for one in now["placements"]] == ["gone"]


def test_keys_with_question_marks_are_written_anew(tmp_path):
    text = f"? trip\n: trip.yaml\n? locks\n: - {LINE}\n  - {{thing: shovel, in: left bay}}\n"
    assert sheet_from_yaml("", amended(tmp_path / "p.yaml", text, [], [TENT, SHOVEL]))[0].data["locks"] == []
