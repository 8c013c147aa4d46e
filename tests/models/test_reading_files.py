"""Files that are none, are too much, or try something: refused in one sentence, never read halfway."""

import os
from pathlib import Path

import pytest

from models.reading import InputFaults, case_from, read_case, read_plan, shipped_rulebook

REFUSED = [
    (b"name: x\x00y\n", "line 1: found a zero byte, as in binary files; allowed: text in UTF-8"),
    (b"name: ok\nbody: caf\xe9\n", "line 2: found the byte 0xe9, which is not UTF-8"),
    ("name: x\n".encode("utf-16"), "found text in UTF-16"),
    ("\ufeffname: x\n".encode("utf-16-be"), "found text in UTF-16"),
    ("\ufeffname: x\n".encode("utf-32-le"), "found text in UTF-32"),
    ("\ufeffname: x\n".encode("utf-32-be"), "found text in UTF-32"),
    (b"", "line 1: found nothing in the file"),
    (b"# only a remark\n", "found nothing in the file"),
    (b"name: [1, 2\nbody: x", "something that is no YAML"),
    (b"name:\n\tbody: x\n", "a tab stands on this line; indent with spaces"),
    (b"a: &a [1]\nb: *a\n", 'line 1: found an anchor or alias "a"'),
    (b"a: !!python/object/apply:os.getcwd []\n", "line 1: found a tag"),
    (b"a: " + b"[" * 5000, "maximum nesting depth"),
    (b"a: " + b"[" * 30 + b"]" * 30, "more than 20 deep"),
    (b"a: 1\n---\nb: 2\n", "line 2: found a second document"),
    (b"? [a, b]\n: 3\n", "found a list or a mapping as a key"),
    (b"- just\n- a list\n", "line 1: found a list of 2; allowed: keys such as"),
    (b"x" * 5_000_001, 'found 5.0 MB: "vehicle.yaml"; allowed: at most 5 MB'),
    (b"".join(b"k%d: 1\n" % n for n in range(5001)), "line 5001: found more than 5000 entries in one mapping"),
    (b"a: [" + b"1," * 5001 + b"]", "more than 5000 entries in one list"),
    pytest.param(b"a: [" + (b"[" + b"1," * 2500 + b"],") * 81 + b"]", "more than 200000 parts", marks=pytest.mark.long),
]


@pytest.mark.parametrize(("content", "says"), REFUSED)
def test_vehicles_that_cannot_be_read(trip, content, says):
    faults = trip.write("vehicle.yaml", content).faults()
    assert len(faults) == 1
    assert says in faults[0]


def test_a_missing_file_is_told_where_it_is_named(trip):
    trip.change("trip.yaml", "vehicle: vehicle.yaml", "vehicle: vehicel.yaml")
    assert trip.faults() == [
        (
            'trip.yaml, line 3: vehicle: found no such file: "vehicel.yaml"; allowed: a text file'
            ' (did you mean "vehicle.yaml"?).'
        )
    ]


def test_folders_pipes_and_links_to_nowhere(trip):
    (trip.folder / "folder").mkdir()
    (trip.folder / "link").symlink_to("nowhere")
    os.mkfifo(trip.folder / "pipe")
    trip.change("trip.yaml", "[gear.yaml]", '[folder, link, pipe, "a\\0b", no/such.csv]')
    found = [fault.split("found ")[1].split("; allowed")[0] for fault in trip.faults()]
    assert sorted(found) == sorted(
        [
            'a folder: "folder"',
            'a link to nowhere, where nothing is: "link"',
            'no ordinary file: "pipe"',
            f"a problem: a name that no file can have: {ascii('a' + chr(0) + 'b').join((chr(34), chr(34)))}",
            'no such file, and no such folder: "no/such.csv"',
        ]
    )


def test_a_folder_that_holds_the_usual_file(trip):
    with pytest.raises(InputFaults, match=r"found a folder; allowed: a text file \(did you mean .*/trip\.yaml\?\)"):
        read_case(trip.folder)
    with pytest.raises(InputFaults, match=r"found a folder; allowed: a text file\.$"):
        read_plan(trip.folder)
    trip.write("plan.yaml", "trip: trip.yaml")
    with pytest.raises(InputFaults, match=r"plan\.yaml\?"):
        read_plan(trip.folder)


def test_a_trip_that_is_gone_is_told_where_the_plan_names_it(trip):
    trip.write("plan.yaml", "placements: []\ntrip: old/trip.yaml\n")
    with pytest.raises(InputFaults) as refused:
        read_plan(trip.folder / "plan.yaml")
    (fault,) = refused.value.faults
    assert (fault.line, fault.path) == (2, "trip")
    assert fault.found == 'no such file, and no such folder: "old/trip.yaml"'


