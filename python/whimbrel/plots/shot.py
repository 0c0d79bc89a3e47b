"""Pictures, by matplotlib. A function takes its axes or makes them and returns them; it saves nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import BY_SYMBOL, System, rounded, said, text
from ..errors import InputError, missing
from ..row.ball import Ball
from ..row.flight import STATUS_WORDS
from ..units import deg, inch, mm
from ..words.phrases import aside, degrees
from .style import (
    FLIGHT,
    GROUND,
    LINE,
    MARK,
    RUN,
    STRUCK,
    axes_or_new,
    finish,
    frame_plainly,
    left_right,
    length_unit,
    literal,
)

try:
    import matplotlib.pyplot as plt
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from ..row.arc import SwingArc
    from ..row.shot import Shot
    from ..row.swing import Club, Delivery


def side_view(shot: Shot, ax: Axes | None = None, units: System = "yards") -> Axes:
    """Height against distance downrange, with apex, landing and place of rest marked."""
    ax = axes_or_new(ax)
    unit = length_unit(units)
    path, run = _paths(shot, unit)
    ax.axhline(0.0, color=GROUND, lw=2, zorder=1)
    everything = np.concatenate([path, run])
    if shot.terrain.surface is None:  # the ground it came down on, where that is not the tee's level
        ends = np.array([0.7, 1.05]) * everything[-1, 1]
        rise = unit.from_si(shot.terrain.height) + shot.terrain.slope_downrange * ends
        ax.plot(ends, rise, color=GROUND, lw=2, zorder=1)
    ax.plot(path[:, 1], path[:, 2], color=FLIGHT, lw=2.2)
    ax.plot(run[:, 1], run[:, 2], color=RUN, lw=2.2)
    if shot.start != "landing":
        top = int(np.argmax(path[:, 2]))
        ax.plot(path[top, 1], path[top, 2], "o", color=MARK, ms=5)
        ax.annotate(f"apex {text(shot.flight.apex, 'apex', 'm', units)}", path[top, 1:], xytext=(0, 9),
                    textcoords="offset points", ha="center", color=MARK)  # fmt: skip
    words = f"comes down at {text(shot.flight.descent_angle, 'descent_angle', 'rad')}"
    _landing(ax, path[-1, 1:], words, above=True)
    _rest(ax, run[:, 1:])
    low, high = min(0.0, everything[:, 2].min()), everything[:, 2].max()
    ax.set_ylim(low - 0.06 * (high - low), high + 0.3 * (high - low))
    return finish(ax, "From the side", f"height, {unit.symbol}", unit)


def top_view(shot: Shot, ax: Axes | None = None, units: System = "yards") -> Axes:
    """Sideways distance, the player's right downward, against distance downrange; sideways enlarged."""
    ax = axes_or_new(ax)
    unit = length_unit(units)
    path, run = _paths(shot, unit)
    reach, heading = path[-1, 1], shot.launch.launch_direction
    ax.axhline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    started = reach * np.tan(heading) if np.cos(heading) > 0.2 else 0.0
    if shot.start != "landing":
        ax.plot([0, reach], [0, started], color=LINE, lw=1, ls=":", label="start line")
        ax.plot(path[:, 1], path[:, 0], color=FLIGHT, lw=2.2, label="ball")
    ax.plot(run[:, 1], run[:, 0], color=RUN, lw=2.2, label="run")
    offline = said(shot.offline, "carry", "m", units)
    words = f"carry {text(shot.carry, 'carry', 'm', units)}{'' if offline.is_zero else f', {aside(offline)}'}"
    _landing(ax, path[-1, 1::-1], "pitch mark" if shot.start == "landing" else words, above=path[-1, 0] < 0)
    _rest(ax, run[:, 1::-1])
    across = max(np.abs(np.concatenate([path, run])[:, 0]).max(), abs(started), 5.0) * 1.5
    ax.set_ylim(across, -across)
    ax.yaxis.set_major_formatter(left_right)
    ax.legend(loc="upper left", ncols=4, frameon=False, fontsize="small")
    return finish(ax, "From above, sideways enlarged", f"sideways, {unit.symbol}", unit)


