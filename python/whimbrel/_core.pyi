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
    "arc_mistakes",
    "arc_of",
    "at_ball",
    "ball_drag_spread",
    "ball_presets",
    "bounce_angle_range",
    "bounce_speed_range",
    "carried_along",
    "causes",
    "club_set",
    "coefficients",
    "constant_draws",
    "cpu_level",
    "d_plane",
    "delivered_on",
    "delivery_mistakes",
    "descent_to_hold",
    "doubt_sources",
    "explain",
    "fields",
    "flight_laws",
    "fly_columns",
    "ground_strike",
    "law_table",
    "least_approach_speed",
    "least_face_friction",
    "level_distances_of_launches",
    "level_distances_of_swings",
    "on_uphill_stance",
    "play_landings",
    "play_launches",
    "play_swings",
    "positions_of_landings",
    "positions_of_launches",
    "present",
    "run_out",
    "sensitivity_inputs",
    "sensitivity_of_launches",
    "sensitivity_of_swings",
    "sensitivity_results",
    "spin_to_hold",
    "standard_weather",
    "standard_weather_slopes",
    "stated_range",
    "status_words",
    "strike",
    "strike_columns",
    "turf_mistakes",
    "turf_set",
    "turf_spread",
    "turfs_of_greens",
    "units",
    "usual_deliveries",
    "weather_mistakes",
    "wind_mistake",
    "wind_share",
    "worlds",
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
        arg7: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    ) -> None: ...

