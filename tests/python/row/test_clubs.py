"""The shipped clubs and clubs from a file."""

import pytest

import whimbrel as wb
from whimbrel.units import deg, gram, inch

GOOD = """
[[club]]
name = "my 7 iron"
loft_deg = 31.5
lie_angle_deg = 62
length_in = 37.25
mass_g = 270

[[club]]
name = "my driver"
loft_rad = 0.16
lie_angle_deg = 58
length_m = 1.15
mass_kg = 0.2
face_restitution = 0.83
hand = "left"
"""


@pytest.fixture
def file(tmp_path):
    def write(text):
        path = tmp_path / "bag.toml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return write


def test_the_shipped_set_goes_from_driver_to_lob_wedge_with_growing_loft():
    names = list(wb.clubs)
    assert (names[0], names[-1], len(wb.clubs)) == ("driver", "lob wedge", 13)
    lofts = [club.loft for club in wb.clubs.values()]
    assert lofts == sorted(lofts)
    assert all(
        club.length >= after.length
        for club, after in zip(wb.clubs.values(), list(wb.clubs.values())[1:], strict=False)
    )
    assert wb.clubs["driver"].face_restitution == 0.840
    assert wb.clubs["7 iron"].loft == pytest.approx(33 * deg)


def test_an_unknown_club_is_refused_with_the_known_ones():
    with pytest.raises(wb.InputError, match=r"'7 wood'.*driver, 3 wood"):
        wb.clubs["7 wood"]
    assert "7 wood" not in wb.clubs and "7 iron" in wb.clubs
    assert wb.clubs.get("7 wood") is None


def test_a_left_handed_set_is_the_same_set_for_the_other_hand():
    left = wb.clubs.left_handed()
    assert {club.hand for club in left.values()} == {"left"}
    assert [club.loft for club in left.values()] == [club.loft for club in wb.clubs.values()]
    assert wb.clubs["driver"].hand == "right"


def test_a_hand_is_right_or_left():
    with pytest.raises(wb.InputError, match="accepted: right, left"):
        wb.Club("7", 0.5, 1.0, 0.9, 0.27, hand="both")


def test_clubs_are_read_in_their_units(file):
    mine = wb.load_clubs(file(GOOD))
    assert list(mine) == ["my 7 iron", "my driver"]
    iron, driver = mine["my 7 iron"], mine["my driver"]
    assert (iron.loft, iron.length, iron.mass) == pytest.approx((31.5 * deg, 37.25 * inch, 270 * gram))
    assert (iron.hand, iron.face_restitution) == ("right", 0.745)
    assert (driver.loft, driver.hand, driver.face_restitution) == (0.16, "left", 0.83)
    assert wb.play(wb.Delivery(40.0, dynamic_loft=0.4), iron).status == "ok"


def one_club(**changes):
    entry = {
        "name": '"x"',
        "loft_deg": "30",
        "lie_angle_deg": "62",
        "length_in": "37",
        "mass_g": "270",
    } | changes
    return "[[club]]\n" + "\n".join(f"{key} = {value}" for key, value in entry.items() if value is not None)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", ["has no [[club]]"]),
        ("club = 3", ["has no [[club]]"]),
        ("[club]\nname = 'x'", ["has no [[club]]"]),
        ("club = [1, 2]", ["club 1"]),
        ("[[club]\n", ["not a TOML file"]),
        (b"[[club]]\nname = '\xff'", ["not a TOML file"]),
        (one_club(name=None), ["club 1", "needs a name"]),
        (one_club(name='""'), ["club 1", "needs a name"]),
        (one_club(name="7"), ["club 1", "needs a name"]),
        (one_club(loft_deg=None), ["(x)", "lacks loft"]),
        (one_club(mass_g=None, length_in=None), ["(x)", "lacks length, mass"]),
        (one_club(loft_deg=None, loft="30"), ["(x)", "'loft' has no unit", "loft_deg"]),
        (one_club(loft_deg=None, loft_mph="30"), ["(x)", "ends with 'mph'", "loft_deg"]),
        (one_club(loft_rad="0.5"), ["(x)", "both give loft"]),
        (one_club(shaft="'stiff'"), ["(x)", "'shaft' is not known"]),
        (one_club(mass_g="'heavy'"), ["(x)", "mass_g is 'heavy', not a number"]),
        (one_club(mass_g="true"), ["(x)", "mass_g is True, not a number"]),
        (one_club(mass_g="nan"), ["(x)", "mass_g is nan, not a number"]),
        (one_club(mass_g="5"), ["(x)", "mass is 5 g", "accepted: 50 g to 1000 g"]),
        (one_club(loft_deg="200"), ["(x)", "loft is", "200 deg", "80 deg"]),
        (one_club(hand="'middle'"), ["(x)", "hand is 'middle'"]),
        (one_club(hand="1"), ["(x)", "hand is 1"]),
        (one_club() + "\n" + one_club(), ["club 2", "'x' is given twice"]),
    ],
)
def test_a_bad_file_of_clubs_says_which_club_and_which_key(file, text, says):
    with pytest.raises(wb.InputError) as error:
        wb.load_clubs(file(text))
    for words in ["bag.toml", *says]:
        assert words in str(error.value)


def test_a_missing_file_of_clubs_is_named(tmp_path):
    with pytest.raises(wb.InputError, match=r"nowhere.toml: no such file"):
        wb.load_clubs(tmp_path / "nowhere.toml")


def test_an_iron_of_your_own_with_the_shipped_measures_is_the_shipped_iron():
    shipped = wb.clubs["7 iron"]
    own = wb.Club("7 iron", shipped.loft, shipped.lie_angle, shipped.length, shipped.mass)
    for name, number in shipped._numbers().items():
        assert getattr(own, name) == pytest.approx(number, rel=1e-14), name  # g cm² to kg m² rounds