def _paths(shot: Shot, unit: Any) -> tuple[Any, Any]:
    """The ball's way through the air and over the ground; the second is empty where it has no place of rest."""
    flight = unit.from_si(shot.flight.path() if shot.start != "landing" else shot.run.position_at(np.zeros(1)))
    run = unit.from_si(shot.run.path(400)) if shot.run.status == "ok" else np.empty((0, 3))
    return flight, run


def _rest(ax: Axes, run: Any) -> None:
    """Where the ball stopped."""
    if len(run):
        ax.plot(*run[-1], "o", color=RUN, ms=6, zorder=4, clip_on=False)


def _landing(ax: Axes, where: Any, words: str, above: bool) -> None:
    """The landing, marked, with words to its left."""
    ax.plot(*where, "o", color=MARK, ms=7, mfc="white", mew=2, clip_on=False, zorder=4)
    ax.annotate(words, where, xytext=(-34 if above else -14, 6 if above else -12), textcoords="offset points",
                ha="right", va="bottom" if above else "top", color=MARK,
                bbox={"fc": "white", "ec": "none", "alpha": 0.8, "pad": 1})  # fmt: skip


def shot(shot: Shot, units: System = "yards") -> Figure:
    """Side and top view of one shot."""
    if shot.shape != ():
        raise ValueError("plot() is for one shot")
    if shot.status != "ok":
        raise InputError(f"there is no flight to draw: {STATUS_WORDS[shot.status]}")
    figure, (above, below) = plt.subplots(2, 1, figsize=(9, 6.5), layout="constrained", sharex=True)
    side_view(shot, above, units)
    above.set_xlabel("")
    above.set_title("From the side, scales differ", loc="left", fontweight="bold")
    top_view(shot, below, units)
    return figure


def d_plane(shot: Shot, ax: Axes | None = None) -> Axes:
    """The D-plane at impact, seen from behind the ball: where path, face and ball point, in degrees."""
    if shot.delivery is None or shot.shape != ():
        raise ValueError("d_plane() is for one shot with a delivery")
    if shot.impact is None:
        raise ValueError("d_plane() needs the impact")
    ax = axes_or_new(ax)
    hit, launch = shot.delivery, shot.launch
    path, struck = _pointing(hit.club_path, hit.attack_angle), np.asarray(shot.impact.struck_normal)
    marks = [
        ("club path", path, "s", FLIGHT),
        ("face", _pointing(hit.face_angle, hit.dynamic_loft), "D", MARK),
        ("ball starts", _pointing(launch.launch_direction, launch.launch_angle), "o", "black"),
    ]
    off_centre = bool(hit.strike_toe or hit.strike_high)
    if off_centre:
        marks.insert(2, ("face where struck", struck, "d", STRUCK))
    ax.axhline(0.0, color=GROUND, lw=2)
    ax.axvline(0.0, color=LINE, lw=1, ls=(0, (6, 3)))
    along = np.linspace(0.0, 1.0, 60)[:, None]
    plane = _degrees(path * (1 - along) + struck * along)
    ax.plot(*plane.T, color=LINE, lw=6, alpha=0.25, solid_capstyle="round", label="D-plane, edge on")
    for words, way, marker, color in marks:
        x, y = _degrees(way)
        across, up = (rounded(angle, BY_SYMBOL["deg"]) for angle in (x, y))
        label = f"{words} {aside(across)}, {abs(up)} {'up' if up.value >= 0 else 'down'}"
        ax.plot(x, y, marker, color=color, ms=9, ls="none", zorder=3, label=label)
    points = np.array([_degrees(way) for _, way, *_ in marks])
    reach, low, high = max(8.0, 2 * np.abs(points[:, 0]).max()), min(points[:, 1].min(), 0.0), points[:, 1].max()
    ax.set_xlim(-reach, reach)
    ax.set_ylim(low - 2, high + 0.6 * (high - low) + 2)
    ax.legend(loc="upper left", edgecolor="none", framealpha=1.0)
    if off_centre:
        note = "off-centre: the turning head adds spin of its own"
        ax.text(0.99, 0.01, note, transform=ax.transAxes, ha="right", va="bottom", color=LINE, fontsize="small")
    ax.xaxis.set_major_formatter(left_right)
    ax.set_xlabel("degrees left and right of the target")
    ax.set_ylabel("degrees up")
    tilt = aside(degrees(float(launch.spin_axis_tilt)))
    ax.set_title(f"Seen from behind the ball; spin axis tilted {tilt}", loc="left", fontweight="bold")
    frame_plainly(ax, None)
    return ax


