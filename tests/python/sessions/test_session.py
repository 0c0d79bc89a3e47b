"""A table of strikes, from the file to the words."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from invented import DEMO, practice

import whimbrel as wb
from whimbrel.questions.course import TargetPoint
from whimbrel.statistics.targets import Circle, Corridor, Polygon, Rectangle
from whimbrel.strikes.reading import load_reading
from whimbrel.units import deg, mph, yd


@pytest.fixture(scope="module")
def demo():
    return wb.session(DEMO, target=Circle(145 * yd, 8 * yd))


def test_the_demo_player_is_read_completely_block_by_block(demo):
    assert (demo.strikes, demo.warm_ups, demo.bad, demo.unread) == (55, 0, (), ("strike",))
    assert [(g.club, g.block, g.n) for g in demo.groups] == [
        ("7 iron", "before", 20), ("7 iron", "after", 20), ("driver", "driver", 15),
    ]  # fmt: skip
    frame = pd.read_csv(DEMO)
    after = frame[(frame["club"] == "7 iron") & (frame["block"] == "after")]
    spread = demo.groups[1].spreads["club_path"]
    assert spread.mean.estimate / deg == pytest.approx(after["club_path_deg"].mean())
    assert spread.sd.estimate / deg == pytest.approx(after["club_path_deg"].std())


def test_landings_that_were_not_measured_are_the_tables_and_said_to_be_played(demo):
    frame = wb.table(DEMO)
    driver = frame[frame["club"] == "driver"]
    assert demo.groups[2].spreads["carry"].mean.estimate / yd == pytest.approx(driver["computed_carry_yd"].mean())
    assert demo.groups[2].played == ("carry", "offline")
    assert "carry (played)" in demo.in_words()


def test_the_iron_is_compared_from_the_first_block_to_the_last_and_the_driver_is_not(demo):
    (pair,) = demo.changes
    assert (pair.club, pair.before, pair.after) == ("7 iron", "before", "after")
    answers = {(c.quantity, c.about): c.answer for c in pair.comparison.changes}
    assert len(answers) == 20
    assert answers["offline", "spread"] == "changed" and answers["dynamic_loft", "centre"] == "no change"
    assert answers["face_angle", "centre"] == "too few"


def test_iron_and_driver_of_a_player_stand_side_by_side(demo):
    table = demo.side_by_side()
    assert table["", "driver", "mean"]["attack_angle_deg"] == pytest.approx(1.0, abs=0.01)
    assert table["", "7 iron", "mean"]["attack_angle_deg"] == pytest.approx(-6.0, abs=0.01)
    assert {"carry_yd", "strike_toe_mm", "clubhead_speed_mph"} <= set(table.index)
    assert "carry_m" in demo.side_by_side("metric").index


def test_the_tables_say_what_the_values_say(demo):
    spreads, changes = demo.spreads_table(), demo.changes_table("metric")
    assert len(spreads) == 30 and {"mean_low", "robust_sd_high", "outliers"} <= set(spreads)
    row = changes[(changes["quantity"] == "carry") & (changes["about"] == "centre")].iloc[0]
    change = next(c for c in demo.changes[0].comparison.changes if (c.quantity, c.about) == ("carry", "centre"))
    assert (row["unit"], row["change"], row["p_adjusted"]) == ("m", change.change, change.p_adjusted)
    scatter = demo.scatter_table()
    assert scatter.groupby("club")["share"].sum().tolist() == pytest.approx([1.0, 1.0])
    targets = demo.targets_table()
    assert targets["rate"].tolist() == [aimed.play.rate for aimed in demo.targets]


def test_the_words_give_an_answer_to_each_question_and_the_cautions(demo):
    words = demo.in_words()
    for part in (
        "carry on average: changed by +4.5 yd",
        "dynamic loft on average: no change larger than",
        "face angle on average: too few to tell",
        "a side would be needed to see 1.0° with this spread",
        "first to last:\n  1. face angle",
        "club path and face angle make up for each other",
        "The ball was not measured",
        "of 20 in the circle",
        "far from the rest: 35",
        "injure or kill",
        "doctor where there is pain",
    ):
        assert part in words, part
    assert "nan" not in words and "inf" not in words
    assert "carry on average: changed by +4.1 m" in demo.in_words("metric")


def test_the_same_seed_gives_the_same_session():
    assert wb.session(DEMO).in_words() == wb.session(DEMO).in_words()


def frame_of(n=12, **columns):
    rng = np.random.default_rng(5)
    frame = pd.DataFrame({
        "club": "7 iron",
        "block": ["a"] * (n // 2) + ["b"] * (n - n // 2),
        "clubhead_speed_mph": rng.normal(84, 1, n),
        "face_angle_deg": rng.normal(0, 1, n),
        "dynamic_loft_deg": rng.normal(24, 1, n),
    })  # fmt: skip
    return frame.assign(**columns)


def test_three_strikes_are_told_by_values_and_range():
    told = wb.session(frame_of(3, block="only"))
    words = told.in_words()
    assert "3 strikes" in words and "only the values and their range are given" in words
    assert "range" in words and "SD" not in words.split("Intervals")[0]
    assert told.changes == () and "too few" in told.scatters[0].why_not


def test_one_strike_and_none_are_told_so():
    frame = frame_of(1, block="only")
    one = wb.session(frame).in_words()
    assert "One strike has no spread" in one
    assert f"clubhead speed: {frame['clubhead_speed_mph'].item():.1f} mph\n" in one
    none = wb.session(frame_of(2).iloc[:0])
    assert none.groups == () and none.in_words().startswith("No strikes")


def test_text_in_numbers_missing_and_impossible_values_are_named_and_the_rest_of_the_row_counts(tmp_path):
    path = tmp_path / "x.csv"
    path.write_text(
        "club,clubhead_speed_mph,face_angle_deg,dynamic_loft_deg\n"
        "7 iron,84,1,24\n7 iron,fast,2,24\n7 iron,83,,24\n7 iron,850,3,24\n7 iron,82,4\n"
        "spoon,81,5,24\n7 iron,80,6,25\n"
    )
    told = wb.session(path)
    reasons = dict(told.bad)
    assert set(reasons) == {3, 4, 5, 6, 7}
    assert "'fast' is not a number" in reasons[3]
    assert "face_angle_deg is empty" in reasons[4]
    assert "clubhead_speed_mph is 850; accepted: 1.118 to 223.7" in reasons[5]
    assert "3 cells" in reasons[6] and "no club is called 'spoon'" in reasons[7]
    iron = told.groups[0].spreads
    assert (iron["face_angle"].n, iron["face_angle"].missing) == (4, 2)
    assert iron["clubhead_speed"].n == 3 and iron["dynamic_loft"].n == 5
    assert "3: clubhead_speed_mph: 'fast'" in told.in_words()


@pytest.mark.parametrize(
    ("columns", "says"),
    [
        ({"carry_mph": 1.0}, ["'carry_mph' ends with 'mph'", "carry_yd"]),
        ({"carry": 1.0}, ["'carry' has no unit"]),
        ({"carry_yd": 1.0, "carry_m": 1.0}, ["both give carry"]),
    ],
)
def test_wrong_units_and_double_columns_are_refused(columns, says):
    with pytest.raises(wb.InputError) as error:
        wb.session(frame_of(**columns))
    for words in says:
        assert words in str(error.value)


def test_a_table_without_a_single_quantity_says_what_it_looked_for():
    with pytest.raises(wb.InputError, match=r"no column of a strike.*map other names in a TOML file.*speed"):
        wb.session(pd.DataFrame({"speed": [1.0]}))


def test_warm_ups_are_left_out_and_counted():
    flags = ["yes", "x", "1", "true"] + [""] * 7 + ["maybe"]
    told = wb.session(frame_of(12, warm_up=flags, block="only"))
    assert told.warm_ups == 4 and told.groups[0].n == 8
    assert "4 of them warm-ups left out" in told.in_words() and "warm_up is 'maybe'" in dict(told.bad)[11]
    assert wb.session(frame_of(4, warm_up=[True, False, False, False], block="only")).groups[0].n == 3


TOML = """
[columns]
Head = "clubhead_speed_mps"
Round = "block"

