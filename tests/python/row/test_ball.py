"""Balls and aerodynamic models."""

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

import whimbrel as wb
from whimbrel.row.aero import MODELS
from whimbrel.units import deg, rpm

W, RE = np.array([0.0, 0.1, 0.2, 0.35, 0.6]), np.array([5e4, 1e5, 1.4e5, 2.2e5])
DRIVE = wb.Launch(70.0, 11 * deg, spin_rate=2700 * rpm)


@pytest.fixture
def grids(draw):
    """Drag and lift with rises, falls and a flat stretch."""
    drag = 0.2 + draw.uniform(0, 0.2, (W.size, RE.size))
    lift = np.sort(draw.uniform(0, 0.4, (W.size, RE.size)), axis=0)
    drag[2] = drag[3]
    return drag, lift


def test_the_default_ball_is_the_heaviest_and_smallest_the_rules_allow():
    ball = wb.Ball()  # published: 45.93 g, 42.67 mm
    assert (ball.mass, 2 * ball.radius) == (0.04593, 0.04267)
    assert ball.inertia == pytest.approx(83.63e-7, rel=1e-4)  # derived; agrees with a measured ball


def test_the_inertia_follows_mass_and_radius_unless_given():
    assert wb.Ball(mass=0.05, radius=0.02).inertia == pytest.approx(0.4 * 0.05 * 0.02**2, rel=1e-15)
    assert wb.Ball(mass=np.array([0.04, 0.05])).inertia.shape == (2,)
    assert wb.Ball(inertia=9e-6).inertia == 9e-6


def test_the_default_model_is_the_stated_formula(draw):
    w, re = draw.uniform(0.02, 0.8, 1000), draw.uniform(3e4, 2.4e5, 1000)
    drag, lift = wb.aero.MultiLayer().coefficients(w, re)
    assert np.allclose(lift, 0.404 * (1 - np.exp(-w / 0.184)), rtol=1e-13)
    crisis = 0.263 / (1 + (re / 0.541e5) ** 6)
    assert np.allclose(drag, 0.170 + 0.186 * (1 - np.exp(-((w / 0.189) ** 1.5))) + crisis, rtol=1e-13)


def test_the_models_are_the_formulas_of_their_sources():
    drag, lift = wb.aero.SmitsSmith().coefficients(0.2, 1.5e5)
    assert drag == pytest.approx(0.24 + 0.18 * 0.2 + 0.06 * np.sin(np.pi * 0.3), rel=1e-14)
    assert lift == pytest.approx(0.54 * 0.2**0.4, rel=1e-14)
    drag, lift = wb.aero.SquareRootLift().coefficients(0.2, 1.5e5)
    assert (drag, lift) == (pytest.approx(0.276), pytest.approx(-0.05 + np.sqrt(0.0025 + 0.072)))
    assert wb.aero.ConstantCoefficients(0.3, 0.1).coefficients(0.2, 1.5e5) == (
        pytest.approx(0.3),
        pytest.approx(0.1),
    )


@pytest.mark.parametrize("model", MODELS.values(), ids=MODELS)
def test_outside_its_range_a_model_holds_its_edge_value(model):
    edge = model().stated_range
    if np.isfinite(edge.reynolds_upper):
        assert model().coefficients(0.2, 9e5) == model().coefficients(0.2, edge.reynolds_upper)
        assert model().coefficients(0.2, 1e3) == model().coefficients(0.2, edge.reynolds_lower)
    if np.isfinite(edge.spin_ratio_upper):
        assert model().coefficients(5.0, 1e5) == model().coefficients(edge.spin_ratio_upper, 1e5)
    assert model().coefficients(0.0, 1e5)[1] == 0.0


def test_a_flight_outside_the_range_says_which_way():
    spun = wb.fly(wb.Launch(15.0, 45 * deg, spin_rate=9000 * rpm))
    assert spun.out_of_range["spin_ratio"] > 0 > spun.out_of_range["reynolds"]
    assert wb.fly(DRIVE).out_of_range == {"spin_ratio": 0.0, "reynolds": 0.0}


def test_the_shipped_balls_change_lift_or_drag_by_four_percent():
    base = wb.aero.MultiLayer().coefficients(0.2, 1e5)
    for name, drag, lift in (
        ("low lift", 1, 0.96),
        ("high lift", 1, 1.04),
        ("low drag", 0.96, 1),
        ("high drag", 1.04, 1),
    ):
        changed = wb.balls[name].aero.coefficients(0.2, 1e5)
        assert changed == (pytest.approx(base[0] * drag), pytest.approx(base[1] * lift))
    assert wb.balls["standard"].aero == wb.aero.MultiLayer()
    assert len(wb.balls) == len(list(wb.balls)) == 6


def test_an_unknown_ball_is_refused_with_the_known_ones():
    with pytest.raises(wb.InputError, match=r"'hard'.*standard, low lift"):
        wb.balls["hard"]
    assert "hard" not in wb.balls
    assert wb.balls.get("hard") is None


def test_a_table_is_interpolated_as_scipys_monotone_cubic(grids, draw):
    table = wb.aero.AeroTable(W, RE, *grids)
    w, re = draw.uniform(0.01, 0.6, 300), draw.uniform(5e4, 2.2e5, 300)
    for ours, grid in zip(table.coefficients(w, re), grids, strict=True):
        rows = PchipInterpolator(W, grid, axis=0)(w)
        theirs = [PchipInterpolator(RE, row)(x) for row, x in zip(rows, re, strict=True)]
        assert np.allclose(ours, theirs, rtol=1e-12, atol=1e-14)


