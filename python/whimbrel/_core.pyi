"""
The compiled half of whimbrel. Private: use the package.
"""

from __future__ import annotations
import collections.abc
import numpy
import numpy.typing
import typing

__all__: list[str] = [
    "AeroTable",
    "ConstantCoefficients",
    "MultiLayer",
    "SmitsSmith",
    "SquareRootLift",
    "World",
    "aero_mistake",
    "air",
    "ball_presets",
    "club_set",
    "coefficients",
    "d_plane",
    "delivery_mistakes",
    "fields",
    "play_launches",
    "play_swings",
    "positions",
    "present",
    "standard_weather",
    "stated_range",
    "status_words",
    "strike",
    "units",
    "weather_mistakes",
    "wind_mistake",
    "wind_share",
]

class MultiLayer:
    def __init__(self, arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None: ...

class SmitsSmith:
    def __init__(self, arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None: ...

class SquareRootLift:
    def __init__(self, arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None: ...

class ConstantCoefficients:
    def __init__(self, arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> None: ...

class AeroTable:
    def __init__(
        self,
        arg0: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
        arg1: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
        arg2: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
        arg3: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
        arg4: typing.SupportsFloat | typing.SupportsIndex,
    ) -> None: ...

class World:
    def __init__(
        self,
        arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
        arg1: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
        arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
        arg3: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
        arg4: typing.SupportsInt | typing.SupportsIndex,
        arg5: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
        arg6: collections.abc.Callable[[float, float], typing.SupportsFloat | typing.SupportsIndex] | None,
    ) -> None: ...

def aero_mistake(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
) -> str | None: ...
def air(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> numpy.typing.NDArray[numpy.float64]: ...
def ball_presets() -> dict: ...
def club_set() -> dict: ...
def coefficients(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
    arg1: typing.SupportsFloat | typing.SupportsIndex,
    arg2: typing.SupportsFloat | typing.SupportsIndex,
) -> typing.Annotated[list[float], "FixedSize(2)"]: ...
def d_plane(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> numpy.typing.NDArray[numpy.float64]: ...
def delivery_mistakes(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> list[tuple[int, str]]: ...
def play_launches(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def play_swings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: World,
    arg3: typing.SupportsInt | typing.SupportsIndex,
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def positions(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> numpy.typing.NDArray[numpy.float64]: ...
def present(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: bool,
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def standard_weather(
    arg0: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
) -> numpy.typing.NDArray[numpy.float64]: ...
def stated_range(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
) -> typing.Annotated[list[float], "FixedSize(4)"]: ...
def strike(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[dict, list[tuple[int, str]]]: ...
def weather_mistakes(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> list[tuple[int, str]]: ...
def wind_mistake(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> str | None: ...
def wind_share(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.SupportsInt | typing.SupportsIndex,
    arg2: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
) -> list[float]: ...

fields: dict
status_words: list = [
    "ok",
    "the ball never left the ground",
    "the ball had not come down after 60 s",
    "the integration failed",
    "bad input",
]
units: dict = {
    "mm": 0.001,
    "cm": 0.01,
    "inch": 0.0254,
    "ft": 0.30479999999999996,
    "yd": 0.9143999999999999,
    "mile": 1609.3439999999998,
    "mph": 0.44703999999999994,
    "kmh": 0.2777777777777778,
    "knot": 0.5144444444444445,
    "fps": 0.30479999999999996,
    "deg": 0.017453292519943295,
    "rpm": 0.10471975511965977,
    "gram": 0.001,
    "lb": 0.45359237,
    "hPa": 100.0,
    "mmHg": 133.322387415,
    "inHg": 3386.388640341,
    "percent": 0.01,
}
