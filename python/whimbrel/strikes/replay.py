"""How some strikes started, and how to play others like them under the same conditions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from ..core.value import Array, numbers_of, value_or_default
from ..row.flight import Launch
from ..row.play import play
from ..row.setting import Terrain, Wind
from ..row.swing import Club, Delivery
from .play_table import WEATHER, WIND, Defaults, Way, weather_with, wind_with
from .rows import CONDITIONS, Strikes

#: From deliveries to carry and offline, m, each of the deliveries' shape; NaN where one cannot be played.
Played = Callable[[Delivery], tuple[Array, Array]]


def read_starts(rows: Any, strikes: Strikes, way: Way, club: Club | None) -> tuple[Any, Delivery | Launch]:
    """The rows of a group with a complete start, and those starts; there may be none."""
    numbers, given = strikes.rows.numbers, strikes.rows.given
    there = [name for name in way.may if name in strikes.rows.columns and given[name][rows].any()]
    names = [*way.needs, *there]
    rows = rows[np.logical_and.reduce([np.isfinite(numbers[name][rows]) for name in names])]
    values = {name: numbers[name][rows] if name in names else np.zeros(len(rows)) for name in (*names, *way.may)}
    start, mistakes = way.start(values, club)
    kept = np.setdiff1d(np.arange(len(rows)), [i for i, _ in mistakes])
    columns = {name: np.broadcast_to(x, len(rows))[kept] for name, x in numbers_of(start).items()}
    return rows[kept], type(start)(**columns)


def read_deliveries(rows: Any, strikes: Strikes, way: Way, club: Club) -> tuple[Any, Delivery]:
    """The rows of a group whose delivery is complete, and that delivery."""
    rows, delivery = read_starts(rows, strikes, way, club)
    assert isinstance(delivery, Delivery)
    return rows, delivery


def conditions(rows: Any, strikes: Strikes, defaults: Defaults) -> dict[str, Any]:
    """The median conditions of a group, as ``play`` takes them."""
    numbers = strikes.rows.numbers
    typical = {
        name: float(np.nanmedian(numbers[name][rows]))
        for name in CONDITIONS
        if name in numbers and np.isfinite(numbers[name][rows]).any()
    }
    weather = weather_with({name: typical[name] for name in WEATHER if name in typical}, defaults.weather)
    wind = wind_with(
        {name: typical[name] for name in WIND if name in typical}, value_or_default(defaults.wind, "wind", Wind)
    )
    terrain = Terrain(typical.get("tee_height", 0.0))
    return {"ball": defaults.ball, "weather": weather, "wind": wind, "terrain": terrain}


def player_of(rows: Any, strikes: Strikes, club: Club, defaults: Defaults) -> Played:
    """Plays deliveries under the median conditions of the group."""
    there = conditions(rows, strikes, defaults)

    def played(delivery: Delivery) -> tuple[Array, Array]:
        shot = play(delivery, club, errors="mask", **there)
        flown = shot.status == "ok"
        return np.where(flown, shot.carry, np.nan), np.where(flown, shot.offline, np.nan)

    return played
