"""Numbers that wear a unit: as text, as column names, and as a person reads them."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.core import quantity as q
from whimbrel.units import deg, mph, rpm, yd


@pytest.mark.parametrize(
    ("text", "si", "expected"),
    [
        ("84mph", "m/s", 84 * mph),
        ("84 mph", "m/s", 84 * mph),
        ("-6deg", "rad", -6 * deg),
        ("−6°", "rad", -6 * deg),
        ("+.5rad", "rad", 0.5),
        ("7e3rpm", "rad/s", 7000 * rpm),
        ("12C", "K", 285.15),
        ("59°F", "K", 288.15),
        ("60%", "1", 0.6),
        ("0.6", "1", 0.6),
        ("30.00inHg", "Pa", 101591.65921),
        ('45.5"', "m", 45.5 * 0.0254),
        ("3ft", "m", 0.9144),
    ],
)
def test_text_with_a_unit_is_read(text, si, expected):
    assert q.parse(text, si, "x") == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("unit", [u for u in q.UNITS if u.symbol], ids=lambda u: u.symbol)
def test_every_unit_is_read_and_comes_back(unit):
    assert unit.from_si(q.parse(f"12.5{unit.symbol}", unit.si, "x")) == pytest.approx(12.5, rel=1e-13)


@pytest.mark.parametrize(
    ("text", "si", "says"),
    [
        ("84", "m/s", ["--speed", "a bare number needs a unit", "84m/s", "mph"]),
        ("84yd", "m/s", ["--speed", "'yd' is not its unit", "mph"]),
        ("fast", "m/s", ["--speed", "'fast' is not a number", "mph"]),
        ("", "m/s", ["--speed", "is not a number"]),
        ("nan", "rad", ["--speed", "is not a number"]),
        ("inf mph", "m/s", ["--speed", "is not a number"]),
        ("84 miles per hour", "m/s", ["--speed", "is not a number"]),
        ("0x10mph", "m/s", ["--speed", "'x10mph' is not its unit"]),
    ],
)
def test_text_without_a_fitting_unit_is_refused_with_an_example(text, si, says):
    with pytest.raises(wb.InputError) as error:
        q.parse(text, si, "--speed")
    for words in says:
        assert words in str(error.value)


FIELDS = {"clubhead_speed": "m/s", "spin_rate": "rad/s", "spin_rate_decay": "1", "humidity": "1"}


@pytest.mark.parametrize(
    ("name", "field", "symbol"),
    [
        ("clubhead_speed_mph", "clubhead_speed", "mph"),
        ("clubhead_speed_mps", "clubhead_speed", "m/s"),
        ("spin_rate_radps", "spin_rate", "rad/s"),
        ("spin_rate_decay", "spin_rate_decay", ""),
        ("humidity_pct", "humidity", "%"),
        ("humidity", "humidity", ""),
    ],
)
def test_a_column_says_its_field_and_unit(name, field, symbol):
    found = q.column(name, FIELDS)
    assert found is not None
    assert (found[0], found[1].symbol) == (field, symbol)


def test_a_column_that_is_no_field_is_none():
    assert q.column("player", FIELDS) is None
    assert q.column("spin", FIELDS) is None


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("clubhead_speed", ["'clubhead_speed' has no unit", "clubhead_speed_mph"]),
        ("clubhead_speed_deg", ["ends with 'deg'", "clubhead_speed_mph"]),
        ("spin_rate_hz", ["ends with 'hz'", "spin_rate_rpm"]),
    ],
)
def test_a_column_with_a_wrong_or_missing_unit_is_refused(name, says):
    with pytest.raises(wb.InputError) as error:
        q.column(name, FIELDS)
    for words in says:
        assert words in str(error.value)


def test_columns_are_assigned_to_their_fields():
    found = q.assign(["player", "spin_rate_rpm", "humidity_pct"], FIELDS)
    assert {field: name for field, (name, _) in found.items()} == {
        "spin_rate": "spin_rate_rpm",
        "humidity": "humidity_pct",
    }


def test_two_columns_for_one_field_are_refused_by_name():
    with pytest.raises(wb.InputError, match="'spin_rate_rpm' and 'spin_rate_radps' both give spin_rate"):
        q.assign(["spin_rate_rpm", "spin_rate_radps"], FIELDS)


def test_a_number_is_shown_as_the_trade_reads_it():
    assert q.text(84 * mph, "clubhead_speed", "m/s") == "84.0 mph"
    assert q.text(84 * mph, "clubhead_speed", "m/s", "metric") == "37.6 m/s"
    assert q.text(-6 * deg, "attack_angle", "rad") == "−6.0°"
    assert q.text(7000 * rpm, "spin_rate", "rad/s") == "7,000 rpm"
    assert q.text(150 * yd, "carry", "m") == "150.0 yd"
    assert q.text(0.94, "length", "m") == "37.01 in"
    assert q.text(float("nan"), "carry", "m") == "–"


def test_an_array_is_shown_by_its_span_and_shape():
    words = q.reading(np.array([[1.0, 2.0, np.nan]]) * yd, "carry", "m")
    assert words == "1.0 yd to 2.0 yd, shape (1, 3)"
    assert q.reading(np.array([np.nan]), "carry", "m") == "no numbers, shape (1,)"


def test_a_ball_is_not_measured_in_yards():
    assert (
        q.display_unit("ball_radius", "m", "yards") == q.display_unit("radius", "m", "yards") == q.BY_SYMBOL["cm"]
    )


@pytest.mark.parametrize(
    ("x", "name", "si", "zero", "text", "with_sign"),
    [
        (0.04 * yd, "carry", "m", True, "0.0 yd", "0.0 yd"),
        (-0.04 * yd, "carry", "m", True, "0.0 yd", "0.0 yd"),
        (0.06 * yd, "carry", "m", False, "0.1 yd", "+0.1 yd"),
        (-1234.56 * yd, "carry", "m", False, "−1,234.6 yd", "−1,234.6 yd"),
        (0.04 * deg, "face_angle", "rad", True, "0.0°", "0.0°"),
        (2 * deg, "face_angle", "rad", False, "2.0°", "+2.0°"),
        (0.004 * 0.0254, "low_point_ahead", "m", True, "0.00 in", "0.00 in"),
        (0.006 * 0.0254, "low_point_ahead", "m", False, "0.01 in", "+0.01 in"),
        (0.6, "face_wetness", "1", False, "60 %", "+60 %"),
        (float("nan"), "carry", "m", False, "–", "–"),
    ],
)
def test_a_number_is_rounded_once_and_its_sign_and_zero_are_those_of_its_text(x, name, si, zero, text, with_sign):
    told = q.said(x, name, si)
    assert (told.is_zero, told.text, told.with_sign, q.text(x, name, si)) == (zero, text, with_sign, text)
    assert told.text.startswith(told.bare)


def test_a_difference_of_temperatures_has_no_zero_of_a_scale():
    assert q.said_difference(10.0, "temperature", "K", "metric").text == "10.0 °C"
    assert q.said(283.15, "temperature", "K", "metric").text == "10.0 °C"


@pytest.mark.parametrize(
    ("share", "decimals", "text"), [(0.125, 1, "12.5 %"), (-0.3, 0, "−30 %"), (-1e-9, 0, "0 %")]
)
def test_a_share_is_told_in_percent_with_a_space_and_a_minus(share, decimals, text):
    assert q.percent(share, decimals) == text


@pytest.mark.parametrize(("n", "text"), [(0, "0 rows"), (1, "1 row"), (2, "2 rows"), (1200, "1,200 rows")])
def test_one_is_not_counted_in_the_plural(n, text):
    assert q.counted(n, "row") == text
    assert q.counted(n, "row", ("is", "are")) == f"{text} {'is' if n == 1 else 'are'}"


@pytest.mark.parametrize(
    ("text", "si", "span", "says"),
    [
        ("40ft", "m", (1.0, 6.0), "stimp is 40 ft; accepted: 3.281 ft to 19.69 ft"),
        ("12.5 m", "m", (1.0, 6.0), "stimp is 12.5 m; accepted: 1 m to 6 m"),
        ("−3", "1", (0.0, 1.0), "stimp is −3; accepted: 0 to 1"),
        ("5mm", "m", (0.1, np.inf), "stimp is 5 mm; accepted: 100 mm or more"),
        ("300F", "K", (213.15, 333.15), "stimp is 300 F; accepted: -76 F to 140 F"),
    ],
)
def test_a_number_outside_its_range_is_told_as_it_was_written(text, si, span, says):
    with pytest.raises(wb.InputError) as error:
        q.read(text, si, "--stimp").check("stimp", *span)
    assert str(error.value) == says


def test_a_number_at_the_end_of_its_range_is_within():
    assert q.read("6m", "m", "x").check("x", 1.0, 6.0) == 6.0 and q.read("1m", "m", "x").check("x", 1.0, 6.0) == 1.0
