"""``whimbrel sensitivity``: what a little more of each input does to a shot."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated, Any

import typer

from ..questions.sensitivity import USUAL_RESULTS, sensitivity
from ..row.ground import Landing
from .files import check_files, save_picture, say_files
from .flag_groups import AirFlags, GroundFlags, LaunchFlags, SwingFlags, TurfFlags, read_start, with_groups
from .flags import OUTPUT, Units, UnitSystem, flag
from .sensitivity_output import as_json, print_sensitivity

ASKED = "What to ask"
Of = Annotated[
    list[str] | None,
    flag(ASKED, f"a result, e.g. --of total; repeatable [default: {', '.join(USUAL_RESULTS)}]", "--of"),
]
By = Annotated[
    list[str] | None,
    flag(ASKED, "an input, e.g. --by face_angle; repeatable [default: the start's and some conditions]", "--by"),
]
Picture = Annotated[Path | None, flag(OUTPUT, "draw bars, one panel per result (.png, .svg, .pdf)")]
AsJson = Annotated[bool, flag(OUTPUT, "print every derivative in SI as JSON", "--json")]


def register(app: typer.Typer) -> None:
    """Adds the command to the app."""
    app.command("sensitivity")(with_groups(sensitivity_command))


def sensitivity_command(
    *,
    swing: SwingFlags,
    launch: LaunchFlags,
    air: AirFlags,
    ground: GroundFlags,
    on: TurfFlags,
    of: Of = None,
    by: By = None,
    units: UnitSystem = Units.yards,
    picture: Picture = None,
    json_output: AsJson = False,
) -> None:
    """Find what one step more of each input does to a shot: exact derivatives, one input at a time.

    Give each number with its unit: --clubhead-speed 84mph. Write a negative number with "=": --attack-angle=-6deg.
    """
    check_files([swing.clubs_file, on.turfs_file], picture=[picture])
    start, member = read_start(swing, launch)
    assert not isinstance(start, Landing)
    conditions = air.conditions()
    slopes = sensitivity(
        start,
        member,
        of=[name.replace("-", "_") for name in of or USUAL_RESULTS],
        by=None if by is None else [name.replace("-", "_") for name in by],
        **conditions,
        terrain=ground.terrain(),
        turf=on.chosen(),
        impact=swing.impact_model(),
    )
    if picture is not None:
        save_picture(lambda: _plot().every(slopes, units.value), picture)
    if json_output:
        print(json.dumps(as_json(slopes), indent=2))
        return
    print_sensitivity(slopes, units.value, conditions["ball"])
    say_files(("Picture", picture))


def _plot() -> Any:
    from ..plots import sensitivity as plot_sensitivity

    return plot_sensitivity
