"""Sums by stage side by side in one integer."""

from random import Random

import pytest

from solver.lanes import NO_LIMIT, lane, pack, pack_limits, signs


def numbers(chance: Random, count: int) -> list[int]:
    return [chance.choice((-1, 1)) * chance.randrange(10 ** chance.randrange(1, 25)) for _ in range(count)]


@pytest.mark.parametrize("seed", range(20))
def test_lanes_add_multiply_and_compare_like_the_numbers_themselves(seed):
    chance = Random(seed)  # noqa: S311 - by chance, not a secret
    count = chance.randint(1, 9)
    some, more = numbers(chance, count), numbers(chance, count)
    factor = chance.randrange(-9, 10)
    both = pack(some) - factor * pack(more)
    assert [lane(both, t) for t in range(count)] == [a - factor * b for a, b in zip(some, more, strict=True)]
    assert bool(both & signs(count)) == any(a < factor * b for a, b in zip(some, more, strict=True))


@pytest.mark.parametrize("values", [(0, 0, 0), (-1, 0, 0), (0, -1, 0), (0, 0, -1), (5, -3, 7), (1, 2, 3)])
def test_one_number_below_zero_is_seen_wherever_it_stands(values):
    assert bool(pack(values) & signs(3)) == (min(values) < 0)


def test_no_limit_is_above_all_that_is_summed_up():
    left = pack_limits([None, 10**40, 7]) - pack([10**24, 10**24, 7])
    assert not left & signs(3)
    assert lane(pack_limits([None, 10**40]), 1) == NO_LIMIT
