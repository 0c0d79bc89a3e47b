"""The pictures of a lesson, by matplotlib; each draws one club's strikes into its axes and returns them."""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import System, display_unit, plain_name
from ..core.value import Array
from ..sessions.lesson_content import GRID, RASTER, Block, ClubLesson, curves, low_point_range, low_points
from ..statistics.ellipse import expected_within
from ..units import deg
from ..words.lesson import printable
from ..words.session import ABOUT, say
from .shot import face_outline, on_face
from .style import FLIGHT, GROUND, LINE, MARK, frame_plainly, left_right, length_unit
from .target import draw_target

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: The pictures' width, inches, chosen so that their text can be read on a phone; dots an inch of images.
WIDTH, DPI = 5.0, 160
EARLY: dict[str, Any] = {"color": MARK, "marker": "^", "mfc": "none"}
LATE: dict[str, Any] = {"color": FLIGHT, "marker": "o"}


def blocks_drawn(lesson: ClubLesson) -> list[tuple[Block, dict[str, Any], str]]:
    """The blocks, how each is drawn, and what each is called."""
    styles = (LATE,) if len(lesson.blocks) == 1 else (EARLY, LATE)
    return [(b, s, short(b.name) or "strikes") for b, s in zip(lesson.blocks, styles, strict=True)]


def short(name: str, most: int = 20) -> str:
    """A name that fits into a picture and does not begin with an underscore, which matplotlib would hide."""
    name = printable(name if len(name) <= most else f"{name[: most - 1]}…")
    return f"\u200b{name}" if name.startswith("_") else name


def _dots(
    ax: Axes, x: Array, y: Array, lesson: ClubLesson, style: dict[str, Any], label: str | None = None
) -> None:
    many = lesson.strikes > RASTER
    n = max(len(x), 1)
    ax.plot(x, y, ls="none", ms=2 if many else 5 if n <= 200 else 3, mew=0 if many else 0.9, rasterized=many,
            alpha=max(0.04, min(0.75, 25 / np.sqrt(n))) if n > 200 else 0.75,
            **({**style, "mfc": style["color"]} if many else style))  # fmt: skip
    if label is not None:
        ax.plot([], [], ls="none", ms=5, label=label, **style)


