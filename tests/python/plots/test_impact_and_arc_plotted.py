"""Pictures of impact and arc: labelled with units, text inside the figure, drawn from the numbers."""

from dataclasses import replace

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest

import whimbrel as wb
from whimbrel.plots import shot as plot
from whimbrel.units import cm, deg, inch, mm, mph

matplotlib.use("Agg")
LEFT = wb.clubs.left_handed()


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


def struck(club, speed=90.0, path=0.0, attack=0.0, face=0.0, loft=20.0, toe=0.0, high=0.0):
    angles = (x * deg for x in (path, attack, face, loft))
    return wb.play(wb.Delivery(speed * mph, *angles, toe * mm, high * mm), club)


SHOTS = {
    "an iron": lambda: struck(wb.clubs["7 iron"], 84, 4, -6, -1, 24),
    "a wedge of 50 degrees": lambda: struck(wb.clubs["lob wedge"], 70, -8, -6, 2, 50, -10, -12),
    "a left-hander's toe": lambda: struck(LEFT["driver"], 97, 3, 3, -2, 13, 20, 10),
    "a path 8 degrees left": lambda: struck(wb.clubs["6 iron"], 90, -8, -4, 3, 20),
    "a path 20 degrees right": lambda: struck(wb.clubs["5 iron"], 90, 20, -10, -12, 25),
    "the edge of the toe": lambda: struck(wb.clubs["driver"], 97, 0, 4, 0, 14, 50, 0),
}
ARCS = {  # path, attack, face, plane, hand, height mm, tee mm
    "an iron": (2, -6, 0.5, 62, "right", 0, 0),
    "a left-hander": (-2, -6, -0.5, 62, "left", 0, 0),
    "a path 8 degrees left": (-8, -4, 3, 60, "right", 0, 0),
    "a teed driver hit up": (-2, 3, 0, 47, "right", 25, 40),
    "a shallow sweep": (0, 0, 0, 55, "right", 2, 0),
}


def drawn_arc(path, attack, face, plane, hand, height, tee, units="yards"):
    hit = wb.Delivery(40.0, path * deg, attack * deg, face * deg, 20 * deg)
    arc = wb.arcs.arc_of(hit, plane_inclination=plane * deg, height=height * mm, hand=hand)
    return arc, hit, plot.arc(arc, hit, units, tee * mm)


def texts(figure):
    """Every text that is drawn: a tick's label only where the tick lies on its axis."""
    for axes in figure.axes:
        legend = axes.get_legend()
        yield from (axes.xaxis.label, axes.yaxis.label, axes._left_title, *axes.texts)
        yield from () if legend is None else legend.get_texts()
        for axis in (axes.xaxis, axes.yaxis):
            low, high = sorted(axis.get_view_interval())
            yield from (tick.label1 for tick in axis.get_major_ticks() if low <= tick.get_loc() <= high)


def assert_text_inside(figure):
    figure.canvas.draw()
    box = figure.bbox
    shown = [text for text in texts(figure) if text.get_visible() and text.get_text().strip()]
    assert len(shown) > 20
    for text in shown:
        extent = text.get_window_extent()
        assert extent.x0 >= box.x0 - 1 and extent.x1 <= box.x1 + 1, (text.get_text(), extent, box)
        assert extent.y0 >= box.y0 - 1 and extent.y1 <= box.y1 + 1, (text.get_text(), extent, box)


@pytest.mark.parametrize("name", SHOTS)
def test_no_text_of_an_impact_or_a_shot_lies_outside_the_figure(name):
    shot = SHOTS[name]()
    assert_text_inside(plot.impact(shot))
    assert_text_inside(plot.shot(shot))


@pytest.mark.parametrize("name", ARCS)
def test_no_text_of_an_arc_lies_outside_the_figure(name):
    assert_text_inside(drawn_arc(*ARCS[name])[2])


@pytest.mark.parametrize("name", SHOTS)
def test_the_d_plane_marks_path_face_and_ball_where_they_are_and_says_so(name):
    shot = SHOTS[name]()
    axes = plot.d_plane(shot)
    marks = {
        line.get_label().split(" ")[0 if "struck" not in line.get_label() else 2]: line.get_xydata()[0]
        for line in axes.lines
        if len(line.get_xdata()) == 1
    }
    hit, launch = shot.delivery, shot.launch
    assert marks["club"] == pytest.approx([hit.club_path / deg, hit.attack_angle / deg])
    assert marks["face"] == pytest.approx([hit.face_angle / deg, hit.dynamic_loft / deg])
    x, y, z = shot.impact.struck_normal
    struck = [np.arctan2(x, y) / deg, np.arcsin(z) / deg]
    assert marks.get("struck", struck) == pytest.approx(struck)
    assert ("struck" in marks) == bool(hit.strike_toe or hit.strike_high)
    assert marks["ball"] == pytest.approx([launch.launch_direction / deg, launch.launch_angle / deg])
    (left, right), (lower, upper) = axes.get_xlim(), axes.get_ylim()
    assert all(left < x < right and lower < y < upper for x, y in marks.values())
    assert "degrees" in axes.get_xlabel() and "degrees" in axes.get_ylabel()
    side = "left" if launch.spin_axis_tilt < 0 else "right"
    assert f"tilted {abs(launch.spin_axis_tilt) / deg:.1f}° {side}" in axes.get_title(loc="left")


