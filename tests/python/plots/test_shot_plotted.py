"""Pictures: they draw on the axes given, label with units, and touch nothing else."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest

import whimbrel as wb
from whimbrel.plots import shot as plot
from whimbrel.units import yd

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


@pytest.mark.parametrize("view", [plot.side_view, plot.top_view])
@pytest.mark.parametrize(("units", "symbol"), [("yards", "yd"), ("metric", "m")])
def test_both_axes_are_labelled_with_their_unit(shot, view, units, symbol):
    axes = view(shot, units=units)
    assert axes.get_xlabel() == f"downrange, {symbol}"
    assert axes.get_ylabel().endswith(f", {symbol}")
    assert axes.get_title(loc="left")


@pytest.mark.parametrize("view", [plot.side_view, plot.top_view])
def test_a_view_draws_on_the_axes_given_and_returns_them(shot, view):
    figure, (mine, other) = plt.subplots(1, 2)
    assert view(shot, mine) is mine
    assert mine.lines and not other.lines
    assert plt.get_fignums() == [figure.number]


def test_the_drawn_path_is_the_flights(shot):
    for units, factor in (("yards", yd), ("metric", 1.0)):
        path = shot.flight.path() / factor
        side, top = plot.side_view(shot, units=units), plot.top_view(shot, units=units)
        assert any(np.allclose(line.get_xydata(), path[:, 1:]) for line in side.lines if len(line.get_xdata()) > 9)
        assert any(
            np.allclose(line.get_xydata(), path[:, [1, 0]]) for line in top.lines if len(line.get_xdata()) > 9
        )


def test_from_above_the_players_right_is_down_and_named(shot):
    axes = plot.top_view(shot)
    lower, upper = axes.get_ylim()
    assert lower > upper
    format_tick = axes.yaxis.get_major_formatter()
    assert [format_tick(y, 0) for y in (5.0, 0.0, -5.0)] == ["5 right", "0", "5 left"]
    assert {text.get_text() for text in axes.get_legend().get_texts()} == {
        "target line",
        "start line",
        "ball",
        "run",
    }


def test_apex_carry_and_descent_are_written_into_the_picture(shot):
    figure = shot.plot()
    written = " ".join(text.get_text() for axes in figure.axes for text in axes.texts)
    for words in (f"apex {shot.flight.apex / yd:.1f} yd", f"carry {shot.carry / yd:.1f} yd", "comes down at"):
        assert words in written


def test_a_plot_changes_no_settings_shows_nothing_and_saves_nothing(shot, monkeypatch, tmp_path):
    def forbidden(*_, **__):
        raise AssertionError("a plot must not do this")

    monkeypatch.chdir(tmp_path)
    for place, name in ((plt, "show"), (plt, "savefig"), (matplotlib.figure.Figure, "savefig")):
        monkeypatch.setattr(place, name, forbidden)
    before = dict(matplotlib.rcParams)
    shot.plot()
    assert dict(matplotlib.rcParams) == before
    assert list(tmp_path.iterdir()) == []


def test_a_plot_is_for_one_shot_that_flew():
    with pytest.raises(ValueError, match="one shot"):
        wb.play(wb.Launch(np.array([50.0, 60.0]), 0.2)).plot()
    with pytest.raises(ValueError, match="never left the ground"):
        wb.play(wb.Launch(30.0, -0.1)).plot()


@pytest.mark.parametrize(
    "launch",
    [wb.Launch(3.0, 0.2), wb.Launch(60.0, 1.55, 0.0, 300.0), wb.Launch(60.0, 0.3, 2.5, 300.0)],
    ids=["a chip", "straight up", "backwards"],
)
def test_odd_flights_are_drawn_too(launch):
    figure = wb.play(launch).plot()
    figure.canvas.draw()
    assert len(figure.axes) == 2
