"""Shots beyond one machine: Dask's chunks stay lazy, and have the bits of plain arrays, whoever plays them."""

import os
import signal
import time
from concurrent.futures import ThreadPoolExecutor
from functools import partial

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.clouds.cloud import Dispersion
from whimbrel.clouds.sampling import Sampling
from whimbrel.row import dask as row_dask
from whimbrel.row import play as row_play
from whimbrel.units import deg

dask = pytest.importorskip("dask")
distributed = pytest.importorskip("dask.distributed")
da = pytest.importorskip("dask.array")
xr = pytest.importorskip("xarray")

STAGES = ("impact", "launch", "flight", "landing", "run", "air")


def draws(shape, seed=1):
    draw = np.random.default_rng(seed)
    ranges = {"speed": (25, 50), "angle": (0.1, 0.5), "spin": (100, 900), "wind": (0, 12), "kelvin": (270, 310),
              "friction": (0.2, 0.6), "mass": (0.045, 0.0459), "rise": (-5, 5), "loft": (0.3, 0.7)}  # fmt: skip
    return {name: draw.uniform(*span, shape) for name, span in ranges.items()}


def starts(x):
    """A delivery with its club, a launch and a landing of the same numbers."""
    return {
        "delivery": (wb.Delivery(x["speed"], dynamic_loft=x["angle"], face_angle=0.02),
                     wb.Club("any", x["loft"], 1.1, 0.95, 0.27)),
        "launch": (wb.Launch(x["speed"], x["angle"], 0.01, x["spin"], 0.1),),
        "landing": (wb.Landing(x["speed"] / 2, 2 * x["angle"], 0.0, x["spin"]),),
    }  # fmt: skip


def conditions(x):
    return {
        "ball": wb.Ball(mass=x["mass"]),
        "weather": wb.Weather(temperature=x["kelvin"]),
        "wind": wb.Wind(x["wind"], 30 * deg),
        "terrain": wb.Terrain(height=x["rise"]),
        "turf": wb.Turf(friction=x["friction"]),
    }


def in_chunks(x, chunks, names=None):
    return {
        name: da.from_array(value, chunks=chunks) if names is None or name in names else value
        for name, value in x.items()
    }


def same_bits(a, b):
    a, b = np.asarray(a), np.asarray(b)
    return a.shape == b.shape and a.dtype == b.dtype and a.tobytes() == b.tobytes()


def same_shots(a, b):
    for stage in STAGES:
        ours, theirs = getattr(a, stage), getattr(b, stage)
        assert type(ours) is type(theirs)
        for name in () if ours is None else ours._columns:
            assert same_bits(getattr(ours, name), getattr(theirs, name)), (stage, name)
        if stage in ("flight", "run"):
            assert (ours.status == theirs.status).all()
    if a.impact is not None:
        assert same_bits(a.impact.struck_normal, b.impact.struck_normal)
    assert a.out_of_range.keys() == b.out_of_range.keys()
    assert all(same_bits(a.out_of_range[name], b.out_of_range[name]) for name in a.out_of_range)
    assert list(a.mistakes.items()) == list(b.mistakes.items())
    return True


def watch_blocks(monkeypatch, watch):
    """Has every block played by ``watch(play, …)``, which plays it by ``play``."""
    in_chunks = row_play.play_in_chunks
    monkeypatch.setattr(row_play, "play_in_chunks", lambda play, *rest: in_chunks(partial(watch, play), *rest))


@pytest.fixture
def calls(monkeypatch):
    """The shapes that are played, as they are."""
    shapes = []

    def noted(play, *args, **how):
        shot = play(*args, **how)
        shapes.append(shot.shape)
        return shot

    watch_blocks(monkeypatch, noted)
    return shapes


def of_rows(shapes):
    """Without the one row that shows what a shot is made of."""
    return sorted(shape for shape in shapes if shape != (1,))