@pytest.mark.parametrize(("club", "side"), [(wb.clubs["driver"], -1), (LEFT["driver"], 1)])
def test_the_strike_on_the_face_is_seen_from_the_target_in_millimetres(club, side):
    axes = plot.face(club, wb.Delivery(45.0, dynamic_loft=0.2, strike_toe=14 * mm, strike_high=-6 * mm))
    assert axes.lines[-1].get_xydata()[0] == pytest.approx([side * 14, -6])
    assert axes.texts[0].get_text() == "14 mm toe, 6 mm low"
    assert "mm" in axes.get_xlabel() and axes.get_ylabel().endswith("mm")
    ends = axes.get_xlabel()
    assert (ends.index("toe") < ends.index("heel")) == (side < 0)
    assert club.name in axes.get_title(loc="left")


def test_many_strikes_are_drawn_on_one_face_without_words(draw):
    toe, high = draw.normal(0, 9, 40) * mm, draw.normal(0, 5, 40) * mm
    axes = plot.face(wb.clubs["driver"], wb.Delivery(45.0, dynamic_loft=0.2, strike_toe=toe, strike_high=high))
    assert axes.lines[-1].get_xydata() == pytest.approx(np.column_stack([-toe, high]) / mm)
    assert not axes.texts


@pytest.mark.parametrize(("units", "symbol", "unit"), [("yards", "in", inch), ("metric", "cm", cm)])
def test_the_arc_from_the_side_is_the_arcs_and_labelled_with_units(units, symbol, unit):
    arc, _, _ = drawn_arc(*ARCS["an iron"])
    axes = plot.arc_from_side(arc, units=units)
    along, height = arc.points().T
    drawn = np.column_stack([along / unit, height / mm])
    assert any(len(line.get_xdata()) > 9 and np.allclose(line.get_xydata(), drawn) for line in axes.lines)
    assert f", {symbol};" in axes.get_xlabel() and axes.get_ylabel() == "height, mm"
    words = f"low point {arc.low_point_ahead / unit:.1f} {symbol} ahead of the ball"
    assert any(words in text.get_text() for text in axes.texts)


def test_the_arc_from_above_names_where_plane_path_and_face_point():
    arc, hit, _ = drawn_arc(*ARCS["an iron"])
    axes = plot.arc_from_above(arc, hit)
    told = [text.get_text() for text in axes.get_legend().get_texts()]
    assert told == ["target line", "base of the plane 1.2° left", "club path 2.0° right", "face 0.5° right"]
    assert axes.get_xlabel() == "downrange, m" and axes.get_ylabel() == "sideways, cm"
    lower, upper = axes.get_ylim()
    assert lower > upper  # the player's right is down
    path = next(line for line in axes.lines if line.get_label().startswith("club path")).get_xydata()[-1]
    assert path == pytest.approx([1.0, 100 * np.tan(2 * deg)])


def test_a_view_draws_on_the_axes_given_and_returns_them():
    shot = SHOTS["an iron"]()
    arc, hit, _ = drawn_arc(*ARCS["an iron"])
    plt.close("all")
    figure, axes = plt.subplots(1, 5)
    for mine, view in zip(
        axes,
        (
            lambda ax: plot.d_plane(shot, ax),
            lambda ax: plot.face(shot.club, shot.delivery, ax),
            lambda ax: plot.arc_from_side(arc, ax),
            lambda ax: plot.arc_from_above(arc, hit, ax),
        ),
        strict=False,
    ):
        assert view(mine) is mine and mine.lines
    assert not axes[4].lines and plt.get_fignums() == [figure.number]


def test_an_impact_is_drawn_of_one_struck_shot_only():
    with pytest.raises(ValueError, match="with a delivery"):
        plot.impact(wb.play(wb.Launch(60.0, 0.2)))
    shot = SHOTS["an iron"]()
    many = wb.play(replace(shot.delivery, club_path=np.zeros(2)), shot.club)
    with pytest.raises(ValueError, match="one shot"):
        plot.impact(many)