def test_a_plan_is_never_offered_as_its_own_trip(trip):
    trip.write("plan.yaml", "trip: plum.yaml\n")
    with pytest.raises(InputFaults) as refused:
        read_plan(trip.folder / "plan.yaml")
    (fault,) = refused.value.faults
    assert fault.hint == 'did you mean "trip.yaml"?'
    (trip.folder / "trip.yaml").rename(trip.folder / "journey.yaml")
    with pytest.raises(InputFaults) as refused:
        read_plan(trip.folder / "plan.yaml")
    assert refused.value.faults[0].hint == ""


def test_a_trip_is_never_offered_as_its_own_vehicle(trip):
    (fault,) = trip.change("trip.yaml", "vehicle: vehicle.yaml", "vehicle: trips.yaml").faults()
    assert "did you mean" not in fault


def test_the_wrong_kind_of_file_is_refused_in_one_sentence(trip):
    found = []
    trip.write("plan.yaml", "trip: trip.yaml\nplacements: []\nclaims: {}\n")
    for read, name in ((read_plan, "trip"), (read_plan, "vehicle"), (read_case, "plan"), (read_case, "vehicle")):
        with pytest.raises(InputFaults) as refused:
            read(trip.folder / f"{name}.yaml")
        found.append(str(refused.value).partition(": ")[2])
    assert found == [
        "found a trip; allowed: a plan (`lowstow suggest TRIP -o plan.yaml` makes one).",
        "found a vehicle; allowed: a plan.",
        "found a plan; allowed: a trip.",
        "found a vehicle; allowed: a trip.",
    ]


def test_a_trip_that_is_missing(tmp_path):
    with pytest.raises(InputFaults, match="no such file"):
        read_case(tmp_path / "trip.yaml")


def test_the_digest_changes_with_every_file_and_with_nothing_else(trip):
    first = read_case(trip.folder / "trip.yaml").case.digest
    assert first.startswith("sha256:")
    assert read_case(trip.folder / "trip.yaml").case.digest == first
    seen = {first}
    for name in ("trip.yaml", "vehicle.yaml", "gear.yaml"):
        (trip.folder / name).write_text((trip.folder / name).read_text() + "\n")
        seen.add(read_case(trip.folder / "trip.yaml").case.digest)
    assert len(seen) == 4


def test_a_rule_book_of_ones_own_lies_over_the_shipped_one(trip):
    own = "reserve_kg: {value: 40, source: our club}\nhazards: {lpg: {air: {locker: no}, source: our club}}\n"
    own += "handling: {steps: [{up_to_kg: 5, seconds: 9}, {up_to_kg: null, seconds: 30}], source: our club}\n"
    trip.change("trip.yaml", "locks: []", "rulebook: own.yaml").write("own.yaml", own)
    book = read_case(trip.folder / "trip.yaml").case.rulebook
    assert book.reserve_kg.value == 40
    assert set(book.hazards["lpg"].air) == {"open"}
    assert [step.up_to_kg for step in book.handling.steps] == [5, None]
    assert book.hazards["petrol"] == shipped_rulebook().hazards["petrol"]


def test_the_sides_of_a_pair_are_words_or_lists_of_them(trip):
    own = "segregation: [{between: [[petrol, lpg], food], level: air, source: our club}]\n"
    trip.change("trip.yaml", "locks: []", "rulebook: own.yaml").write("own.yaml", own)
    (apart,) = read_case(trip.folder / "trip.yaml").case.rulebook.segregation
    assert apart.pairs == (("petrol", "food"), ("lpg", "food"))


@pytest.mark.parametrize(
    ("own", "says"),
    [
        ("reserve_kg: {value: 40}\n", "own.yaml, line 1: reserve_kg: found figures without a `source`"),
        ("reserve_kg: 40\n", "own.yaml, line 1: reserve_kg: found 40"),
        ("reserve: {value: 40, source: x}\n", 'did you mean "reserve_kg"?'),
        ("- 3\n", "found no mapping"),
        (
            "segregation: [{between: [[petrol, lgp], food], level: air, source: x}]\n",
            '].between[0]: found "lgp"; allowed: a hazard word, food, bedding or clothes (did you mean "lpg"?)',
        ),
        ("segregation: [{between: [[], food], level: air, source: x}]\n", "between[0]: found an empty list"),
        (
            "hazards: {diesel: {totals: {counts_with: [petrol, ethanl]}, source: x}}\n",
            'found "ethanl"; allowed: another hazard word (did you mean "ethanol"?)',
        ),
        ("hazards: {diesel: {totals: {counts_with: [diesel]}, source: x}}\n", "allowed: another hazard word"),
        ("hazards: {diesel: {totals: {counts_with: [petrol, petrol]}, source: x}}\n", 'found "petrol" a second time'),
        ("handling: {steps: [], source: x}\n", "handling.steps: found an empty list; allowed: at least 1"),
    ],
)
def test_rule_books_that_are_refused(trip, own, says):
    faults = trip.change("trip.yaml", "locks: []", "rulebook: own.yaml").write("own.yaml", own).faults()
    assert len(faults) == 1
    assert says in faults[0]