@pytest.mark.parametrize("start", ["delivery", "launch", "landing"])
@pytest.mark.parametrize("chunks", [64, 37, (100, 1, 99)])
@pytest.mark.parametrize("accuracy", ["fast", "reference"])
def test_a_shot_in_chunks_has_the_bits_of_the_plain_one(start, chunks, accuracy):
    x = draws(200)
    lazy = in_chunks(x, (chunks,))
    shot = wb.play(*starts(lazy)[start], **conditions(lazy), accuracy=accuracy)
    assert shot.carry.chunks == da.from_array(x["speed"], chunks=(chunks,)).chunks
    assert same_shots(wb.play(*starts(x)[start], **conditions(x), accuracy=accuracy), shot.compute())


def test_chunks_of_any_argument_broadcast_with_plain_arrays_and_scalars():
    x = draws((12, 5))
    x["wind"], x["kelvin"], x["mass"] = x["wind"][:, :1], x["kelvin"][0], 0.0459
    plain = wb.play(*starts(x)["delivery"], **conditions(x))
    for names, chunks in (
        ("wind", (5, 1)),
        ("kelvin", 2),
        ("loft", (7, 2)),
        (("spin", "friction", "wind"), (4, 3)),
    ):
        some = {name: da.from_array(v, chunks=np.minimum(chunks, v.shape)) if name in names else v for name, v in
                ((name, np.asarray(v)) for name, v in x.items())}  # fmt: skip
        shot = wb.play(*starts(some)["delivery"], **conditions(some))
        assert shot.shape == (12, 5)
        assert isinstance(shot.carry, da.Array)
        assert same_shots(plain, shot.compute())


def test_nothing_is_played_before_it_is_asked_for_and_then_each_block_once(calls):
    lazy = in_chunks(draws(10), 4)
    shot = wb.play(*starts(lazy)["delivery"], **conditions(lazy))
    assert (shot.shape, shot.air.shape) == ((10,), (10,))
    assert "not computed" in repr(shot)
    assert "not computed" in shot._repr_html_()
    assert of_rows(calls) == []
    dask.compute(shot.carry, shot.total, shot.impact.smash_factor, shot.flight.status, scheduler="sync")
    assert of_rows(calls) == [(2,), (4,), (4,)]
    calls.clear()
    ((shot.carry + shot.offline) / shot.flight.apex).sum().compute(scheduler="sync")
    assert of_rows(calls) == [(2,), (4,), (4,)]


def test_runs_in_chunks_are_worked_out_only_where_they_are_asked_for(monkeypatch):
    runs, run_block = [], row_dask._run_block
    monkeypatch.setattr(row_dask, "_run_block", lambda shot: runs.append(shot.shape) or run_block(shot))
    shot = wb.play(wb.Launch(da.full(6, 60.0, chunks=3), 0.2))
    shot.carry.compute(scheduler="sync")
    assert runs == []
    dask.compute(shot.total, shot.run.bounces, scheduler="sync")
    assert runs == [(3,), (3,)]


@pytest.mark.parametrize(("asked", "got"), [(0, 1), (3, 3)])
def test_a_block_is_played_on_one_thread_unless_more_are_asked_for(monkeypatch, asked, got):
    threads = []
    watch_blocks(monkeypatch, lambda play, **how: threads.append(how["threads"]) or play(**how))
    wb.fly(wb.Launch(da.full(4, 60.0, chunks=2), 0.2), threads=asked).compute(scheduler="sync")
    assert set(threads) == {got}


def test_ten_million_rows_are_there_at_once(calls):
    flight = wb.fly(wb.Launch(da.random.uniform(40, 70, 10_000_000, chunks=100_000), 0.2))
    assert (flight.carry.shape, flight.carry.numblocks) == ((10_000_000,), (100,))
    assert of_rows(calls) == []


def test_a_computed_shot_is_whole_by_its_own_method_and_by_dask():
    x = draws(20)
    plain, lazy = wb.play(*starts(x)["launch"]), wb.play(*starts(in_chunks(x, 7))["launch"])
    for shot in (lazy.compute(), dask.compute(lazy)[0], lazy.compute(scheduler="sync")):
        assert same_shots(plain, shot)
        assert same_bits(shot.flight.position_at([1.0, 2.0]), plain.flight.position_at([1.0, 2.0]))
        assert same_bits(shot.run.position_at(1.0), plain.run.position_at(1.0))
    assert plain.compute() is plain
    assert same_bits(wb.fly(*starts(in_chunks(x, 7))["launch"]).compute().carry, plain.carry)


