"""The edge where a caller's numbers become the library's own: real, SI and read-only."""

from __future__ import annotations

import sys
from numbers import Real
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..errors import InputError
from .chunked import check_chunks, chunks_in

Array = NDArray[np.float64]
#: Of numbers: whole, unsigned, real. Truth values, dates, text, complex numbers and objects are none.
REAL = "iuf"


#: What is accepted, in words.
NUMBERS = "a number or an array of numbers"


class Unsaid(float):
    """The default of a number that a caller should give, known apart from one that was given."""


UNSAID = Unsaid(0.0)


def own(x: Any, name: str, unit: str | None = None, wanted: str = NUMBERS) -> Any:
    """A number as a value keeps it.

    Scalars become floats and arrays read-only copies; what is the library's own already is not copied again.
    Dask's arrays stay lazy, xarray's and pandas' keep their labels, masked entries become NaN, and what carries
    units (pint) is converted to ``unit``. Raises InputError naming the field for anything but real numbers.
    """
    if isinstance(x, float):
        return x
    if type(x) is np.ndarray:
        return _own_array(x, name, wanted)
    if isinstance(x, Real) and not isinstance(x, bool | np.generic):
        return _as_float(x, name)
    if has_labels(x):
        return _own_labelled(x, name, unit)
    if (chunks := chunks_in(x)) is not None:
        return check_chunks(chunks, name)
    if carries_units(x):
        return own(_in_si(x, name, unit), name)
    return _own_array(_plain(x, name, wanted), name, wanted, x)


def has_labels(x: Any) -> bool:
    """Whether ``x`` is an array of xarray's or a series of pandas', seen without importing either."""
    kind = type(x)
    package = kind.__module__.partition(".")[0]
    return (package == "xarray" and kind.__name__ in ("DataArray", "Variable", "Dataset")) or (
        package == "pandas" and kind.__name__ in ("Series", "DataFrame")
    )


def carries_units(x: Any) -> bool:
    """Whether ``x`` is a quantity with units of its own, as pint's are."""
    return hasattr(x, "to_base_units") and hasattr(x, "magnitude")


def freeze(x: Any) -> Any:
    """The library's own array, made read-only with all that it is a view of."""
    below = x
    while isinstance(below, np.ndarray):
        below.flags.writeable = False
        below = below.base
    return x


def keep_frozen(state: Any) -> Any:
    """What was unpickled or copied, its arrays read-only again."""
    if isinstance(state, dict):
        for x in state.values():
            keep_frozen(x)
    elif isinstance(state, np.ndarray) and state.flags.writeable:
        freeze(state)
    return state


def _own_labelled(x: Any, name: str, unit: str | None) -> Any:
    """A labelled array with numbers of the library's own; a scalar where it has no dimension."""
    kind = type(x).__name__
    if kind in ("DataFrame", "Dataset"):
        raise InputError(f"{name}: a {kind} holds several arrays; give one of them")
    if kind == "Series":
        return type(x)(own(x.array, name, unit), index=x.index, name=name, copy=False)
    if kind == "Variable":
        x = sys.modules["xarray"].DataArray(x)
    numbers = own(x.data, name, unit)
    if x.ndim == 0:
        return numbers
    kept = x.copy(deep=True, data=numbers)
    kept.name, kept.attrs = name, attributes(name, unit)
    return kept


def attributes(name: str, unit: str | None) -> dict[str, Any]:
    """Of a labelled array of numbers."""
    return {**({} if unit is None else {"units": unit}), "long_name": name.replace("_", " ")}


def _own_array(x: NDArray[Any], name: str, wanted: str = NUMBERS, given: Any = None) -> Any:
    """A read-only copy; ``given``: what it was made of."""
    _check_real(x.dtype, x if given is None else given, name, wanted)
    if x.ndim == 0:
        return float(x)
    if x.dtype == np.float64 and x.dtype.isnative and _is_frozen(x):
        return x
    once = x[tuple(slice(1) if step == 0 else slice(None) for step in x.strides)]  # of what repeats, one copy
    copy = np.array(once, dtype=np.float64)
    copy.flags.writeable = False
    return copy if copy.shape == x.shape else np.broadcast_to(copy, x.shape)


def _is_frozen(x: Any) -> bool:
    """Whether nobody can write to an array, neither by itself nor by what it is a view of."""
    while isinstance(x, np.ndarray):
        if x.flags.writeable:
            return False
        x = x.base
    return x is None or type(x).__name__ == "PyCapsule"


def _plain(x: Any, name: str, wanted: str) -> NDArray[Any]:
    """Anything else as an array of NumPy's, NaN where an entry is masked or missing."""
    if isinstance(x, np.ma.MaskedArray):
        _check_real(x.dtype, x, name, wanted)
        return np.ma.filled(x.astype(np.float64), np.nan)
    if isinstance(x, list | tuple) and any(carries_units(one) for one in x):
        raise InputError(f"{name}: a list of quantities with units; give one quantity of them all")
    if type(x).__module__.startswith("pandas.") and hasattr(x, "to_numpy"):
        _check_real(x.dtype, x, name, wanted)
        return np.asarray(x.to_numpy(dtype=np.float64, na_value=np.nan))
    if isinstance(x, np.ndarray) and (hasattr(x, "unit") or hasattr(x, "units")):
        raise InputError(f"{name} has units that cannot be read here: give it in SI")
    try:
        return np.asarray(x)
    except (TypeError, ValueError):
        raise InputError(f"{name}: {_show(x)} is not {wanted}") from None


def _check_real(dtype: Any, x: Any, name: str, wanted: str) -> None:
    if getattr(dtype, "kind", "O") not in REAL:
        raise InputError(f"{name}: {_show(x)} is not {wanted}: its type is {dtype}")


def _show(x: Any) -> str:
    text = " ".join(repr(x).split())
    return text if len(text) <= 80 else f"{text[:77]}…"


def _as_float(x: Any, name: str) -> float:
    try:
        return float(x)
    except OverflowError:
        raise InputError(f"{name}: {x!r} is too large a number") from None


def _in_si(x: Any, name: str, unit: str | None) -> Any:
    """What a quantity is in ``unit``. Its base units are to be the same: 50 Hz is no rad/s, a bare 12 no angle."""
    if unit is None:
        raise InputError(f"{name} takes a plain number in SI, not one with units ({x.units})")
    try:
        base = x.to_base_units()
        one = type(x)(1.0, "" if unit == "1" else unit.replace(" ", " * ")).to_base_units()
    except Exception as error:
        raise InputError(f"{name}: {x.units} cannot be read ({error}); it takes {_name_unit(unit)}") from None
    if base.units != one.units:
        raise InputError(
            f"{name} is in {x.units or 'no unit'}; it takes {_name_unit(unit)}, or what converts to it"
        )
    return base.magnitude if one.magnitude == 1.0 else base.magnitude / one.magnitude


def _name_unit(unit: str) -> str:
    return "a number without a unit" if unit == "1" else unit
