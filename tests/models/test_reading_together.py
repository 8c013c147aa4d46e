"""What must fit together: each spoilt place of a sound trip gives exactly its fault."""

import pytest

from models.reading.known import MOST_HINTS

NO_LOCKS = "locks: []"
SPOILT = {
    "vehicle.yaml": [
        ("after: [tailgate]", "after: [tailgat]", 'did you mean "tailgate"?'),
        ("fluid: diesel", "fluid: deisel", 'did you mean "diesel"?'),
        ("side: rear, seconds: 8}", "side: rear, after: [drawer front]}", "a circle: tailgate → drawer front"),
        ("{name: drawer frame, ", "{name: drawer frame, on: drawer frame, ", "a circle: drawer frame → drawer frame"),
        ("[1700, 640, 850]", "[1700, 640, 1150]", "50 mm outside the vehicle"),
        (
            "[1700, 640, 850]",
            "[1700, 640, 1150]",
            "`on: [a rack]` cures it where the space is on a roof or on a carrier",
        ),
        ("[2460, -720, 850] ", "[2460, -960, 850] ", "20 mm outside the vehicle"),
        (
            "[2460, 80, 1380]",
            "[2460, 80, 1350]",
            '"right shelf" inside "right drawer" by 1500 x 640 x 10 mm from [2460, 80, 1350] to [3960, 720, 1360]',
        ),
        ("[2860, -720, 850]", "[400, 0, 0]", "a solid from [400, 0, 0] to [1080, 220, 230]"),
        ("  front_kg: 1190\n", "", "found only rear_kg"),
        ("rear_kg: 960", "rear_kg: 960\n  total_kg: 2250", "2250 kg, but front and rear make 2150 kg"),
        ("{main tank: 80}", "{main tank: 90}", "at most the 80 litres the tank holds"),
        ("limits: {any_kg: 120}", "own_mass_kg: 9, on_the_scale: false", "no `at_mm` for"),
    ],
    "gear.yaml": [
        ("hazard: extinguisher", "hazard: extinguishers", 'did you mean "extinguisher"?'),
        ("hazard: extinguisher", "hazard: Kerosene", 'did you mean "ethanol"?'),
        ("hazard: extinguisher", "hazard: propane", 'did you mean "lpg"?'),
        ("hazard: extinguisher", "hazard: nonsense", "petrol, petrol_equipment"),
        ("kit: kitchen", "with: [pots and plates]", "the names of other things"),
        ("name: tent", "name: shovel", 'the name "shovel" again; allowed: each name once (first in line 9)'),
        ("mass_kg: 14\n", "mass_kg: 14000\n", "grams for kilograms were typed"),
        ("[450, 300, 250]", "[45, 30, 25]", "centimetres for millimetres were typed"),
        ("volume_l: 45 ", "size_mm: [600, 300, 250]\n  volume_l: 45 ", "size_mm and volume_l both"),
        ("size_mm: [1100, 250, 120]\n", "shape: hard\n", "no size for"),
        ("kit: kitchen", "air_gap_mm: {rear: 50}", "air gaps on a thing with `turns: any`"),
        ("{least: 15, likely: 16,", "{least: 17, likely: 16,", "least ≤ likely ≤ most"),
        ("uses_up: {food: 8}", "uses_up: {food: 15.5}", "at most the least mass when full, 15 kg"),
        ("spread: 2 ", "spread: 3 ", "3 spaces for 2 of them"),
        ("kit: kitchen", "hazard: petrol", '"petrol" without litres'),
        ("kit: kitchen", "hazard: lpg", '"lpg" without kilograms'),
        ("kit: kitchen", "hazard: lithium\n  net_kg: 40", "at most the mass of the thing, 9 kg"),
    ],
    "trip.yaml": [
        (
            "seat: passenger",
            "seat: pasenger",
            'found "pasenger"; allowed: a seat of the vehicle: driver, passenger (did you mean "passenger"?)',
        ),
        ("left: {food: 0.5, ", "left: {fod: 0.5, ", "a stream that stands in `uses_up` of a thing"),
        ("name: halfway", "name: leaving", "each name once (first in line 10)"),
        ("[gear.yaml]", "[gear.yaml, gear.yaml]", "each gear list once"),
        ("{name: leaving, ", "{name: leaving, towing: yes, ", "yes, on a trip without a trailer"),
        (
            "{name: leaving, ",
            "{name: leaving, towing: {ball_kg: 90, trailer_kg: 900}, ",
            "a trailer, on a trip without a trailer",
        ),
        (
            "{name: leaving, ",
            "{name: leaving, towing: {ball_kg: 90, trailer_kg: 80}, ",
            "stages[0].towing.ball_kg (leaving): found 90; allowed: at most the trailer's 80 kg",
        ),
        (
            "{name: leaving, ",
            "{name: leaving, towing: {ball_kg: 90}, ",
            "found no `trailer_kg`; allowed: a value for `trailer_kg`",
        ),
        (
            "{name: leaving, ",
            "{name: leaving, towing: {ball_kg: 90, trailr_kg: 900}, ",
            'did you mean "trailer_kg"?',
        ),
        (
            "{name: leaving, ",
            "{name: leaving, towing: {ball_kg: -1, trailer_kg: 900}, ",
            "stages[0].towing.ball_kg (leaving): found -1; allowed: at least 0 (kilograms)",
        ),
        (
            "{name: leaving, ",
            "{name: leaving, towing: 900, ",
            "found 900; allowed: yes, no, or {ball_kg, trailer_kg} as it is at this stage",
        ),
        ("seat: passenger", "seat: driver", '"Ada" and "Ben" both on "driver"'),
        ("tanks: {main tank: 0.3}", "tanks: {main tank: 0.6}", "48.0 litres of diesel in tanks and cans"),
        ("[gear.yaml]", "[]", "found an empty list; allowed: at least 1 of them"),
    ],
}
"""By file: what stands there, what stands there instead, and what is said of it."""
ADDED = [
    ("locks: [{thing: tnet, in: right shelf}]", '(did you mean "tent"?)'),
    ("locks: [{thing: tent, not_in: roof}]", "a space of the vehicle or a rack of the vehicle"),
    ("streams: {fuel: {fluid: diesel}}", "a stream that a thing uses up or fills"),
    ("streams: {food: {fluid: soup}}", "a fluid of the rule book"),
    ("apart: [[tent, kichen]]", 'a thing or a kit of the gear lists (did you mean "kitchen"?)'),
    ("apart: [[tent, tent]]", "two different things or kits"),
    ("apart: [[tent]]", "pairs of names of things or kits, such as [tent, kitchen]"),
    ("towing: {ball_kg: 180, trailer_kg: 100}", "at most the trailer's 100 kg"),
    ("locks: [{thing: tent}]", 'a lock on "tent" that fixes nothing'),
    ("locks: [{thing: tent, in: left bay, not_in: left bay}]", 'in and not_in of "left bay" in one lock'),
    ("locks: [{thing: tent, at_home: true}]", '"tent", which must come'),
    ("locks: [{thing: tent, copy: 2, in: right shelf}]", "a copy from 1 to 1"),
    ("locks: [{thing: tent, at_mm: [1, 2, 3]}]", "`at_mm` together with `in`"),
]
"""What stands in the trip instead of its empty locks, and what is said of it."""
ODD = {
    "vehicle.yaml": [
        ("{any_kg: 120}", "{parked_kg: 50, sealed_road_kg: 120, off_road_kg: 50}", "less than the 120 kg"),
        ("gvm_kg: {kg: 3200", "gvm_kg: {kg: 2000", "is over its gvm_kg"),
        ("gvm_kg: {kg: 3200", "gvm_kg: {kg: 3400", "more than the 3330 kg of both axles together"),
        ("{driver: 84}", "{driver: 240}", '"driver" with 240 kg; are these pounds'),
        ("rear_kg: 960", "rear_kg: 96", "93% of the vehicle on its front wheels"),
        ("cg_height_mm: unknown", "cg_height_mm: 72", "72 mm above the ground; is this in"),
        ("at_mm: [2300, -300, 550]", "at_mm: [2300, -3000, 550]", "lies beside the vehicle"),
        ("at_mm: [1500, -380, 800]", "at_mm: [150, -38, 80]", "80 mm above the road; is this in millimetres?"),
        (
            "at_mm: [1500, 380, 800]",
            "at_mm: [-1500, 380, 800]",
            '"driver" at [-1500, 380, 800] lies outside the vehicle',
        ),
    ],
    "gear.yaml": [
        ("mass_kg: 12", "mass_kg: 0.012", "lighter than loose down"),
    ],
    "trip.yaml": [
        ("mass_kg: 84", "mass_kg: 210", '"Ada" with 210 kg; are these pounds'),
        ("mass_kg: 84", "mass_kg: 8.4", '"Ada" with 8.4 kg; is a digit or the point wrong?'),
    ],
}
"""The same for what is asked about and not refused."""


