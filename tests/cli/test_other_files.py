"""A plan whose files have changed since: every command that goes by it says so, and what of it is in no sum."""

import json

import pytest

from tests.chances import some

SAID = "The files have changed since this plan was made: it is checked against them as they are now."
IN_NO_SUM = "Still aboard by this plan and no longer on the gear list at all, so in no sum: shovel in left bay."
ASKED = {
    "check": (),
    "weigh": ("--stage", "leaving", "--front", 1240, "--rear", 1120),
    "explain": ("tent", "--seconds", 0.1),
    "explain --left": ("--left", "camp chair #2", "--seconds", 0.1),
    "explain --limit": ("--limit", "total", "--seconds", 0.1, "--effort", 0.01),
}


@pytest.fixture
def changed(trip):
    """The shovel is off the list, and still aboard by the plan."""
    text = (trip / "gear.yaml").read_text("utf-8")
    begin = text.index("- name: shovel")
    (trip / "gear.yaml").write_text(text[:begin] + text[text.index("- name: tool box") :], "utf-8")
    plan = (trip / "plan.yaml").read_text("utf-8").replace("placements:", 'trip_digest: "sha256:0"\nplacements:')
    (trip / "plan.yaml").write_text(plan, "utf-8")
    return trip


@pytest.fixture
def unpriced(monkeypatch):
    monkeypatch.setattr("cli.limits._bought", lambda _case, _plan, told, _options: told)


@pytest.mark.parametrize("words", ASKED)
@pytest.mark.usefixtures("unpriced")
def test_it_is_said_with_what_is_in_no_sum(run, changed, words):
    found = run(words.split()[0], changed / "plan.yaml", *ASKED[words])
    told = " ".join(found.stdout.split())
    assert SAID in told
    assert IN_NO_SUM in told
    assert max(len(line) for line in found.stdout.splitlines() if str(changed) not in line) <= 80


@pytest.mark.long
@pytest.mark.parametrize("words", ASKED)
@pytest.mark.parametrize("other", some([True, False], 1))
@pytest.mark.usefixtures("unpriced")
def test_machines_are_told_too(run, trip, words, other, request):
    if other:
        request.getfixturevalue("changed")
    view = json.loads(run(words.split()[0], trip / "plan.yaml", *ASKED[words], "--json").stdout)
    assert view["digest_matches"] is (False if other else None)


@pytest.mark.usefixtures("unpriced")
def test_a_limit_of_a_broken_plan_is_told_with_that(run, changed):
    told = " ".join(run("explain", changed / "plan.yaml", *ASKED["explain --limit"]).stdout.split())
    assert "kg left after the reserve of 20 kg. This plan breaks 1 limit or rule (lowstow check)." in told
