"""What happens between club and ball."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import prod
from typing import Any, Literal

from .. import _core
from ..core.by_labels import by_labels
from ..core.given_numbers import freeze
from ..core.unsaid import fill_unsaid
from ..core.value import Shape, Value, common_shape, from_table, of_kind, table_of, unpack, value_or_default
from ..errors import InputError, refuse
from .ball import Ball
from .flight import Launch
from .swing import Club, Delivery

ImpactModel = Literal["compliant", "rigid"]
#: What an impact may take outside its range; the rest of the ranges are the flight's.
RANGES = ("face_friction", "approach_speed")
#: All that may be left, in the order of their table.
OUT_OF_RANGE = [name for name, *_ in _core.fields["OutOfRange"]]


@dataclass(frozen=True, repr=False)
class Impact(Value, kind="Impact"):
    """What happens between club and ball.

    Attributes
    ----------
    smash_factor : float or array
        Ball speed over clubhead speed.
    start_fraction : float or array
        Where the start direction lies between the path (0) and the face where struck (1); 1 also where the two
        agree.
    energy_lost : float or array
        Energy lost, J.
    contact_time : float or array
        Duration of the contact, s; 0 by the rigid model.
    slip_time : float or array
        Time of sliding within the contact, s; 0 by the rigid model.
    launch : Launch
        How the ball leaves.
    head_velocity_after : array
        Velocity of the head's centre of mass, m/s, shape (…, 3).
    head_rotation_after : array
        Angular velocity of the head, rad/s, shape (…, 3).
    struck_normal : array
        Unit normal of the face where struck, shape (…, 3).
    out_of_range : dict of str to float or array
        How far face friction and approach speed, m/s, left the contact's stated range; 0 inside.
    """

    smash_factor: Any
    start_fraction: Any
    energy_lost: Any
    contact_time: Any
    slip_time: Any
    launch: Launch
    head_velocity_after: Any
    head_rotation_after: Any
    struck_normal: Any
    out_of_range: dict[str, Any] = field(default_factory=dict)

    @classmethod
    def from_tables(cls, tables: Any, shape: Shape) -> Impact:
        """Build impacts from tables of the compiled core.

        Parameters
        ----------
        tables : dict of str to array
            The tables, one row per strike.
        shape : tuple of int
            Shape of the result.

        Returns
        -------
        Impact
            The impacts, of that shape.
        """
        motion = freeze(tables["head_motion"]).reshape((*shape, 9))
        return from_table(
            cls,
            tables["impact"],
            shape,
            launch=from_table(Launch, tables["launch"], shape),
            head_velocity_after=motion[..., :3],
            head_rotation_after=motion[..., 3:6],
            struck_normal=motion[..., 6:],
            out_of_range=excesses(tables["out_of_range"], RANGES, shape),
        )


def excesses(table: Any, names: tuple[str, ...], shape: Shape) -> dict[str, Any]:
    """How far results left the named ranges, from their table."""
    return {name: unpack(table[:, OUT_OF_RANGE.index(name)], shape) for name in names}


def is_rigid(impact: ImpactModel) -> bool:
    if impact not in ("compliant", "rigid"):
        raise InputError(f"impact is {impact!r}; accepted: compliant, rigid")
    return impact == "rigid"


@by_labels
def strike(
    delivery: Delivery, club: Club, *, ball: Ball | None = None, impact: ImpactModel = "compliant"
) -> Impact:
    """Strike a ball with a club.

    Parameters
    ----------
    delivery : Delivery
        How the clubhead comes to the ball; scalars or arrays. All numbers broadcast together; Dask arrays are
        computed.
    club : Club
        The club.
    ball : Ball, optional
        The ball; the standard one by default.
    impact : {"compliant", "rigid"}
        ``"compliant"``: one model for every club and strike. ``"rigid"``: the closed form, for teaching: centred
        strikes, the ball rolling as it leaves; about 5 % too much spin with a driver, a quarter too little with a
        mid-iron or a short iron.

    Returns
    -------
    Impact
        Of the common shape.

    Raises
    ------
    InputError
        For numbers out of range, a face that does not approach the ball, or a ball that misses the face.

    Notes
    -----
    The compliant model is a free head and a ball with a compliant contact between them, which sticks and slides
    (after Maw, Barber, Fawcett, Wear 38 (1976) 101); its constants are calibrated by this project. Not modelled:
    the shaft except its mass, turf on the head, and the edges of the face.
    """
    of_kind(delivery, "delivery", Delivery)
    of_kind(club, "club", Club)
    tables, mistakes, shape = _strike(fill_unsaid(delivery), club, value_or_default(ball, "ball", Ball), impact)
    refuse(mistakes, prod(shape))
    return Impact.from_tables(tables, shape)


def strike_mistakes(delivery: Delivery, club: Club) -> list[tuple[int, str]]:
    """What keeps deliveries of a club from being struck: row and message."""
    return _strike(delivery, club, Ball(), "compliant")[1]


def _strike(
    delivery: Delivery, club: Club, ball: Ball, impact: ImpactModel
) -> tuple[dict[str, Any], list[tuple[int, str]], Shape]:
    shape = common_shape([delivery, club, ball])
    tables, mistakes = _core.strike(
        table_of(delivery, shape),
        table_of(club, shape),
        club.hand == "left",
        is_rigid(impact),
        table_of(ball, shape),
        prod(shape),
    )
    return tables, mistakes, shape
