"""A player's clubs, each with the delivery to reckon with."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.named import Named
from ..core.quantity import text
from ..core.value import Array, Number, Value, common_shape, from_table, of_kind, table_of, units_of
from ..errors import InputError, refuse
from ..row.ball import Ball
from ..row.play import play
from ..row.swing import Club, Delivery, clubs
from ..units import mph, yd

if TYPE_CHECKING:
    import pandas as pd


class Swing(NamedTuple):
    """A club and its delivery."""

    club: Club
    delivery: Delivery


class Bag(Named[Swing]):
    """Clubs and their deliveries by the club's name: ``bag["7 iron"].delivery``."""

    kind = "club of the bag"

    def __init__(self, members: Mapping[str, Swing], left_out: Sequence[str] = ()) -> None:
        """left_out: what was wrong with each row of a table that the clubs' medians do without."""
        super().__init__(members)
        self.left_out = tuple(left_out)

    def stack(self) -> Swing:
        """All of them as arrays, one number a club, in the order of the bag."""
        if not self:
            raise InputError("the bag is empty")
        hands = {swing.club.hand for swing in self.values()}
        if len(hands) > 1:
            raise InputError("the bag has right-handed and left-handed clubs; a player has one kind")
        members = list(self.values())
        stacked = {
            name: np.array([float(getattr(swing.club, name)) for swing in members]) for name in units_of(Club)
        }
        delivery = {
            name: np.array([float(getattr(swing.delivery, name)) for swing in members])
            for name in units_of(Delivery)
        }
        return Swing(Club("bag", **stacked, hand=hands.pop()), Delivery(**delivery))


@dataclass(frozen=True, repr=False)
class _Pace(Value, kind="Pace"):
    driver_speed: Number


@by_labels
def usual_delivery(club: Club, driver_speed: Number = 95 * mph) -> Delivery:
    """Compute a usual delivery of a club: square and straight.

    Parameters
    ----------
    club : Club
        The club; scalars or arrays. All numbers broadcast together.
    driver_speed : float or array
        The player's clubhead speed with a driver of 45.5 in, m/s; accepted: 40 to 140 mph.

    Returns
    -------
    Delivery
        Speed, attack and loft at impact of that club at that pace. A driver is struck 3 mm above its centre.

    Raises
    ------
    InputError
        For numbers out of range, and for a club without a usual delivery, such as a putter.

    Notes
    -----
    Formulas calibrated by this project on common practice: launches of strong men (113 mph), and carries of strong
    women (94 mph) and of players at 70 mph.
    """
    of_kind(club, "club", Club)
    pace = _Pace(driver_speed)
    shape = common_shape([club, pace])
    rows = int(np.prod(shape))
    table, mistakes = _core.usual_deliveries(
        table_of(club, shape), club.hand == "left", table_of(pace, shape), rows
    )
    refuse(mistakes, rows)
    return from_table(Delivery, table, shape)


#: Rounds of ``pace_of``: each leaves at most a third of the error of the one before, for any club.
PACE_ROUNDS = 40


def pace_of(club: Club, clubhead_speed: float) -> float:
    """The driver speed, m/s, of a player who usually swings this club at ``clubhead_speed``, m/s.

    Held inside the paces that ``usual_delivery`` takes, 40 to 140 mph.
    """
    pace = 95 * mph
    for _ in range(PACE_ROUNDS):
        usual = float(usual_delivery(club, pace).clubhead_speed)
        pace = min(max(pace * clubhead_speed / usual, 40 * mph), 140 * mph)
    return pace


def usual_bag(driver_speed: float = 95 * mph, club_set: Mapping[str, Club] = clubs) -> Bag:
    """Build a bag of usual deliveries for a player's driver speed.

    Parameters
    ----------
    driver_speed : float
        The player's clubhead speed with a driver of 45.5 in, m/s.
    club_set : mapping of str to Club
        The clubs by name; the shipped ones by default.

    Returns
    -------
    Bag
        Every club with its usual delivery. A club without one, as a putter, is left out; ``left_out`` says so.

    Raises
    ------
    InputError
        As ``usual_delivery`` does.
    """
    least, most = _core.usual_loft_range
    swung = {name: club for name, club in club_set.items() if least <= float(club.loft) <= most}
    left_out = [
        f"{name}: a loft of {text(float(club.loft), 'loft', 'rad')} has no usual delivery"
        for name, club in club_set.items()
        if name not in swung
    ]
    return Bag({name: Swing(club, usual_delivery(club, driver_speed)) for name, club in swung.items()}, left_out)


class SameJob(NamedTuple):
    """Two neighbours of a bag that carry nearly alike: their names, and how far apart they carry, m."""

    longer: str
    shorter: str
    apart: float


#: Clubs whose carries are closer than this do the same job, m: common practice, no source.
SAME_JOB = 4 * yd


def find_same_jobs(bag: Bag, *, ball: Ball | None = None) -> list[SameJob]:
    """The neighbours of a bag, by carry in still standard air, that carry less than 4 yd apart.

    Raises InputError as ``play`` does.
    """
    swing = bag.stack()
    carries = play(swing.delivery, swing.club, ball=ball, errors="mask").carry
    order = [i for i in np.argsort(-carries) if np.isfinite(carries[i])]
    names = list(bag)
    return [
        SameJob(names[i], names[j], float(carries[i] - carries[j]))
        for i, j in pairwise(order)
        if carries[i] - carries[j] < SAME_JOB
    ]


def typical_bag(source: pd.DataFrame | str | os.PathLike[str], club_set: Mapping[str, Club] = clubs) -> Bag:
    """Build a bag of a player's typical deliveries from a table; needs the ``tables`` extra.

    Parameters
    ----------
    source : DataFrame, str or Path
        A table of deliveries as ``table`` reads it, with a column ``club``.
    club_set : mapping of str to Club
        The clubs by name; the shipped ones by default.

    Returns
    -------
    Bag
        Every club of the table with the median of its deliveries; bad rows are listed in its ``left_out``.

    Raises
    ------
    InputError
        If no row of a club is good, or no row has a delivery.
    """
    from ..strikes.play_table import deliveries

    typical = {}
    found, left_out = deliveries(source, club_set)
    for name, strikes in found.items():
        medians = {field.name: _median(getattr(strikes, field.name)) for field in fields(Delivery)}
        typical[name] = Swing(club_set[name], Delivery(**medians))
    return Bag(typical, left_out)


def _median(x: Array) -> float:
    return float(np.median(x))
