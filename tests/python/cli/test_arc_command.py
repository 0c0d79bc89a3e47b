"""The command `whimbrel arc`: where the plane points, the low point, and what the club meets first."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg, inch
from whimbrel.words import arc as words_arc

ARC = ("arc", "--club-path", "2deg", "--attack-angle=-6deg", "--plane", "62deg")
WITH_CLUB = (*ARC, "--club", "7 iron", "--dynamic-loft", "24deg")
HIT = wb.Delivery(1.0, 2 * deg, -6 * deg)


def arc_on(plane=62.0, **more):
    return wb.arcs.arc_of(HIT, plane_inclination=plane * deg, **more)


def test_the_arc_is_told_in_words_and_numbers(command):
    code, out, err = command(*ARC)
    arc = arc_on()
    assert (code, err) == (0, "")
    assert " ".join(words_arc.of_arc(arc, arc_on(np.array([58.0, 66.0])), HIT, "right", "yards").split()) in out
    assert "look over the top" in out
    assert f"base direction −{abs(arc.base_direction) / deg:.1f}°" in out
    assert f"low point ahead {arc.low_point_ahead / inch:.2f} in" in out
    assert f"radius {100 * arc.radius:.1f} cm" in out and "plane inclination 62.0° 58.0° to 66.0°" in out


def test_beside_each_number_stands_what_the_planes_range_makes_of_it(command):
    for flags, off in (((), 4.0), (("--plane-range", "2deg"), 2.0)):
        _, out, _ = command(*ARC, *flags)
        bases = sorted(arc_on(62.0 + s * off).base_direction / deg for s in (-1, 1))
        assert f"−{-bases[0]:.1f}° to −{-bases[1]:.1f}°" in out
        ahead = sorted(arc_on(62.0 + s * off).low_point_ahead / inch for s in (-1, 1))
        assert f"{ahead[0]:.2f} in to {ahead[1]:.2f} in" in out
    assert " to " not in command(*ARC, "--plane-range", "0deg")[1].split("radius")[1]


def test_with_a_club_it_says_what_is_met_first(command, iron):
    _, out, _ = command(*WITH_CLUB)
    assert "Strike: clean, 6.1 mm below the face centre" in out
    _, out, _ = command(*WITH_CLUB, "--height=-6mm")
    strike = wb.arcs.ground_strike(arc_on(height=-0.006), iron, dynamic_loft=24 * deg)
    assert "Strike: fat" in out and f"enters the turf {-strike.turf_entry / inch:.2f} in behind the ball" in out
    assert "Strike: thin" in command(*WITH_CLUB, "--height", "11mm")[1]
    _, teed, _ = command(*WITH_CLUB, "--tee-height", "30mm")
    assert "above the face centre" in teed
    assert "Strike" not in command(*ARC)[1]


def test_metric_output_is_metric(command):
    _, out, _ = command(*WITH_CLUB, "--height=-6mm", "--units", "metric")
    assert f"low point ahead {arc_on().low_point_ahead * 100:.1f} cm" in out
    assert " in " not in out.replace(" in which", "").replace("the line in", "").replace("measure in-to", "")


def test_a_left_hander_with_the_mirrored_path_is_told_the_mirrored_plane(command):
    _, right, _ = command(*ARC)
    _, left, _ = command("arc", "--club-path=-2deg", *ARC[3:], "--hand", "left")
    assert "1.2° left of the target: that is its base line" in right
    assert "1.2° right of the target: that is its base line" in left
    for out in (right, left):
        assert "look over the top" in out and "in-to-out" in out
    assert "look over the top" not in command(*ARC, "--hand", "left")[1]


def test_radius_and_height_count(command):
    _, out, _ = command(*ARC, "--radius", "1.4m", "--height", "5mm")
    arc = arc_on(radius=1.4, height=0.005)
    assert "radius 140.0 cm" in out
    assert f"low point ahead {arc.low_point_ahead / inch:.2f} in" in out
    assert f"low point height −{-arc.low_point_height * 1000:.1f} mm" in out


def test_a_picture_is_drawn_into_the_file_named(command, tmp_path):
    code, out, _ = command(*ARC, "--face-angle", "1deg", "--tee-height", "20mm", "--picture", tmp_path / "arc.png")
    assert code == 0 and "Picture:" in out
    assert (tmp_path / "arc.png").read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (ARC[:4], ["--plane"]),
        (("arc", *ARC[3:]), ["--club-path"]),
        (("arc", "--club-path", "2", *ARC[3:]), ["--club-path", "bare number needs a unit", "2deg"]),
        ((*ARC[:4], "--plane", "62mm"), ["--plane", "'mm' is not its unit", "deg"]),
        ((*ARC[:4], "--plane", "95deg"), ["plane_inclination", "95 deg", "20 deg", "90 deg"]),
        ((*ARC[:3], "--attack-angle=-61.5deg", *ARC[4:]), ["attack_angle", "-61.5 deg", "36.06 deg"]),
        ((*ARC, "--plane-range", "50deg"), ["plane_inclination", "20 deg"]),
        ((*ARC, "--radius", "9m"), ["radius", "9 m", "3 m"]),
        ((*ARC, "--hand", "both"), ["both", "right", "left"]),
        ((*ARC, "--picture", "arc.xyz"), ["picture arc.xyz"]),
        ((*ARC, "--club", "7 iron"), ["--dynamic-loft"]),
        ((*ARC, "--club", "spoon", "--dynamic-loft", "24deg"), ["no club is called 'spoon'"]),
    ],
)
def test_a_mistake_is_one_message_without_a_traceback_and_exit_code_2(command, arguments, says):
    code, _, err = command(*arguments)
    assert code == 2
    assert "Traceback" not in err
    for part in says:
        assert part in err, err


def test_help_names_every_flag(command):
    code, out, _ = command("arc", "--help")
    assert code == 0
    for flag in ("--club-path", "--attack-angle", "--plane", "--plane-range", "--radius", "--height", "--picture"):
        assert flag in out


def test_a_club_of_your_own_says_the_side_the_player_swings_from(command, tmp_path):
    (tmp_path / "my.toml").write_text(
        '[[club]]\nname = "lefty 7"\nhand = "left"\nloft_deg = 33\n'
        "lie_angle_deg = 62\nlength_in = 37\nmass_g = 270\n"
    )
    own = ("--clubs", tmp_path / "my.toml", "--club", "lefty 7", "--dynamic-loft", "24deg")
    mine = ("arc", "--club-path=-2deg", "--attack-angle=-6deg", "--plane", "62deg")
    assert "points 1.2° right of the target" in command(*mine, *own)[1]
    code, _, err = command(*mine, *own, "--hand", "right")
    assert code == 2 and "--hand is for the shipped clubs" in err
