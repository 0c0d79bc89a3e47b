"""No file is lost: outputs are written whole or not at all, and never over a file that the command reads."""

import errno
import os
import resource
import signal
import subprocess
import sys
import time

import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.core import whole_files
from whimbrel.core.files import write
from whimbrel.core.whole_files import write_whole

STRIKES = "club,ball_speed_mph,launch_angle_deg,spin_rate_rpm\n" + "7 iron,118,17,7000\n7 iron,119,16,6900\n" * 5
LAUNCH = ("--ball-speed", "118mph", "--launch-angle", "17deg", "--spin-rate", "7000rpm")
SWEEP = ("sweep", *LAUNCH, "--axis", "altitude=0m,1000m")
CLOUD = ("dispersion", *LAUNCH, "--sd", "launch_angle=1deg", "--samples", "200")


@pytest.fixture
def strikes(tmp_path):
    path = tmp_path / "strikes.csv"
    path.write_text(STRIKES)
    return path


@pytest.fixture
def disk(monkeypatch):
    """A full disk, found out when what was written has to reach it."""

    def full(handle):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)


def outputs(strikes, tmp_path):
    """Every kind of file that a command writes: its command, and the file."""
    return [
        (("table", strikes, "--out"), tmp_path / "out.csv"),
        (("table", strikes, "--out"), tmp_path / "out.parquet"),
        ((*SWEEP, "--out"), tmp_path / "out.nc"),
        ((*CLOUD, "--out"), tmp_path / "samples.csv"),
        (("lesson", strikes, "--out"), tmp_path / "out.html"),
        (("play", *LAUNCH, "--picture"), tmp_path / "out.png"),
        ((*SWEEP, "--picture"), tmp_path / "out.svg"),
        ((*CLOUD, "--picture"), tmp_path / "out.pdf"),
    ]


def test_a_full_disk_is_one_clear_line_and_leaves_every_old_file_as_it_was(command, strikes, tmp_path, disk):
    for arguments, out in outputs(strikes, tmp_path):
        out.write_bytes(b"the old file")
        code, _, err = command(*arguments, out)
        assert (code, err) == (2, f"whimbrel: {out}: No space left on device"), arguments
        assert out.read_bytes() == b"the old file", arguments
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".")]


def test_every_file_is_put_in_place_when_it_is_whole_with_the_mode_of_the_old_one(command, strikes, tmp_path):
    for arguments, out in outputs(strikes, tmp_path):
        out.write_bytes(b"the old file")
        out.chmod(0o640)
        with out.open("rb") as reader:  # of the old file: not written into
            code, _, err = command(*arguments, out)
            assert code in (0, 1) and err == "", (arguments, err)
            assert reader.read() == b"the old file", arguments
        assert out.stat().st_mode & 0o777 == 0o640 and out.stat().st_size > 100, arguments
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(".")]


def test_a_limit_on_file_sizes_leaves_the_old_file(strikes, tmp_path):
    out = tmp_path / "out.csv"
    out.write_bytes(b"the old file")
    ran = subprocess.run(
        [sys.executable, "-m", "whimbrel.cli", "table", strikes, "--out", out],
        capture_output=True,
        text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (500, 500)),
    )
    assert ran.returncode == 2 and str(out) in ran.stderr and ran.stderr.count("\n") == 1, ran.stderr
    assert out.read_bytes() == b"the old file" and len(list(tmp_path.iterdir())) == 2


KILLED = """
import sys, time
from whimbrel.core.whole_files import write_whole

def fill(path):
    open(path, "w").write("half of ")
    print(path, flush=True)
    time.sleep(600)

write_whole(sys.argv[1], fill)
"""


