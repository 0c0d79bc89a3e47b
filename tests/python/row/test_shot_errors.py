"""Many shots with bad rows among them, and hostile input."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel import _core
from whimbrel.units import deg


def speeds(n, bad):
    x = np.full(n, 40.0)
    x[list(bad)] = list(bad.values())
    return x


def test_the_first_ten_bad_rows_are_named_and_the_rest_counted(iron):
    bad = {i: -float(i) for i in range(5, 30, 2)}
    with pytest.raises(wb.InputError) as error:
        wb.play(wb.Delivery(speeds(50, bad), dynamic_loft=0.4), iron)
    text = str(error.value)
    assert text.startswith("13 rows are bad, of 50:")
    for i in list(bad)[:10]:
        assert f"row {i}: clubhead_speed is -{i} m/s" in text
    assert f"row {list(bad)[10]}:" not in text
    assert text.endswith("and 3 more.")
    assert [place for place, _ in error.value.rows] == list(bad)


def test_a_single_bad_row_is_named(iron):
    with pytest.raises(wb.InputError, match=r"1 row is bad, of 3:\n  row 2: clubhead_speed is nan m/s; accepted"):
        wb.play(wb.Delivery(speeds(3, {2: np.nan}), dynamic_loft=0.4), iron)


def test_bad_rows_of_a_grid_are_named_by_row_and_column(iron):
    grid = np.full((3, 4), 40.0)
    grid[1, 2] = np.inf
    with pytest.raises(wb.InputError, match=r"row \(1, 2\): clubhead_speed is inf"):
        wb.play(wb.Delivery(grid, dynamic_loft=0.4), iron)
    masked = wb.play(wb.Delivery(grid, dynamic_loft=0.4), iron, errors="mask")
    assert list(masked.mistakes) == [(1, 2)]


def test_masked_bad_rows_have_no_numbers_a_status_and_a_reason(iron):
    masked = wb.play(wb.Delivery(speeds(5, {1: -1.0, 3: np.nan}), dynamic_loft=0.4), iron, errors="mask")
    assert list(masked.status) == ["ok", "bad_input", "ok", "bad_input", "ok"]
    assert list(masked.mistakes) == [1, 3]
    assert masked.mistakes[1].startswith("clubhead_speed is -1 m/s")
    for stage in (masked.launch, masked.flight, masked.impact):
        for name, x in stage._numbers().items():
            assert np.isnan(x[[1, 3]]).all(), name
            assert np.isfinite(x[[0, 2, 4]]).all(), name
    assert np.isnan(masked.flight.position_at(1.0)[1]).all()
    assert np.isnan(masked.impact.head_velocity_after[1]).all()


def test_masking_leaves_the_good_rows_as_they_would_be_alone(iron):
    hits = wb.Delivery(speeds(3, {1: -1.0}), dynamic_loft=0.4)
    masked = wb.play(hits, iron, accuracy="reference", errors="mask")
    assert masked.carry[2] == wb.play(wb.Delivery(40.0, dynamic_loft=0.4), iron).carry


@pytest.mark.parametrize(
    ("conditions", "says"),
    [
        (
            {"ball": wb.Ball(mass=np.array([0.0459, 0.0]))},
            "row 1: ball mass is 0 kg; accepted: 0.005 kg to 0.2 kg",
        ),
        (
            {"weather": wb.Weather(temperature=np.array([288.0, 15.0]))},
            "row 1: temperature is 15 K; accepted",
        ),
        ({"weather": wb.Weather(altitude=np.array([0.0, 2e4]))}, "row 1: altitude is 20000 m; accepted"),
        ({"weather": wb.setting.Air(density=np.array([1.2, -1.0]))}, "row 1: density is -1 kg/m^3; accepted"),
        ({"wind": wb.Wind(np.array([0.0, -2.0]))}, "row 1: wind speed is -2 m/s"),
        ({"terrain": wb.Terrain(np.array([0.0, 1.0]))}, "row 1: tee_height is 1 m; accepted: 0 m to 0.2 m"),
    ],
    ids=["ball", "temperature", "altitude", "air", "wind", "terrain"],
)
def test_a_bad_row_of_the_conditions_is_named_and_masked(hit, iron, conditions, says):
    with pytest.raises(wb.InputError) as error:
        wb.play(hit, iron, **conditions)
    assert says in str(error.value)
    masked = wb.play(hit, iron, **conditions, errors="mask")
    assert list(masked.status) == ["ok", "bad_input"]
    assert masked.mistakes[1] == says.removeprefix("row 1: ") or masked.mistakes[1].startswith(says[7:])


HOSTILE = {
    "clubhead_speed": (np.nan, np.inf, -np.inf, -40.0, 0.0, 1e300),
    "club_path": (np.nan, np.inf, 91 * deg, -200 * deg),
    "attack_angle": (np.nan, -np.inf, 91 * deg, 1e9),
    "face_angle": (np.nan, np.inf, 120 * deg),
    "dynamic_loft": (np.nan, np.inf, 200 * deg, -91 * deg),
}
HOSTILE_CLUB = {
    "loft": (np.nan, 200 * deg),
    "lie_angle": (np.nan, 0.0),
    "length": (np.nan, 0.0, -1.0),
    "mass": (np.nan, 0.0, -0.2, np.inf),
    "face_restitution": (np.nan, -0.1, 1.1),
}


def test_of_1000_rows_with_hostile_numbers_exactly_the_hostile_are_refused_by_field_value_and_range(draw):
    n = 1000
    swings = {name: np.full(n, x) for name, x in zip(HOSTILE, (40.0, 0.01, -0.05, 0.0, 0.4), strict=True)}
    clubs = {name: np.full(n, x) for name, x in zip(HOSTILE_CLUB, (0.5, 1.1, 0.94, 0.27, 0.77), strict=True)}
    expected = {}
    for i in draw.choice(n, 400, replace=False):
        field = draw.choice([*HOSTILE, *HOSTILE_CLUB])
        value = draw.choice((HOSTILE | HOSTILE_CLUB)[field])
        (swings if field in HOSTILE else clubs)[field][i] = value
        expected[int(i)] = f"{field} is {value:.6g}"
    masked = wb.play(wb.Delivery(**swings), wb.Club("x", **clubs), errors="mask")
    assert set(masked.mistakes) == set(expected)
    for i, text in expected.items():
        assert masked.mistakes[i].startswith(text) and "; accepted: " in masked.mistakes[i], i
    bad = np.isin(np.arange(n), list(expected))
    assert np.array_equal(masked.status == "bad_input", bad)
    assert np.array_equal(np.isnan(masked.carry), bad)


def test_random_rubbish_is_refused_or_flown_but_never_nan_without_a_status(draw):
    n = 1000
    pool = np.array([0.0, -0.0, 1e-300, 1e-9, 0.3, -0.3, 1.5, -1.5, 50.0, 149.0, 1e6, np.nan, np.inf, -np.inf])
    launch = wb.Launch(*(draw.choice(pool, n) for _ in range(6)))
    shots = wb.play(launch, wind=wb.Wind(*(draw.choice(pool, n) for _ in range(5))), errors="mask")
    numbers = np.stack(list(shots.flight._numbers().values()))
    complete = np.isin(shots.status, ["ok", "not_airborne"])
    assert np.isfinite(numbers[:, complete]).all()
    assert np.isnan(numbers[:, ~complete]).all()
    assert set(shots.mistakes) == set(np.flatnonzero(shots.status == "bad_input"))


def test_extreme_but_accepted_launches_fly_or_say_why_not(draw):
    n = 1000
    edge = [(0, 150), (-np.pi / 2, np.pi / 2), (-np.pi, np.pi), (0, 3000), (-np.pi, np.pi)]
    launch = wb.Launch(*(draw.choice([lower, upper, draw.uniform(lower, upper)], n) for lower, upper in edge))
    shots = wb.play(launch, wind=wb.Wind(draw.uniform(0, 100, n), draw.uniform(-6, 6, n)))
    flown = np.isin(shots.status, ["ok", "not_airborne"])
    assert np.array_equal(np.isfinite(shots.carry), flown)
    assert not (shots.status == "numerical_failure").any()


def test_an_impact_without_numbers_is_a_failure_and_no_mistake_of_the_callers(monkeypatch):
    strike = _core.strike_columns

    def jammed(*arguments):
        struck = strike(*arguments)
        struck["launch"][1] = np.nan
        return struck

    monkeypatch.setattr(_core, "strike_columns", jammed)
    shots = wb.play(wb.Delivery([35.0, 36.0, 37.0], dynamic_loft=0.43), wb.clubs["7 iron"])
    assert shots.status.tolist() == ["ok", "numerical_failure", "ok"]
    assert np.isnan(shots.carry).tolist() == [False, True, False]
    assert shots.mistakes == {}