def test_a_case_from_plain_data_is_the_case_of_the_files(trip):
    yaml = pytest.importorskip("yaml")
    data = {name: yaml.safe_load((trip.folder / f"{name}.yaml").read_text()) for name in ("vehicle", "gear", "trip")}
    read = read_case(trip.folder / "trip.yaml").case
    made = case_from(data["vehicle"], data["gear"], data["trip"])
    assert (made.vehicle, made.things, made.trip, made.rulebook) == (
        read.vehicle,
        read.things,
        read.trip,
        read.rulebook,
    )
    with pytest.raises(InputFaults, match=r"trip: people\[0\].seat \(A\): found "):
        case_from(
            data["vehicle"], data["gear"], {**data["trip"], "people": [{"name": "A", "mass_kg": 1, "seat": "roof"}]}
        )


def test_links_to_files_are_read_and_other_links_are_told(trip):
    (trip.folder / "there.yaml").write_bytes((trip.folder / "gear.yaml").read_bytes())
    (trip.folder / "gear.yaml").unlink()
    (trip.folder / "gear.yaml").symlink_to("there.yaml")
    assert "tent" in read_case(trip.folder / "trip.yaml").case.thing_named
    (trip.folder / "round").symlink_to("about")
    (trip.folder / "about").symlink_to("round")
    (trip.folder / "device").symlink_to(os.devnull)
    (trip.folder / "place").symlink_to(trip.folder)
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, round, device, place]")
    told = trip.faults()
    assert len(told) == 3
    assert "a folder" in told[2]
    assert "no ordinary file" in told[1]
    assert "symbolic link" in told[0]


ENCODED = [
    ("utf-16", "found text in UTF-16"),
    ("utf-16-le", "line 1: found a zero byte"),
    ("utf-32", "found text in UTF-32"),
    ("utf-32-be", "line 1: found a zero byte"),
    ("cp1252", "line 2: found the byte 0xfc, which is not UTF-8"),
    ("cp037", "which is not UTF-8"),
]


@pytest.mark.parametrize(("encoding", "says"), ENCODED)
@pytest.mark.parametrize("name", ["more.csv", "gear.yaml", "own.yaml"])
def test_other_encodings_in_every_format(trip, name, encoding, says):
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]").change(
        "trip.yaml", "locks: []", "rulebook: own.yaml"
    )
    trip.write("more.csv", "name;mass_kg;size_mm\nrope;4,5;300x200x200\n").write("own.yaml", "name: own\n")
    trip.write(name, "name;mass_kg;size_mm\nTür;4,5;300x200x200\n".encode(encoding))
    assert [fault for fault in trip.faults() if name in fault and says in fault]


@pytest.mark.parametrize("ends", ["\r", "\r\n", "\n"])
def test_ends_of_lines_of_every_system(trip, ends):
    rows = "name;mass_kg;size_mm\nTür, oben;4,5;300x200x200\n".replace("\n", ends)
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.csv]")
    trip.write("more.csv", b"\xef\xbb\xbf" + rows.encode())
    assert read_case(trip.folder / "trip.yaml").case.thing_named["Tür, oben"].mass_kg.likely == 4.5
    trip.write("gear.yaml", b"\xef\xbb\xbf" + (trip.folder / "gear.yaml").read_text().replace("\n", ends).encode())
    assert "tent" in read_case(trip.folder / "trip.yaml").case.thing_named


def test_a_plan_for_the_folder_that_it_is_in_is_refused_in_a_sentence(trip, monkeypatch):
    trip.write("plan.yaml", "trip: .\n")
    monkeypatch.chdir(trip.folder)
    with pytest.raises(InputFaults) as refused:
        read_plan(Path("plan.yaml"))
    (fault,) = refused.value.faults
    assert str(fault) == (
        'plan.yaml, line 1: trip: found a folder: "."; allowed: a text file (did you mean trip.yaml?).'
    )
