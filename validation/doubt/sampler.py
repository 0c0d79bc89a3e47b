"""Samples the posterior of the flight's constants, to hold Laplace's beside it. Needs `pip install emcee`; a few
minutes. Writes `sampled.csv`."""

import importlib.util
from pathlib import Path

import emcee
import numpy as np
import pandas as pd

from whimbrel.units import yd

spec = importlib.util.spec_from_file_location("posterior", Path(__file__).with_name("posterior.py"))
assert spec is not None and spec.loader is not None
posterior = importlib.util.module_from_spec(spec)
spec.loader.exec_module(posterior)

WALKERS, STEPS, BURNT = 36, 3000, 600
CONSTANTS = len(posterior.CONSTANTS)
CENTRE = posterior.misses(posterior.DEFAULT)  # the shipped constants are held to be the middle, as by Laplace


def log_probability(x):
    """Of the logarithms of the constants and of the air's density."""
    if np.abs(x).max() > 1.5:
        return -np.inf
    air = posterior.replace(posterior.TEST_AIR, density=posterior.TEST_AIR.density * float(np.exp(x[-1])))
    off = posterior.misses(posterior.scaled(np.exp(x[:-1])), air) - CENTRE
    prior = (x[:-1] ** 2).sum() / posterior.PRIOR**2 + (x[-1] / posterior.AIR) ** 2
    return -0.5 * ((off**2).sum() + prior)


if __name__ == "__main__":
    start = 0.02 * np.random.default_rng(0).normal(size=(WALKERS, CONSTANTS + 1))
    sampler = emcee.EnsembleSampler(WALKERS, CONSTANTS + 1, log_probability)
    sampler.random_state = np.random.RandomState(0).get_state()
    sampler.run_mcmc(start, STEPS)
    print("steps a sample is remembered for:", sampler.get_autocorr_time(quiet=True).round(0))
    chain = sampler.get_chain(discard=BURNT, thin=40, flat=True)[:, :CONSTANTS]
    print("deviations of the logarithms:", chain.std(axis=0).round(3))
    carries = np.array([posterior.flown(posterior.scaled(np.exp(x)))[0] for x in chain]) / yd
    table = pd.DataFrame({"club": posterior.LAUNCHES.club, "carry_sd_yd": carries.std(axis=0).round(3)})
    table.to_csv(Path(__file__).with_name("sampled.csv"), index=False)
    print(table)
