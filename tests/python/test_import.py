"""Importing the package: quick, silent, and without its optional packages."""

import subprocess
import sys

import pytest

import whimbrel as wb

OPTIONAL = ("matplotlib", "pandas", "pyarrow", "xarray", "scipy", "dask", "distributed")


def python(code):
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60)


def without(*packages):
    return f"import sys\nfor name in {packages!r}: sys.modules[name] = None\n"


def test_import_loads_no_optional_package_and_prints_nothing():
    done = python(f"import sys, whimbrel\nloaded = set(sys.modules) & set({OPTIONAL!r})\nassert not loaded, loaded")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_playing_a_shot_loads_no_optional_package():
    done = python(
        "import sys, whimbrel as wb\nwb.play(wb.Launch(60.0, 0.2)).in_words()\n"
        f"assert not set(sys.modules) & set({OPTIONAL!r})"
    )
    assert done.returncode == 0, done.stderr


def test_the_package_plays_where_the_optional_packages_are_missing():
    done = python(without(*OPTIONAL) + "import whimbrel as wb\nprint(wb.play(wb.Launch(60.0, 0.2)).status)")
    assert (done.stdout, done.returncode) == ("ok\n", 0), done.stderr


@pytest.mark.parametrize(
    ("blocked", "code", "says"),
    [
        ("pandas", "wb.table('x.csv')", "pandas: pip install 'whimbrel[tables]'"),
        ("scipy", "wb.session('x.csv')", "scipy: pip install 'whimbrel[statistics]'"),
        (
            "scipy",
            "wb.dispersion(wb.Launch(60.0, 0.2), sd={'ball_speed': 1.0})",
            "scipy: pip install 'whimbrel[statistics]'",
        ),
        (
            "dask",
            "wb.sweep(wb.Launch(60.0, 0.2), wind_speed=[1.0], chunks=1)",
            "dask: pip install 'whimbrel[cluster]'",
        ),
        ("jinja2", "wb.lesson('x.csv')", "jinja2: pip install 'whimbrel[pages]'"),
        ("matplotlib", "wb.play(wb.Launch(60.0, 0.2)).plot()", "matplotlib: pip install 'whimbrel[plots]'"),
    ],
)
def test_a_missing_package_is_named_with_the_way_to_get_it(blocked, code, says):
    done = python(
        without(blocked, *(["matplotlib.pyplot"] if blocked == "matplotlib" else []))
        + f"import whimbrel as wb\ntry:\n    {code}\nexcept wb.MissingPackage as e:\n    print(e)"
    )
    assert done.stdout == f"this needs {says}\n", done.stderr


def test_a_missing_parquet_package_is_named_with_the_way_to_get_it(tmp_path):
    (tmp_path / "x.parquet").write_bytes(b"PAR1")
    done = python(
        without("pyarrow", "fastparquet")
        + f"import whimbrel as wb\ntry:\n    wb.table({str(tmp_path / 'x.parquet')!r})\n"
        + "except wb.MissingPackage as e:\n    print(e)"
    )
    assert "whimbrel[tables]" in done.stdout, done.stderr


def test_everything_public_is_there_and_documented():
    for name in wb.__all__:
        thing = getattr(wb, name)
        if name not in ("balls", "clubs"):
            # a dataclass without a docstring gets its signature for one
            assert thing.__doc__ and not thing.__doc__.startswith(f"{name}("), name
    assert wb.__version__.count(".") == 2


def test_the_completion_of_a_name_lists_what_is_public_and_no_more():
    assert dir(wb) == sorted(wb.__all__)
    assert {"play", "clubs", "Delivery", "InputError", "units", "aero", "targets"} <= set(dir(wb))


def test_the_headers_come_with_the_package():
    from pathlib import Path

    assert (Path(wb.include_dir()) / "whimbrel" / "whimbrel.hpp").is_file()


def test_an_input_error_is_a_value_error_and_a_missing_package_an_import_error():
    assert issubclass(wb.InputError, ValueError)
    assert issubclass(wb.MissingPackage, ImportError)