def test_a_table_from_csv_is_the_table_from_arrays_in_any_order_of_rows(grids, draw, tmp_path):
    points = [(w, re, grids[0][i, j], grids[1][i, j]) for i, w in enumerate(W) for j, re in enumerate(RE)]
    draw.shuffle(points)
    lines = ["spin_ratio,reynolds,drag,lift", *(",".join(map(repr, map(float, p))) for p in points)]
    (tmp_path / "ball.csv").write_text("\n".join(lines))
    read = wb.aero.AeroTable.from_csv(tmp_path / "ball.csv")
    assert np.array_equal(read.drag, grids[0]) and np.array_equal(read.lift, grids[1])
    flown = [wb.fly(DRIVE, ball=wb.Ball(aero=a)).carry for a in (read, wb.aero.AeroTable(W, RE, *grids))]
    assert flown[0] == flown[1]


def test_a_fine_table_of_a_formula_flies_as_the_formula():
    w = np.linspace(0.0, 0.8, 81)
    model = wb.aero.SquareRootLift()
    drag, lift = model.coefficients(np.maximum(w, 1e-12), 1e5)
    table = wb.aero.AeroTable(w, [1e5], drag[:, None], lift[:, None])
    same = wb.fly(DRIVE, ball=wb.Ball(aero=table)).carry
    assert same == pytest.approx(wb.fly(DRIVE, ball=wb.Ball(aero=model)).carry, abs=0.01)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"spin_ratio": W[::-1]}, "increasing"),
        ({"spin_ratio": np.append(W[:-1], np.nan)}, "increasing"),
        ({"reynolds": np.array([5e4, 5e4, 1e5, 2e5])}, "increasing"),
        ({"drag": np.full((5, 3), 0.2)}, "one value for each"),
        ({"lift": np.full((5, 4), np.nan)}, "lift of the table is nan"),
        ({"drag": np.full((5, 4), 11.0)}, "drag of the table is 11"),
        ({"drag": np.full((5, 4), -0.01)}, "drag of the table is -0.01; accepted: 0 to 2"),
        ({"drag": "0.2"}, "table"),
        ({"spin_decay": np.nan}, "spin_decay"),
        ({"spin_decay": -1.0}, "spin_decay"),
    ],
    ids=str,
)
def test_a_bad_table_is_refused_with_the_reason(grids, change, says):
    given = {"spin_ratio": W, "reynolds": RE, "drag": grids[0], "lift": grids[1]} | change
    with pytest.raises(wb.InputError, match=says):
        wb.fly(DRIVE, ball=wb.Ball(aero=wb.aero.AeroTable(**given)))


def test_a_table_given_the_wrong_way_round_is_refused(grids):
    with pytest.raises(wb.InputError):
        wb.fly(DRIVE, ball=wb.Ball(aero=wb.aero.AeroTable(W, RE, grids[0].T, grids[1].T)))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "spin_ratio,reynolds,drag\n0,1e5,0.2\n1,1e5,0.2\n",
        "spin_ratio,reynolds,drag,lift\n0,1e5,0.2,0\n1,1e5,0.2,0.1\n0,2e5,0.2,0\n",
        "spin_ratio,reynolds,drag,lift\n0,1e5,0.2,0\n0,1e5,0.2,0\n1,2e5,0.2,0\n1,2e5,0.2,0\n",
        "spin_ratio,reynolds,drag,lift\n0,1e5,0.2,0\n1,1e5,thick,0.1\n",
    ],
    ids=["empty", "a column missing", "a point missing", "points twice", "text"],
)
def test_a_bad_table_file_is_refused_by_its_name(text, tmp_path):
    (tmp_path / "ball.csv").write_text(text)
    with pytest.raises(wb.InputError, match=r"ball\.csv|table"):
        wb.fly(DRIVE, ball=wb.Ball(aero=wb.aero.AeroTable.from_csv(tmp_path / "ball.csv")))


@pytest.mark.parametrize(
    ("ball", "says"),
    [
        (wb.Ball(mass=0.0), "ball mass is 0 kg; accepted: 0.005 kg to 0.2 kg"),
        (wb.Ball(radius=np.nan), "ball radius is nan"),
        (wb.Ball(inertia=-1.0), "ball inertia is -1"),
        (wb.Ball(aero=wb.aero.MultiLayer(lift=np.nan)), "lift is nan"),
        (wb.Ball(aero=wb.aero.MultiLayer(lift_scale=0.0)), "lift_scale is 0"),
        (wb.Ball(aero=wb.aero.ConstantCoefficients(drag=-0.1)), "drag is -0.1"),
        (wb.Ball(aero=wb.aero.SmitsSmith(drag_wave=-1.0)), "drag_wave is -1; accepted: -0.249 to 0.805781"),
        (wb.Ball(aero=wb.aero.MultiLayer(spin_decay=8e-4)), "spin_decay is 0.0008; accepted: 0 to 0.0001"),
        (wb.Ball(mass=0.02, radius=0.05), "ball mass is 0.02 kg; accepted: 0.0261799 kg to 0.2 kg"),
    ],
)
def test_a_ball_out_of_range_says_field_value_and_range(ball, says):
    with pytest.raises(wb.InputError) as error:
        wb.fly(DRIVE, ball=ball)
    assert says in str(error.value)
