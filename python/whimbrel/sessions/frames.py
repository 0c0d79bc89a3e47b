"""The answers of a session as DataFrames, in trade or metric units."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.files import import_pandas
from ..core.quantity import System, display_unit
from ..strikes.reading import STRIKE_FIELDS

if TYPE_CHECKING:
    import pandas as pd

    from .answers import Aimed, Before, Driven, Group


def spreads(groups: Sequence[Group], units: System) -> pd.DataFrame:
    rows = []
    for group in groups:
        for name, spread in group.spreads.items():
            unit = display_unit(name, STRIKE_FIELDS[name], units)
            row: dict[str, Any] = {"player": group.player, "club": group.club, "block": group.block,
                                   "quantity": name, "unit": unit.symbol, "n": spread.n,
                                   "missing": spread.missing}  # fmt: skip
            for what in ("mean", "sd", "median", "robust_sd"):
                interval = getattr(spread, what)
                for end, label in (("estimate", what), ("low", f"{what}_low"), ("high", f"{what}_high")):
                    row[label] = np.nan if interval is None else getattr(interval, end) / unit.factor
            row |= {"lowest": spread.lowest / unit.factor, "highest": spread.highest / unit.factor}
            rows.append(row | {"outliers": ", ".join(map(str, spread.outliers))})
    return _frame(rows)


def changes(pairs: Sequence[Before], units: System) -> pd.DataFrame:
    rows = []
    for pair in pairs:
        for change in pair.comparison.changes:
            unit = display_unit(change.quantity, change.si, units)
            row: dict[str, Any] = {"player": pair.player, "club": pair.club, "from": pair.before, "to": pair.after,
                                   "quantity": change.quantity, "about": change.about, "unit": unit.symbol,
                                   "n_before": change.n_before, "n_after": change.n_after}  # fmt: skip
            for what in ("before", "after", "change", "low", "high", "smallest"):
                row[what] = getattr(change, what) / unit.factor
            row |= {"p": change.p, "p_adjusted": change.p_adjusted, "in_a_row": change.rho, "answer": change.answer}
            rows.append(row | {"needed_least": change.needed[0], "needed_most": change.needed[1]})
    return _frame(rows)


def scatters(scatters: Sequence[Driven], units: System) -> pd.DataFrame:
    rows = []
    length = display_unit("carry", "m", units)
    for driven in scatters:
        for part in driven.scatter.parts if driven.scatter else ():
            unit = display_unit(part.quantity, part.si, units)
            rows.append({
                "player": driven.player, "club": driven.club, "block": driven.block, "quantity": part.quantity,
                "unit": unit.symbol, "sd": part.sd / unit.factor, "noise": part.noise / unit.factor,
                "own_sd": part.own / unit.factor, "carry_slope": part.carry_slope * unit.factor / length.factor,
                "offline_slope": part.offline_slope * unit.factor / length.factor, "carry_share": part.carry_share,
                "offline_share": part.offline_share, "share": part.share, "halved": part.halved / length.factor,
                "halved_low": part.halved_low / length.factor, "halved_high": part.halved_high / length.factor,
            })  # fmt: skip
    return _frame(rows)


def targets(targets: Sequence[Aimed], units: System) -> pd.DataFrame:
    rows = []
    length = display_unit("carry", "m", units)
    turn = display_unit("face_angle", "rad", units)
    for aimed in targets:
        play = aimed.play
        rows.append({
            "player": aimed.player, "club": aimed.club, "block": aimed.block, "target": aimed.name,
            "shape": type(play.target).__name__.lower(), "n": play.n, "hits": play.hits, "rate": play.rate,
            "low": play.low, "high": play.high, "direction_deg": play.direction / turn.factor,
            "direction_sd_deg": play.direction_sd / turn.factor,
            f"distance_{length.suffix}": play.distance / length.factor,
            f"distance_sd_{length.suffix}": play.distance_sd / length.factor, "aimed_rate": play.aimed_rate,
            "left_out_rate": play.left_out_rate,
        })  # fmt: skip
    return _frame(rows)


def last_blocks(groups: Sequence[Group]) -> dict[tuple[str, str], Group]:
    """Each player's last block with each club."""
    return {(group.player, group.club): group for group in groups}


def side_by_side(groups: Sequence[Group], units: System) -> pd.DataFrame:
    pandas = import_pandas()
    table: dict[tuple[str, str, str], dict[str, float]] = {}
    names: dict[str, str] = {}
    for (player, club), group in last_blocks(groups).items():
        for name, spread in group.spreads.items():
            unit = display_unit(name, STRIKE_FIELDS[name], units)
            label = names.setdefault(name, f"{name}_{unit.suffix}".rstrip("_"))
            few = (
                [np.nan, np.nan]
                if spread.mean is None or spread.sd is None
                else [spread.mean.estimate, spread.sd.estimate]
            )
            for what, x in zip(("mean", "sd"), few, strict=True):
                table.setdefault((player, club, what), {})[label] = x / unit.factor
    frame: pd.DataFrame = pandas.DataFrame(table)
    frame.columns.names = ["player", "club", "of"] if table else [None]
    return frame


def _frame(rows: list[dict[str, Any]]) -> pd.DataFrame:
    frame: pd.DataFrame = import_pandas().DataFrame(rows)
    return frame
