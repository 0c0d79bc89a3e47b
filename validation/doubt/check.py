"""How sure the numbers are: what is shipped is what the data give, and holds what a fit did not see."""

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd
from scipy.stats import binomtest, norm

import whimbrel as wb
from whimbrel import _core
from whimbrel.row.aero import model_of
from whimbrel.units import deg, mph, rpm, yd

spec = importlib.util.spec_from_file_location("posterior", Path(__file__).with_name("posterior.py"))
assert spec is not None and spec.loader is not None
posterior = importlib.util.module_from_spec(spec)
spec.loader.exec_module(posterior)
launches, LAUNCHES = posterior.launches, posterior.LAUNCHES

NOMINAL = 0.90  # of the intervals


def shipped_draws():
    half = np.array(_core.constant_draws())
    return np.concatenate([half, -half])


def headline():
    """One standard deviation of carry by source, yd, of usual deliveries at 113 mph, and of gaps between clubs."""
    rows, doubts = [], {}
    for name in ("driver", "7 iron", "8 iron", "pitching wedge"):
        club = wb.clubs[name]
        shot = wb.play(wb.usual_delivery(club, 113 * mph), club)
        doubts[name] = wb.doubt(shot)
        rows.append({"of": name, "carry_yd": shot.carry / yd} | told(doubts[name]))
    rows.append({"of": "7 iron less 8 iron"} | told(doubts["7 iron"] - doubts["8 iron"]))
    return pd.DataFrame(rows)


def told(doubt):
    return {name: x / yd for name, x in ({"all": doubt.sd("carry")} | doubt.by_source("carry")).items()}


def left_out():
    """Each launch by constants fitted without it: how far off, in deviations of what is then not known."""
    rows = []
    for i in LAUNCHES.index:
        others = [j for j in LAUNCHES.index if j != i]
        rows += carry_left_out(i, others) + contact_left_out(i, others)
    return pd.DataFrame(rows)


def carry_left_out(i, others):
    """Of the launch as stated: the constants fitted to the others, their doubt, other laws, balls, rounding."""
    row = LAUNCHES.iloc[[i]]

    def carry(aero):
        return posterior.flown(aero, table=row)[0, 0]

    laws = posterior.fitted_laws(others)
    fitted = laws[0][2]
    covariance = posterior.covariance_of_the_flight(others)
    ends = (
        [posterior.scaled(np.exp(side * e), fitted) for side in (1, -1)] for e in 0.01 * np.eye(len(covariance))
    )
    slopes = np.array([(carry(more) - carry(less)) / 0.02 for more, less in ends])
    ours = carry(fitted)
    of_laws = sum(weight * (carry(law.table(constants)) - ours) ** 2 for _, law, constants, weight in laws)
    ball = (carry(posterior.with_drag(np.exp(_core.ball_drag_spread), fitted)) - ours) ** 2
    rounding = (5 * yd) ** 2 / 12
    theirs = row.carry_yd.iloc[0] * yd
    sd = np.sqrt(slopes @ covariance @ slopes + of_laws + ball + rounding)
    return [{"club": row.club.iloc[0], "quantity": "carry", "off": (ours - theirs) / sd}]


def contact_left_out(i, others):
    """At the loft that the launch tells: the others' mean stiffness and restitution, their spread, rounding."""
    row = LAUNCHES.iloc[[i]]
    stiffness, restitution = posterior.stiffness_of_each_club(), posterior.restitution_of_each_club()
    middle = [stiffness[others].mean(), 0.0, restitution[others].mean()]
    sd = [stiffness[others].std(ddof=1), posterior.deviation_of_friction(), restitution[others].std(ddof=1)]
    units = {"launch_angle_deg": deg, "spin_rate_rpm": rpm, "ball_speed_mph": mph}
    loft = launches.told_loft(*(row[name].to_numpy() * unit for name, unit in units.items()))

    def struck(x):
        constants = posterior.replace(posterior.SHIPPED, kappa=posterior.SHIPPED.kappa * np.exp(x[0]),
                                      mu=posterior.SHIPPED.mu * np.exp(x[1]))  # fmt: skip
        launch = launches.struck(row, loft, constants)
        faster = 1 + x[2] / (1 + wb.clubs[row["head"].iloc[0]].face_restitution)
        return np.array([launch.ball_speed[0] * faster, launch.launch_angle[0], launch.spin_rate[0] * faster])

    ours = struck(middle)
    changes = np.array([struck(np.array(middle) + s * e) - ours for s, e in zip(sd, np.eye(3), strict=True)])
    rounding = np.array([1 * mph, 0.5 * deg, 50 * rpm]) ** 2 / 12
    theirs = np.array([row.ball_speed_mph.iloc[0] * mph, row.launch_angle_deg.iloc[0] * deg,
                       row.spin_rate_rpm.iloc[0] * rpm])  # fmt: skip
    off = (ours - theirs) / np.sqrt((changes**2).sum(axis=0) + rounding)
    return [{"club": row.club.iloc[0], "quantity": name, "off": x} for name, x in
            zip(("ball speed", "launch angle", "spin"), off, strict=True)]  # fmt: skip


