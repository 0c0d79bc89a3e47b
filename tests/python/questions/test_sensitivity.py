"""Exact derivatives of a shot, and the shares of spreads."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel import _core
from whimbrel.questions.inputs import axes_of
from whimbrel.questions.sensitivity import inputs_of
from whimbrel.units import celsius, deg, mm, mph, yd


def moved(hit, name, by):
    """The delivery with one number changed."""
    return wb.Delivery(**{field: x + by * (field == name) for field, x in hit._numbers().items()})


@pytest.fixture
def told(hit, iron):
    return wb.sensitivity(hit, iron, of=["carry", "offline", "spin_rate", "smash_factor", "total"])


def test_results_are_those_of_the_played_shot(hit, iron, told):
    shot = wb.play(hit, iron)
    assert told.status == told.run_status == "ok"
    assert told.results["carry"] == pytest.approx(shot.carry, rel=1e-8)
    assert told.results["total"] == pytest.approx(shot.total, rel=1e-6)
    assert told.results["spin_rate"] == pytest.approx(shot.launch.spin_rate, rel=1e-11)


@pytest.mark.parametrize("name, step", [("clubhead_speed", 1e-3), ("face_angle", 1e-4), ("dynamic_loft", 1e-4)])
def test_slopes_are_the_differences_of_played_shots(hit, iron, told, name, step):
    # Differences of flights to 1e-9 of a step, over 2e-4 or more: 1e-4 of a slope, and of a length a radian.
    more, less = (wb.play(moved(hit, name, sign * step), iron) for sign in (1, -1))
    for of, at in (("carry", lambda s: s.carry), ("offline", lambda s: s.offline)):
        assert told[of, name] == pytest.approx((at(more) - at(less)) / (2 * step), rel=1e-4, abs=1e-2)


def test_weather_wind_ground_and_ball_have_slopes(iron, hit):
    def carry(weather=wb.Weather(), wind=wb.Wind(5.0, 1.0), height=2.0, mass=0.0459):  # noqa: B008
        ball = wb.Ball(mass=mass, inertia=8.3e-6)
        return wb.play(hit, iron, weather=weather, wind=wind, terrain=wb.Terrain(height=height), ball=ball).carry

    told = wb.sensitivity(hit, iron, of="carry", wind=wb.Wind(5.0, 1.0), terrain=wb.Terrain(height=2.0),
                          ball=wb.Ball(mass=0.0459, inertia=8.3e-6),
                          by=["temperature", "altitude", "wind_speed", "wind_from", "rise",
                              "ball_mass"])  # fmt: skip
    at = {
        "temperature": (carry(wb.Weather(celsius(16))) - carry(wb.Weather(celsius(14)))) / 2,
        "wind_speed": (carry(wind=wb.Wind(5.01, 1.0)) - carry(wind=wb.Wind(4.99, 1.0))) / 0.02,
        "wind_from": (carry(wind=wb.Wind(5.0, 1.001)) - carry(wind=wb.Wind(5.0, 0.999))) / 0.002,
        "rise": (carry(height=2.01) - carry(height=1.99)) / 0.02,
        "ball_mass": (carry(mass=0.04591) - carry(mass=0.04589)) / 2e-5,
        "altitude": (carry(wb.Weather(altitude=1.0)) - carry(wb.Weather(altitude=-1.0))) / 2,
    }
    for name, difference in at.items():
        assert told["carry", name] == pytest.approx(difference, rel=1e-4), name


def test_altitude_moves_the_temperature_only_where_none_is_given():
    launch = wb.Launch(60.0, 14 * deg, spin_rate=450.0)

    def slope(weather):
        return wb.sensitivity(launch, of="carry", by="altitude", weather=weather)["carry", "altitude"]

    def difference(at):
        return (wb.play(launch, weather=at(1001.0)).carry - wb.play(launch, weather=at(999.0)).carry) / 2

    for at in (lambda h: wb.Weather(altitude=h), lambda h: wb.Weather(celsius(20), altitude=h)):
        assert slope(at(1000.0)) == pytest.approx(difference(at), rel=1e-4)


def test_arrays_give_each_shot_its_own_slopes(hit, iron):
    lofts = np.array([[20.0, 24.0], [28.0, 32.0]]) * deg
    many = wb.sensitivity(
        wb.Delivery(37.0, dynamic_loft=lofts), iron, of="carry", by=["dynamic_loft", "face_angle"]
    )
    assert many.shape == many["carry", "dynamic_loft"].shape == (2, 2)
    for place in np.ndindex(2, 2):
        one = wb.sensitivity(wb.Delivery(37.0, dynamic_loft=lofts[place]), iron, of="carry", by="dynamic_loft")
        assert many["carry", "dynamic_loft"][place] == one["carry", "dynamic_loft"]
    frame = many.to_frame()
    assert frame.shape == (8, 1) and list(frame.columns) == ["carry_yd"]


def test_slopes_do_not_depend_on_threads_or_on_what_else_is_asked(hit, iron):
    starts = wb.Delivery(np.linspace(30, 45, 130), dynamic_loft=24 * deg)
    one, two = (wb.sensitivity(starts, iron, of="carry", by="face_angle", threads=n) for n in (1, 2))
    np.testing.assert_array_equal(one["carry", "face_angle"], two["carry", "face_angle"])
    alone = wb.sensitivity(hit, iron, of="carry", by="rise")["carry", "rise"]
    assert wb.sensitivity(hit, iron)["carry", "rise"] == pytest.approx(alone, rel=1e-12)


def test_trade_units_are_factors(told):
    assert told.in_units("carry", "face_angle") == pytest.approx(told["carry", "face_angle"] * deg / yd)
    assert told.in_units("carry", "strike_toe", "metric") == pytest.approx(told["carry", "strike_toe"] * mm)
    assert told.of_a_step("spin_rate", "clubhead_speed") == pytest.approx(
        told["spin_rate", "clubhead_speed"] * mph / wb.units.rpm
    )


def test_an_unknown_name_is_refused_by_every_reading(told):
    for of, by in (("cary", "face_angle"), ("carry", "ball_speed"), ("total", "wind")):
        for read in (told.value, told.in_units, told.of_a_step):
            with pytest.raises(wb.InputError, match="here; "):
                read(of, by)
    with pytest.raises(wb.InputError, match="not a known input here"):
        told.step("fase_angle")


def test_a_mirrored_swing_has_the_mirrored_slopes(hit, iron):
    mirrored = wb.Delivery(hit.clubhead_speed, -hit.club_path, hit.attack_angle, -hit.face_angle, hit.dynamic_loft)
    right, left = wb.sensitivity(hit, iron), wb.sensitivity(mirrored, iron.left_handed())
    assert left["carry", "face_angle"] == pytest.approx(-right["carry", "face_angle"], rel=1e-9)
    assert left["offline", "face_angle"] == pytest.approx(right["offline", "face_angle"], rel=1e-9)


def test_a_shot_is_asked_as_it_was_played(hit, iron):
    shot = wb.play(hit, iron, wind=wb.Wind.head(4.0), weather=wb.Weather(altitude=500.0))
    told = wb.sensitivity(shot, of="carry", by=["density", "face_angle"])
    assert told.results["carry"] == pytest.approx(shot.carry, rel=1e-8)
    assert told["carry", "density"] < 0


@pytest.mark.parametrize(
    "beside",
    [
        {"club": wb.clubs["driver"]},
        {"ball": wb.Ball()},
        {"weather": wb.Weather()},
        {"wind": wb.Wind.head(3.0)},
        {"terrain": wb.Terrain()},
        {"turf": wb.Turf()},
        {"impact": "compliant"},
    ],
)
def test_nothing_goes_beside_a_shot(hit, iron, beside):
    shot = wb.play(hit, iron, impact="rigid")
    with pytest.raises(wb.InputError, match=f"{next(iter(beside))}: a shot already has its conditions"):
        wb.sensitivity(shot, of="carry", **beside)


@pytest.mark.parametrize("start", [wb.Delivery(40.0, dynamic_loft=0.3), wb.Launch(60.0, 0.2)])
@pytest.mark.parametrize("weather", [wb.Weather(), wb.setting.Air()])
def test_inputs_are_the_axes_of_a_sweep_in_the_order_of_the_compiled_half(start, weather):
    named = inputs_of(start, weather)
    fields = [(axis.field, axis.unit) for name, axis in named.items() if name != "altitude"]
    compiled = _core.sensitivity_inputs(isinstance(start, wb.Launch), isinstance(weather, wb.Weather))
    for (field, unit), (name, si) in zip(fields, compiled, strict=True):
        assert name.endswith(field) and unit == si
    if isinstance(weather, wb.Weather):
        swept = {name: axis for name, axis in axes_of(type(start)).items() if axis.owner != "green"}
        assert named == swept


def test_a_ball_that_never_leaves_the_ground_has_a_flat_carry_and_says_so():
    told = wb.sensitivity(wb.Launch(40.0, -5 * deg, spin_rate=100.0), of=["carry", "total"], by="ball_speed")
    assert told.status == "not_airborne" and told["carry", "ball_speed"] == 0.0 < told["total", "ball_speed"]
    assert told.notes() == ["the ball never left the ground: a carry of 0, and it stays so."]


def test_without_a_landing_carry_has_no_slopes_and_the_launch_has_its_own():
    told = wb.sensitivity(wb.Launch(40.0, 20 * deg, spin_rate=100.0), of=["carry", "total", "ball_speed"],
                          by="ball_speed", terrain=wb.Terrain(height=60.0))  # fmt: skip
    assert told.status == "no_landing" and told["ball_speed", "ball_speed"] == 1.0
    assert np.isnan(told["carry", "ball_speed"]) and np.isnan(told["total", "ball_speed"])
    assert "no number, no slopes" in told.notes()[0]


def test_where_sticking_goes_over_to_sliding_slopes_jump_and_the_kink_is_told(iron):
    # The edge lies between the middle two lofts: their slopes are apart by far more than those of one side.
    lofts = np.array([10.8, 11.0510, 11.0512, 11.0522, 11.3]) * deg
    swings = wb.Delivery(84 * mph, attack_angle=-4 * deg, dynamic_loft=lofts)
    told = wb.sensitivity(swings, iron, of=["spin_rate", "slip_time"], by="dynamic_loft")
    assert told.kinks["contact"].tolist() == [False, True, True, True, False]
    for of in told.of:
        _, before, last, after, _ = told[of, "dynamic_loft"]
        assert abs(after - last) > 20 * abs(last - before)
    assert "one more, or one less, phase of sliding" in told.notes()[0]
    assert not wb.sensitivity(swings, iron, of="carry", by="wind_speed").kinks["contact"].any()  # moves no contact


def test_where_a_run_changes_its_number_of_hops_its_place_of_rest_and_slopes_go_on():
    launches = wb.Launch(np.linspace(45.0, 70.0, 2001), 14 * deg, spin_rate=450.0)
    told = wb.sensitivity(launches, of="total", by="ball_speed")
    slopes, totals = told["total", "ball_speed"], told.results["total"]
    edges = np.flatnonzero(np.diff(wb.play(launches, accuracy="reference").run.bounces))
    assert len(edges) > 0
    assert (abs(np.diff(totals))[edges] < 0.0125 * 1.5 * abs(slopes[edges]) + 1e-3).all()
    assert (abs(np.diff(slopes))[edges] < 0.02 * abs(slopes[edges])).all()


def test_over_level_ground_in_a_sheared_wind_slopes_by_the_ground_hold_to_one_side_and_say_so():
    start, by = wb.Launch(60.0, 14 * deg, spin_rate=450.0), ["rise", "ball_speed"]

    def kink(wind, by=by, height=0.0):
        return wb.sensitivity(start, of="carry", by=by, wind=wind, terrain=wb.Terrain(height=height))

    told = kink(wb.Wind(10.0))
    carries = [wb.fly(start, wind=wb.Wind(10.0), terrain=wb.Terrain(height=h)).carry for h in (-0.01, 0.0, 0.01)]
    below, above = np.diff(carries) / 0.01
    assert abs(above - below) > 0.01  # m a metre: a kink, as flights are within 1e-6 m
    assert told.kinks["ground"] and "level with the tee" in told.notes()[0]
    assert "slopes by the ground's rise and slope differ" in told.notes()[0]
    for smooth in (
        kink(wb.Wind()),
        kink(wb.Wind(10.0, profile="uniform")),
        kink(wb.Wind(10.0), by="ball_speed"),
        kink(wb.Wind(10.0), height=-2.0),
    ):
        assert not smooth.kinks["ground"] and smooth.notes() == []


def test_a_bad_row_is_named_or_masked():
    start = wb.Launch([60.0, -1.0, np.nan], 14 * deg, spin_rate=450.0)
    with pytest.raises(wb.InputError, match=r"row 1: ball_speed is -1 m/s"):
        wb.sensitivity(start)
    told = wb.sensitivity(start, of="carry", by="ball_speed", errors="mask")
    assert list(told.status) == ["ok", "bad_input", "bad_input"] and set(told.mistakes) == {1, 2}
    assert np.isfinite(told["carry", "ball_speed"]).tolist() == [True, False, False]


@pytest.mark.parametrize(
    "asked, says",
    [
        ({"of": "cary"}, "'cary' is not a known result here; nearest: carry"),
        ({"of": "bounces"}, "'bounces' is not a known result"),
        ({"of": "carry_yd"}, "'carry_yd' has a unit in its name: give carry, in SI"),
        ({"of": "moon"}, "'moon' is not a known result here; there are: smash_factor"),
        ({"of": [3]}, "3 is not the name of a result"),
        ({"by": "ball_speed"}, "'ball_speed' is not a known input here; nearest: .*clubhead_speed"),
        ({"by": "stimp"}, "'stimp' is not a known input"),
        ({"threads": -1}, "threads is -1; accepted: 0"),
        ({"threads": 1.5}, "threads is 1.5; accepted: 0"),
        ({"by": "altitude", "weather": wb.Weather(pressure=1e5)}, "'altitude' is not a known input"),
        ({"of": []}, "name one result"),
        ({"terrain": wb.Terrain(surface=lambda x, y: 0.0)}, "plane ground"),
        ({"weather": wb.Weather(altitude=20_000.0)}, "altitude is 20000 m"),
    ],
)
def test_what_cannot_be_asked_is_named(hit, iron, asked, says):
    with pytest.raises(wb.InputError, match=says):
        wb.sensitivity(hit, iron, **asked)


def test_starts_and_clubs_go_together(hit, iron):
    with pytest.raises(wb.InputError, match="needs a club"):
        wb.sensitivity(hit)
    with pytest.raises(wb.InputError, match="takes no club"):
        wb.sensitivity(wb.Launch(60.0, 0.2), iron)
    with pytest.raises(wb.InputError, match="not from a landing"):
        wb.sensitivity(wb.play(wb.Landing(20.0, 0.8)))


def test_words_tables_and_pictures_say_the_same(told):
    assert "face angle" in str(told) and f"{told.of_a_step('carry', 'face_angle'):+.2f}" in str(told)
    assert "<table>" in told._repr_html_()
    frame = told.to_frame()
    assert frame.loc["face_angle_deg", "carry_yd"] == told.in_units("carry", "face_angle")
    ax = told.plot("offline")
    widths = {label.get_text().split(" +")[0]: bar.get_width() for label, bar in
              zip(ax.get_yticklabels(), ax.patches, strict=True)}  # fmt: skip
    assert widths["face angle"] == pytest.approx(told.of_a_step("offline", "face_angle"))


# Sobol indices


def test_a_straight_line_s_indices_are_its_local_shares():
    # Offline over small spreads of face and path is a straight line: three indices agree within their doubt.
    hit = wb.Delivery(40.0, dynamic_loft=20 * deg)
    told = wb.global_sensitivity(hit, wb.clubs["7 iron"], spread={"face_angle": 0.5 * deg, "club_path": 0.5 * deg},
                                 of="offline", samples=512)  # fmt: skip
    assert sum(i.local for i in told.indices) == pytest.approx(1.0)
    for index in told.indices:
        assert index.first == pytest.approx(index.local, abs=index.first_doubt + 0.02)
        assert index.total == pytest.approx(index.local, abs=index.total_doubt + 0.02)
    assert told.notes() == []


def test_an_optimum_has_no_slope_but_a_large_index_and_words_say_so():
    # A square face is the best for carry: its slope is nought there, and yet its spread is what costs carry.
    hit = wb.Delivery(45.0, dynamic_loft=15 * deg)
    told = wb.global_sensitivity(hit, wb.clubs["driver"], spread={"face_angle": 4 * deg, "clubhead_speed": 0.1},
                                 of="carry", samples=256)  # fmt: skip
    face = told["face_angle"]
    assert face.local < 1e-6 and face.total > 0.9 and face.bends
    assert "as at an optimum" in " ".join(told.notes())


def test_the_seed_decides_the_samples(hit, iron):
    spread = {"face_angle": (-2 * deg, 2 * deg), "wind_speed": (0.0, 5.0)}
    one, again = (wb.global_sensitivity(hit, iron, spread=spread, samples=64, seed=3) for _ in range(2))
    assert one == again and one.samples == 64 * 4
    assert list(one.to_frame().index) == [i.name for i in one.indices]
    assert one.plot().get_title(loc="left") == "What makes carry spread"


def test_a_range_may_be_a_list_and_shots_may_fly_by_the_reference(hit, iron):
    spread = {"rise": (-2.0, 2.0), "wind_from": 0.1}
    how = {"samples": 32, "wind": wb.Wind.head(4.0)}
    one = wb.global_sensitivity(hit, iron, spread=spread, **how)
    listed = wb.global_sensitivity(hit, iron, spread={**spread, "rise": [-2.0, 2.0]}, **how)
    exact = wb.global_sensitivity(hit, iron, spread=spread, accuracy="reference", **how)
    assert listed == one and exact["rise"].total == pytest.approx(one["rise"].total, abs=1e-3)


def test_air_spreads_by_its_own_numbers(hit, iron):
    told = wb.global_sensitivity(hit, iron, spread={"density": (1.1, 1.3), "viscosity": 1e-8},
                                 weather=wb.setting.Air(), samples=32)  # fmt: skip
    assert told["density"].first > 0.9


def test_the_table_says_what_a_range_s_deviation_and_the_doubt_are(hit, iron):
    told = wb.global_sensitivity(hit, iron, spread={"rise": (-3.0, 3.0), "face_angle": 1 * deg}, samples=32)
    assert told["rise"].spread == pytest.approx(6.0 / 12**0.5)
    assert "SD of the input" in str(told).splitlines()[1]
    for words in (str(told), told._repr_html_()):
        assert "±: half the width of the 95 % interval" in words


def test_no_index_starts_from_a_shot(shot):
    with pytest.raises(wb.InputError, match="takes a Delivery or a Launch, not Shot"):
        wb.global_sensitivity(shot, **TWO)


TWO = {"spread": {"face_angle": 0.01, "club_path": 0.01}}


@pytest.mark.parametrize(
    "asked, says",
    [
        ({"spread": {"face_angle": 0.01}}, "two inputs"),
        ({"spread": {"face_angle": 0.01, "club_path": -1.0}}, "above 0"),
        ({"spread": {"face_angle": 0.01, "club_path": (1.0, 0.0)}}, "lower end"),
        ({"spread": {"face_angle": 0.01, "strike_toe": (-0.09, 0.09)}}, "cannot be played: .*missed the face"),
        ({"spread": {"face_angle": 0.01, "club_path": (1.0, 2.0, 3.0)}}, "spread of club_path is .*two ends"),
        ({"spread": {"face_angle": 0.01, "club_path": "0.5"}}, "spread of club_path: '0.5' is not a number"),
        ({"spread": {"face_angle": 0.01, "club_path": "wide"}}, "spread of club_path: 'wide' is not a number"),
        ({"spread": {"face_angle": 0.01, "club_path": np.nan}}, "spread of club_path is nan"),
        ({"spread": ["face_angle", "club_path"]}, "spread needs two inputs"),
        ({**TWO, "samples": 100}, "power of two"),
        ({**TWO, "samples": 4.0}, "samples is 4.0; it takes a power of two"),
        ({**TWO, "seed": -1}, "seed is -1; accepted: a whole number from 1"),
        ({**TWO, "seed": 0.5}, "seed is 0.5; accepted: a whole number from 1"),
        ({**TWO, "of": ["carry"]}, r"of is \['carry'\]; it takes the name of one result"),
        ({**TWO, "errors": "mask"}, "errors: leave it out"),
        ({**TWO, "accuracy": "best"}, "accuracy is 'best'"),
        (
            {"spread": {"pressure": 100.0, "face_angle": 0.01}, "weather": wb.Weather(altitude=500.0)},
            "its altitude",
        ),
    ],
)
def test_spreads_that_cannot_be_drawn_are_named(hit, iron, asked, says):
    with pytest.raises(wb.InputError, match=says):
        wb.global_sensitivity(hit, iron, **{"samples": 64, **asked})