def test_what_a_killed_writer_left_is_cleared_away_and_what_a_living_one_writes_is_not(tmp_path):
    out, other = tmp_path / "out.txt", tmp_path / ".out.txt.notes"
    out.write_text("the old file")
    other.write_text("somebody's")
    killed, living = (
        subprocess.Popen([sys.executable, "-c", KILLED, out], stdout=subprocess.PIPE, text=True) for _ in range(2)
    )
    try:
        left, writing = (writer.stdout.readline().strip() for writer in (killed, living))
        killed.send_signal(signal.SIGKILL)
        killed.wait()
        assert out.read_text() == "the old file" and os.path.exists(left)
        write_whole(out, lambda path: open(path, "w").write("the new file"))
        assert out.read_text() == "the new file"
        assert not os.path.exists(left) and os.path.exists(writing) and other.exists()
    finally:
        for writer in (killed, living):
            writer.kill()
            writer.wait()
            writer.stdout.close()


def test_a_link_stays_a_link_and_the_file_it_leads_to_is_replaced(tmp_path):
    (tmp_path / "kept").mkdir()
    real, link = tmp_path / "kept" / "real.csv", tmp_path / "link.csv"
    real.write_text("old")
    link.symlink_to(real)
    write(pd.DataFrame({"a": [1]}), link)
    assert link.is_symlink() and real.read_text() == "a\n1\n"
    assert [path.name for path in (tmp_path / "kept").iterdir()] == ["real.csv"]


def test_a_folder_and_a_device_are_refused_in_words(tmp_path):
    (tmp_path / "folder.csv").mkdir()
    (tmp_path / "null.csv").symlink_to("/dev/null")
    for name, what in (("folder.csv", "is a folder"), ("null.csv", "is a device")):
        with pytest.raises(wb.InputError, match=what):
            write(pd.DataFrame({"a": [1]}), tmp_path / name)


def test_a_write_protected_file_stays(tmp_path, monkeypatch):
    out = tmp_path / "out.txt"
    out.write_text("old")
    monkeypatch.setattr(os, "access", lambda path, mode: False)  # what whoever may write everything never sees
    with pytest.raises(PermissionError, match="write-protected"):
        write_whole(out, lambda path: None)
    assert out.read_text() == "old"


def test_new_names_are_made_to_last_in_the_folder_too(tmp_path, monkeypatch):
    synced = []
    monkeypatch.setattr(whole_files, "_sync_folder", synced.append)
    write_whole(tmp_path / "a.txt", lambda path: open(path, "w").write("x"))
    assert synced == [tmp_path]


def test_no_command_writes_over_a_file_that_it_reads(command, strikes, tmp_path):
    strikes.with_name("hard.csv").hardlink_to(strikes)
    strikes.with_name("soft.csv").symlink_to(strikes)
    before = strikes.read_bytes()
    told = (
        ("table", strikes, "--out", strikes),
        ("table", strikes, "--out", tmp_path / "hard.csv"),
        ("table", strikes, "--out", tmp_path / "soft.csv"),
        ("table", tmp_path / "soft.csv", "--out", tmp_path / "hard.csv"),
        ("dispersion", "--strikes", strikes, "--out", strikes),
    )
    for arguments in told:
        code, _, err = command(*arguments)
        assert code == 2 and "is an input of this command" in err, (arguments, err)
    for reads, taken in (
        (("session", strikes, "--out", tmp_path, "--reading"), "spreads.csv"),
        (("lesson", strikes, "--out", tmp_path / "page.html", "--reading"), "page.html"),
        (("lesson", strikes, "--out", tmp_path / "page.html", "--clubs"), "page.html"),
        (("table", strikes, "--out", tmp_path / "own.csv", "--clubs"), "own.csv"),
        (("play", *LAUNCH, "--picture", tmp_path / "turf.png", "--turf", "x", "--turfs"), "turf.png"),
        (("arc", "--club-path", "1deg", "--attack-angle", "1deg", "--plane", "60deg",
          "--picture", tmp_path / "a.png", "--clubs"), "a.png"),
        (("explain", "--picture", tmp_path / "b.png", "--clubs"), "b.png"),
        (("sensitivity", "--picture", tmp_path / "c.png", "--clubs"), "c.png"),
        (("course", "--distance", "150yd", "--picture", tmp_path / "d.png", "--strikes"), "d.png"),
        (("conditions", "--out", tmp_path / "n.csv", "--strikes"), "n_wind.csv"),
        (("conditions", "--picture", tmp_path / "n.png", "--clubs"), "n_air.png"),
        (("stopping", "--landing-speed", "50mph", "--descent-angle", "47deg", "--landing-spin-rate", "6000rpm",
          "--picture", tmp_path / "e.png", "--turfs"), "e.png"),
        ((*SWEEP, "--out", tmp_path / "f.nc", "--turfs"), "f.nc"),
        ((*SWEEP, "--out", tmp_path / "f.nc", "--turfs"), "f.partial.nc"),
        ((*CLOUD, "--out", tmp_path / "g.csv", "--clubs"), "g.partial.csv"),
    ):  # fmt: skip
        (tmp_path / taken).write_bytes(b"read")
        code, _, err = command(*reads, tmp_path / taken)
        assert code == 2 and "is an input of this command" in err, (reads, err)
        assert (tmp_path / taken).read_bytes() == b"read"
    assert strikes.read_bytes() == before