def by_file(spoilt: dict[str, list[tuple[str, str, str]]]) -> list[tuple[str, str, str, str]]:
    return [(name, *row) for name, rows in spoilt.items() for row in rows]


@pytest.mark.parametrize(
    ("name", "old", "new", "says"), by_file(SPOILT) + [("trip.yaml", NO_LOCKS, *row) for row in ADDED]
)
def test_each_spoilt_place_is_found(refused, name, old, new, says):
    faults = refused(name, old, new)
    assert any(says in fault for fault in faults), faults
    assert all(", line " in fault for fault in faults)
    assert len({fault.split(":")[0] for fault in faults}) <= 2, faults


BESIDE = {
    "vehicle.yaml": [
        ("after: [tailgate]", "after: [tailgat], seconds: soon", 'did you mean "tailgate"?', "seconds"),
        ("fluid: diesel", "fluid: deisel, holds_l: x", 'did you mean "diesel"?', "holds_l"),
        ("{main tank: 80}", "{main tnk: 80}\n  rear: 3", 'did you mean "main tank"?', "kerb.rear"),
    ],
    "gear.yaml": [
        ("hazard: extinguisher", "hazard: extinguishers\n  spred: 2", 'did you mean "extinguisher"?', "spred"),
        ("kit: kitchen", "with: [tnet]\n  wet: wet", 'did you mean "tent"?', "wet"),
    ],
    "trip.yaml": [
        ("seat: passenger", "seat: pasenger, mas_kg: 3", 'did you mean "passenger"?', "mas_kg"),
        (NO_LOCKS, "locks: [{thing: tnet, in: left bya, at: 3}]", 'did you mean "left bay"?', "at"),
        ("{main tank: 0.5}", "{main tnk: 0.5, main tank: x}", 'did you mean "main tank"?', "tanks.main tank"),
        ("food: 0.3, drinking water: 0.2}", "foood: 0.3}, ans: 2", 'did you mean "food"?', "ans"),
        (NO_LOCKS, "streams: {water: {fluid: wter, by: 2}}", 'did you mean "water"?', "by"),
    ],
}
"""A name that refers to nothing in a part that holds another fault: both are told."""


