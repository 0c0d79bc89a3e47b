"""Clubs and how they are delivered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

import numpy as np

from .. import _core
from ..core import named_entries
from ..core.by_labels import by_labels
from ..core.chunked import chunks_in
from ..core.given_numbers import UNSAID
from ..core.named import Named
from ..core.value import Number, Value, columns_of, common_shape, from_table, ranges_of, table_of
from ..errors import InputError, made_by_caller, refuse, short, warn
from ..units import mph

Hand = Literal["right", "left"]


@dataclass(frozen=True, repr=False)
class Club(Value, kind="Club"):
    """A club.

    Parameters
    ----------
    name : str
        What to call it.
    loft : float or array
        Angle of the face against the shaft, rad. All numbers broadcast together.
    lie_angle : float or array
        Angle of the shaft against the ground, rad.
    length : float or array
        Length, m.
    mass : float or array
        Mass of the head, kg.
    face_restitution : float or array
        Normal restitution at an approach of 43.8 m/s: 0.745 for a rigid face, 0.840 for a driver at the rules'
        limit (0.830 at 48.8 m/s).
    inertia_target : float or array
        Moment of inertia of the head about the target line through its centre of mass, kg m².
    inertia_vertical : float or array
        The same about the vertical, kg m².
    inertia_heel_toe : float or array
        The same about the heel–toe line, kg m².
    cg_depth : float or array
        Distance of the centre of mass behind the face centre, along the face normal, m.
    cg_toe : float or array
        Offset of the centre of mass toward the toe, m.
    cg_crown : float or array
        Offset of the centre of mass toward the crown, m.
    bulge_radius : float or array
        Radius of the face from heel to toe, m; infinite for a flat face.
    roll_radius : float or array
        Radius of the face from sole to crown, m; infinite for a flat face.
    face_width : float or array
        Width of the face, m; a strike outside the face misses.
    face_height : float or array
        Height of the face, m.
    shaft_mass : float or array
        Mass of the shaft that moves with the head through the contact, at the head's centre of mass, kg (20 g:
        common practice).
    face_wetness : float or array
        From 0, dry, to 1, as wet or grassy as a face gets: friction falls by 40 %, and a full wedge spins a fifth
        to two fifths less and launches 2° to 6.5° higher (judged; common practice is more). For lofts from 44°.
    hand : {"right", "left"}
        The side the player swings from.

    Raises
    ------
    InputError
        For an unknown hand.

    Notes
    -----
    The restitution of a rigid face is calibrated on the ball speeds of the trade's irons, off-centre strikes among
    them; the rules' limit of the ball is 0.773.
    """

    name: str
    loft: Number
    lie_angle: Number
    length: Number
    mass: Number
    face_restitution: Number = 0.745
    inertia_target: Number = 0.9e-4
    inertia_vertical: Number = 2.5e-4
    inertia_heel_toe: Number = 0.7e-4
    cg_depth: Number = 0.0115
    cg_toe: Number = 0.0
    cg_crown: Number = 0.0
    bulge_radius: Number = float("inf")
    roll_radius: Number = float("inf")
    face_width: Number = 0.080
    face_height: Number = 0.040
    shaft_mass: Number = 0.020
    face_wetness: Number = 0.0
    hand: Hand = "right"

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.hand not in ("right", "left"):
            raise InputError(f"hand is {short(self.hand)}; accepted: right, left")

    def left_handed(self) -> Club:
        """Mirror the club for a left-hander.

        Returns
        -------
        Club
            The same club, left-handed.
        """
        return replace(self, hand="left")


class Clubs(Named[Club]):
    """Clubs by name: ``clubs["7 iron"]``."""

    kind = "club"

    def left_handed(self) -> Clubs:
        """Mirror the clubs for a left-hander.

        Returns
        -------
        Clubs
            The same clubs, left-handed.
        """
        return Clubs({name: club.left_handed() for name, club in self.items()})


clubs = Clubs({name: Club(name, *numbers) for name, numbers in _core.club_set().items()})
"""An invented set from driver to lob wedge, its numbers inside the ranges of the trade."""


def load_clubs(path: str | Path) -> Clubs:
    """Load your own clubs from a TOML file.

    Parameters
    ----------
    path : str or Path
        A file with one ``[[club]]`` each, with units in the keys.

    Returns
    -------
    Clubs
        The clubs by name.

    Raises
    ------
    InputError
        For a mistake in the file; it names the club and the key.

    Examples
    --------
    A file of one club::

        [[club]]
        name = "my 7 iron"
        loft_deg = 31.5
        lie_angle_deg = 62
        length_in = 37.25
        mass_g = 270
        hand = "left"              # default: right
        face_restitution = 0.745   # optional, as are inertia_vertical_gcm2, cg_depth_mm, bulge_radius_mm,
                                   # face_width_mm …; by default an iron's
    """
    return Clubs(named_entries.load(path, "club", _club_from))


def _club_from(name: str, entry: dict[str, Any]) -> Club:
    hand = entry.pop("hand", "right")
    numbers = named_entries.numbers(
        entry, columns_of("Club"), ("loft", "lie_angle", "length", "mass"), ranges_of("Club")
    )
    club = Club(name, **numbers, hand=hand)
    present(club, clubhead_speed=40.0)
    return club


@dataclass(frozen=True, repr=False)
class Delivery(Value, kind="Delivery"):
    """How the clubhead comes to the ball.

    Parameters
    ----------
    clubhead_speed : float or array
        Clubhead speed, m/s; above 65 m/s (145 mph) it warns, as nobody swings so fast. All numbers broadcast
        together.
    club_path : float or array
        Direction of the face centre's velocity just before contact, rad; positive right of the target line.
    attack_angle : float or array
        Elevation of that velocity, rad; positive up.
    face_angle : float or array
        Direction of the face normal at first contact, rad, with lie, lean and everything else included.
    dynamic_loft : float or array
        Elevation of the face normal at first contact, rad. A missing one is played as 0, with a warning.
    strike_toe : float or array
        Strike from the face centre toward the toe, m.
    strike_high : float or array
        Strike from the face centre toward the crown, m.
    lie_tilt : float or array
        Tilt of the club, rad; toe up is positive. It turns only the toe–heel and crown–sole axes.
    closure_rate : float or array
        Turn rate of the head about its vertical axis, rad/s; positive closes the face. The face does not turn
        during the contact: the rate only adds speed to a strike away from the centre.
    """

    clubhead_speed: Number
    club_path: Number = 0.0
    attack_angle: Number = 0.0
    face_angle: Number = 0.0
    dynamic_loft: Number = UNSAID
    strike_toe: Number = 0.0
    strike_high: Number = 0.0
    lie_tilt: Number = 0.0
    closure_rate: Number = 0.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if _is_fast(self.clubhead_speed) and made_by_caller():
            warn_if_fast(self.clubhead_speed)


#: A faster clubhead is probably a mistake of units, m/s (145 mph): nobody swings so fast.
FASTEST_HEAD = 65.0


def _is_fast(clubhead_speed: Any) -> bool:
    if isinstance(clubhead_speed, float):
        return clubhead_speed > FASTEST_HEAD
    return chunks_in(clubhead_speed) is None and bool(np.any(np.asarray(clubhead_speed) > FASTEST_HEAD))


def warn_if_fast(clubhead_speed: Any) -> None:
    """Warns of a clubhead speed that reads as miles an hour given for metres a second."""
    if _is_fast(clubhead_speed):
        fastest = float(np.nanmax(np.asarray(clubhead_speed, float)))
        warn(
            f"clubhead_speed is {fastest:.4g} m/s ({fastest / mph:.0f} mph), faster than anyone swings; speeds are "
            f"in m/s: for miles an hour write {fastest:.4g} * mph"
        )


@dataclass(frozen=True, repr=False)
class DPlane(Value, kind="DPlane"):
    """The plane through path and face normal.

    Attributes
    ----------
    spin_loft : float or array
        Angle between path and face normal, rad.
    tilt : float or array
        Tilt of the spin axis, rad; positive curves right.
    """

    spin_loft: Number
    tilt: Number


@by_labels
def d_plane(delivery: Delivery) -> DPlane:
    """Compute spin loft and spin-axis tilt of a delivery.

    Parameters
    ----------
    delivery : Delivery
        The delivery; scalars or arrays.

    Returns
    -------
    DPlane
        Of the delivery's shape.

    Raises
    ------
    InputError
        For numbers out of range.

    Notes
    -----
    Idea: Jorgensen, The Physics of Golf, 2nd ed. 1999.
    """
    shape = common_shape([delivery])
    table = table_of(delivery, shape)
    mistakes = _core.delivery_mistakes(table)
    refuse(mistakes, int(np.prod(shape)))
    return from_table(DPlane, _core.d_plane(table), shape)


@dataclass(frozen=True, repr=False)
class Presentation(Value, kind="Presentation"):
    """How the hands present a club.

    Parameters
    ----------
    shaft_lean : float or array
        Shaft lean, rad; forward is positive.
    face_angle : float or array
        Direction the club is turned to about its shaft, rad, before the tilt.
    lie_tilt : float or array
        Tilt of the club, rad; toe up is positive.
    """

    shaft_lean: Number
    face_angle: Number
    lie_tilt: Number


@by_labels
def present(
    club: Club,
    *,
    clubhead_speed: Number,
    shaft_lean: Number = 0.0,
    face_angle: Number = 0.0,
    lie_tilt: Number = 0.0,
    club_path: Number = 0.0,
    attack_angle: Number = 0.0,
    **more: Number,
) -> Delivery:
    """Compute the delivery of a club from how the hands present its face.

    The shaft leans by ``shaft_lean``, the club turns about its shaft until the face points along ``face_angle``,
    then tilts by ``lie_tilt``. The result's ``dynamic_loft`` includes the loft gained or lost.

    Parameters
    ----------
    club : Club
        The club; scalars or arrays. All numbers broadcast together.
    clubhead_speed : float or array
        Clubhead speed, m/s.
    shaft_lean : float or array
        Shaft lean, rad; forward is positive.
    face_angle : float or array
        Face angle, rad; positive right.
    lie_tilt : float or array
        Tilt of the club, rad; toe up is positive. For a ball above the feet, add the angle of the slope (the club
        soled flush).
    club_path : float or array
        Club path, rad; positive right.
    attack_angle : float or array
        Attack angle, rad; positive up.
    **more : float or array
        ``strike_toe``, ``strike_high`` and ``closure_rate``, as in ``Delivery``.

    Returns
    -------
    Delivery
        Of the common shape.

    Raises
    ------
    InputError
        For angles out of range.
    """
    presented, mistakes = masked_present(club, shaft_lean, face_angle, lie_tilt)
    refuse(mistakes, int(np.prod(presented.shape)))
    hit = replace(presented, clubhead_speed=clubhead_speed, club_path=club_path, attack_angle=attack_angle, **more)
    warn_if_fast(hit.clubhead_speed)
    return hit


def masked_present(
    club: Club, shaft_lean: Number, face_angle: Number, lie_tilt: Number
) -> tuple[Delivery, list[tuple[int, str]]]:
    """A delivery with the face presented, NaN in bad rows, and what is wrong with each of those."""
    hands = Presentation(shaft_lean, face_angle, lie_tilt)
    shape = common_shape([club, hands])
    rows = int(np.prod(shape))
    table, mistakes = _core.present(table_of(club, shape), club.hand == "left", table_of(hands, shape), rows)
    return from_table(Delivery, table, shape), mistakes
