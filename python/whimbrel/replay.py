"""The deliveries of some strikes, and how to play others like them under the same conditions."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from .scatter import Played
from .setting import Air, Terrain, Weather, Wind
from .shot import play
from .strikes import CONDITIONS, Strikes
from .swing import Club, Delivery
from .tables import WEATHER, Defaults, Way
from .values import Array


def delivered(rows: Any, strikes: Strikes, way: Way, club: Club) -> tuple[Any, Delivery]:
    """The rows of a group whose delivery is complete, and that delivery."""
    numbers, given = strikes.rows.numbers, strikes.rows.given
    names = [name for name in (*way.needs, *way.may) if name in strikes.rows.columns and given[name][rows].any()]
    rows = rows[np.logical_and.reduce([np.isfinite(numbers[name][rows]) for name in names])] if names else rows
    values = {
        name: numbers[name][rows] if name in names else np.zeros(len(rows)) for name in (*way.needs, *way.may)
    }
    delivery, mistakes = way.start(values, club)
    wrong = [i for i, _ in mistakes]
    kept = np.setdiff1d(np.arange(len(rows)), wrong)
    return rows[kept], Delivery(**{k: np.broadcast_to(x, len(rows))[kept] for k, x in delivery._numbers().items()})


def player_of(rows: Any, strikes: Strikes, club: Club, defaults: Defaults) -> Played:
    """Plays deliveries under the median conditions of the group."""
    numbers = strikes.rows.numbers
    typical = {
        name: float(np.nanmedian(numbers[name][rows]))
        for name in CONDITIONS
        if name in numbers and np.isfinite(numbers[name][rows]).any()
    }
    weather: Any = defaults.weather
    own: dict[str, Any] = {name: typical[name] for name in WEATHER if name in typical}
    if own and not isinstance(weather, Air):
        if {"pressure", "altitude"} & set(own):
            own = {"pressure": None, "altitude": None, **own}
        weather = replace(weather or Weather(), **own)
    wind = defaults.wind or Wind()
    wind = replace(
        wind,
        speed=typical.get("wind_speed", wind.speed),
        from_direction=typical.get("wind_from", wind.from_direction),
    )
    terrain = Terrain(typical.get("tee_height", 0.0))

    def played(delivery: Delivery) -> tuple[Array, Array]:
        shot = play(delivery, club, ball=defaults.ball, weather=weather, wind=wind, terrain=terrain, errors="mask")
        flown = shot.status == "ok"
        return np.where(flown, shot.carry, np.nan), np.where(flown, shot.offline, np.nan)

    return played