def _pointing(azimuth: Any, elevation: Any) -> Any:
    """The unit vector of a direction: x right, y to the target, z up."""
    level = np.cos(elevation)
    return np.array([level * np.sin(azimuth), level * np.cos(azimuth), np.sin(elevation)])


def _degrees(way: Any) -> Any:
    """Azimuth and elevation of vectors, degrees."""
    x, y, z = np.moveaxis(way, -1, 0)
    return np.stack([np.arctan2(x, y), np.arctan2(z, np.hypot(x, y))], axis=-1) / deg


def face(club: Club, delivery: Delivery, ax: Axes | None = None) -> Axes:
    """Looking at the face: its outline, its centre, and where the ball was struck (scalars or arrays), in mm."""
    ax = axes_or_new(ax)
    x, y = on_face(club, delivery.strike_toe, delivery.strike_high)
    face_outline(club, ax)
    ax.plot(x.ravel(), y.ravel(), "o", color=MARK, ms=11 if x.size == 1 else 6, alpha=1.0 if x.size == 1 else 0.6)
    if x.size == 1:
        across, up = float(delivery.strike_toe) / mm, float(delivery.strike_high) / mm
        parts = ((across, "toe", "heel"), (up, "high", "low"))
        parts_off = [
            f"{abs(off):.0f} mm {more if off > 0 else less}" for off, more, less in parts if abs(off) >= 0.5
        ]
        quarter = float(club.face_width) / mm / 4
        at = "center" if abs(x) < quarter else ("left" if x < 0 else "right")  # text toward the face's middle
        ax.annotate(", ".join(parts_off) or "centre", (float(x), float(y)), xytext=(0, 14 if up > 0 else -14),
                    textcoords="offset points", ha=at, va="bottom" if up > 0 else "top", color=MARK)  # fmt: skip
    ax.set_title(f"The face of the {literal(club.name)}, looked at from the target", loc="left", fontweight="bold")
    return ax


def on_face(club: Club, strike_toe: Any, strike_high: Any) -> tuple[Any, Any]:
    """Strike points as seen from the target, mm: a right-hander's toe is on the left."""
    toe = -1.0 if club.hand == "right" else 1.0
    x, y = np.broadcast_arrays(toe * np.asarray(strike_toe) / mm, np.asarray(strike_high) / mm)
    return x, y


def face_outline(club: Club, ax: Axes) -> Axes:
    """The face's outline and centre, in mm, looked at from the target."""
    from matplotlib.patches import FancyBboxPatch

    width, height = float(club.face_width) / mm, float(club.face_height) / mm
    corner = 0.35 * height
    outline = FancyBboxPatch((-width / 2 + corner, -height / 2 + corner), width - 2 * corner, height - 2 * corner,
                             boxstyle=f"round,pad={corner}", fc="#F2F2F2", ec=LINE, lw=2)  # fmt: skip
    ax.add_patch(outline)
    ax.plot(0, 0, "+", color=LINE, ms=16, mew=1.5)
    ax.set_xlim(-width * 0.62, width * 0.62)
    ax.set_ylim(-height * 0.75, height * 0.75)
    ax.set_aspect("equal")
    ends = ("toe", "heel") if club.hand == "right" else ("heel", "toe")
    ax.set_xlabel(f"{ends[0]}  ←  mm from the face centre  →  {ends[1]}")
    ax.set_ylabel("mm")
    frame_plainly(ax, None)
    return ax


