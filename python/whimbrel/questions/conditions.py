"""What air and wind do to the carries of a set: tables over temperature and altitude, and over wind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.files import import_pandas
from ..core.given_numbers import freeze
from ..core.quantity import System, display_unit
from ..core.result import Result
from ..core.value import Array, as_numbers, numbers_of, of_kind
from ..row.ball import Ball
from ..row.play import play
from ..row.setting import Terrain, Weather, Wind
from ..row.shot import Shot
from ..row.swing import Club, Delivery
from ..units import celsius, deg, ft, mph
from .bag import Bag

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.figure import Figure

#: Default axes of the tables: K, m and m/s.
TEMPERATURES = celsius(np.array([5.0, 15.0, 25.0, 35.0]))
ALTITUDES = np.array([0.0, 2000.0, 4000.0, 6000.0]) * ft
SPEEDS = np.array([0.0, 5.0, 10.0, 15.0, 20.0]) * mph
#: Where the wind of a table comes from.
WINDS = {"ahead": 0.0, "behind": 180 * deg, "the left": -90 * deg, "the right": 90 * deg}


@dataclass(frozen=True)
class AirTable(Result, view="conditions"):
    """Carries of a bag by air.

    Attributes
    ----------
    names : list of str
        The clubs.
    temperature : array
        Temperatures, K.
    altitude : array
        Altitudes, m.
    carry : array
        Carry, m, shape (club, temperature, altitude).
    """

    names: list[str]
    temperature: Array
    altitude: Array
    carry: Array

    def frame(self, units: System = "yards") -> pd.DataFrame:
        """Convert to a DataFrame; needs the ``tables`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the columns.

        Returns
        -------
        DataFrame
            A row for each club and altitude, a column for each temperature.
        """
        length, warmth, height = (display_unit(*of, units) for of in _SHOWN)
        heights = [round(float(x), 6) for x in height.from_si(self.altitude)]
        index = import_pandas().MultiIndex.from_product(
            [self.names, heights], names=["club", f"altitude_{height.suffix}"]
        )
        columns = [f"carry_{length.suffix}_at_{t:.3g}{warmth.suffix}" for t in warmth.from_si(self.temperature)]
        carries = length.from_si(self.carry).swapaxes(1, 2).reshape(-1, self.temperature.size)
        frame: pd.DataFrame = import_pandas().DataFrame(carries, index, columns)
        return frame

    def plot(self, units: System = "yards") -> Figure:
        """Draw the carry gained against altitude; needs the ``plots`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the labels.

        Returns
        -------
        Figure
            A panel for each temperature, a line for each club.
        """
        figure: Figure = self._plots().air_table(self, units)
        return figure


_SHOWN = (("carry", "m"), ("temperature", "K"), ("altitude", "m"))


@dataclass(frozen=True)
class WindTable(Result, view="conditions"):
    """Carry and drift of a bag by wind.

    Attributes
    ----------
    names : list of str
        The clubs.
    speed : array
        Wind speeds at 10 m, m/s.
    directions : list of str
        Where the wind comes from, in the order of ``WINDS``.
    carry : array
        Carry, m, shape (club, speed, direction).
    drift : array
        How far the wind moves the landing sideways, m; positive right; shape (club, speed, direction).
    """

    names: list[str]
    speed: Array
    directions: list[str]
    carry: Array
    drift: Array

    def frame(self, units: System = "yards") -> pd.DataFrame:
        """Convert to a DataFrame; needs the ``tables`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the columns.

        Returns
        -------
        DataFrame
            A row for each club and wind speed, columns for each direction.
        """
        length, speed = display_unit("carry", "m", units), display_unit("wind", "m/s", units)
        speeds = [round(float(x), 6) for x in speed.from_si(self.speed)]
        index = import_pandas().MultiIndex.from_product(
            [self.names, speeds], names=["club", f"wind_{speed.suffix}"]
        )
        columns: dict[str, Any] = {}
        for i, direction in enumerate(self.directions):
            place = direction.replace("the ", "from_")
            columns[f"carry_{length.suffix}_{place}"] = length.from_si(self.carry[:, :, i].ravel())
            if direction.startswith("the "):
                columns[f"drift_{length.suffix}_{place}"] = length.from_si(self.drift[:, :, i].ravel())
        frame: pd.DataFrame = import_pandas().DataFrame(columns, index)
        return frame

    def plot(self, units: System = "yards") -> Figure:
        """Draw carry against head and tail wind, and drift against cross wind; needs the ``plots`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the labels.

        Returns
        -------
        Figure
            A line for each club.
        """
        figure: Figure = self._plots().wind_table(self, units)
        return figure


def carry_by_air(
    bag: Bag,
    *,
    temperature: Any = TEMPERATURES,
    altitude: Any = ALTITUDES,
    relative_humidity: float = 0.5,
    ball: Ball | None = None,
) -> AirTable:
    """Compute every club's carry over temperatures and altitudes, in still air over level ground.

    Parameters
    ----------
    bag : Bag
        The clubs and their deliveries.
    temperature : float or array
        Temperatures of the air, K, shape (n,). That a cold ball leaves the face slower is not modelled.
    altitude : float or array
        Altitudes, m, shape (m,).
    relative_humidity : float
        Relative humidity, 0 to 1.
    ball : Ball, optional
        The ball; the standard one by default.

    Returns
    -------
    AirTable
        The carries.

    Raises
    ------
    InputError
        For numbers out of range, as ``play`` does.
    """
    warmth, height = (
        np.atleast_1d(as_numbers(x, name, unit))
        for x, name, unit in ((temperature, "temperature", "K"), (altitude, "altitude", "m"))
    )
    weather = Weather(warmth[:, None], altitude=height, relative_humidity=relative_humidity)
    return AirTable(list(bag), warmth, height, _play(bag, weather=weather, ball=ball).carry)


def carry_by_wind(bag: Bag, *, speed: Any = SPEEDS, ball: Ball | None = None) -> WindTable:
    """Compute every club's carry and drift in wind from ahead, behind, left and right.

    Parameters
    ----------
    bag : Bag
        The clubs and their deliveries.
    speed : float or array
        Wind speeds at 10 m, m/s, shape (n,).
    ball : Ball, optional
        The ball; the standard one by default.

    Returns
    -------
    WindTable
        The carries and drifts.

    Raises
    ------
    InputError
        For numbers out of range, as ``play`` does.
    """
    speeds = np.atleast_1d(as_numbers(speed, "speed", "m/s"))
    shots = _play(bag, wind=Wind(speeds[:, None], np.array(list(WINDS.values()))), ball=ball)
    drift = freeze(shots.offline - _play(bag, ball=ball).offline)
    return WindTable(list(bag), speeds, list(WINDS), shots.flight.downrange, drift)


def _play(bag: Bag, **conditions: Any) -> Shot:
    """Every club in every condition: the club is the first axis of three."""
    of_kind(bag, "bag", Bag)
    club, delivery = bag.stack()
    clubs = Club("bag", **{name: x[:, None, None] for name, x in numbers_of(club).items()}, hand=club.hand)
    hits = Delivery(**{name: x[:, None, None] for name, x in numbers_of(delivery).items()})
    return play(hits, clubs, terrain=Terrain(), accuracy="reference", **conditions)
