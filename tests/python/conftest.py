import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph


def pytest_addoption(parser):
    parser.addoption("--thorough", action="store_true", help="also run the tests that take minutes")


def pytest_configure(config):
    config.addinivalue_line("markers", "thorough: takes minutes; runs with --thorough")


def pytest_collection_modifyitems(config, items):
    if not config.getoption("--thorough"):
        for item in items:
            if "thorough" in item.keywords:
                item.add_marker(pytest.mark.skip(reason="runs with --thorough"))


@pytest.fixture
def draw():
    """Random numbers, the same in every run."""
    return np.random.default_rng(2026)


@pytest.fixture
def iron():
    return wb.clubs["7 iron"]


@pytest.fixture
def hit():
    """An iron struck down, in-to-out, with a face left of the path: the ball curves left."""
    return wb.Delivery(84 * mph, 4 * deg, -6 * deg, -1 * deg, 24 * deg)


@pytest.fixture
def shot(hit, iron):
    return wb.play(hit, iron)


@pytest.fixture
def random_deliveries(draw):
    """1,000 plausible deliveries of every club, as one array."""
    n = 1000
    return wb.Delivery(
        clubhead_speed=draw.uniform(20, 55, n),
        club_path=draw.uniform(-10, 10, n) * deg,
        attack_angle=draw.uniform(-8, 6, n) * deg,
        face_angle=draw.uniform(-10, 10, n) * deg,
        dynamic_loft=draw.uniform(5, 55, n) * deg,
    )


@pytest.fixture
def command(monkeypatch, capsys):
    """Runs the `whimbrel` command in this process: exit code, what it printed, and its errors."""
    from whimbrel.cli import app as cli

    def run(*arguments):
        monkeypatch.setattr("sys.argv", ["whimbrel", *map(str, arguments)])
        try:
            cli.main()
            code = 0
        except SystemExit as leaving:
            code = leaving.code or 0
        out, err = capsys.readouterr()
        return code, " ".join(out.split()), " ".join(err.split())

    return run
