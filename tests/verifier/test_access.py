"""Getting at a thing: the seconds of lifting, and what is moved first."""

import pytest

from verifier.access import lifting_s


@pytest.mark.parametrize(("mass_kg", "seconds"), [(8, 6), (8.001, 12), (15, 12), (15.001, 20), (90, 20)])
def test_seconds_of_lifting_by_step(world, mass_kg, seconds):
    handling = world.case().rulebook.handling
    assert lifting_s(mass_kg, handling) == seconds
    open_ended = handling.model_copy(update={"steps": tuple(reversed(handling.steps))})
    assert lifting_s(mass_kg, open_ended) == seconds


@pytest.mark.parametrize(("steps", "seconds"), [(1, 6), (2, 12)])
def test_heavier_than_every_step_takes_as_long_as_the_heaviest(world, steps, seconds):
    # A book of a trip whose last step names a mass too: 6 s up to 8 kg, 12 s up to 15 kg, nothing above.
    handling = world.case().rulebook.handling
    assert lifting_s(90, handling.model_copy(update={"steps": handling.steps[:steps]})) == seconds