def landings(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """Landings from above, the player looking up the picture, with target and ellipses of further strikes."""
    from matplotlib.patches import Ellipse
    from matplotlib.ticker import MaxNLocator

    unit = length_unit(units)
    ax.axvline(0.0, color=LINE, lw=1, ls=(0, (6, 3)))
    for block, style, name in blocks_drawn(lesson):
        x, y = unit.from_si(block.offline), unit.from_si(block.downrange)
        _dots(ax, x, y, lesson, style, name)
        if (found := expected_within(x, y)) is not None:
            ax.add_patch(Ellipse(found.centre, 2 * found.half_axes[0], 2 * found.half_axes[1],
                                 angle=float(np.degrees(found.turn)), fc="none", ec=style["color"], lw=2,
                                 ls="--" if style is EARLY else "-"))  # fmt: skip
    if lesson.worst is not None:
        at = lesson.worst
        along = np.sqrt(max(at.carry**2 - at.offline**2, 0.0))
        ax.plot(unit.from_si(at.offline), unit.from_si(along), "x", color="black", ms=8, mew=1.8, label="worst")
    draw_target(ax, lesson.target, unit)
    ax.set_aspect("equal", adjustable="datalim")
    _at_least(ax, 10.0)
    ax.xaxis.set_major_locator(MaxNLocator(5))
    ax.xaxis.set_major_formatter(left_right)
    ax.set_xlabel(f"sideways, {unit.symbol}")
    ax.set_ylabel(f"downrange, {unit.symbol}")
    return _finish(ax)


def _at_least(ax: Axes, span: float) -> None:
    """Limits no narrower than this, so that one strike does not fill the picture with digits."""
    ax.autoscale_view()
    middle = np.array([sum(ax.get_xlim()), sum(ax.get_ylim())]) / 2
    ax.update_datalim([middle - span / 2, middle + span / 2])
    ax.autoscale_view()


def path_and_face(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """Face angle against club path, with lines along which the typical shot would curve as much."""
    from matplotlib.ticker import MaxNLocator

    points = []
    for block, style, name in blocks_drawn(lesson):
        if {"club_path", "face_angle"} <= set(block.numbers):
            x, y = block.numbers["club_path"] / deg, block.numbers["face_angle"] / deg
            _dots(ax, x, y, lesson, style, name)
            points.append(np.stack([x, y])[:, np.isfinite(x + y)])
    both = np.concatenate(points, axis=1)
    middle = np.median(both, axis=1)
    reach = max(3.0, float(np.abs(both - middle[:, None]).max()) * 1.1)
    ends = np.clip(np.stack([middle - reach, middle + reach]), -40, 40)
    path, face = np.linspace(ends[0], ends[1], GRID).T
    curve = curves(lesson, path * deg, face * deg)
    if curve is not None and np.isfinite(curve).any():
        _equal_curve(ax, path, face, np.ma.masked_invalid(length_unit(units).from_si(curve)), units)
    ax.set_xlim(*ends[:, 0])
    ax.set_ylim(*ends[:, 1])
    ax.set_aspect("equal")
    for axis in (ax.xaxis, ax.yaxis):
        axis.set_major_locator(MaxNLocator(5))
        axis.set_major_formatter(left_right)
    ax.set_xlabel("club path, °")
    ax.set_ylabel("face, °")
    return _finish(ax)


def _equal_curve(ax: Axes, path: Array, face: Array, curve: Any, units: System) -> None:
    from matplotlib.ticker import MaxNLocator

    levels = [x for x in MaxNLocator(10).tick_values(float(curve.min()), float(curve.max())) if x]
    lines = ax.contour(path, face, curve, levels=levels, colors=LINE, linewidths=0.9, linestyles="solid")
    straight = ax.contour(path, face, curve, levels=[0.0], colors="black", linewidths=1.8)
    beside = _left_and_below(path, face, np.ma.filled(curve, np.nan))
    for drawn, at, words in ((lines, levels, left_right), (straight, [0.0], lambda _: "straight")):
        inside = [x for x in at if len(beside) and beside[0, 2] < x < beside[-1, 2]]
        spots = [tuple(np.interp(x, beside[:, 2], beside[:, i]) for i in (0, 1)) for x in inside]
        for label in ax.clabel(drawn, levels=inside, fontsize=8.5, fmt=words, manual=spots, inline=False):
            label.set(rotation=0, color="black", bbox={"fc": "white", "ec": "none", "pad": 1})


def _left_and_below(path: Array, face: Array, curve: Array) -> Array:
    """Path, face and curve down the left side and along the bottom, where few strikes lie, by increasing curve."""
    side = np.column_stack([np.full(GRID, path[2]), face, curve[:, 2]])
    below = np.column_stack([path, np.full(GRID, face[2]), curve[2]])[3:]
    both = np.concatenate([side[2:], below])
    both = both[np.isfinite(both[:, 2])]
    return np.asarray(both[np.argsort(both[:, 2])])


def low_point(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """Low points along the ground: a line a block, its median, and what the plane's range does to that."""
    from matplotlib.ticker import MaxNLocator

    unit = display_unit("low_point_ahead", "m", units)
    drawn = blocks_drawn(lesson)
    ax.axvline(0.0, color=LINE, lw=1, ls=(0, (6, 3)))
    spread = np.random.default_rng(0)
    for row, (block, style, _) in enumerate(drawn):
        ahead = low_points(lesson, block)
        if ahead is None or not np.isfinite(ahead).any():
            continue
        _dots(ax, unit.from_si(ahead), row + spread.uniform(-0.16, 0.16, len(ahead)), lesson, style)
        ranged = low_point_range(lesson, block)
        if ranged is not None:
            at, low, high = (float(unit.from_si(x)) for x in ranged)
            ax.plot([low, high], [row + 0.33] * 2, color="black", lw=2.5, solid_capstyle="butt")
            ax.plot(at, row + 0.33, "D", color="black", mfc="white", ms=6, mew=1.5)
    ax.set_ylim(len(drawn) - 0.4, -0.95)
    ax.plot(0, -0.62, "o", color="white", mec=LINE, mew=1.5, ms=10, clip_on=False)
    ax.annotate("ball", (0, -0.62), xytext=(9, 0), textcoords="offset points", va="center", color=LINE)
    ax.annotate("target →", (1, -0.62), xycoords=("axes fraction", "data"), ha="right", va="center", color=LINE)
    low, high = ax.get_xlim()
    ax.xaxis.set_major_locator(MaxNLocator(6))
    ax.set_xlim(min(low, -1.5), max(high, 1.5))
    ax.set_yticks(range(len(drawn)), [short(name, 11) for *_, name in drawn])
    ax.xaxis.set_major_formatter(lambda x, _: f"{abs(x):g} {'ahead' if x > 0 else 'behind'}" if x else "0")
    ax.set_xlabel(f"low point from the ball, {unit.symbol}")
    return _finish(ax, legend=False)


def side_flights(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """The flight of each block's medians from the side, heights enlarged."""
    unit = length_unit(units)
    ax.axhline(0.0, color=GROUND, lw=2)
    for block, style, name in blocks_drawn(lesson):
        if block.typical is None:
            continue
        path = unit.from_si(block.typical.flight.path())
        ax.plot(
            path[:, 1], path[:, 2], color=style["color"], lw=2.2, ls="--" if style is EARLY else "-", label=name
        )
        ax.plot(path[-1, 1], path[-1, 2], color=style["color"], marker=style["marker"], ms=6, mfc="white", mew=1.8,
                clip_on=False, zorder=4)  # fmt: skip
    ax.set_ylim(bottom=-0.04 * ax.get_ylim()[1])
    ax.set_xlim(left=0.0)
    ax.set_xlabel(f"downrange, {unit.symbol}")
    ax.set_ylabel(f"height, {unit.symbol}")
    return _finish(ax)


def what_changed(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """Every question of the comparison: the change with its interval, in smallest changes worth having."""
    assert lesson.pair is not None
    order = {"changed": 0, "no change": 1, "too few": 2}
    changes = sorted(lesson.pair.comparison.changes, key=lambda change: order[change.answer])
    looks: dict[str, dict[str, Any]] = {
        "changed": {"color": MARK, "marker": "D", "label": "changed"},
        "no change": {"color": FLIGHT, "marker": "o", "label": "none so large"},
        "too few": {"color": LINE, "marker": "o", "mfc": "white", "label": "too few to tell"},
    }
    ends = np.array([[change.low, change.high] for change in changes])
    ends = ends / np.array([[change.smallest] for change in changes])
    reach = float(np.clip(np.abs(ends).max(), 1.4, 4.0)) * 1.05
    ax.axvspan(-1, 1, color=GROUND, alpha=0.18, lw=0)
    ax.axvline(0.0, color=LINE, lw=1)
    for row, (change, (low, high)) in enumerate(zip(changes, ends, strict=True)):
        look = looks[change.answer]
        ax.plot(np.clip([low, high], -reach, reach), [row, row], color=look["color"], lw=2)
        for end, marker in ((low, "<"), (high, ">")):
            if abs(end) > reach:
                ax.plot(np.sign(end) * reach, row, marker, color=look["color"], ms=5, clip_on=False)
        middle = change.change / change.smallest
        if abs(middle) <= reach:
            ax.plot(middle, row, ls="none", ms=6, mew=1.6, zorder=3, **{**look, "label": None})
        ax.annotate(say(change.change, change.quantity, units, True), (1.02, row), va="center", fontsize=8.5,
                    xycoords=("axes fraction", "data"), annotation_clip=False)  # fmt: skip
    for look in looks.values():
        ax.plot([], [], ls="none", ms=6, mew=1.6, **look)
    ax.set_yticks(
        range(len(changes)), [f"{plain_name(c.quantity)} {ABOUT[c.about]}" for c in changes], fontsize=8.5
    )
    ax.set_ylim(len(changes) - 0.4, -0.6)
    ax.set_xlim(-reach, reach)
    ax.set_xlabel("change, in smallest\nchanges worth having")
    _finish(ax, legend=False)
    ax.figure.legend(loc="outside upper center", ncols=3, frameon=False, handletextpad=0.2, columnspacing=1.2)
    return ax


def on_the_face(lesson: ClubLesson, ax: Axes, units: System = "yards") -> Axes:
    """Strike points on the face, looked at from the target."""
    assert lesson.member is not None
    face_outline(lesson.member, ax)
    for block, style, name in blocks_drawn(lesson):
        n = len(block.rows)
        toe, high = (block.numbers.get(which, np.zeros(n)) for which in ("strike_toe", "strike_high"))
        x, y = on_face(lesson.member, toe, high)
        _dots(ax, x, y, lesson, style, name)
        if np.isfinite(x + y).any():
            ax.plot(
                np.nanmedian(x), np.nanmedian(y), style["marker"], color=style["color"], ms=11, mfc="white", mew=2.2
            )
    return _finish(ax)


def _finish(ax: Axes, legend: bool = True) -> Axes:
    frame_plainly(ax)
    labels = ax.get_legend_handles_labels()[1]
    if legend and labels:
        columns = 4 if sum(map(len, labels)) <= 32 else 2
        ax.legend(loc="lower left", bbox_to_anchor=(-0.02, 1.0), ncols=columns, frameon=False, handletextpad=0.4,
                  columnspacing=1.2, borderaxespad=0.2)  # fmt: skip
    return ax


def as_svg(
    draw: Callable[..., Any], lesson: ClubLesson, units: System, height: float, called: tuple[str, str]
) -> str:
    """One picture as an ``<svg>`` element of a page: its text is text, and it refers to nothing outside.

    height: inches. called: what all its ids start with, and its title for those who cannot see it, as HTML. Names
    of blocks are shown to the letter, never read as formulas.
    """
    from matplotlib import rc_context
    from matplotlib.figure import Figure

    prefix, title = called
    options: Any = {"svg.fonttype": "none", "svg.hashsalt": prefix, "text.parse_math": False, "font.size": 10.5,
               "axes.edgecolor": LINE, "legend.fontsize": 10}  # fmt: skip
    with rc_context(options), warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # letters that the layout's font lacks: the reader's has them
        figure = Figure(figsize=(WIDTH, height), layout="constrained")
        draw(lesson, figure.subplots(), units)
        file = io.StringIO()
        figure.savefig(file, format="svg", dpi=DPI, metadata={"Date": None})
    drawn = file.getvalue()
    box, inside = re.findall(r'<svg[^>]*viewBox="([^"]*)"[^>]*>(.*)', drawn, flags=re.S)[0]
    inside = re.sub(r"<metadata>.*?</metadata>|<style .*?</style>|<!--.*?-->", "", inside, flags=re.S)
    inside = re.sub(r'(\bid="|url\(#|href="#)', rf"\g<1>{prefix}", inside)
    return (
        f'<svg viewBox="{box}" role="img" aria-labelledby="{prefix}title"><title id="{prefix}title">{title}</title>'
        f"{inside.strip()}"
    )
