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
    """A club. Numbers are scalars or arrays.

    name. hand: ``"right"`` or ``"left"``, the side the player swings from. loft: rad, of the face against
    the shaft. lie_angle: rad, of the shaft against the ground. length: m. mass: kg, of the head.
    face_restitution: normal restitution at an approach of 43.8 m/s; 0.745 for a rigid face (calibrated on the
    ball speeds of the trade's irons, off-centre strikes among them; the rules' limit of the ball is 0.773),
    0.840 for a driver at the rules' limit (0.830 at 48.8 m/s). inertia_target,
    inertia_vertical, inertia_heel_toe: kg m², of the head about the target line, the vertical and the
    heel–toe line through its centre of mass. cg_depth: m, of the centre of mass behind the face centre, along
    the face normal; cg_toe, cg_crown: m, its offsets toward toe and crown. bulge_radius, roll_radius: m, of
    the face from heel to toe and from sole to crown; infinite for a flat face. face_width, face_height: m,
    the face's outline; a strike outside it misses. shaft_mass: kg, what of the shaft moves with the head
    through the contact, taken at the head's centre of mass (20 g: common practice). face_wetness: from 0, dry, to
    1, as wet or grassy as it gets, when friction falls by 40 %: a full wedge then spins a fifth to two fifths
    less and leaves 2° to 6.5° higher (judged; common practice is more); lofts under 44° refuse it.
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
        """The same club for a left-hander, its mirror image."""
        return replace(self, hand="left")


class Clubs(Named[Club]):
    """Clubs by name: ``clubs["7 iron"]``."""

    kind = "club"

    def left_handed(self) -> Clubs:
        """The same clubs for a left-hander."""
        return Clubs({name: club.left_handed() for name, club in self.items()})


clubs = Clubs({name: Club(name, *numbers) for name, numbers in _core.club_set().items()})
"""An invented set from driver to lob wedge, its numbers inside the ranges of the trade."""


def load_clubs(path: str | Path) -> Clubs:
    """Your own clubs from a TOML file: one ``[[club]]`` each, numbers with their unit in the key.

    ::

        [[club]]
        name = "my 7 iron"
        loft_deg = 31.5
        lie_angle_deg = 62
        length_in = 37.25
        mass_g = 270
        hand = "left"              # right if left out
        face_restitution = 0.745   # this if left out; so the rest: inertia_vertical_gcm2, cg_depth_mm,
                                   # bulge_radius_mm, face_width_mm … are an iron's

    Raises InputError naming the club and the key.
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
    """How the clubhead comes to the ball. Scalars or arrays, broadcast together.

    clubhead_speed: m/s; faster than 65 m/s (145 mph) warns, as nobody swings so fast. club_path: rad, direction of
    the face centre's velocity just before contact, positive right of the target line. attack_angle: rad, its
    elevation, positive up. face_angle and dynamic_loft: rad, direction and elevation of the face normal at first
    contact, with lie, lean and everything else included; a dynamic_loft that is left out is played as 0 with a
    warning. strike_toe, strike_high: m, of the strike from the face centre toward toe and crown. lie_tilt: rad,
    toe up; turns the toe–heel and crown–sole axes only. closure_rate: rad/s, of the head about its vertical axis,
    closing the face; the face does not turn during the contact, so that closing only adds the speed it gives to a
    strike away from the centre.
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


#: Clubheads faster than this are taken for a mistake of units, m/s (145 mph): nobody swings so fast.
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
    """The plane through path and face normal. spin_loft: rad, the angle between them. tilt: rad, of the spin
    axis, positive when the ball curves right."""

    spin_loft: Number
    tilt: Number


@by_labels
def d_plane(delivery: Delivery) -> DPlane:
    """Spin loft and spin-axis tilt of a delivery. Idea: Jorgensen, The Physics of Golf, 2nd ed. 1999."""
    shape = common_shape([delivery])
    table = table_of(delivery, shape)
    mistakes = _core.delivery_mistakes(table)
    refuse(mistakes, int(np.prod(shape)))
    return from_table(DPlane, _core.d_plane(table), shape)


@dataclass(frozen=True, repr=False)
class Presentation(Value, kind="Presentation"):
    """How the hands present a club. shaft_lean: rad, forward positive. face_angle: rad, to which the club is turned
    about its shaft, before lie_tilt: rad, toe up."""

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
    """The delivery of a club whose face the hands present so. Angles in rad, scalars or arrays.

    The shaft leans forward by ``shaft_lean``, the club turns about its shaft until the face points along
    ``face_angle``, then tilts toe up by ``lie_tilt``. Loft lost or won on the way is in the result's
    ``dynamic_loft``. ``more``: strike_toe, strike_high, closure_rate of the delivery. On ground that has the
    ball above the feet by an angle, add it to ``lie_tilt`` (the club soled flush). Raises InputError for angles
    out of range.
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