def test_a_lazy_shot_shows_its_chunks_and_says_what_it_cannot_tell_yet():
    shot = wb.play(wb.Launch(da.full(6, 60.0, chunks=3), 0.2))
    assert "carry              not computed, shape (6,), chunks (3,)" in repr(shot)
    assert "not computed" in repr(shot.flight)
    for verb in ("in_words", "plot"):
        with pytest.raises(wb.InputError, match=rf"shot\.compute\(\)\.{verb}\(\)"):
            getattr(shot, verb)()
    for stage in (shot.flight, shot.run):
        with pytest.raises(wb.InputError, match="call compute"):
            stage.position_at(1.0)


def test_one_number_of_dask_is_one_shot():
    plain = wb.play(wb.Launch(60.0, 0.2, 0.0, 300.0))
    shot = wb.play(wb.Launch(da.from_array(np.array(60.0)), 0.2, 0.0, 300.0))
    assert isinstance(shot.carry, da.Array)
    assert shot.compute().total == plain.total
    assert shot.compute().in_words() == plain.in_words()


def test_a_chunked_data_array_is_chunks_too():
    speeds = xr.DataArray(np.linspace(40, 60, 5), dims="shot")
    flight = wb.fly(wb.Launch(speeds.chunk(shot=2), 0.2))
    assert flight.carry.chunks == ((2, 2, 1),)
    assert same_bits(flight.compute().carry, wb.fly(wb.Launch(speeds.values, 0.2)).carry)


def test_a_bad_row_in_a_chunk_is_named_by_its_place_among_all_when_it_is_computed():
    speeds = np.full((6, 4), 60.0)
    speeds[4, 3] = -1.0
    shot = wb.play(wb.Launch(da.from_array(speeds, chunks=(2, 2)), 0.2))
    assert shot.carry[:4].compute(scheduler="sync").shape == (4, 4)
    with pytest.raises(wb.InputError, match=r"row \(4, 3\): ball_speed is -1 m/s") as error:
        shot.carry.compute(scheduler="sync")
    assert [row for row, _ in error.value.rows] == [(4, 3)]


def test_masked_rows_in_chunks_are_those_of_plain_arrays():
    x = draws((9, 4))
    x["speed"][2, 3], x["wind"][7, 0], x["kelvin"][8, 1], x["friction"][0, 2] = -1.0, np.nan, 3000.0, -1.0
    for start in ("delivery", "launch", "landing"):
        plain = wb.play(*starts(x)[start], **conditions(x), errors="mask")
        assert sorted(plain.mistakes) == [(0, 2), (2, 3), (7, 0), (8, 1)]
        for chunks in ((2, 3), (9, 1), (1, 4)):
            lazy = in_chunks(x, chunks)
            assert same_shots(plain, wb.play(*starts(lazy)[start], **conditions(lazy), errors="mask").compute())


def test_a_row_on_bad_turf_leaves_the_others_as_they_are():
    x = draws(50)
    good = wb.play(*starts(x)["launch"], **conditions(x))
    x["friction"][7] = -1.0
    masked = wb.play(*starts(x)["launch"], **conditions(x), errors="mask")
    assert list(masked.mistakes) == [7]
    assert masked.status[7] == masked.run.status[7] == "bad_input"
    others = np.arange(50) != 7
    for stage in ("launch", "flight", "landing", "run"):
        for name in getattr(good, stage)._columns:
            ours, theirs = getattr(getattr(good, stage), name), getattr(getattr(masked, stage), name)
            assert same_bits(ours[others], theirs[others]), name
            assert np.isnan(theirs[7]), name


@pytest.mark.parametrize(
    ("launch", "says"),
    [
        (lambda: wb.Launch(da.ones(3, chunks=2), np.ones(4)), "do not broadcast together"),
        (lambda: wb.Launch(da.ones(3, chunks=2)[da.ones(3, chunks=2) > 0], 0.2), "compute_chunk_sizes"),
        (lambda: wb.Launch(da.from_array(np.array(["fast"])), 0.2), "not of numbers"),
    ],
)
def test_what_no_chunk_can_mend_is_refused_at_once(launch, says):
    with pytest.raises(wb.InputError, match=says):
        wb.play(launch())


