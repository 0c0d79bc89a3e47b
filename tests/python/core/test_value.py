"""What all value types share."""

import pickle
from copy import copy, deepcopy
from dataclasses import FrozenInstanceError, fields, replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel import _core
from whimbrel.core.value import as_numbers, columns_of, common_shape, from_table, table_of
from whimbrel.row.flight import Flight
from whimbrel.row.impact import Impact
from whimbrel.row.swing import DPlane

OF_CORE = [
    wb.setting.Air,
    wb.Ball,
    wb.Club,
    wb.aero.ConstantCoefficients,
    DPlane,
    wb.Delivery,
    Flight,
    Impact,
    wb.Launch,
    wb.aero.MultiLayer,
    wb.aero.SmitsSmith,
    wb.aero.SquareRootLift,
    wb.Terrain,
    wb.Wind,
]


@pytest.mark.parametrize("kind", OF_CORE, ids=lambda kind: kind.__name__)
def test_the_numbers_of_a_value_are_those_of_its_compiled_type(kind):
    compiled = [name.split()[-1] for name, *_ in _core.fields[kind.__name__]]
    numbers = [f.name for f in fields(kind) if f.name in compiled]
    assert set(numbers) == set(compiled)
    assert list(kind._columns) == compiled


@pytest.mark.parametrize("kind", OF_CORE, ids=lambda kind: kind.__name__)
def test_the_docstring_of_a_value_names_every_field(kind):
    described = kind.__doc__ + (wb.aero.MultiLayer.__doc__ if issubclass(kind, wb.aero.AeroModel) else "")
    for f in fields(kind):
        if not f.name.startswith("_"):
            assert f.name in described, f.name


@pytest.mark.parametrize(
    "kind",
    [k for k in OF_CORE if k not in (wb.Club, DPlane, wb.Delivery, Flight, Impact, wb.Launch)],
    ids=lambda kind: kind.__name__,
)
def test_the_defaults_of_a_value_lie_in_the_compiled_ranges(kind):
    value = kind()
    for name, _, lower, upper in _core.fields[kind.__name__]:
        assert lower <= getattr(value, name.split()[-1]) <= upper, name


def test_the_default_air_is_that_of_the_default_weather():
    made, default = wb.setting.air(wb.Weather()), wb.setting.Air()
    assert default.density == pytest.approx(made.density, rel=1e-7)
    assert default.viscosity == pytest.approx(made.viscosity, rel=1e-5)


def test_numbers_broadcast_to_a_common_shape():
    launch = wb.Launch(np.full((3, 1), 60.0), np.full(4, 0.2))
    assert launch.shape == (3, 4)
    assert wb.Launch(60.0, 0.2).shape == ()
    assert common_shape([launch, wb.setting.Air()]) == (3, 4)
    assert table_of(launch, (3, 4)).shape == (12, 6)
    assert table_of(wb.setting.Air(), (3, 4)).shape == (1, 2)


def test_shapes_that_do_not_broadcast_are_named():
    with pytest.raises(wb.InputError) as error:
        common_shape([wb.Launch(np.ones(3), np.ones(3)), wb.Wind(np.ones(4))])
    for words in ("do not broadcast", "Launch.ball_speed (3,)", "Wind.speed (4,)"):
        assert words in str(error.value)


def test_shapes_inside_one_value_that_do_not_broadcast_are_named():
    with pytest.raises(wb.InputError, match=r"ball_speed \(3,\).*launch_angle \(2,\)"):
        wb.fly(wb.Launch(np.ones(3), np.ones(2)))


@pytest.mark.parametrize("bad", ["fast", object(), ["a", "b"], [[1.0], [1.0, 2.0]]], ids=repr)
def test_what_is_no_number_is_refused_by_name(bad):
    with pytest.raises(wb.InputError, match="ball_speed"):
        wb.fly(wb.Launch(bad, 0.2))


def test_lists_and_integers_count_as_numbers():
    assert as_numbers([1, 2], "x").dtype == np.float64
    assert wb.fly(wb.Launch([50, 60], 0.2)).carry.shape == (2,)


def test_values_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        wb.Launch(60.0, 0.2).ball_speed = 50.0


def test_a_repr_shows_metric_and_trade_units():
    assert repr(wb.Launch(60.0, 0.2)).startswith("Launch(ball_speed=60.0 m/s (134.2 mph), launch_angle=11.5°")
    assert "shape (3,)" in repr(wb.Launch(np.ones(3), 0.2))
    assert "temperature=None" in repr(wb.Weather())


def test_a_notebook_shows_an_escaped_table():
    page = wb.Club("<7>", 0.5, 1.0, 0.9, 0.27)._repr_html_()
    assert page.startswith("<table>") and page.endswith("</table>")
    assert "&lt;7&gt;" in page and "<7>" not in page
    assert "lie angle" in page


def test_every_accepted_range_of_the_compiled_types_is_a_range():
    for kind, rows in _core.fields.items():
        assert list(columns_of(kind)) == [row[0].split()[-1] for row in rows]
        for name, _, lower, upper in rows:
            assert lower < upper, (kind, name)


NUMBERS = np.array([[60.0, 0.2, 0.1, 500.0, 0.3, 2.0], [61.0, 0.3, 0.2, 510.0, 0.4, 3.0]])


def computed():
    """Two launches as the compiled half gives them."""
    return from_table(wb.Launch, NUMBERS.copy(), (2,))


@pytest.mark.parametrize(
    "again",
    [copy, deepcopy, replace, lambda x: pickle.loads(pickle.dumps(x))],
    ids=["copy", "deep", "replace", "pickle"],
)
def test_a_result_whose_numbers_nobody_has_read_is_copied_with_all_of_them(again):
    other = again(computed())
    assert np.array_equal(np.stack([getattr(other, name) for name in columns_of("Launch")], axis=1), NUMBERS)
    assert other.shape == (2,) and not other.spin_axis_tilt.flags.writeable


def test_a_result_has_its_own_numbers_and_not_the_defaults_of_its_kind():
    assert wb.Launch.launch_direction == 0.0
    assert computed().launch_direction.tolist() == [0.1, 0.2]
    assert not hasattr(wb.Launch, "ball_speed")


def test_one_result_is_unpacked_to_plain_numbers_and_is_equal_to_the_same_given():
    one = from_table(wb.Launch, NUMBERS[:1].copy(), ())
    assert one == wb.Launch(*NUMBERS[0].tolist())
    assert type(one.spin_rate) is float and one.shape == ()


def test_a_result_that_is_played_on_is_not_packed_again():
    launches = computed()
    assert np.shares_memory(table_of(launches, (2,)), launches.ball_speed)
