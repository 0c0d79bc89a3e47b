"""Random numbers of which sample i depends on the seed and i alone, however the samples are cut up."""

from __future__ import annotations

import numpy as np

from ..core.optional import import_special
from ..core.value import Array
from ..errors import whole

#: Numbers that one count of the generator gives.
LANES = 4
#: Samples there can be, and seeds.
MOST = 2**63


def generator(seed: int) -> np.random.Generator:
    """NumPy's usual generator. Raises InputError for a seed that is none."""
    return np.random.default_rng(whole(seed, "seed", 0, MOST, "from 0, below 2^63"))


def uniforms(seed: int, first: int, count: int, dimensions: int) -> Array:
    """Numbers between 0 and 1, both left out, shape (count, dimensions), of the samples from ``first`` on.

    Philox 4x64-10 (Salmon et al., Proc. SC11 (2011)), NumPy's, keyed by the seed and counted by the sample: the
    same bits for a sample in any cut, and for a dimension whatever others are drawn. 52 bits each.
    """
    asked = {"seed": seed, "first": first, "count": count, "dimensions": dimensions}
    for name, x in asked.items():
        low = 1 if name == "dimensions" else 0
        whole(x, name, low, MOST, f"from {low}, below 2^63")
    drawn = [
        np.random.Philox(key=int(seed), counter=int(first) + (group << 64)).random_raw(LANES * int(count))
        for group in range(-(-int(dimensions) // LANES))
    ]
    bits = np.concatenate([group.reshape(-1, LANES) for group in drawn], axis=1)[:, :dimensions]
    return np.asarray(((bits >> np.uint64(12)) + 0.5) * 2.0**-52)


def deviates(seed: int, first: int, count: int, dimensions: int) -> Array:
    """Independent standard normal numbers, shape (count, dimensions), of the samples from ``first`` on.

    The inverse of the normal distribution at ``uniforms``, so that every sample takes as many counts; within ±8.3.
    Needs the ``statistics`` extra.
    """
    return np.asarray(import_special().ndtri(uniforms(seed, first, count, dimensions)))