def coverage(table):
    """How many of the intervals hold what was left out, with the interval of that share."""
    held = (table.off.abs() < norm.ppf(0.5 + NOMINAL / 2)).sum()
    share = binomtest(int(held), len(table), NOMINAL)
    return held, share.proportion_ci(0.95, method="wilson"), share.pvalue


def test_the_shipped_draws_have_the_covariance_of_the_fit():
    draws = shipped_draws()
    assert np.abs(draws.mean(axis=0)).max() < 1e-15
    found, fit = draws.T @ draws / len(draws), posterior.covariance_of_the_flight()
    sd = np.sqrt(np.diag(fit))
    # Of digits printed to 1e-4, and of the kernels' carries (1 mm) over the step of the slopes.
    assert (np.abs(found[:8, :8] - fit) / np.outer(sd, sd)).max() < 0.02
    assert np.allclose(np.sqrt(np.diag(found)[8:]), posterior.deviations_of_the_contact(), rtol=0.02)
    assert np.abs(found[:8, 8:]).max() < 1e-4  # flight and contact are fitted apart


def test_the_shipped_laws_are_those_fitted():
    for shipped, (_, law, constants, weight) in zip(_core.flight_laws(), posterior.fitted_laws(), strict=True):
        assert abs(shipped[0] - weight) < 0.02
        assert shipped[2:] == (law.lift_reynolds_power, law.drag_reynolds_power, law.induced_drag)
        ours, theirs = (posterior.flown(law.table(x)) for x in (model_of(shipped[1]), constants))
        assert np.abs(ours - theirs)[0].max() < 0.3 * yd  # where its minimum is flat, a fit ends anywhere on it


def test_balls_and_turfs_spread_as_stated():
    assert abs(_core.ball_drag_spread / posterior.spread_of_drag() - 1) < 0.01
    assert abs(_core.turf_spread / posterior.spread_of_turf() - 1) < 0.02


def test_the_laplace_posterior_is_the_samplers():
    """Sampled once, see `sampler.py`: deviations of the carry of the twelve launches, yd."""
    sampled = pd.read_csv(Path(__file__).with_name("sampled.csv")).carry_sd_yd.to_numpy()
    draws = shipped_draws()[:, :8]
    carries = np.array([posterior.flown(posterior.scaled(np.exp(x)))[0] for x in draws])
    laplace = np.sqrt(((carries - posterior.flown(posterior.DEFAULT)[0]) ** 2).mean(axis=0)) / yd
    assert np.abs(laplace / sampled - 1).max() < 0.25, (laplace, sampled)


def test_what_is_left_out_lies_within_the_stated_doubt_as_often_as_stated():
    held, _, chance = coverage(left_out())
    assert chance > 0.05, held


def test_differences_are_surer_than_levels():
    table = headline().set_index("of")
    assert table["all"]["7 iron less 8 iron"] < 0.2 * table["all"]["7 iron"], table


if __name__ == "__main__":
    table = left_out()
    held, interval, chance = coverage(table)
    print(headline().round(2).to_string(index=False), end="\n\n")
    print(table.pivot(index="club", columns="quantity", values="off").loc[LAUNCHES.club].round(2), end="\n\n")
    print(f"{held} of {len(table)} within {NOMINAL:.0%} intervals: {held / len(table):.0%}, "
          f"{interval.low:.0%} to {interval.high:.0%}; chance {chance:.2f}")  # fmt: skip
