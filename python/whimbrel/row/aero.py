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
    """The range that a model is stated for.

    Outside it the model keeps its value at the edge, and the flight is flagged.

    Attributes
    ----------
    spin_ratio_lower, spin_ratio_upper : float
        Range of the spin ratio W.
    reynolds_lower, reynolds_upper : float
        Range of the Reynolds number Re.
    """

    spin_ratio_lower: float
    spin_ratio_upper: float
    reynolds_lower: float
    reynolds_upper: float


class AeroModel(Value):
    """Base of the aerodynamic models: drag and lift coefficients of a spinning ball.

    Notes
    -----
    Spin ratio W = r·ω/U, where ω is the spin across the airflow; Reynolds number Re = 2ρUr/μ; force = ½ρAU²·C.
    """

    @cached_property
    def compiled(self) -> Any:
        """Build the model for the compiled core.

        Returns
        -------
        object
            The model of the compiled core.

        Raises
        ------
        InputError
            For a number out of range.
        """
        model = getattr(_core, type(self).__name__)(table_of(self, ()))
        mistake = _core.aero_mistake(model)
        if mistake:
            raise InputError(mistake)
        return model

    def coefficients(self, spin_ratio: Number, reynolds: Number) -> tuple[Array, Array]:
        """Compute the drag and lift coefficients.

        Parameters
        ----------
        spin_ratio : float or array
            W, broadcast with the other.
        reynolds : float or array
            Re.

        Returns
        -------
        drag : array
            C_D, of the common shape.
        lift : array
            C_L, of the common shape.

        Raises
        ------
        InputError
            For a model whose numbers are out of range.
        """
        model = self.compiled
        pair = np.vectorize(lambda w, re: tuple(_core.coefficients(model, w, re)), otypes=[float, float])
        drag, lift = pair(spin_ratio, reynolds)
        return drag, lift

    @property
    def stated_range(self) -> StatedRange:
        """The range that the model is stated for."""
        return StatedRange(*_core.stated_range(self.compiled))


