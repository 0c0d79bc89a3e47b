"""The ledgers' pictures: bars are the shares, axes wear their unit."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest

import whimbrel as wb
from whimbrel.plots import explain as plot_explain
from whimbrel.questions.explain import CAUSES
from whimbrel.units import deg, mm, mph, yd

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


@pytest.fixture
def told():
    hit = wb.Delivery(97 * mph, 2 * deg, 2 * deg, 1 * deg, 13 * deg, 14 * mm)
    return wb.explain(wb.play(hit, wb.clubs["driver"], wind=wb.Wind.from_right(4)))


@pytest.mark.parametrize("of", ["carry", "offline"])
@pytest.mark.parametrize(("units", "symbol", "unit"), [("yards", "yd", yd), ("metric", "m", 1.0)])
def test_the_bars_are_the_shares(told, of, units, symbol, unit):
    axes = plot_explain.causes(told, of, units=units)
    widths = [bar.get_width() for bar in axes.patches]
    assert np.allclose(widths, [s.share / unit for s in getattr(told, of)], atol=1e-12)
    assert [label.get_text() for label in axes.get_yticklabels()] == list(CAUSES)
    assert axes.get_xlabel() == f"adds to {of}, {symbol}" and f" {symbol}" in axes.get_title(loc="left")


def test_parts_of_start_curve_and_wind_stack_up_to_their_totals(told):
    axes = plot_explain.start_and_curve(told)
    bars = np.array([bar.get_width() for bar in axes.patches]).reshape(4, 3)
    totals = [told.start.total, told.curve.total, told.wind.total]
    assert np.allclose(bars.sum(axis=0) * yd, totals, atol=1e-9)
    assert [label.get_text() for label in axes.get_yticklabels()] == ["start line", "curve", "wind"]
    labels = [text.get_text() for text in axes.get_legend().get_texts()]
    assert sorted(labels) == ["a square shot", "face", "path", "strike, stance", "total"]


def test_no_two_texts_of_the_figure_overlap_and_none_is_clipped(told):
    figure = told.plot()
    figure.canvas.draw()
    frame = figure.bbox
    for axes in figure.axes:
        boxes = [t.get_window_extent() for t in (*axes.texts, *axes.get_yticklabels()) if t.get_text()]
        ticks = [t.get_window_extent() for t in axes.get_xticklabels() if t.get_text() and t.get_visible()]
        limits = axes.bbox
        ticks = [b for b in ticks if limits.x0 - 2 <= (b.x0 + b.x1) / 2 <= limits.x1 + 2]
        for kind in (boxes, ticks):
            for i, a in enumerate(kind):
                assert a.x0 >= frame.x0 and a.x1 <= frame.x1 and a.y0 >= frame.y0 and a.y1 <= frame.y1
                assert not any(a.overlaps(b) for b in kind[i + 1 :])


def test_a_picture_of_something_else_is_refused(told):
    with pytest.raises(wb.InputError, match="accepted: carry, offline"):
        plot_explain.causes(told, "apex")