def arc_from_side(arc: SwingArc, ax: Axes | None = None, units: System = "yards", tee_height: float = 0.0) -> Axes:
    """The leading edge along the ground: ball, turf and low point; heights enlarged."""
    from matplotlib.patches import Ellipse

    ax = axes_or_new(ax)
    unit, name = (inch, "in") if units == "yards" else (0.01, "cm")
    ahead, low = float(arc.low_point_ahead), float(arc.low_point_height)
    reach = max(0.4, abs(ahead) + 0.1)
    along, height = arc.points(reach).T
    radius = float(Ball().radius)
    ax.axhspan(-200, 0, color=GROUND, alpha=0.25)
    ax.axhline(0.0, color=GROUND, lw=2)
    ax.add_patch(
        Ellipse((0, (radius + tee_height) / mm), 2 * radius / unit, 2 * radius / mm, fc="white", ec=LINE, lw=1.5)
    )
    ax.plot(along / unit, height / mm, color=FLIGHT, lw=2.5)
    ax.plot(ahead / unit, low / mm, "v", color=MARK, ms=8)
    where = "ahead of" if ahead > 0 else "behind"
    ax.annotate(f"low point {abs(ahead) / unit:.1f} {name} {where} the ball, {abs(low) / mm:.0f} mm "
                f"{'below' if low < 0 else 'above'} the turf", (ahead / unit, low / mm), xytext=(0, -14),
                textcoords="offset points", ha="right" if ahead > 0.1 else "left" if ahead < -0.1 else "center",
                va="top", color=MARK)  # fmt: skip
    ax.set_xlim(-reach / unit, reach / unit)
    ax.set_ylim(min(low / mm, 0) - 24, max(70.0, (tee_height + 2 * radius) / mm + 10))
    ax.set_xlabel(f"along the base line from the ball, {name}; the target is to the right")
    ax.set_ylabel("height, mm")
    ax.set_title("The clubhead's arc from the side, height enlarged", loc="left", fontweight="bold")
    frame_plainly(ax, None)
    return ax


def arc_from_above(arc: SwingArc, delivery: Delivery, ax: Axes | None = None, face: bool = True) -> Axes:
    """Where plane, path and, if wanted, face point, seen from above; sideways enlarged."""
    ax = axes_or_new(ax)
    lines: tuple[Any, ...] = (
        ("target line", 0.0, LINE, (0, (6, 3)), 1.2),
        ("base of the plane", float(arc.base_direction), GROUND, "-", 3),
        ("club path", float(delivery.club_path), FLIGHT, "-", 2.5),
        ("face", float(delivery.face_angle), MARK, ":", 2.5),
    )
    lines = lines if face else lines[:-1]
    reach = np.array([-0.5, 1.0])
    for words, heading, color, style, width in lines:
        label = words if color == LINE else f"{words} {aside(degrees(heading))}"
        ax.plot(reach, reach * np.tan(heading) * 100, color=color, ls=style, lw=width, label=label)
    ax.plot(0, 0, "o", color="white", mec=LINE, ms=11, mew=1.5, zorder=3)
    widest = max(4.0, *(abs(np.tan(line[1])) * 130 for line in lines))
    ax.set_ylim(widest, -widest)
    ax.yaxis.set_major_formatter(left_right)
    ax.set_xticks([0, 0.5, 1.0], ["ball", "0.5", "1"])
    ax.set_xlabel("downrange, m")
    ax.set_ylabel("sideways, cm")
    ax.legend(loc="upper left", ncols=2, frameon=False, fontsize="small")
    ax.set_title("From above, sideways enlarged", loc="left", fontweight="bold")
    frame_plainly(ax, None)
    return ax


def arc(
    arc: SwingArc, delivery: Delivery, units: System = "yards", tee_height: float = 0.0, face: bool = True
) -> Figure:
    """One arc from the side and from above."""
    figure, (side, above) = plt.subplots(2, 1, figsize=(9, 7), layout="constrained")
    arc_from_side(arc, side, units, tee_height)
    arc_from_above(arc, delivery, above, face)
    return figure


def impact(shot: Shot) -> Figure:
    """The D-plane, and the strike on the face, of one shot."""
    if shot.delivery is None or shot.club is None:
        raise ValueError("impact() is for a shot with a delivery")
    figure, (left, right) = plt.subplots(1, 2, figsize=(12, 5), layout="constrained")
    d_plane(shot, left)
    face(shot.club, shot.delivery, right)
    return figure
