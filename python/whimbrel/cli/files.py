"""The files a command reads and writes: checked before the work, and written whole."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..core.files import TABLE_ENDINGS, write
from ..core.quantity import counted
from ..core.whole_files import write_whole
from ..errors import InputError
from .output import say, say_file

if TYPE_CHECKING:
    import pandas as pd

PICTURES = (".png", ".svg", ".pdf")
#: The exit code of a command that Ctrl-C stopped: 128 and the number of the signal, as shells have it.
STOPPED = 130


def check_files(
    reads: Iterable[Path | None],
    *,
    picture: Iterable[Path | None] = (),
    out: Iterable[Path | None] = (),
    kinds: tuple[str, ...] = TABLE_ENDINGS,
) -> None:
    """Refuses, before any work, files that could not be written.

    These are pictures and outputs of an unknown kind, in a missing folder, under the name of another output, or
    over a file that the command reads.
    """
    taken: dict[str, Path] = {}
    read = [path for path in reads if path is not None]
    for option, paths, endings in (("--picture", picture, PICTURES), ("--out", out, kinds)):
        for path in paths:
            if path is None:
                continue
            if path.suffix.lower() not in endings:
                raise InputError(f"{option} {path}: accepted: {', '.join(endings)}")
            if not path.resolve().parent.is_dir():
                raise InputError(f"{path}: there is no such folder")
            refuse_to_overwrite(path, read)
            same = taken.setdefault(os.path.realpath(path), path)
            if same is not path:
                raise InputError(f"{path} would be written twice: give each result its own name")


def refuse_to_overwrite(path: Path, read: Iterable[Path | None]) -> None:
    """Refuses an output that is a file the command reads."""
    for source in read:
        if source is not None and path.exists() and source.exists() and os.path.samefile(path, source):
            raise InputError(f"{path} is an input of this command and is not overwritten: give another name")


def no_rows(file: Path) -> InputError:
    """The mistake of a table without rows."""
    return InputError(f"{file}: the table has a header but no rows")


def beside(path: Path, name: str) -> Path:
    """The path with a word added to its name."""
    return path.with_stem(f"{path.stem}_{name}")


def partial_of(path: Path) -> Path:
    """Where a partial result goes when the work was stopped."""
    return path.with_suffix(f".partial{path.suffix}")


def save_table(frame: pd.DataFrame, path: Path) -> None:
    """Writes a table; says so where text cells got an apostrophe."""
    marked = write(frame, path)
    if marked:
        cells = counted(marked, "cell", ("begins", "begin"))
        say(f"{path.name}: {cells} like a formula: an apostrophe in front keeps spreadsheets from running it.",
            style="yellow")  # fmt: skip


def save_picture(draw: Callable[[], Any], path: Path) -> None:
    """Draws a matplotlib figure, saves it under exactly this name, and closes it."""
    figure = draw()
    from matplotlib import pyplot  # which drew it

    kind = path.suffix.lower().removeprefix(".")
    try:
        write_whole(path, lambda temporary: figure.savefig(temporary, format=kind, dpi=150))
    finally:
        pyplot.close(figure)


def say_files(*written: tuple[str, Path | None]) -> None:
    """Where the results are, of those that were asked for."""
    for what, path in written:
        if path is not None:
            say_file(what, path)