[noise]
face_angle_deg = 0.3

[smallest]
clubhead_speed_mph = 0.5

[target.pin]
shape = "circle"
distance_yd = 160
radius_m = 9
"""


def test_a_toml_file_gives_names_units_noise_smallest_changes_and_targets(tmp_path):
    (tmp_path / "r.toml").write_text(TOML)
    frame = frame_of(16)
    other = frame.assign(Head=frame["clubhead_speed_mph"] * mph).drop(columns="clubhead_speed_mph")
    other = other.rename(columns={"block": "Round"})
    told, plain = wb.session(other, reading=tmp_path / "r.toml"), wb.session(frame)
    assert told.groups[0].spreads["clubhead_speed"].mean.estimate == pytest.approx(
        plain.groups[0].spreads["clubhead_speed"].mean.estimate
    )
    speed = next(c for c in told.changes[0].comparison.changes if c.quantity == "clubhead_speed")
    assert speed.smallest == pytest.approx(0.5 * mph)
    (aimed, _) = told.targets
    assert (aimed.play.target.distance, aimed.play.target.radius) == pytest.approx((160 * yd, 9.0))
    many = frame_of(24, block="only")
    face = next(p for p in wb.session(many, noise={"face_angle_deg": 0.3}).scatters[0].scatter.parts if p.noise)
    assert face.quantity == "face_angle" and face.own**2 == pytest.approx(face.sd**2 - (0.3 * deg) ** 2)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[columns", "not a TOML file"),
        ("[column]\na = 'b'", "'column' is not a known table"),
        ("[noise]\nface_angle = 1", "has no unit"),
        ("[noise]\nhat_deg = 1", "'hat_deg' is not a quantity"),
        ("[noise]\nface_angle_deg = -1", "must be a number of at least 0"),
        ("[target.a]\nshape = 'star'", "shape is 'star'"),
        ("[target.a]\nshape = 'circle'\nradius_m = 3", "takes distance_yd, radius_yd"),
        ("[target.a]\nshape = 'corridor'\nwidth_m = 'wide'", "not a number"),
    ],
)
def test_a_mistake_in_the_toml_file_is_named(tmp_path, text, says):
    (tmp_path / "r.toml").write_text(text)
    with pytest.raises(wb.InputError, match=r"r\.toml") as error:
        load_reading(tmp_path / "r.toml")
    assert says in str(error.value)


def test_a_mapped_column_that_is_not_there_or_no_quantity_is_named(tmp_path):
    for text, says in (('X = "face_angle_deg"', "'X' is not in the table"), ('club = "hat"', "is mapped to 'hat'"),
                       ('block = "face_angle_deg"', "more than once")):  # fmt: skip
        (tmp_path / "r.toml").write_text(f"[columns]\n{text}\n")
        with pytest.raises(wb.InputError, match=says):
            wb.session(frame_of(), reading=tmp_path / "r.toml")


def test_measured_landings_count_before_played_ones_and_the_rest_is_unexplained():
    frame = frame_of(30, block="only")
    played = wb.table(frame)
    rng = np.random.default_rng(8)
    carry = played["computed_carry_yd"] + rng.normal(0, 8, 30)
    told = wb.session(frame.assign(carry_yd=carry, offline_yd=played["computed_offline_yd"]))
    assert told.groups[0].played == ()
    assert told.groups[0].spreads["carry"].mean.estimate / yd == pytest.approx(carry.mean())
    unexplained = told.scatters[0].scatter.unexplained
    assert unexplained[0] > 0.5 and unexplained[1] < 1e-6
    assert "measured variance unexplained" in told.in_words()


def test_a_measured_launch_without_a_delivery_is_played():
    rng = np.random.default_rng(3)
    frame = pd.DataFrame(
        {"ball_speed_mph": rng.normal(120, 2, 10), "launch_angle_deg": 16.0, "spin_rate_rpm": 7000.0}
    )
    told = wb.session(frame, target=Corridor(20))
    carries = wb.table(frame)["computed_carry_yd"]
    assert told.groups[0].spreads["carry"].mean.estimate / yd == pytest.approx(carries.mean())
    assert told.scatters == () and told.targets[0].play.hits == 10


def test_carry_alone_is_enough():
    told = wb.session(pd.DataFrame({"carry_m": [140.0, 142, 150, 139, 151], "block": ["a"] * 5}))
    assert told.groups[0].spreads["carry"].n == 5 and told.targets == () and told.scatters == ()


def test_targets_are_named_by_a_column_and_an_unknown_one_is_told(tmp_path):
    (tmp_path / "r.toml").write_text(
        TOML.split("[noise]")[0].split("[columns]")[0] + "[target." + TOML.split("[target.")[1]
    )
    frame = frame_of(12, block="only", target=["pin"] * 8 + ["flag"] * 4)
    told = wb.session(frame, reading=tmp_path / "r.toml")
    assert [(a.name, a.play.n) for a in told.targets] == [("pin", 8)]
    assert any("'flag'" in note for note in told.notes)


def test_blocks_to_compare_can_be_chosen_and_a_wrong_one_is_named():
    frame = frame_of(30, block=np.repeat(["a", "b", "c"], 10))
    told = wb.session(frame)
    assert (told.changes[0].before, told.changes[0].after) == ("a", "c") and "3 blocks" in told.notes[0]
    assert wb.session(frame, before="b", after="c").changes[0].before == "b"
    with pytest.raises(wb.InputError, match=r"no block is called 'z'.*'a', 'b', 'c'"):
        wb.session(frame, before="z")


def test_fewer_questions_can_be_asked_and_an_unknown_one_is_named():
    told = wb.session(frame_of(), quantities=["face_angle"])
    assert list(told.groups[0].spreads) == ["face_angle"] and len(told.changes[0].comparison.changes) == 2
    with pytest.raises(wb.InputError, match="'hat' is not in the table"):
        wb.session(frame_of(), quantities=["hat"])


def test_players_and_clubs_are_kept_apart():
    frame = pd.concat([frame_of(12, player="A"), frame_of(12, player="B"), frame_of(12, player="A", club="driver")])
    told = wb.session(frame.reset_index(drop=True))
    assert [(c.player, c.club) for c in told.changes] == [("A", "7 iron"), ("B", "7 iron"), ("A", "driver")]
    assert {(p, c) for p, c, _ in told.side_by_side().columns} == {
        ("A", "7 iron"),
        ("B", "7 iron"),
        ("A", "driver"),
    }


@pytest.mark.parametrize("ending", ["csv", "parquet"])
def test_files_give_what_the_frame_gives(tmp_path, ending):
    frame = frame_of(14)
    path = tmp_path / f"x.{ending}"
    frame.to_csv(path, index=False) if ending == "csv" else frame.to_parquet(path)
    told, direct = wb.session(path), wb.session(frame)
    assert told.changes == direct.changes
    assert told.groups[0].spreads["face_angle"].mean == direct.groups[0].spreads["face_angle"].mean


def test_three_thousand_strikes_see_what_was_put_in():
    told = wb.session(practice(3000), target=Circle(145 * yd, 8 * yd))
    assert told.strikes == 3000 and sum(g.n for g in told.groups) == 3000 and not told.bad
    answers = {(c.quantity, c.about): c for c in told.changes[0].comparison.changes}
    assert answers["club_path", "spread"].answer == "changed" and answers["club_path", "spread"].change < 0
    assert answers["clubhead_speed", "centre"].answer == "no change"
    assert told.targets[0].play.n == 1500


def test_a_hundred_thousand_measured_strikes_are_all_counted():
    """Ball columns are measured here, so that nothing needs playing."""
    rng = np.random.default_rng(4)
    n = 100_000
    frame = pd.DataFrame({
        "club": "driver", "block": np.repeat(["before", "after"], n // 2),
        "face_angle_deg": rng.normal(0.5, 1.8, n), "club_path_deg": rng.normal(2, 1.5, n),
        "carry_yd": rng.normal(220, 9, n), "offline_yd": rng.normal(0, 14, n),
    })  # fmt: skip
    frame.loc[n // 2 :, "face_angle_deg"] += 0.1
    told = wb.session(frame, target=Corridor(30 * yd))
    assert sum(g.n for g in told.groups) == n and not told.bad
    face = next(c for c in told.changes[0].comparison.changes if (c.quantity, c.about) == ("face_angle", "centre"))
    assert face.answer == "changed" and face.change / deg == pytest.approx(0.1, abs=0.05)
    assert told.targets[0].play.rate == pytest.approx(0.716, abs=0.01)  # P(|z| < 15/14)


def test_the_command_answers_in_words_and_tables(command, tmp_path):
    code, out, err = command("session", DEMO, "--target", "circle:145yd,8yd", "--out", tmp_path / "answers")
    assert (code, err) == (0, "")
    for part in ("Did it change?", "carry on average: changed by", "What drives the scatter?", "Target play",
                 "side by side", "7 iron driver", "injure or kill", "Columns not used: strike"):  # fmt: skip
        assert part in out, part
    names = {"spreads.csv", "changes.csv", "scatter.csv", "targets.csv"}
    assert {p.name for p in (tmp_path / "answers").iterdir()} == names
    assert len(pd.read_csv(tmp_path / "answers" / "changes.csv")) == 20


def test_the_command_takes_its_questions(command):
    code, out, _ = command("session", DEMO, "--ask", "face_angle", "--smallest", "face_angle_deg=3", "--units",
                           "metric", "--noise", "face_angle_deg=0.2")  # fmt: skip
    assert code == 0 and "face angle on average: no change larger than" in out and "club path on average" not in out
    assert "without the measurement's noise" in out


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--target", "star:3yd"), "circle:145yd,8yd"),
        (("--target", "circle:145,8"), "bare number needs a unit"),
        (("--smallest", "face_angle_deg"), "not like face_angle_deg=0.5"),
        (("--noise", "hat=1"), "not a quantity with its unit"),
        (("--before", "z"), "no block is called 'z'"),
        (("--reading", "nowhere.toml"), "nowhere.toml"),
        (("--club", "spoon"), "no club is called 'spoon'"),
    ],
)
def test_a_mistake_in_the_command_is_one_message_and_exit_code_2(command, options, says):
    code, out, err = command("session", DEMO, *options)
    assert (code, out) == (2, "") and says in err and "Traceback" not in err


@pytest.mark.parametrize("asked", [("session",), ("lesson",), ("dispersion", "--strikes")])
def test_a_table_without_strikes_is_told_by_its_name_and_exits_with_2(command, tmp_path, monkeypatch, asked):
    monkeypatch.chdir(tmp_path)
    Path("x.csv").write_text("club,carry_yd\n")
    code, out, err = command(*asked, "x.csv")
    assert (code, out) == (2, "") and "x.csv: " in err and "no rows" in err
    assert [path.name for path in tmp_path.iterdir()] == ["x.csv"]


@pytest.mark.parametrize("target", [Circle(145 * yd, 8 * yd), Rectangle(145 * yd, 20.0, 15.0), Corridor(20.0),
                                    Polygon([(-9, 125), (9, 125), (12, 140), (-9, 140)])])  # fmt: skip
def test_a_session_takes_every_shape_of_target_and_its_lesson_shows_it(target):
    told = wb.session(DEMO, target=target)
    assert f"in the {target.called}" in told.in_words()
    assert all(aimed.play.hits == target.holds(*landings_of(told, aimed)).sum() for aimed in told.targets)
    assert "Target play" in wb.lesson(told)


def landings_of(told, aimed):
    read = told.read
    same = (read.who["player"] == aimed.player) & (read.who["club"] == aimed.club)
    some = same & (read.who["block"] == aimed.block) & ~read.warm_up
    return read.offline[some], read.downrange[some]


@pytest.mark.parametrize("target", [150.0, "green", TargetPoint(150.0)])
def test_what_is_no_target_of_a_session_is_refused_by_name(target):
    with pytest.raises(wb.InputError, match="it takes a Circle, Rectangle, Corridor or Polygon"):
        wb.session(DEMO, target=target)