def test_an_impact_in_chunks_that_is_not_lazy_is_computed():
    speeds = np.linspace(30, 45, 5)
    struck = wb.strike(wb.Delivery(da.from_array(speeds, chunks=2), dynamic_loft=0.4), wb.clubs["7 iron"])
    assert same_bits(
        struck.smash_factor, wb.strike(wb.Delivery(speeds, dynamic_loft=0.4), wb.clubs["7 iron"]).smash_factor
    )


HIT = wb.Delivery(38.0, dynamic_loft=0.4, attack_angle=-0.05)


@pytest.mark.parametrize("chunks", [2, "auto", (3, 2, 1, 1)])
def test_a_sweep_in_chunks_has_the_bits_of_the_plain_one(chunks, calls):
    axes = {
        "clubhead_speed": np.linspace(20, 45, 5),
        "wind_speed": [0.0, 4.0, 200.0],
        "stimp": [2.5, 3.5],
        "temperature": [280.0],
    }
    outputs = ("carry", "total", "smash_factor")
    plain = wb.sweep(HIT, wb.clubs["7 iron"], outputs=outputs, **axes)
    lazy = wb.sweep(HIT, wb.clubs["7 iron"], outputs=outputs, chunks=chunks, **axes)
    assert of_rows(shape for shape in calls if np.prod(shape) > 1) == []
    assert lazy.sizes == plain.sizes
    for name in (*outputs, "status", "run_status"):
        assert isinstance(lazy[name].data, da.Array)
        assert lazy[name].attrs.keys() == plain[name].attrs.keys()
        assert same_bits(lazy[name].values, plain[name].values), name
    assert set(plain.attrs) - set(lazy.attrs) == {"completed", "first_bad_input", "seconds"}


@pytest.mark.parametrize("how", [{"design": "paired"}, {"design": "sobol", "samples": 16}])
def test_points_of_a_sweep_in_chunks_are_those_of_the_plain_one(how):
    axes = {"clubhead_speed": [30.0, 45.0], "wind_speed": [0.0, 5.0]}
    plain, lazy = (wb.sweep(HIT, wb.clubs["7 iron"], chunks=chunks, **axes, **how) for chunks in (None, 1))
    assert same_bits(plain.carry.values, lazy.carry.values)
    assert lazy.carry.data.numblocks == plain.carry.shape


def test_a_billion_points_are_a_sweep_in_chunks_and_axes_may_bring_their_own():
    wide = {"wind_speed": np.linspace(0, 9, 1000), "attack_angle": np.linspace(-0.1, 0.1, 1000)}
    lazy = wb.sweep(HIT, wb.clubs["7 iron"], clubhead_speed=da.linspace(30, 45, 1000, chunks=250), **wide)
    assert lazy.carry.size == 10**9
    assert lazy.carry.data.chunksize == (250, 1000, 1000)
    with pytest.raises(wb.InputError, match="chunks is 'few'"):
        wb.sweep(HIT, wb.clubs["7 iron"], wind_speed=[1.0], chunks="few")
    with pytest.raises(wb.InputError, match="progress is for sweeps without chunks"):
        wb.sweep(HIT, wb.clubs["7 iron"], wind_speed=[1.0], chunks=1, progress=True)
    with pytest.raises(wb.InputError, match="progress is for sweeps without chunks"):
        wb.sweep(HIT, wb.clubs["7 iron"], wind_speed=da.ones(1), progress=True)


@pytest.fixture(scope="module")
def two_workers():
    """Two processes of one thread each on this machine, and a client of theirs."""
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, host="127.0.0.1", dashboard_address=None
        ) as workers,
        distributed.Client(workers, set_as_default=False) as client,
    ):
        yield client


@pytest.fixture
def in_background():
    with ThreadPoolExecutor(1) as one_thread:
        yield one_thread


def until(condition, seconds=60):
    """Waits for something that must happen."""
    end = time.monotonic() + seconds
    while not (found := condition()):
        assert time.monotonic() < end, "it did not happen"
        time.sleep(0.01)
    return found


