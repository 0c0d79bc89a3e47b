"""Table files: CSV and Parquet in, CSV and Parquet out, whole or not at all."""

from __future__ import annotations

import csv
import os
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from .errors import InputError, missing

if TYPE_CHECKING:
    import pandas as pd


def import_pandas() -> Any:
    try:
        import pandas
    except ImportError:
        raise missing("pandas", "tables") from None
    return pandas


def readable(path: str | os.PathLike[str]) -> Path:
    """The path of a file that can be opened, or an InputError that says why it cannot."""
    path = Path(path)
    try:
        with path.open("rb"):
            return path
    except FileNotFoundError:
        raise InputError(f"{path}: no such file") from None
    except IsADirectoryError:
        raise InputError(f"{path}: a folder, not a file") from None
    except OSError as error:
        raise InputError(f"{path}: not read: {error.strerror}") from None
    except ValueError:
        raise InputError(f"{str(path)!r} names no file") from None


def read(path: str | os.PathLike[str]) -> tuple[pd.DataFrame, dict[int, str]]:
    """A CSV or Parquet file as it is, and what is wrong with the shape of single rows.

    The index is the line of a CSV file (text, to the letter) or the row of a Parquet file, from 1.
    """
    pandas = import_pandas()
    path = readable(path)
    if path.suffix.lower() in (".parquet", ".pq"):
        try:
            frame = pandas.read_parquet(path)
        except ImportError:
            raise missing("pyarrow", "tables") from None
        except Exception as error:  # of pyarrow's many kinds
            why = next(iter(str(error).splitlines()), type(error).__name__)
            raise InputError(f"{path}: not a Parquet file: {why}") from None
        frame.index = pandas.RangeIndex(1, len(frame) + 1, name="row")
        return frame, {}
    return _read_csv(path, pandas)


def _read_csv(path: Path, pandas: Any) -> tuple[pd.DataFrame, dict[int, str]]:
    cells: list[list[str]] = []
    lines: list[int] = []
    reasons: dict[int, str] = {}
    try:
        with path.open(newline="", encoding="utf-8-sig") as file:
            reader = csv.reader(file)
            header = [name.strip() for name in next(reader, [])]
            for row in reader:
                if not row:
                    continue
                if len(row) != len(header):
                    lost = f"; left over: {row[len(header) :]}" if len(row) > len(header) else ""
                    reasons[reader.line_num] = f"has {len(row)} cells, the header {len(header)}{lost}"
                    row = (row + [""] * len(header))[: len(header)]
                cells.append(row)
                lines.append(reader.line_num)
    except UnicodeDecodeError as error:
        raise InputError(f"{path}: not UTF-8 text ({error.reason} at byte {error.start})") from None
    except csv.Error as error:
        raise InputError(f"{path}, line {reader.line_num}: {error}") from None
    if not header:
        raise InputError(f"{path}: the file is empty; the first line must name the columns")
    if len(header) == 1 and any(mark in header[0] for mark in ";\t|"):
        raise InputError(f"{path}: the columns must be separated by commas; the first line is {header[0]!r}")
    try:
        refuse_twice(header)
    except InputError as error:
        raise InputError(f"{path}: {error}") from None
    table = np.array(cells, dtype=object).reshape(len(cells), len(header))
    return pandas.DataFrame(table, columns=header, index=pandas.Index(lines, name="line"), dtype=str), reasons


def refuse_twice(names: Iterable[object]) -> None:
    """Refuses a table that has a column more than once."""
    twice = sorted(str(name) for name, count in Counter(names).items() if count > 1)
    if twice:
        raise InputError(f"column {', '.join(map(repr, twice))} is there more than once")


def write(frame: pd.DataFrame, path: str | os.PathLike[str]) -> None:
    """Writes a table as CSV or Parquet (by its ending), whole or not at all."""
    path = Path(path)
    parquet = path.suffix.lower() in (".parquet", ".pq")
    if not parquet and path.suffix.lower() != ".csv":
        raise InputError(f"{path}: a table is written as .csv or .parquet")
    if parquet:
        _whole(path, lambda temporary: frame.to_parquet(temporary, index=False))
    else:
        _whole(path, lambda temporary: _rounded(frame).to_csv(temporary, index=False))


def write_text(text: str, path: str | os.PathLike[str]) -> None:
    """Writes a text as UTF-8, whole or not at all."""
    _whole(Path(path), lambda temporary: Path(temporary).write_text(text, encoding="utf-8"))


def _whole(path: Path, fill: Callable[[str], Any]) -> None:
    """Fills a file beside the path, then puts it in its place."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    os.close(handle)
    try:
        fill(temporary)
        os.chmod(temporary, 0o666 & ~_umask())
        os.replace(temporary, path)
    except BaseException:
        os.unlink(temporary)
        raise


def _rounded(frame: pd.DataFrame) -> pd.DataFrame:
    """The table with its computed numbers to seven digits; the columns it came with keep every digit."""
    computed = [name for name in frame if str(name).startswith("computed_") and frame[name].dtype.kind == "f"]
    return frame.assign(**{str(name): [float(f"{x:.7g}") for x in frame[name]] for name in computed})


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
