"""Random numbers by seed and sample: the same bits however the samples are cut up."""

from concurrent.futures import ThreadPoolExecutor
from itertools import pairwise

import numpy as np
import pytest
from scipy import stats

import whimbrel as wb
from whimbrel.statistics.random_numbers import deviates, uniforms

SEED, N, DIMENSIONS = 20, 10_000, 6


def test_any_cut_gives_the_same_bits(draw):
    whole = deviates(SEED, 0, N, DIMENSIONS)
    for pieces in (2, 7, 100):
        cuts = np.concatenate([[0], np.sort(draw.integers(0, N, pieces - 1)), [N]])
        parts = [deviates(SEED, int(a), int(b - a), DIMENSIONS) for a, b in pairwise(cuts)]
        assert np.array_equal(np.concatenate(parts), whole), (pieces, cuts)


def test_threads_in_any_order_give_the_same_bits(draw):
    whole = deviates(SEED, 0, N, DIMENSIONS)
    starts = list(range(0, N, 250))
    with ThreadPoolExecutor(4) as pool:
        mixed = draw.permutation(starts).tolist()
        parts = dict(zip(mixed, pool.map(lambda a: deviates(SEED, a, 250, DIMENSIONS), mixed), strict=True))
    assert np.array_equal(np.concatenate([parts[a] for a in starts]), whole)


def test_a_dimension_more_leaves_the_others_as_they_were():
    for dimensions in range(1, 10):
        assert np.array_equal(deviates(SEED, 5, 99, 10)[:, :dimensions], deviates(SEED, 5, 99, dimensions))


def test_far_samples_are_as_near_ones():
    assert np.array_equal(deviates(SEED, 2**40, 100, 3)[40:], deviates(SEED, 2**40 + 40, 60, 3))


def test_the_bits_are_those_of_philox_4x64_as_published():
    """The known answer of Random123 for key 0 and count 0, from memory; NumPy counts up before it draws."""
    known = [0x16554D9ECA36314C, 0xDB20FE9D672D0FDC, 0xD7E772CEE186176B, 0x7E68B68AEC7BA23B]
    assert np.random.Philox(key=0, counter=2**256 - 1).random_raw(4).tolist() == known


def test_uniforms_stay_inside_0_and_1_at_the_ends_of_their_bits(monkeypatch):
    ends = np.array([0, 2**64 - 1, 2**63, 2**63 - 1], np.uint64)

    class Ends:
        def __init__(self, **_):
            pass

        def random_raw(self, _):
            return ends

    monkeypatch.setattr(np.random, "Philox", Ends)
    u = uniforms(0, 0, 1, 4)[0]
    assert ((u > 0) & (u < 1)).all()
    assert u[0] == 1 - u[1] and u[3] == 1 - u[2]
    assert np.abs(deviates(0, 0, 1, 4)).max() < 8.3


@pytest.mark.parametrize("seed", [0, 1, 2026])
def test_they_are_normal_and_independent(seed):
    """Kolmogorov's test and correlations at a chance of 1 in 10,000 over all that is asked here."""
    z = deviates(seed, 0, 200_000, DIMENSIONS)
    asked = 3 * (DIMENSIONS + DIMENSIONS * (DIMENSIONS - 1) // 2 + DIMENSIONS)
    for column in z.T:
        assert stats.kstest(column, "norm").pvalue > 1e-4 / asked
    with_next = np.concatenate([z[:-1], z[1:]], axis=1)
    correlations = np.corrcoef(with_next.T)[:DIMENSIONS]
    pairs = [correlations[i, j] for i in range(DIMENSIONS) for j in (*range(i + 1, DIMENSIONS), i + DIMENSIONS)]
    assert np.abs(pairs).max() * np.sqrt(len(z)) < stats.norm.isf(0.5e-4 / asked)


def test_seeds_differ():
    assert not np.isin(deviates(1, 0, 1000, 1), deviates(2, 0, 1000, 1)).any()


@pytest.mark.parametrize(
    ("asked", "says"),
    [((-1, 0, 5, 2), "seed is -1"), ((1.5, 0, 5, 2), "seed is 1.5"), ((0, -1, 5, 2), "first is -1"),
     ((0, 0, -5, 2), "count is -5"), ((0, 0, 5, 0), "dimensions is 0"), ((2**64, 0, 5, 2), "below 2^63")],
)  # fmt: skip
def test_what_is_no_seed_or_count_is_refused(asked, says):
    with pytest.raises(wb.InputError) as refused:
        deviates(*asked)
    assert says in str(refused.value)


def test_no_samples_are_none():
    assert deviates(0, 0, 0, 3).shape == (0, 3)
