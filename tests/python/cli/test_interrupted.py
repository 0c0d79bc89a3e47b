"""Ctrl-C: heard soon, what is done is kept and told as part of the whole, and no good file is lost."""

import signal
import subprocess
import sys
import time

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.clouds.sampling import Sampling
from whimbrel.row import pieces
from whimbrel.statistics.moments import BLOCK

CLOUD = ("dispersion", "--ball-speed", "118mph", "--launch-angle", "17deg", "--spin-rate", "7000rpm",
         "--sd", "launch_angle=1deg", "--samples", 3 * BLOCK)  # fmt: skip


def same(one, other):
    """Whether two shots have the same bits, statuses and mistakes."""
    for stage in ("impact", "launch", "flight", "landing", "run"):
        values = [getattr(shot, stage) for shot in (one, other)]
        if values[0] is None:
            continue
        for name, x in values[0]._numbers().items():
            assert x.tobytes() == values[1]._numbers()[name].tobytes(), (stage, name)
    for name, x in one.out_of_range.items():
        assert x.tobytes() == other.out_of_range[name].tobytes(), name
    assert list(one.status) == list(other.status) and list(one.run.status) == list(other.run.status)
    assert one.mistakes == other.mistakes
    return True


@pytest.mark.parametrize("accuracy", ["fast", "reference"])
def test_shots_played_piece_by_piece_have_the_bits_of_those_played_at_once(draw, iron, monkeypatch, accuracy):
    n = 400
    speed, loft = draw.uniform(20, 55, n), draw.uniform(0.1, 0.9, n)
    speed[[3, 250]] = -1.0, np.nan
    hits = wb.Delivery(speed, draw.normal(0, 0.1, n), draw.normal(-0.05, 0.03, n), 0.0, loft)
    around = {"wind": wb.Wind(draw.uniform(0, 9, n)), "accuracy": accuracy, "errors": "mask"}
    whole = wb.play(hits, iron, **around)
    whole.run  # noqa: B018 (worked out when it is asked for)
    calls = []
    monkeypatch.setattr(pieces, "FIRST", 7)
    monkeypatch.setattr(pieces, "SHORTEST", 0.0)
    put = pieces._put
    monkeypatch.setattr(pieces, "_put", lambda *given: (calls.append(given[2]), put(*given)))
    assert same(whole, wb.play(hits, iron, **around)) and set(whole.mistakes) == {3, 250}
    assert len(calls) > n / 7


def test_landings_and_launches_too(draw, monkeypatch):
    landings = wb.Landing(draw.uniform(10, 30, 300), draw.uniform(0.4, 0.9, 300))
    launches = wb.Launch(draw.uniform(30, 70, (20, 15)), 0.3, spin_rate=400.0)
    whole = [wb.play(start, errors="mask") for start in (landings, launches)]
    assert all(shot.run.status.size == 300 for shot in whole)
    monkeypatch.setattr(pieces, "FIRST", 11)
    for shot, start in zip(whole, (landings, launches), strict=True):
        again = wb.play(start, errors="mask")
        assert again.run.total.tobytes() == shot.run.total.tobytes()
        assert again.flight.carry.tobytes() == shot.flight.carry.tobytes()


def test_pieces_grow_while_they_are_short_and_shrink_when_they_are_long(monkeypatch):
    clock = iter(np.arange(0, 1e6, 0.05).tolist())
    monkeypatch.setattr(pieces.time, "perf_counter", lambda: next(clock))
    sizes = []

    def count(some):
        sizes.append(some.stop - some.start)
        if sizes[-1] > 5000:
            for _ in range(9):
                next(clock)
        return {"row": np.arange(some.start, some.stop), "told": [(0, "first")]}

    told = pieces.in_pieces(30_000, count)
    assert sizes[:5] == [1024, 2048, 4096, 8192, 4096] and sum(sizes) == 30_000
    assert (told["row"] == np.arange(30_000)).all()
    assert [row for row, _ in told["told"]][:3] == [0, 1024, 3072]