@pytest.mark.parametrize(
    ("name", "old", "new", "says", "key"), [(n, *row) for n, rows in BESIDE.items() for row in rows]
)
def test_a_name_is_told_beside_another_fault_of_its_part(refused, name, old, new, says, key):
    faults = refused(name, old, new)
    assert any(says in fault for fault in faults), faults
    assert any(key in fault and says not in fault for fault in faults), faults


def test_a_word_of_the_wrong_kind_is_told_once(refused):
    faults = refused("gear.yaml", "hazard: extinguisher", "hazard: 7\n  spred: 2")
    assert sum(".hazard" in fault for fault in faults) == 1, faults


def test_no_hazard_is_no_name(refused):
    faults = refused("gear.yaml", "kit: kitchen", "hazard: none\n  spred: 2")
    assert not any(".hazard" in fault for fault in faults), faults


def test_what_was_taken_on_may_rise(trip):
    trip.change("trip.yaml", "tanks: {main tank: 0.3}", "tanks: {main tank: 0.6}, taken_on_l: {diesel: 8}")
    assert trip.notes() == []


def test_cans_poured_into_the_tank_keep_the_litres(trip):
    can = "- {name: fuel can, mass_kg: 18, size_mm: [200, 400, 500], hazard: diesel, holds_l: 20, holder: can,"
    trip.change("gear.yaml", "- name: shovel", can + " uses_up: {can fuel: 16.7}}\n- name: shovel")
    trip.change("trip.yaml", NO_LOCKS, "streams: {can fuel: {fluid: diesel}}")
    trip.change("trip.yaml", "{main tank: 0.3}, left: {", "{main tank: 0.7}, left: {can fuel: 0, ")
    assert trip.notes() == [
        'gear.yaml, line 9: gear[1].holder (fuel can): no space accepts the word "can", so it has no place'
    ]
    trip.change("trip.yaml", "{main tank: 0.7}", "{main tank: 0.8}")
    assert "64.0 litres of diesel" in trip.faults()[0]


