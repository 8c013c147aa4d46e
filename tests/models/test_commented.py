"""Comments of a plan's file in the text that takes its place."""

import pytest

from models.commented import with_comments

OLD = """# To the coast
trip: trip.yaml
locks:
  # Ada: it is wet
  - {thing: tent, copy: 1, in: shelf}  # till Friday
placements:  # heavy first
  - {thing: tent, copy: 1, space: shelf}
  - {thing: "can #2", copy: 2, space: bay}  # water
  - {thing: "can #2", copy: 1, space: bay}
claims:
  # in kg
  mass_kg: {leaving: 2000}
# the end
"""
COMMENTS = ("# To the coast", "# Ada: it is wet", "# till Friday", "# heavy first", "# water", "# in kg", "# the end")
BARE = "".join(f"{line.split('  # ')[0]}\n" for line in OLD.splitlines() if not line.lstrip().startswith("#"))


def test_the_same_plan_keeps_every_comment_in_its_place():
    assert "#" not in BARE.replace("can #2", "")
    assert with_comments(OLD, BARE) == (OLD, False)


def test_a_comment_follows_its_copy_to_another_line_and_home():
    new = """trip: trip.yaml
locks:
  - {thing: tent, copy: 1, in: shelf}
placements:
  - {thing: "can #2", copy: 1, space: bay}
  - {thing: tent, copy: 1, space: drawer}
left_at_home:
  - {thing: "can #2", copy: 2}
claims:
  mass_kg: {leaving: 1980}
"""
    text, lost = with_comments(OLD, new)
    assert not lost
    assert text.splitlines()[-6:] == [
        "left_at_home:",
        '  - {thing: "can #2", copy: 2}  # water',
        "claims:",
        "  # in kg",
        "  mass_kg: {leaving: 1980}",
        "# the end",
    ]


@pytest.mark.parametrize(
    ("gone", "comments"),
    [
        ("  - {thing: tent, copy: 1, in: shelf}\n", ("# Ada: it is wet", "# till Friday")),
        ('  - {thing: "can #2", copy: 2, space: bay}\n', ("# water",)),
        ("claims:\n  mass_kg: {leaving: 2000}\n", ("# in kg",)),
    ],
)
def test_what_a_comment_stood_at_takes_it_along_and_that_is_told(gone, comments):
    assert BARE.count(gone) == 1
    text, lost = with_comments(OLD, BARE.replace(gone, ""))
    assert lost
    assert [comment for comment in COMMENTS if comment not in text] == list(comments)


def test_a_plan_written_by_hand_over_many_lines_keeps_what_it_can():
    old = """\ufefftrip: trip.yaml  # ours
placements:
  - thing: tent   # wet
    # on its side
    space: shelf  # low
"""
    new = "trip: trip.yaml\nplacements:\n  - {thing: tent, copy: 1, space: shelf}\n"
    text, lost = with_comments(old, new)
    assert not lost
    assert text.splitlines() == [
        "trip: trip.yaml  # ours",
        "placements:",
        "  # on its side",
        "  # low",
        "  - {thing: tent, copy: 1, space: shelf}  # wet",
    ]


def test_a_plan_in_braces_loses_what_stands_within_and_tells_it():
    text, lost = with_comments("{trip: trip.yaml, # ours\n placements: []}\n", "trip: trip.yaml\nplacements: []\n")
    assert (text, lost) == ("trip: trip.yaml\nplacements: []\n", True)


def test_of_two_like_locks_each_keeps_its_own_comment():
    lock = "  - {thing: tent, copy: 1, in: shelf}"
    old = f"trip: trip.yaml\nlocks:\n  # Ada\n{lock}\n{lock}  # twice\nplacements: []\n"
    bare = f"trip: trip.yaml\nlocks:\n{lock}\n{lock}\nplacements: []\n"
    assert with_comments(old, bare) == (old, False)
    assert with_comments(old, bare.replace(f"{lock}\n", "", 1)) == (old.replace(f"{lock}  # twice\n", ""), True)


def test_a_name_with_its_accent_typed_apart_keeps_its_comment():
    old = "trip: trip.yaml\nplacements:\n  - {thing: re\u0301chaud, copy: 1, space: bay}  # hot\n"
    new = "trip: trip.yaml\nplacements:\n  - {thing: r\u00e9chaud, copy: 1, space: bay}\n"
    assert with_comments(old, new) == (new.replace("}\n", "}  # hot\n"), False)


def test_a_comment_behind_the_marks_of_a_file_goes_above_its_first_key():
    text, lost = with_comments("--- # ours\ntrip: trip.yaml\nplacements: []\n", "trip: trip.yaml\nplacements: []\n")
    assert (text, lost) == ("# ours\ntrip: trip.yaml\nplacements: []\n", False)


def test_a_comment_behind_the_sign_of_a_text_below_is_one_and_the_text_is_none():
    lock = "  - thing: tent\n    in: bay\n    because: |  # Ada\n      # wet\n      # and low\n"
    old = f"trip: trip.yaml\nlocks:\n{lock}placements: []\n"
    new = 'trip: trip.yaml\nlocks:\n  - {thing: tent, in: bay, because: "# wet\\n# and low\\n"}\nplacements: []\n'
    assert with_comments(old, new) == (new.replace('"}', '"}  # Ada'), False)