PLAYING = """
import sys, numpy as np, whimbrel as wb
hits = wb.Delivery(np.linspace(30, 50, int(sys.argv[1])), 0.0, -0.07, 0.0, 0.42)
print("begun", flush=True)
try:
    wb.play(hits, wb.clubs["7 iron"], accuracy=sys.argv[2]).run
except KeyboardInterrupt:
    print("heard", flush=True)
"""


@pytest.mark.parametrize(("rows", "accuracy"), [(20_000_000, "fast"), (2_000_000, "reference")])
def test_a_long_play_hears_ctrl_c(rows, accuracy):
    playing = subprocess.Popen(
        [sys.executable, "-c", PLAYING, str(rows), accuracy], stdout=subprocess.PIPE, text=True
    )
    try:
        assert playing.stdout.readline() == "begun\n"
        time.sleep(2.0)
        playing.send_signal(signal.SIGINT)
        assert playing.communicate(timeout=20)[0] == "heard\n"  # of minutes; within 1 s on an idle machine
    finally:
        playing.kill()
        playing.wait()


@pytest.fixture
def stopped_in_block(monkeypatch):
    """Ctrl-C while a block of a cloud is played."""

    def at(number):
        block = Sampling.block

        def stopped(self, k):
            if k == number:
                raise KeyboardInterrupt
            return block(self, k)

        monkeypatch.setattr(Sampling, "block", stopped)

    return at


def test_a_stopped_cloud_keeps_the_blocks_that_were_played(stopped_in_block):
    launch = wb.Launch(52.0, 0.3, spin_rate=700.0)
    whole = wb.dispersion(launch, sd={"launch_angle": 0.02}, samples=BLOCK)
    stopped_in_block(1)
    with pytest.warns(RuntimeWarning, match="stopped after 65,536 of 196,608 samples"):
        part = wb.dispersion(launch, sd={"launch_angle": 0.02}, samples=3 * BLOCK)
    assert part.stopped and not whole.stopped and part.samples == BLOCK
    assert part.kept["carry"].tobytes() == whole.kept["carry"].tobytes()
    assert part.in_words().startswith("Stopped after 65,536 shots, of 196,608 asked for")


def test_the_command_tells_and_writes_part_of_a_cloud_as_part(command, tmp_path, stopped_in_block):
    out, picture = tmp_path / "cloud.csv", tmp_path / "cloud.png"
    for path in (out, picture):
        path.write_bytes(b"whole")
    stopped_in_block(1)
    code, told, err = command(*CLOUD, "--out", out, "--picture", picture)
    assert (code, err) == (130, "") and "Stopped after 65,536 shots, of 196,608 asked for" in told
    assert "cloud.partial.csv" in told and "cloud.partial.png" in told
    assert out.read_bytes() == picture.read_bytes() == b"whole"
    assert len(pd.read_csv(tmp_path / "cloud.partial.csv")) == BLOCK


def test_a_cloud_stopped_before_its_first_block_is_none(command, tmp_path, stopped_in_block):
    stopped_in_block(0)
    code, told, _ = command(*CLOUD, "--out", tmp_path / "cloud.csv")
    assert (code, told) == (130, "") and not list(tmp_path.iterdir())


COMMAND = """
import sys, pandas, whimbrel.cli.app
print("begun", flush=True)
whimbrel.cli.app.main()
"""


def test_a_table_that_is_stopped_keeps_the_old_file(tmp_path):
    rows, out = 1_000_000, tmp_path / "out.csv"
    launches = {"ball_speed_mph": np.linspace(80, 160, rows), "launch_angle_deg": 17.0, "spin_rate_rpm": 6000.0}
    pd.DataFrame(launches).to_parquet(tmp_path / "in.parquet")
    out.write_text("the old file")
    playing = subprocess.Popen(
        [sys.executable, "-c", COMMAND, "table", tmp_path / "in.parquet", "--out", out],
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert playing.stdout.readline() == "begun\n"
        time.sleep(2.0)
        playing.send_signal(signal.SIGINT)
        told, _ = playing.communicate(timeout=30)
    finally:
        playing.kill()
        playing.wait()
    assert (playing.returncode, told) == (130, "")
    assert out.read_text() == "the old file" and len(list(tmp_path.iterdir())) == 2