def test_a_can_that_may_stay_at_home_is_not_told_as_counted(trip):
    can = "- {name: fuel can, carry: 50, mass_kg: 18, size_mm: [200, 400, 500], hazard: diesel, holds_l: 20,"
    trip.change("gear.yaml", "- name: shovel", can + " uses_up: {can fuel: 16.7}}\n- name: shovel")
    trip.change("trip.yaml", NO_LOCKS, "streams: {can fuel: {fluid: diesel}}")
    trip.change("trip.yaml", "{main tank: 0.3}, left: {", "{main tank: 0.7}, left: {can fuel: 0, ")
    (fault,) = trip.faults()
    assert "56.0 litres of diesel in tanks and cans that must come at" in fault


@pytest.mark.parametrize(("name", "old", "new", "says"), by_file(ODD))
def test_what_is_merely_odd_is_a_note(trip, name, old, new, says):
    (note,) = trip.change(name, old, new).notes()
    assert says in note


@pytest.mark.parametrize(
    ("ball", "says"),
    [
        (70, "little on its ball sways"),
        (79.6, "are 7.96%; 8% to 15% is usual"),
        (150.1, "are 15.01%; 8% to 15% is usual"),
        (80, None),
        (150, None),
        (160, "16%; 8% to 15% is usual, and much on the ball"),
    ],
)
def test_what_a_trailer_puts_on_its_ball_is_asked_about(trip, ball, says):
    trip.change("trip.yaml", NO_LOCKS, f"towing: {{ball_kg: {ball}, trailer_kg: 1000}}")
    told = [note for note in trip.notes() if "towing.ball_kg" in note]
    assert [says in note for note in told] == ([] if says is None else [True])


def test_what_a_trailer_puts_on_its_ball_is_asked_about_at_each_stage_that_says_it(trip):
    trip.change("trip.yaml", NO_LOCKS, "towing: {ball_kg: 100, trailer_kg: 1000}")
    trip.change("trip.yaml", "{name: halfway,", "{name: halfway, towing: {ball_kg: 50, trailer_kg: 900 kg},")
    (told,) = [note for note in trip.notes() if "sways" in note]
    assert "stages[1].towing.ball_kg" in told
    assert "50 kg of the trailer's 900 kg are 5.56%; 8% to 15% is usual" in told


@pytest.mark.parametrize(("behind", "asked"), [(124, True), (650, False), (1220, False), (1850, False), (12400, True)])
def test_a_ball_far_from_the_rear_end_is_asked_about(trip, behind, asked):
    trip.change("trip.yaml", NO_LOCKS, "towing: {ball_kg: 100, trailer_kg: 1000}")
    trip.change("vehicle.yaml", "  gvm_kg:", f"  tow_ball_behind_rear_axle_mm: {behind}\n  gvm_kg:")
    told = [note for note in trip.notes() if "and the body ends 1250 mm behind it" in note]
    assert len(told) == asked


def test_the_ball_is_not_looked_at_where_nothing_is_towed(trip):
    trip.change("vehicle.yaml", "  gvm_kg:", "  tow_ball_behind_rear_axle_mm: 12400\n  gvm_kg:")
    assert trip.notes() == []


FUEL_STREAM = "streams: {drinking water: {fluid: petrol}}"


def test_what_uses_up_a_fuel_says_its_hazard(trip):
    trip.change("trip.yaml", NO_LOCKS, FUEL_STREAM)
    (fault,) = [fault for fault in trip.faults() if "uses_up" in fault]
    assert 'petrol (stream "drinking water") in "water can", which has no `hazard`' in fault
    assert "`hazard: petrol` or `hazard: petrol_equipment`" in fault


def test_a_fuel_is_never_said_to_be_harmless(trip):
    trip.change("trip.yaml", NO_LOCKS, FUEL_STREAM)
    trip.change("gear.yaml", "- name: water can\n", "- name: water can\n  hazard: none\n")
    assert any("which has no `hazard`" in fault for fault in trip.faults())


def test_a_fuel_with_its_hazard_is_read(trip):
    trip.change("trip.yaml", NO_LOCKS, FUEL_STREAM)
    trip.change("gear.yaml", "- name: water can\n", "- name: water can\n  hazard: petrol_equipment\n  holds_l: 27\n")
    assert trip.notes() == []


