"""Table files: CSV and Parquet in, CSV and Parquet out."""

from __future__ import annotations

import csv
import os
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from ..errors import InputError, missing
from .quantity import counted
from .whole_files import write_whole

if TYPE_CHECKING:
    import pandas as pd

TABLE_ENDINGS = (".csv", ".parquet", ".pq")
#: What makes a spreadsheet read a cell as a formula.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


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
                    reasons[reader.line_num] = f"has {counted(len(row), 'cell')}, the header {len(header)}{lost}"
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
        raise InputError(f"column {', '.join(map(repr, twice))} appears more than once")


def write(frame: pd.DataFrame, path: str | os.PathLike[str]) -> int:
    """Writes a table as CSV or Parquet (by its ending), whole or not at all.

    Spreadsheets run a text cell of a CSV file that begins like a formula, so it gets an apostrophe in front: see
    ``as_text``. Gives the number of such cells and headings. Read again, they keep it. Parquet keeps every cell as
    it is.
    """
    path = Path(path)
    ending = path.suffix.lower()
    if ending not in TABLE_ENDINGS:
        raise InputError(f"{path}: a table is written as .csv or .parquet")
    if ending != ".csv":
        write_whole(path, lambda temporary: frame.to_parquet(temporary, index=False))
        return 0
    safe, marked = without_formulas(_round_computed(frame))
    write_whole(path, lambda temporary: safe.to_csv(temporary, index=False))
    return marked


def write_text(text: str, path: str | os.PathLike[str]) -> None:
    """Writes a text as UTF-8, whole or not at all."""
    write_whole(path, lambda temporary: Path(temporary).write_text(text, encoding="utf-8"))


def _round_computed(frame: pd.DataFrame) -> pd.DataFrame:
    """The table with its computed numbers to seven digits; the columns it came with keep every digit."""
    computed = [name for name in frame if str(name).startswith("computed_") and frame[name].dtype.kind == "f"]
    return frame.assign(**{str(name): [float(f"{x:.7g}") for x in frame[name]] for name in computed})


def without_formulas(frame: pd.DataFrame) -> tuple[pd.DataFrame, int]:
    """The table with every text and heading ``as_text``, and how many of them that changed."""
    safe, marked = frame.copy(deep=False), 0
    for name in frame:
        column = frame[name]
        if column.dtype.kind in "biufcmM":
            continue
        starts = column.astype("string").str.startswith(FORMULA_STARTS).fillna(False).to_numpy(bool)
        if starts.any():
            cells = [as_text(x) if at and isinstance(x, str) else x for x, at in zip(column, starts, strict=True)]
            marked += sum(isinstance(new, str) and new != old for new, old in zip(cells, column, strict=True))
            safe[name] = cells
    headings = {name: as_text(str(name)) for name in frame if as_text(str(name)) != str(name)}
    return safe.rename(columns=headings), marked + len(headings)


def as_text(cell: str) -> str:
    """A cell that a spreadsheet takes for text: one like a formula with an apostrophe in front; numbers stay."""
    if len(cell) < 2 or not cell.startswith(FORMULA_STARTS):
        return cell
    try:
        float(cell)
    except ValueError:
        return f"'{cell}"
    return cell
