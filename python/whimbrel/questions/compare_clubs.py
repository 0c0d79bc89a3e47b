"""Two clubs of one player beside each other: what each asks of the same swing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..core.quantity import System
from ..core.result import Result
from ..row.arc import arc_of, assumed_plane
from ..row.shot import Shot
from ..row.swing import Club, d_plane
from ..units import deg, mm
from .explain import explainable
from .swing_plane import PLANE_RANGE, Look, look_of, planes_around
from .what_if import what_if


@dataclass(frozen=True)
class PerDegree:
    """What one degree more changes.

    Attributes
    ----------
    start : float
        Launch direction, rad.
    tilt : float
        Tilt of the spin axis, rad.
    launch_angle : float
        Launch angle, rad.
    spin_rate : float
        Spin, rad/s.
    carry : float
        Carry, m.
    offline : float
        Landing to the right, m.
    """

    start: float
    tilt: float
    launch_angle: float
    spin_rate: float
    carry: float
    offline: float


@dataclass(frozen=True)
class ClubRead:
    """One shot as a comparison reads it.

    Attributes
    ----------
    shot : Shot
        The shot.
    club : Club
        Its club.
    look : Look
        Base direction and what the attack adds to the path, with their ranges.
    low_point_ahead : float
        Distance of the low point beyond the ball, m.
    low_point_range : tuple of float
        Its range over the range of the plane, m.
    plane_assumed : bool
        Whether the plane was assumed, not given.
    spin_loft : float
        Spin loft, rad.
    face : PerDegree
        What a face 1° more to the right changes.
    path : PerDegree
        What a path 1° more to the right changes.
    attack : PerDegree
        What an attack 1° more upward changes.
    heel_carry, heel_offline : float
        What a strike 10 mm toward the heel changes, m; NaN where it misses the face.
    toe_carry, toe_offline : float
        What a strike 10 mm toward the toe changes, m; NaN where it misses the face.
    """

    shot: Shot
    club: Club
    look: Look
    low_point_ahead: float
    low_point_range: tuple[float, float]
    plane_assumed: bool
    spin_loft: float
    face: PerDegree
    path: PerDegree
    attack: PerDegree
    heel_carry: float
    heel_offline: float
    toe_carry: float
    toe_offline: float


@dataclass(frozen=True)
class Compared(Result, view="compare_clubs"):
    """Two clubs of one player, see ``compare``.

    Attributes
    ----------
    first : ClubRead
        The first shot.
    second : ClubRead
        The second shot.
    """

    first: ClubRead
    second: ClubRead

    def in_words(self, units: System = "yards") -> str:
        """Describe what the two clubs share, and what one forgives and the other does not.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            Plain sentences.
        """
        return str(self._words().of_two(self, units))

    def __str__(self) -> str:
        return self.in_words()


def compare(
    first: Shot,
    second: Shot,
    *,
    planes: tuple[float | None, float | None] = (None, None),
    plane_range: float = PLANE_RANGE,
    radius: float = 1.5,
    aim: float = 0.0,
) -> Compared:
    """Compare two shots of one player with two clubs, such as an iron and a driver.

    Parameters
    ----------
    first : Shot
        A shot that was played from a delivery.
    second : Shot
        Another.
    planes : tuple of float or None
        Inclination of each swing plane, rad; None takes ``assumed_plane``.
    plane_range : float
        How far the planes may be off, rad.
    radius : float
        Radius of the arcs, m.
    aim : float
        Direction of the body, rad; positive right of the target.

    Returns
    -------
    Compared
        What a degree and a strike off the centre change with each club, from replays.

    Raises
    ------
    InputError
        As ``explain`` does.
    """
    reads = [
        _read(shot, plane, plane_range, radius, aim) for shot, plane in zip((first, second), planes, strict=True)
    ]
    return Compared(*reads)


def _read(shot: Shot, plane: float | None, plane_range: float, radius: float, aim: float) -> ClubRead:
    hit, club = explainable(shot)
    inclination = assumed_plane(club) if plane is None else plane
    look = look_of(hit, plane_inclination=inclination, plane_range=plane_range, hand=club.hand, aim=aim)
    arcs = arc_of(hit, plane_inclination=planes_around(inclination, plane_range), radius=radius, hand=club.hand)
    ahead: list[float] = np.asarray(arcs.low_point_ahead).tolist()
    heel, toe = (_strike_off_centre(shot, off) for off in (-10 * mm, 10 * mm))
    return ClubRead(
        shot=shot,
        club=club,
        look=look,
        low_point_ahead=ahead[0],
        low_point_range=(min(ahead), max(ahead)),
        plane_assumed=plane is None,
        spin_loft=float(d_plane(hit).spin_loft),
        face=_per_degree(shot, "face_angle"),
        path=_per_degree(shot, "club_path"),
        attack=_per_degree(shot, "attack_angle"),
        heel_carry=heel[0],
        heel_offline=heel[1],
        toe_carry=toe[0],
        toe_offline=toe[1],
    )


def _per_degree(shot: Shot, field: str) -> PerDegree:
    now = float(getattr(shot.delivery, field))
    more = what_if(shot, delivery={field: now + 1 * deg})

    def change(of: Callable[[Shot], Any]) -> float:
        return float(of(more) - of(shot))

    return PerDegree(
        start=change(lambda s: s.launch.launch_direction),
        tilt=change(lambda s: s.launch.spin_axis_tilt),
        launch_angle=change(lambda s: s.launch.launch_angle),
        spin_rate=change(lambda s: s.launch.spin_rate),
        carry=change(lambda s: s.carry),
        offline=change(lambda s: s.offline),
    )


def _strike_off_centre(shot: Shot, off: float) -> tuple[float, float]:
    """What a strike this far toward the toe changes, compared with the centre."""
    centred, moved = (what_if(shot, delivery={"strike_toe": x}) for x in (0.0, off))
    return moved.carry - centred.carry, moved.offline - centred.offline
