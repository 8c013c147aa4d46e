"""A rule book of the trip's own is told where the shipped one would be: under the cautions and on the sheet."""

import pytest

import verifier
from report.sheet.content import sheet_of
from report.terminal.cautions import cautions, rulebook

RESERVE = "reserve_kg: {value: 30, source: our club}\n"
BY = "the shipped one, changed by own.yaml in: "
TOLD = [
    ("", "shipped, strictest common reading"),
    (RESERVE, f'{BY}reserve_kg ("our club")'),
    (f"name: club\n{RESERVE}", f'club, {BY}reserve_kg ("our club")'),
    ("name: club\n", "club"),
    (
        f"{RESERVE}segregation: []\nhazards: {{lpg: {{upright: false, source: a friend}}}}\n",
        f'{BY}reserve_kg ("our club"), hazards.lpg ("a friend"), segregation',
    ),
]


@pytest.mark.parametrize(("own", "says"), TOLD)
def test_what_it_changes_is_told_with_its_sources(folder, own, says):
    if own:
        (folder.path / "own.yaml").write_text(own, encoding="utf-8")
        folder.change("trip.yaml", "locks: []", "rulebook: own.yaml")
    told = folder.told
    assert rulebook(told.case) == says
    assert cautions(told.case, 500)[-1].endswith(f"Rule book: {says}.")
    assert sheet_of(told.case, told.plan, told.verdict, verifier).rulebook == says


def test_its_own_caution_stands_before_the_usual_ones_and_takes_none_away(folder):
    usual = cautions(folder.told.case, 500)
    (folder.path / "own.yaml").write_text("caution: |\n  On the islands gas\n  rides outside.\n", encoding="utf-8")
    folder.change("trip.yaml", "locks: []", "rulebook: own.yaml")
    told = folder.told
    own = cautions(told.case, 500)
    assert own[:2] == usual[:2]
    assert own[2] == usual[2].replace("- ", "- On the islands gas rides outside. ")
    assert own[2].endswith(sheet_of(told.case, told.plan, told.verdict, verifier).codes)
