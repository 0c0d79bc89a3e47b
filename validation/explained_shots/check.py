"""The words of ten shots, of a ball moved and of two clubs compared, as ``whimbrel`` says them now.

``python check.py`` prints the ledgers' sums; ``python check.py --write`` writes them into README.md's second
half, to be read line by line after a change of the words.
"""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
import sysconfig
from pathlib import Path

import whimbrel as wb
from whimbrel.row.shot import Shot
from whimbrel.units import cm, deg, mm, mph, yd

HERE = Path(__file__).parent
MARK = "## The words\n"

IRON = '--club "7 iron" --clubhead-speed 84mph'
DRIVER = "--club driver --clubhead-speed 97mph --attack-angle 2deg --dynamic-loft 13deg --tee-height 38mm"
SHOTS = {
    "In-to-out, and still a hook": f"{IRON} --attack-angle=-6deg --club-path 4deg --face-angle=-1deg "
    "--dynamic-loft 24deg --what-if face_angle=4deg --what-if club_path=0deg",
    "In-to-out, and it starts right and stays right": f"{IRON} --attack-angle=-4deg --club-path 4deg "
    "--face-angle 4.5deg --dynamic-loft 25deg",
    "A toe strike against an open face, in wind": f"{DRIVER} --face-angle 1deg --strike-toe 14mm --wind 6mph "
    "--wind-from 60deg --what-if strike_toe=0mm",
    "A left-hander's heel strike against a closed face": f"{DRIVER} --hand left --face-angle 1deg "
    "--strike-toe=-14mm",
    "Looks over the top, measures in-to-out; fat": f"{IRON} --attack-angle=-6deg --club-path 2deg "
    "--face-angle 0.5deg --dynamic-loft 24deg --plane 62deg --height=-6mm",
    "Looks over the top, and the numbers do not support it": f"{IRON} --attack-angle=-3deg --club-path 2.5deg "
    "--face-angle 0deg --dynamic-loft 25deg --plane 62deg",
    "The body aimed left": f"{IRON} --attack-angle=-5deg --club-path=-3deg --face-angle=-3.5deg "
    "--dynamic-loft 25deg --aim=-4deg --plane 62deg --plane-range 2deg",
    "Uphill, the ball above the feet": f"{IRON} --attack-angle=-4deg --shaft-lean 6deg --lie-tilt 5deg "
    "--uphill 5deg --rise 6yd",
    "Thin, by the low point": f"{IRON} --attack-angle 5deg --club-path=-1deg --face-angle 0deg "
    "--dynamic-loft 27deg --strike-high=-14mm --plane 62deg --height 12mm",
    "A wedge at altitude, across the wind": '--club "pitching wedge" --clubhead-speed 74mph --attack-angle=-5deg '
    "--club-path=-2deg --face-angle=-1deg --dynamic-loft 39deg --wind 12mph --wind-from=-80deg --altitude 1500m "
    "--temperature 28C --units metric",
}


def said(flags: str) -> str:
    """What the command prints, cautions and all."""
    command = Path(sysconfig.get_path("scripts")) / "whimbrel"
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1"}
    done = subprocess.run(
        [command, "explain", *shlex.split(flags)], env=environment, text=True, capture_output=True, check=True
    )
    return "\n".join(line.rstrip() for line in done.stdout.splitlines()).strip()


def without_cautions(words: str) -> str:
    """README.md keeps the cautions of the first shot only."""
    return words.split("Present-day balls differ")[0].strip()


def iron() -> Shot:
    return wb.play(wb.Delivery(80 * mph, 1 * deg, -4 * deg, 0.5 * deg, 26 * deg), wb.clubs["7 iron"])


def driver() -> Shot:
    hit = wb.Delivery(94 * mph, -3 * deg, 3 * deg, -0.5 * deg, 14 * deg)
    return wb.play(hit, wb.clubs["driver"], terrain=wb.Terrain(40 * mm))


def told_now() -> str:
    parts = []
    for i, (title, flags) in enumerate(SHOTS.items()):
        words = said(flags)
        parts.append(
            f"### {title}\n\n```console\n$ whimbrel explain {flags}\n"
            f"{without_cautions(words) if i else words}\n```\n"
        )
    moved = wb.swing_plane.ball_moved(iron(), -5 * cm, plane_inclination=62 * deg, height=2 * mm)
    parts.append(f"### The ball moved back on the same arc (`ball_moved`)\n\n{moved.in_words()}\n")
    both = wb.compare(iron(), driver()).in_words().replace("\n", "\n\n")
    parts.append(f"### A 7 iron and a driver of one player (`compare`)\n\n{both}\n")
    return "\n".join(parts)


def written() -> str:
    return (HERE / "README.md").read_text(encoding="utf-8").split(MARK)[1].lstrip("\n")


def test_the_words_kept_are_what_the_command_says_now():
    assert written() == told_now(), "python validation/explained_shots/check.py --write, and read it"


def test_no_line_promises_what_a_model_cannot_know():
    for word in (r"always", "never misses", "guarantee", "must have", "certainly", "proves", "your fault"):
        assert word not in written()


def test_the_cautions_are_kept():
    words = " ".join(written().split())
    assert "can injure or kill" in words and "Swing changes can strain the body" in words


if __name__ == "__main__":
    if "--write" in sys.argv[1:]:
        readme = HERE / "README.md"
        head = readme.read_text(encoding="utf-8").split(MARK)[0]
        readme.write_text(f"{head}{MARK}\n{told_now()}", encoding="utf-8")
    for name, shot in (("7 iron", iron()), ("driver", driver())):
        told = wb.explain(shot)
        print(f"{name}: {told.replays} replays")
        for of, start, end in (
            ("carry", told.reference_carry, shot.carry),
            ("offline", told.reference_offline, shot.offline),
        ):
            total = sum(s.share for s in getattr(told, of))
            sums = f"{start / yd:.3f} + {total / yd:.3f} = {(start + total) / yd:.3f}"
            print(f"  {of}: {sums}; played {end / yd:.3f} yd")