@dataclass(frozen=True, repr=False)
class MultiLayer(AeroModel, kind="MultiLayer"):
    """A present-day multi-layer ball, the default; calibrated by this project.

    Parameters
    ----------
    lift : float
        Lift coefficient at high spin ratio.
    lift_scale : float
        Spin ratio over which the lift rises.
    drag : float
        Drag coefficient without spin.
    drag_spin : float
        Drag coefficient that spin adds, at most.
    drag_spin_scale : float
        Spin ratio over which spin adds drag.
    drag_laminar : float
        Drag coefficient added below the drag crisis.
    crisis_reynolds : float
        Reynolds number of the drag crisis.
    spin_decay : float
        Constant of the spin decay.

    Notes
    -----
    C_L = lift·(1 − exp(−W/lift_scale)); C_D = drag + drag_spin·(1 − exp(−(W/drag_spin_scale)^1.5)) +
    drag_laminar/(1 + (Re/crisis_reynolds)⁶); dω/dt = −spin_decay·U·ω/r.

    The lift law is exponential as in Davies, J. Appl. Phys. 20 (1949) 821, with a drag crisis near Re 5e4 (Sports
    Engineering 2020, s12283-020-0318-1). The constants are fitted to common-practice carries, heights and descent
    angles, to the rules' overall distance standard, and to published effects of altitude and temperature.
    Present-day balls differ by up to 0.05 in C_D and 18 m of carry (Lyu, Kensrud, Smith, Tosaya, Proceedings 2
    (2018) 238). Reversed lift at low Re and low spin is published but not modelled.
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
    """The wind-tunnel model of Smits and Smith.

    Parameters
    ----------
    drag : float
        Drag coefficient without spin, at Re 9e4.
    drag_spin : float
        Slope of the drag coefficient over the spin ratio.
    drag_wave : float
        Amplitude of the drag coefficient over Re.
    lift : float
        Lift coefficient at W = 1.
    lift_power : float
        Exponent of the spin ratio in the lift.
    spin_decay : float
        Constant of the spin decay.

    Notes
    -----
    C_D = drag + drag_spin·W + drag_wave·sin(π(Re − 9e4)/2e5); C_L = lift·W^lift_power; dω/dt = −spin_decay·U·ω/r.
    Source: Smits & Smith, Science and Golf II (1994) 340 (constants from memory).
    """

    drag: float = 0.24
    drag_spin: float = 0.18
    drag_wave: float = 0.06
    lift: float = 0.54
    lift_power: float = 0.4
    spin_decay: float = 2.0e-5


@dataclass(frozen=True, repr=False)
class SquareRootLift(AeroModel, kind="SquareRootLift"):
    """Lift by a square root of the spin ratio, drag linear in it.

    Parameters
    ----------
    lift_offset : float
        The constant a of the lift.
    lift_slope : float
        Factor of the spin ratio under the root.
    drag : float
        Drag coefficient without spin.
    drag_spin : float
        Slope of the drag coefficient over the spin ratio.
    spin_decay : float
        Constant of the spin decay.

    Notes
    -----
    C_L = −a + √(a² + lift_slope·W) with a = lift_offset (printed in Palmer, Physics for Game Programmers, 2005);
    C_D = drag + drag_spin·W (a line, from memory, through Bearman & Harvey, Aeronaut. Q. 27 (1976) 112); dω/dt =
    −spin_decay·U·ω/r.
    """

    lift_offset: float = 0.05
    lift_slope: float = 0.36
    drag: float = 0.24
    drag_spin: float = 0.18
    spin_decay: float = 2.0e-5


@dataclass(frozen=True, repr=False)
class ConstantCoefficients(AeroModel, kind="ConstantCoefficients"):
    """The same drag and lift at every speed and spin, for exact checks and for teaching.

    Parameters
    ----------
    drag : float
        Drag coefficient.
    lift : float
        Lift coefficient. Lift needs a spin axis: a ball without spin has none.
    spin_decay : float
        Constant of the spin decay, as in ``MultiLayer``.
    """

    drag: float = 0.25
    lift: float = 0.15
    spin_decay: float = 0.0


@dataclass(frozen=True, repr=False, eq=False)
class AeroTable(AeroModel):
    """A table of C_D and C_L over spin ratio and Reynolds number, monotone cubic in each.

    Parameters
    ----------
    spin_ratio : array
        Increasing, shape (m,), m ≥ 2.
    reynolds : array
        Increasing, shape (n,), n ≥ 1.
    drag : array
        C_D, shape (m, n).
    lift : array
        C_L, shape (m, n).
    spin_decay : float
        Constant of the spin decay, as in ``MultiLayer``.

    Notes
    -----
    Outside the table its edge values hold.
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
        """Read a table from a CSV file.

        Parameters
        ----------
        path : str or Path
            A file with the columns ``spin_ratio, reynolds, drag, lift``: one row for every point of the grid.
        spin_decay : float
            Constant of the spin decay, as in ``MultiLayer``.

        Returns
        -------
        AeroTable
            The table.

        Raises
        ------
        InputError
            For a file without these columns, and for a grid with a point missing or repeated.
        """
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
                f"{path}: needs columns of numbers spin_ratio, reynolds, drag, lift, and one row for "
                f"every point of the grid ({error})"
            ) from None
        if not complete:
            raise InputError(f"{path}: the grid has a missing or a repeated point")
        return cls(axes[0], axes[1], grids[0], grids[1], spin_decay)

    @cached_property
    def compiled(self) -> Any:
        """Build the table for the compiled core.

        Returns
        -------
        object
            The table of the compiled core.

        Raises
        ------
        InputError
            For arrays whose shapes do not fit, and for numbers out of range.
        """
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


#: The default model of a ball's flight.
DEFAULT = MultiLayer()
MODELS = {
    "multi-layer": MultiLayer,
    "smits-smith": SmitsSmith,
    "square-root-lift": SquareRootLift,
    "constant": ConstantCoefficients,
}


def model_of(numbers: dict[str, Any]) -> AeroModel:
    """Build a model from its numbers by name: a table if they have an axis of Reynolds numbers.

    Parameters
    ----------
    numbers : dict of str to float or array
        The fields of ``MultiLayer`` or of ``AeroTable``.

    Returns
    -------
    AeroModel
        A ``MultiLayer`` or an ``AeroTable``.
    """
    if "reynolds" not in numbers:
        return MultiLayer(**numbers)
    shape = len(numbers["spin_ratio"]), len(numbers["reynolds"])
    grids = {name: np.reshape(numbers[name], shape) for name in ("drag", "lift")}
    axes = {name: np.array(numbers[name]) for name in ("spin_ratio", "reynolds")}
    return AeroTable(**axes, **grids, spin_decay=numbers["spin_decay"])
