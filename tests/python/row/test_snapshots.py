"""A shot is a snapshot: what is done to the caller's arrays does not reach it, and nobody writes to results."""

import copy
import pickle
from dataclasses import fields, is_dataclass, replace

import numpy as np
import pytest

import whimbrel as wb

IRON = wb.clubs["7 iron"]


def arrays_in(x):
    """Every array of a result, by the way to it."""
    if isinstance(x, np.ndarray):
        yield x
    elif isinstance(x, dict):
        for y in x.values():
            yield from arrays_in(y)
    elif is_dataclass(x):
        for field in fields(x):
            yield from arrays_in(getattr(x, field.name))


def some_shots(accuracy="fast"):
    given = {name: np.array(x) for name, x in {
        "speed": [36.0, 37.0, 38.0], "loft": [0.40, 0.42, 0.44], "wind": [0.0, 3.0, 6.0],
        "density": [1.1, 1.2, 1.25], "mass": [0.0455, 0.0459, 0.0459],
        "height": [0.0, 1.0, -1.0], "friction": [0.4, 0.5, 0.3],
    }.items()}  # fmt: skip
    shot = wb.play(
        wb.Delivery(given["speed"], dynamic_loft=given["loft"]), IRON, wind=wb.Wind(given["wind"]),
        weather=wb.setting.Air(given["density"]), ball=wb.Ball(given["mass"]),
        terrain=wb.Terrain(height=given["height"]), turf=wb.Turf("own", friction=given["friction"]),
        accuracy=accuracy,
    )  # fmt: skip
    return given, shot


@pytest.mark.parametrize("accuracy", ["fast", "reference"])
def test_arrays_refilled_after_play_leave_the_run_the_positions_and_the_words_as_they_were(accuracy):
    _, untouched = some_shots(accuracy)
    given, shot = some_shots(accuracy)
    for x in given.values():
        x[:] = x[::-1].copy() * 1.02
    assert np.array_equal(shot.total, untouched.total)
    assert np.array_equal(shot.flight.position_at([1.0, 2.0]), untouched.flight.position_at([1.0, 2.0]))
    assert np.array_equal(shot.run.position_at(1.0), untouched.run.position_at(1.0))
    assert repr(shot) == repr(untouched)
    again = wb.sensitivity(shot, of="carry", by="wind_speed")
    assert np.array_equal(
        again["carry", "wind_speed"], wb.sensitivity(untouched, of="carry", by="wind_speed")["carry", "wind_speed"]
    )


def test_a_table_of_coefficients_keeps_its_own_numbers():
    drag = np.full((2, 2), 0.25)
    table = wb.aero.AeroTable(np.array([0.0, 0.5]), np.array([5e4, 2e5]), drag, np.full((2, 2), 0.15))
    drag[:] = 0.9
    assert np.all(table.drag == 0.25)


def test_no_array_of_a_result_can_be_written_to():
    launch = wb.Launch(np.array([50.0, 60.0]), 0.2, spin_rate=300.0)
    _, shot = some_shots()
    results = [
        shot, shot.run, shot.out_of_range, wb.strike(shot.delivery, IRON), wb.d_plane(shot.delivery),
        wb.sensitivity(launch, of="carry", by="ball_speed"),
        wb.setting.air(wb.Weather(altitude=np.array([0.0, 100.0]))),
        wb.level_distance(launch, distance=100.0), wb.conditions.carry_by_wind(wb.usual_bag(), speed=[0.0, 3.0]),
        wb.green(np.array([3.0, 3.5])),
    ]  # fmt: skip
    for result in results:
        found = list(arrays_in(result))
        assert found
        assert not any(x.flags.writeable for x in found), type(result)


def test_what_was_given_stays_the_callers_to_write_to():
    given, shot = some_shots()
    assert all(x.flags.writeable for x in given.values())
    assert not np.shares_memory(shot.delivery.clubhead_speed, given["speed"])


def test_the_librarys_own_arrays_are_not_copied_again():
    launch = wb.Launch(np.array([50.0, 60.0]), 0.2, spin_rate=300.0)
    assert replace(launch, launch_angle=0.3).ball_speed is launch.ball_speed
    shot = wb.play(launch)
    assert (
        wb.Landing(shot.flight.landing_speed, shot.flight.descent_angle).landing_speed is shot.flight.landing_speed
    )


def test_a_read_only_view_of_a_writeable_array_is_copied():
    mine = np.array([50.0, 60.0])
    view = mine.view()
    view.flags.writeable = False
    launch = wb.Launch(view, np.broadcast_to(mine[:1], (2,)), spin_rate=300.0)
    mine[:] = 1.0
    assert launch.ball_speed.tolist() == [50.0, 60.0] and launch.launch_angle.tolist() == [50.0, 50.0]


def test_what_repeats_is_kept_once():
    wide = wb.Launch(np.broadcast_to(np.float64(60.0), (10**12,)), 0.2)
    assert wide.shape == (10**12,)


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda x: pickle.loads(pickle.dumps(x)), replace])
def test_copies_are_the_same_shots_and_read_only(again):
    _, shot = some_shots()
    for value in (shot.delivery, shot.ball, shot.flight):
        other = again(value)
        assert not any(x.flags.writeable for x in arrays_in(other))
        for name, x in value._numbers().items():
            assert np.array_equal(other._numbers()[name], x)
    assert np.array_equal(again(shot).total, shot.total)