def aero_mistake(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
) -> str | None: ...
def air(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> numpy.typing.NDArray[numpy.float64]: ...
def arc_mistakes(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> list[tuple[int, str]]: ...
def arc_of(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg3: bool,
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def at_ball(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], arg1: bool
) -> numpy.typing.NDArray[numpy.float64]: ...
def ball_presets() -> dict: ...
def carried_along(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: bool,
    arg4: bool,
    arg5: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def club_set() -> dict: ...
def coefficients(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
    arg1: typing.SupportsFloat | typing.SupportsIndex,
    arg2: typing.SupportsFloat | typing.SupportsIndex,
) -> typing.Annotated[list[float], "FixedSize(2)"]: ...
def constant_draws() -> list[list[float]]: ...
def cpu_level() -> str: ...
def d_plane(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
) -> numpy.typing.NDArray[numpy.float64]: ...
def delivered_on(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg4: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg5: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg6: typing.SupportsFloat | typing.SupportsIndex,
    arg7: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def delivery_mistakes(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> list[tuple[int, str]]: ...
def descent_to_hold(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: World,
    arg3: typing.SupportsInt | typing.SupportsIndex,
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> tuple: ...
def explain(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.SupportsFloat | typing.SupportsIndex,
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg4: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg5: bool,
    arg6: bool,
    arg7: World,
    arg8: typing.SupportsInt | typing.SupportsIndex,
) -> dict | str: ...
def flight_laws() -> list: ...
def fly_columns(
    arg0: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg1: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg2: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
    arg3: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg4: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg5: typing.SupportsInt | typing.SupportsIndex,
    arg6: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg7: typing.SupportsInt | typing.SupportsIndex,
    arg8: bool,
    arg9: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def ground_strike(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: typing.Annotated[
        collections.abc.Sequence[collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex]],
        "FixedSize(4)",
    ],
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[int]]: ...
def law_table(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.SupportsFloat | typing.SupportsIndex,
    arg2: typing.SupportsFloat | typing.SupportsIndex,
    arg3: bool,
) -> dict: ...
def level_distances_of_launches(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: World,
    arg3: typing.SupportsInt | typing.SupportsIndex,
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> tuple: ...
def level_distances_of_swings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: bool,
    arg4: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg5: World,
    arg6: typing.SupportsInt | typing.SupportsIndex,
    arg7: typing.SupportsInt | typing.SupportsIndex,
) -> tuple: ...
def on_uphill_stance(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg2: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def play_landings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def play_launches(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def play_swings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: bool,
    arg4: World,
    arg5: typing.SupportsInt | typing.SupportsIndex,
    arg6: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def positions_of_landings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg4: bool,
    arg5: typing.SupportsInt | typing.SupportsIndex,
) -> numpy.typing.NDArray[numpy.float64]: ...
def positions_of_launches(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.SupportsInt | typing.SupportsIndex,
    arg3: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
    arg4: bool,
    arg5: typing.SupportsInt | typing.SupportsIndex,
) -> numpy.typing.NDArray[numpy.float64]: ...
def present(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: bool,
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def run_out(
    arg0: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.Annotated[numpy.typing.ArrayLike, numpy.uint8],
    arg4: World,
    arg5: typing.SupportsInt | typing.SupportsIndex,
    arg6: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def sensitivity_inputs(arg0: bool, arg1: bool) -> list[tuple[str, str]]: ...
def sensitivity_of_launches(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: World,
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None,
    arg3: bool,
    arg4: typing.SupportsInt | typing.SupportsIndex,
    arg5: collections.abc.Sequence[typing.SupportsInt | typing.SupportsIndex],
    arg6: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def sensitivity_of_swings(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: bool,
    arg4: World,
    arg5: typing.Annotated[numpy.typing.ArrayLike, numpy.float64] | None,
    arg6: bool,
    arg7: typing.SupportsInt | typing.SupportsIndex,
    arg8: collections.abc.Sequence[typing.SupportsInt | typing.SupportsIndex],
    arg9: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def sensitivity_results(arg0: bool) -> list[tuple[str, str]]: ...
def spin_to_hold(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: World,
    arg3: typing.SupportsInt | typing.SupportsIndex,
    arg4: typing.SupportsInt | typing.SupportsIndex,
) -> tuple: ...
def standard_weather(
    arg0: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
) -> numpy.typing.NDArray[numpy.float64]: ...
def standard_weather_slopes(
    arg0: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
) -> numpy.typing.NDArray[numpy.float64]: ...
def stated_range(
    arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable,
) -> typing.Annotated[list[float], "FixedSize(4)"]: ...
def strike(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg2: bool,
    arg3: bool,
    arg4: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg5: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[dict, list[tuple[int, str]]]: ...
def strike_columns(
    arg0: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg1: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg2: bool,
    arg3: bool,
    arg4: collections.abc.Sequence[typing.Annotated[numpy.typing.ArrayLike, numpy.float64]],
    arg5: typing.SupportsInt | typing.SupportsIndex,
    arg6: typing.SupportsInt | typing.SupportsIndex,
) -> dict: ...
def turf_mistakes(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> list[tuple[int, str]]: ...
def turf_set() -> dict: ...
def turfs_of_greens(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64], arg1: typing.SupportsInt | typing.SupportsIndex
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def usual_deliveries(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: bool,
    arg2: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg3: typing.SupportsInt | typing.SupportsIndex,
) -> tuple[numpy.typing.NDArray[numpy.float64], list[tuple[int, str]]]: ...
def weather_mistakes(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> list[tuple[int, str]]: ...
def wind_mistake(arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64]) -> str | None: ...
def wind_share(
    arg0: typing.Annotated[numpy.typing.ArrayLike, numpy.float64],
    arg1: typing.SupportsInt | typing.SupportsIndex,
    arg2: collections.abc.Sequence[typing.SupportsFloat | typing.SupportsIndex],
) -> list[float]: ...
def worlds(arg0: MultiLayer | SmitsSmith | SquareRootLift | ConstantCoefficients | AeroTable) -> list: ...

ball_drag_spread: float = 0.0296
bounce_angle_range: tuple = (0.5235987755982988, 1.0471975511965976)
bounce_speed_range: tuple = (10.0, 30.0)
causes: list = [
    "face angle",
    "path",
    "attack and dynamic loft",
    "clubhead speed",
    "strike point",
    "stance and lie",
    "wind",
    "air and terrain",
]
doubt_sources: list = [
    "contact of club and ball",
    "constants of the flight",
    "form of its law",
    "ball to ball",
    "turf",
]
fields: dict
least_approach_speed: float = 10.0
least_face_friction: float = 0.16
status_words: list = [
    "ok",
    "the ball never left the ground",
    "the ball had not come down on the ground after 60 s",
    "the integration failed",
    "bad input",
    "the ball had not come to rest after 30 s on the ground",
    "no speed of this swing carries to the target",
]
turf_spread: float = 0.092
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