@pytest.mark.parametrize("word", ["petrol_equipment", "ethanol"])
def test_what_counts_in_the_totals_of_another_says_its_litres(trip, word):
    trip.change("gear.yaml", "- name: water can\n", f"- name: water can\n  hazard: {word}\n")
    assert any(f'found "{word}" without litres' in fault for fault in trip.faults())


def test_what_fills_with_a_fuel_says_its_hazard(trip):
    trip.change("trip.yaml", NO_LOCKS, "streams: {found: {fluid: lpg}}")
    trip.change("gear.yaml", "- name: tent\n", "- name: tent\n  fills: {found: 4}\n")
    assert any("fills: found lpg" in fault and "`hazard: lpg`" in fault for fault in trip.faults())


def test_lists_in_which_nothing_stands_are_asked_about(trip):
    trip.change("trip.yaml", ", left: {food: 0.5, drinking water: 0.5}", "")
    trip.change("trip.yaml", ", left: {food: 0.3, drinking water: 0.2}", "")
    trip.write("gear.yaml", "[]")
    notes = trip.notes()
    assert [note for note in notes if "nothing stands in the gear lists" in note] == notes[:1]


@pytest.mark.parametrize(("air", "asked"), [("cabin", 1), ("canopy", 0)])
def test_a_barrier_that_says_no_seats_is_asked_about_among_people(trip, air, asked):
    text = (trip.folder / "vehicle.yaml").read_text("utf-8")
    text = text.replace("spaces:\n", "cargo_barrier: {rated_kg: 60, top_z_mm: 1500}\nspaces:\n", 1)
    hold = "name: hold, corner_mm: [2000, 0, 900], size_mm: [300, 300, 300], opening: tailgate, holds: barrier"
    trip.write("vehicle.yaml", text.replace("spaces:\n", f"spaces:\n  - {{{hold}, air: {air}}}\n", 1))
    assert len([note for note in trip.notes() if "no seats, so that all who are aboard" in note]) == asked


def test_a_gear_list_under_a_heading_is_told_once_and_nothing_is_held_against_it(trip):
    """What names its things and streams is right as it stands."""
    text = (trip.folder / "gear.yaml").read_text("utf-8")
    trip.write("gear.yaml", "things:\n" + "".join(f"  {line}\n" for line in text.splitlines()))
    (fault,) = trip.faults()
    assert fault.startswith("gear.yaml, line ")
    assert "gear: found a mapping; allowed: a list of things" in fault


def test_very_many_unknown_names_are_told_each_and_the_first_with_a_hint(trip):
    lines = "".join(f"- {{name: t{n}, mass_kg: 1, size_mm: [9, 9, 9], with: [tnet {n}]}}\n" for n in range(900))
    trip.write("more.yaml", lines)
    trip.change("trip.yaml", "[gear.yaml]", "[gear.yaml, more.yaml]")
    faults = trip.faults()
    told = [fault for fault in faults if "a thing of the gear lists" in fault]
    assert len(told) == 900
    assert 0 < sum("did you mean" in fault for fault in told) <= MOST_HINTS


def test_a_kit_of_one_thing_that_is_nearly_another_kit_is_asked_about(trip):
    trip.change(
        "gear.yaml",
        "- name: tent",
        "- name: pans\n  mass_kg: 2\n  size_mm: [300, 300, 90]\n  kit: Kitchn\n- name: tent",
    )
    assert trip.notes() == []
    trip.change(
        "gear.yaml",
        "- name: shovel",
        "- name: stove\n  mass_kg: 2\n  size_mm: [300, 300, 90]\n  kit: kitchen\n- name: shovel",
    )
    (asked,) = trip.notes()
    assert asked.endswith('"Kitchn" is the kit of this alone; is it "kitchen"?')
    numbered = (
        (trip.folder / "gear.yaml")
        .read_text("utf-8")
        .replace("Kitchn", "kitchen 2")
        .replace("kitchen\n", "kitchen 1\n")
    )
    assert trip.write("gear.yaml", numbered).notes() == []


def test_a_circle_is_told_once(trip):
    trip.change("vehicle.yaml", "side: rear, seconds: 8}", "side: rear, after: [drawer front]}")
    assert sum("a circle" in fault for fault in trip.faults()) == 1


def test_an_optional_thing_cannot_be_spread_over_more_places_than_it_has_copies(trip):
    faults = trip.change("gear.yaml", "- name: tent\n", "- name: tent\n  carry: 20\n  spread: 2\n").faults()
    assert [fault for fault in faults if "2 spaces for 1 of them" in fault] == faults
