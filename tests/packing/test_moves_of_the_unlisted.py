"""What is no longer on the list still stands in the vehicle, and is lifted out in its turn."""

from models.plan import Plan
from packing import moves_between, with_unlisted


def test_what_stands_before_and_on_a_thing_off_the_list_is_lifted_before_it(new_bay):
    bay = new_bay()
    bay.put("tent", (0, 0, 0), (400, 400, 200))
    bay.put("chair", (0, 0, 200), (400, 400, 200))
    bay.put("crate", (500, 0, 0), (400, 400, 400))
    before, tent = bay.plan, bay.placements[0]
    bay.things = bay.things[1:]
    goal = bay.placements[1].model_copy(update={"corner_mm": tent.corner_mm})
    after = Plan(trip="trip.yaml", placements=(goal, bay.placements[2]))
    found = moves_between(with_unlisted(bay.case, [tent]), before, after)
    assert [(one.copy.thing, one.kind) for one in found.moves] == [
        ("crate", "set down"),
        ("chair", "set down"),
        ("tent", "take out"),
        ("chair", "put in"),
        ("crate", "put back"),
    ]


def test_several_copies_off_the_list_are_as_many_as_the_highest_number(new_bay):
    bay = new_bay()
    bay.put("tent", (0, 0, 0), (400, 400, 200))
    second = bay.placements[0].model_copy(update={"copy_number": 2, "corner_mm": (2600, 0, 600)})
    lost = [bay.placements[0], second]
    bay.things = []
    case = with_unlisted(bay.case, lost)
    assert [case.called(copy) for copy in case.copies] == ["tent #1", "tent #2"]
    found = moves_between(case, Plan(trip="trip.yaml", placements=tuple(lost)), Plan(trip="trip.yaml"))
    assert [one.kind for one in found.moves] == ["take out", "take out"]


def test_what_another_list_has_takes_the_seconds_of_its_mass(new_bay):
    bay = new_bay()
    bay.put("tent", (0, 0, 0), (400, 400, 200))
    listed, before = bay.case, bay.plan
    bay.things = []
    known, unknown = (with_unlisted(bay.case, before.placements, of) for of in (listed, None))
    assert known.thing_named["tent"] == listed.thing_named["tent"]
    assert unknown.thing_named["tent"].mass_kg.most == 0


def test_what_is_on_the_list_and_what_lies_in_no_space_is_not_added(new_bay):
    bay = new_bay()
    bay.put("tent", (0, 0, 0), (400, 400, 200))
    nowhere = bay.placements[0].model_copy(update={"thing": "stove", "space": "shed"})
    case = bay.case
    assert with_unlisted(case, [bay.placements[0], nowhere]) is case
