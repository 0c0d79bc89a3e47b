"""Balls."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from .. import _core
from ..core.by_labels import by_labels
from ..core.given_numbers import own
from ..core.named import Named
from ..core.value import Number, Value, units_of
from .aero import DEFAULT, AeroModel, model_of


@dataclass(frozen=True, repr=False)
class Ball(Value, kind="Ball"):
    """A golf ball.

    Parameters
    ----------
    mass : float or array
        Mass, kg. All numbers broadcast together.
    radius : float or array
        Radius, m.
    inertia : float or array, optional
        Moment of inertia, kg m². By default that of a uniform ball, 0.4·m·r², which follows mass and radius when
        ``dataclasses.replace`` changes them.
    contact_stiffness_ratio : float or array
        Tangential over normal stiffness of the contact with a face, κ.
    face_friction : float or array
        Friction coefficient μ on a dry face at an approach of 43.8 m/s; it falls as the power −2/5 of that speed.
    aero : AeroModel
        The aerodynamic model, one for all balls of a call.

    Notes
    -----
    The defaults are the heaviest and smallest ball the Rules of Golf allow (45.93 g, 42.67 mm). κ and μ are
    calibrated by this project on launches from driver to lob wedge; μ is at least 0.16.
    """

    mass: Number = 0.04593
    radius: Number = 0.021335
    inertia: Number | None = None
    contact_stiffness_ratio: Number = 0.77
    face_friction: Number = 0.192
    aero: AeroModel = DEFAULT
    _uniform: Any = field(default=None, repr=False, compare=False)

    def __post_init__(self) -> None:
        mine = self.__dict__
        follows = self.inertia is None or _same(self.inertia, self._uniform)
        if follows:
            mine["inertia"] = None
        super().__post_init__()
        if follows:
            mine["inertia"] = own(uniform_inertia(self.mass, self.radius), "inertia", units_of(Ball)["inertia"])
        mine["_uniform"] = self.inertia if follows else None

    @property
    def inertia_follows(self) -> bool:
        """Whether the inertia is a uniform ball's and follows mass and radius."""
        return self._uniform is not None

    def with_its_inertia(self) -> Ball:
        """Fix the inertia, so that it no longer follows mass and radius.

        Returns
        -------
        Ball
            The same ball with its inertia fixed.
        """
        return replace(self, _uniform=None)


def _same(inertia: Any, uniform: Any) -> bool:
    """Whether a ball's inertia is the uniform one it had, handed on to it as it was."""
    return inertia is uniform or (isinstance(inertia, float) and isinstance(uniform, float) and inertia == uniform)


@by_labels
def uniform_inertia(mass: Any, radius: Any) -> Any:
    """Moment of inertia of a uniform ball, kg m²: 0.4·m·r²."""
    return 0.4 * mass * radius**2


class Balls(Named[Ball]):
    """Balls by name: ``balls["low drag"]``."""

    kind = "ball"


balls = Balls({name: Ball(aero=model_of(numbers)) for name, numbers in _core.ball_presets().items()})
"""The shipped balls. Five are invented: small changes of the default, lift or drag 4 % up or down.
``"tunnel 1976"`` is a ball of today's mass and size with the coefficients of a ball of 1976 in a wind tunnel
(Bearman & Harvey, Aeronaut. Q. 27, 112)."""
