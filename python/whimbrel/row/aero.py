"""The aerodynamic models that balls fly by."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from .. import _core
from ..core.value import Array, Number, Value, as_numbers, table_of
from ..errors import InputError


class StatedRange(NamedTuple):
    """Where a model is stated to hold; outside it keeps its edge value and the flight is flagged."""

    spin_ratio_lower: float
    spin_ratio_upper: float
    reynolds_lower: float
    reynolds_upper: float


class AeroModel(Value):
    """Base of the aerodynamic models: drag and lift coefficients of a spinning ball.

    Spin ratio W = r·ω/U, with ω the spin across the airflow; Reynolds number Re = 2ρUr/μ;
    force = ½ρAU²·C.
    """

    @cached_property
    def compiled(self) -> Any:
        """The model for the compiled half. Raises InputError for numbers out of range."""
        model = getattr(_core, type(self).__name__)(table_of(self, ()))
        mistake = _core.aero_mistake(model)
        if mistake:
            raise InputError(mistake)
        return model

    def coefficients(self, spin_ratio: Number, reynolds: Number) -> tuple[Array, Array]:
        """(C_D, C_L) over spin ratio and Reynolds number (scalars or arrays, broadcast)."""
        model = self.compiled
        pair = np.vectorize(lambda w, re: tuple(_core.coefficients(model, w, re)), otypes=[float, float])
        drag, lift = pair(spin_ratio, reynolds)
        return drag, lift

    @property
    def stated_range(self) -> StatedRange:
        """Where the model is stated to hold."""
        return StatedRange(*_core.stated_range(self.compiled))


@dataclass(frozen=True, repr=False)
class MultiLayer(AeroModel, kind="MultiLayer"):
    """A present-day multi-layer ball, the default; calibrated by this project.

    C_L = lift·(1 − exp(−W/lift_scale)); C_D = drag + drag_spin·(1 − exp(−(W/drag_spin_scale)^1.5)) +
    drag_laminar/(1 + (Re/crisis_reynolds)⁶); spin decay dω/dt = −spin_decay·U·ω/r.

    An exponential lift law as in Davies, J. Appl. Phys. 20 (1949) 821, and a drag crisis near Re 5e4
    (Sports Engineering 2020, s12283-020-0318-1); constants fitted to common-practice carries, heights and
    descent angles, to the rules' overall distance standard and to published altitude and temperature
    effects. Present-day balls differ by up to 0.05 in C_D and 18 m of carry (Lyu, Kensrud, Smith, Tosaya,
    Proceedings 2 (2018) 238). Reversed lift at low Re and low spin is published and not modelled.
    """

    lift: float = 0.404
    lift_scale: float = 0.184
    drag: float = 0.170
    drag_spin: float = 0.186
    drag_spin_scale: float = 0.189
    drag_laminar: float = 0.263
    crisis_reynolds: float = 0.541e5
    spin_decay: float = 2.0e-5


@dataclass(frozen=True, repr=False)
class SmitsSmith(AeroModel, kind="SmitsSmith"):
    """Smits & Smith, Science and Golf II (1994) 340 (constants from memory).

    C_D = drag + drag_spin·W + drag_wave·sin(π(Re − 9e4)/2e5); C_L = lift·W^lift_power;
    dω/dt = −spin_decay·U·ω/r.
    """

    drag: float = 0.24
    drag_spin: float = 0.18
    drag_wave: float = 0.06
    lift: float = 0.54
    lift_power: float = 0.4
    spin_decay: float = 2.0e-5


@dataclass(frozen=True, repr=False)
class SquareRootLift(AeroModel, kind="SquareRootLift"):
    """A square-root lift fit (printed in Palmer, Physics for Game Programmers, 2005), drag linear in W.

    C_L = −a + √(a² + lift_slope·W) with a = lift_offset; C_D = drag + drag_spin·W (a line, from memory,
    through Bearman & Harvey, Aeronaut. Q. 27 (1976) 112); dω/dt = −spin_decay·U·ω/r.
    """

    lift_offset: float = 0.05
    lift_slope: float = 0.36
    drag: float = 0.24
    drag_spin: float = 0.18
    spin_decay: float = 2.0e-5


@dataclass(frozen=True, repr=False)
class ConstantCoefficients(AeroModel, kind="ConstantCoefficients"):
    """The same drag and lift at every speed and spin: for exact checks and for teaching.

    Lift needs a spin axis: a ball without spin has none.
    """

    drag: float = 0.25
    lift: float = 0.15
    spin_decay: float = 0.0


@dataclass(frozen=True, repr=False, eq=False)
class AeroTable(AeroModel):
    """Your own grid of C_D and C_L over (spin ratio, Reynolds number), monotone cubic in each.

    spin_ratio: shape (m,), m ≥ 2, increasing. reynolds: shape (n,), n ≥ 1, increasing. drag, lift: shape
    (m, n). Outside the grid the edge value holds. spin_decay as in ``MultiLayer``.
    """

    spin_ratio: Array
    reynolds: Array
    drag: Array
    lift: Array
    spin_decay: float = 2.0e-5

    def __post_init__(self) -> None:
        for name in ("spin_ratio", "reynolds", "drag", "lift"):
            self.__dict__[name] = as_numbers(getattr(self, name), f"{name} of the table")

    @classmethod
    def from_csv(cls, path: str | Path, spin_decay: float = 2.0e-5) -> AeroTable:
        """Reads columns ``spin_ratio, reynolds, drag, lift``: one row for every point of the grid."""
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # an empty file is an error below
                points = np.genfromtxt(path, delimiter=",", names=True, dtype=float, encoding="utf-8")
            points = np.sort(np.atleast_1d(points), order=("reynolds", "spin_ratio"))
            axes = np.unique(points["spin_ratio"]), np.unique(points["reynolds"])
            grids = [points[name].reshape(axes[1].size, axes[0].size).T for name in ("drag", "lift")]
            complete = (points["spin_ratio"].reshape(axes[1].size, axes[0].size) == axes[0]).all()
        except (ValueError, KeyError, IndexError) as error:
            raise InputError(
                f"{path}: needs the columns spin_ratio, reynolds, drag, lift, numbers, and one row for "
                f"every point of the grid ({error})"
            ) from None
        if not complete:
            raise InputError(f"{path}: the grid has a point twice or not at all")
        return cls(axes[0], axes[1], grids[0], grids[1], spin_decay)

    @cached_property
    def compiled(self) -> Any:
        """The table for the compiled half. Raises InputError where its shapes do not fit."""
        spin_ratio, reynolds, drag, lift = self.spin_ratio.ravel(), self.reynolds.ravel(), self.drag, self.lift
        shape = spin_ratio.size, reynolds.size
        for name, grid in (("drag", drag), ("lift", lift)):
            if grid.shape != shape:
                raise InputError(
                    f"{name} of the table has shape {grid.shape}; it needs one value for each spin ratio and "
                    f"Reynolds number, shape {shape}"
                )
        model = _core.AeroTable(
            spin_ratio.tolist(),
            reynolds.tolist(),
            drag.ravel().tolist(),
            lift.ravel().tolist(),
            self.spin_decay,
        )
        mistake = _core.aero_mistake(model)
        if mistake:
            raise InputError(mistake)
        return model


#: What a ball flies by where nothing else is said.
DEFAULT = MultiLayer()
MODELS = {
    "multi-layer": MultiLayer,
    "smits-smith": SmitsSmith,
    "square-root-lift": SquareRootLift,
    "constant": ConstantCoefficients,
}


def model_of(numbers: dict[str, Any]) -> AeroModel:
    """The model of these numbers by name: a table where there is an axis of Reynolds numbers."""
    if "reynolds" not in numbers:
        return MultiLayer(**numbers)
    shape = len(numbers["spin_ratio"]), len(numbers["reynolds"])
    grids = {name: np.reshape(numbers[name], shape) for name in ("drag", "lift")}
    axes = {name: np.array(numbers[name]) for name in ("spin_ratio", "reynolds")}
    return AeroTable(**axes, **grids, spin_decay=numbers["spin_decay"])
