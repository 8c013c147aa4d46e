"""`lowstow tradeoff`: a set of checked plans, one for each allowance."""

import json
from dataclasses import replace

import pytest

pytestmark = pytest.mark.usefixtures("no_bound", "searched_little")

QUICK = ("--effort", "0.01", "--seconds", "600")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    from models.starter import starter_files  # noqa: PLC0415

    path = tmp_path_factory.mktemp("trip")
    for name, text in starter_files().items():
        (path / name).write_text(text, encoding="utf-8")
    return path


@pytest.mark.long
def test_page_and_json_tell_the_same_plans(run, folder, monkeypatch):
    monkeypatch.setattr("cli.commands.tradeoff.ALLOWED_MM", (0.0, 8.0))
    page = folder / "tradeoff.html"
    result = run("tradeoff", folder / "trip.yaml", *QUICK, "--json", "-o", page)
    assert result.exit_code == 0, result.output
    view = json.loads(result.stdout)
    plans = view["plans"]
    assert [one["allow_mm"] for one in plans] == [0, 2, 8]
    assert [one["allow_mm"] for one in plans if one["chosen"]] == [2]
    chosen = next(one for one in plans if one["chosen"])
    for one in plans:
        assert one["holds"] is True
        assert one["more_mm"] == pytest.approx(one["cg_height_mm"] - chosen["cg_height_mm"])
    text = page.read_text(encoding="utf-8")
    assert all(f"{one['cg_height_mm']:.1f} at" in text for one in plans)
    assert "http" not in text


@pytest.mark.long
def test_a_trip_that_cannot_be_packed_is_told_with_its_code(run, folder, tmp_path):
    for name in ("vehicle.yaml", "gear.yaml", "trip.yaml"):
        (tmp_path / name).write_text((folder / name).read_text("utf-8"), "utf-8")
    vehicle = tmp_path / "vehicle.yaml"
    vehicle.write_text(vehicle.read_text("utf-8").replace("gvm_kg: {kg: 3200,", "gvm_kg: {kg: 2330,"), "utf-8")
    result = run("tradeoff", tmp_path / "trip.yaml", *QUICK)
    assert result.exit_code == 3
    assert "proven" in result.stdout


@pytest.mark.long
def test_searches_that_the_clock_ended_are_named(run, folder, monkeypatch):
    import solver  # noqa: PLC0415

    real = solver.propose

    def cut(case, options, progress):
        return replace(real(case, options, progress), cut_short=case.trip.allow_mm in (0.0, 8.0))

    monkeypatch.setattr("cli.commands.tradeoff.ALLOWED_MM", (0.0, 8.0))
    monkeypatch.setattr(solver, "propose", cut)
    told = " ".join(run("tradeoff", folder / "trip.yaml", *QUICK).stdout.split())
    assert "With 0, 8 mm allowed the time was over before the search was done: --seconds gives it more." in told