def gated(folder):
    """Passes numbers on and notes who worked on which block; at its second a worker waits until the gate opens."""

    def pass_on(block, block_info=None):
        import os
        import time

        (folder / f"{block_info[0]['chunk-location'][0]}-{os.getpid()}").touch()
        mine = [note for note in folder.iterdir() if note.name.endswith(f"-{os.getpid()}")]
        end = time.monotonic() + 60
        while len(mine) > 1 and not (folder / "open").exists() and time.monotonic() < end:
            time.sleep(0.01)
        return block

    return pass_on


def test_a_worker_killed_on_its_way_leaves_the_result_whole(two_workers, in_background, tmp_path):
    x = draws(1200)
    plain = wb.play(*starts(x)["delivery"], **conditions(x))
    lazy = in_chunks(x, 100)
    lazy["speed"] = lazy["speed"].map_blocks(gated(tmp_path), dtype=float, meta=np.empty(0))
    shot = wb.play(*starts(lazy)["delivery"], **conditions(lazy))
    processes = two_workers.run(os.getpid)
    future = in_background.submit(shot.compute, scheduler=two_workers)

    def blocks_of(pid):
        return {note.name.split("-")[0] for note in tmp_path.iterdir() if note.name.endswith(f"-{pid}")}

    until(lambda: all(len(blocks_of(pid)) == 2 for pid in processes.values()))  # one done, one at the gate
    victim, pid = next(iter(processes.items()))
    assert two_workers.processing()[victim]
    assert two_workers.has_what()[victim]
    held = blocks_of(pid)
    os.kill(pid, signal.SIGKILL)
    until(lambda: victim not in two_workers.scheduler_info()["workers"])
    assert not future.done()
    (tmp_path / "open").touch()
    assert same_shots(plain, future.result(timeout=60))
    again = [note.name for note in tmp_path.iterdir() if note.name.split("-")[0] in held]
    assert {name.split("-")[0] for name in again if not name.endswith(f"-{pid}")} == held


def test_an_error_of_a_worker_comes_home_with_its_rows(two_workers):
    speeds = np.full(10, 60.0)
    speeds[7] = np.nan
    shot = wb.play(wb.Launch(da.from_array(speeds, chunks=5), 0.2))
    with pytest.raises(wb.InputError, match="row 7: ball_speed is nan") as error:
        shot.carry.compute(scheduler=two_workers)
    assert [row for row, _ in error.value.rows] == [7]


@pytest.mark.parametrize("at", ["landing", "rest"])
def test_a_cloud_of_workers_has_the_bits_of_the_local_one(two_workers, at):
    how = {"sd": {"face_angle": 0.02, "clubhead_speed": 1.0}, "samples": 70_000, "at": at, "keep": 66_000}
    target = wb.targets.Circle(130.0, 10.0)
    ours, theirs = (
        wb.dispersion(HIT, wb.clubs["7 iron"], target=target, client=client, **how)
        for client in (None, two_workers)
    )
    lazy = wb.dispersion(HIT, wb.clubs["7 iron"], target=target, lazy=True, **how)
    for other in (theirs, lazy.compute(scheduler=two_workers)):
        for name in ("first", "second", "third", "fourth", "hits", "samples", "good"):
            assert same_bits(getattr(ours.sums, name), getattr(other.sums, name)), name
        assert all(same_bits(ours.kept[name], other.kept[name]) for name in ours.kept)


def test_a_lazy_cloud_is_played_only_when_it_is_computed(monkeypatch):
    blocks = []
    block = Sampling.block
    monkeypatch.setattr(Sampling, "block", lambda self, number: blocks.append(number) or block(self, number))
    lazy = wb.dispersion(HIT, wb.clubs["7 iron"], sd={"face_angle": 0.02}, samples=10_000, lazy=True)
    assert blocks == []
    cloud = lazy.compute(scheduler="sync")
    assert isinstance(cloud, Dispersion) and sorted(blocks) == list(range(cloud.sampling.blocks))
    with pytest.raises(wb.InputError, match="not both"):
        wb.dispersion(HIT, wb.clubs["7 iron"], sd={"face_angle": 0.02}, lazy=True, client=object())


def test_a_client_that_is_none_is_refused():
    with pytest.raises(wb.InputError, match="client is 'here'"):
        wb.dispersion(HIT, wb.clubs["7 iron"], sd={"face_angle": 0.02}, client="here")