def test_two_results_do_not_share_a_name(command, tmp_path):
    one = tmp_path / "a.png"
    other = tmp_path / ".." / tmp_path.name / "a.png"
    code, _, err = command("play", "--club", "7 iron", "--clubhead-speed", "84mph", "--dynamic-loft", "24deg",
                           "--picture", one, "--impact-picture", other)  # fmt: skip
    assert code == 2 and "written twice" in err and not one.exists()


@pytest.mark.parametrize("name", ["x", "x.bmp", "x.jpeg"])
def test_an_ending_that_is_no_picture_is_refused_before_the_work(command, tmp_path, name, monkeypatch):
    from whimbrel.cli import app as cli

    monkeypatch.setattr(cli, "play", lambda *_, **__: pytest.fail("it worked before it looked"))
    code, _, err = command("play", *LAUNCH, "--picture", tmp_path / name)
    assert code == 2 and f"--picture {tmp_path / name}: accepted: .png, .svg, .pdf" in err


def test_a_picture_is_written_under_exactly_the_name_told(command, tmp_path):
    code, told, _ = command("play", *LAUNCH, "--picture", tmp_path / "x.PNG")
    assert code == 0 and "x.PNG" in told
    assert [path.name for path in tmp_path.iterdir()] == ["x.PNG"]
    assert (tmp_path / "x.PNG").read_bytes().startswith(b"\x89PNG")


def test_little_memory_is_one_clear_line(command, monkeypatch):
    from whimbrel.cli import app as cli

    def too_much(*_, **__):
        raise MemoryError("Unable to allocate 7.45 GiB")

    monkeypatch.setattr(cli, "play", too_much)
    code, out, err = command("play", *LAUNCH)
    assert (code, out) == (2, "") and err.startswith("whimbrel: not enough memory") and "7.45 GiB" in err


def test_two_writers_of_one_file_leave_one_of_two_whole_files(tmp_path):
    out = tmp_path / "out.txt"
    code = (
        "import sys\nfrom whimbrel.core.whole_files import write_whole\n"
        "for _ in range(200): write_whole(sys.argv[1], lambda p: open(p, 'w').write(sys.argv[2] * 1000))\n"
    )
    writers = [subprocess.Popen([sys.executable, "-c", code, out, letter]) for letter in "ab"]
    while any(writer.poll() is None for writer in writers):
        time.sleep(0.01)
        assert not out.exists() or out.read_text() in ("a" * 1000, "b" * 1000)
    assert [writer.returncode for writer in writers] == [0, 0]
    assert [path.name for path in tmp_path.iterdir()] == ["out.txt"]
