"""A shot played again with something changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..core.value import units_of
from ..errors import InputError
from ..row.ball import Ball
from ..row.play import play
from ..row.setting import Air, Terrain, Weather, Wind
from ..row.shot import Shot
from ..row.swing import Club, Delivery, warn_if_fast


def what_if(
    shot: Shot,
    *,
    delivery: Mapping[str, float] | None = None,
    club: Club | None = None,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
) -> Shot:
    """Play a shot again with something changed.

    Parameters
    ----------
    shot : Shot
        A shot that was played from a delivery.
    delivery : mapping of str to float, optional
        Fields of the delivery to change, SI. All else stays: a changed lie_tilt does not turn the face by itself.
    club : Club, optional
        Another club.
    ball : Ball, optional
        Another ball.
    weather : Weather or Air, optional
        Other weather.
    wind : Wind, optional
        Another wind.
    terrain : Terrain, optional
        Other ground.

    Returns
    -------
    Shot
        The shot with these changes.

    Raises
    ------
    InputError
        For a shot without a delivery, an unknown field or a number out of range.

    Examples
    --------
    >>> what_if(shot, delivery={"face_angle": 0.0})
    """
    if shot.delivery is None or shot.club is None:
        raise InputError("what_if takes a shot with a delivery; a measured launch has none to change")
    changed = dict(delivery or {})
    unknown = [name for name in changed if name not in units_of(Delivery)]
    if unknown:
        raise InputError(f"{unknown[0]!r} is not a field of a delivery; there are: {', '.join(units_of(Delivery))}")
    hit = replace(shot.delivery, **changed)
    if "clubhead_speed" in changed:
        warn_if_fast(hit.clubhead_speed)
    return play(
        hit,
        shot.club if club is None else club,
        ball=shot.ball if ball is None else ball,
        weather=shot.air if weather is None else weather,
        wind=shot.wind if wind is None else wind,
        terrain=shot.terrain if terrain is None else terrain,
        turf=shot.turf,
        impact=shot.impact_model,
    )
