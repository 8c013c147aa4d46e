"""Which limit is meant by what is typed."""

import pytest

from cli.answering import BadInput
from cli.limits import limit_meant
from models.reading import read_plan
from verifier import check


@pytest.fixture
def meant(trip):
    """The limit that is meant where a space is called as a rack is."""

    def meaning(typed: str) -> str:
        for name in ("vehicle.yaml", "plan.yaml"):
            text = (trip / name).read_text("utf-8")
            (trip / name).write_text(text.replace("right shelf", "drawer frame"), "utf-8")
        read = read_plan(trip / "plan.yaml")
        return limit_meant(read.case, check(read.case, read.plan), typed)

    return meaning


def test_a_rack_and_a_space_of_one_name_are_asked_back(meant):
    with pytest.raises(BadInput, match='"rack drawer frame" or "space drawer frame": say which limit'):
        meant("drawer frame")


@pytest.mark.parametrize(
    ("typed", "limit"),
    [
        ("rack drawer frame", "rack drawer frame"),
        ("space drawer frame", "space drawer frame"),
        ("left bay", "space left bay"),
    ],
)
def test_a_limit_by_its_name(meant, typed, limit):
    assert meant(typed) == limit
