"""The terminal: every text as nothing but text, in letters that it has, and tables that fit it."""

from __future__ import annotations

import codecs
from collections.abc import Iterator, Sequence
from typing import Any, TextIO

from rich.cells import cell_len
from rich.console import Console, ConsoleOptions, RenderResult
from rich.table import Table
from rich.text import Text

from ..core.plain_text import spell_out, spell_sign, without_steering


def spell_what_it_lacks(*streams: TextIO) -> None:
    """Makes streams write any text: signs that their encoding lacks are spelled, not an error."""

    def spell(error: UnicodeError) -> tuple[str, int]:
        assert isinstance(error, UnicodeEncodeError)
        lacking = error.object[error.start : error.end]
        return "".join(spell_sign(sign, error.encoding) for sign in lacking), error.end

    codecs.register_error("whimbrel.spell", spell)
    for stream in streams:
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="whimbrel.spell")


class Terminal(Console):
    """A console on which every text is only text: no markup, no emoji by name, nothing that steers a terminal."""

    def __init__(self, *, stderr: bool = False) -> None:
        super().__init__(highlight=False, markup=False, emoji=False, stderr=stderr)

    def render_str(self, text: str, **how: Any) -> Text:
        return super().render_str(spell_out(without_steering(text), self.encoding), **how)


class Listing:
    """A table without lines; where the terminal is too narrow for its columns, a line a cell: heading: cell.

    headings: may be none. right: the columns aligned to the right. prose: the columns whose cells may be broken
    over lines. gap: spaces between columns; 1 where more do not fit.
    """

    #: Prose is not broken into columns narrower than this.
    NARROWEST_PROSE = 24

    def __init__(self, *headings: str, right: Sequence[int] = (), prose: Sequence[int] = (), gap: int = 2) -> None:
        self.headings = headings
        self.right, self.prose, self.gap = right, prose, gap
        self.rows: list[tuple[str, ...]] = []

    def add_row(self, *cells: str) -> None:
        """Adds a row; of an empty one, a blank line is enough."""
        self.rows.append((*cells, *[""] * (len(self.headings) - len(cells))))

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> RenderResult:
        widths = [self._widths(console, column) for column in range(self._columns)]
        for gap in (self.gap, 1):
            spare = options.max_width - gap * (self._columns - 1) - sum(least for least, _ in widths)
            if spare >= 0:
                yield self._table(_share_out(widths, spare), gap)
                return
        yield from self._stack()

    @property
    def _columns(self) -> int:
        return max((len(row) for row in self.rows), default=len(self.headings))

    def _widths(self, console: Console, column: int) -> tuple[int, int]:
        """The least and the full width of a column."""

        def width(text: str) -> int:
            return max((cell_len(line.plain) for line in console.render_str(text).split("\n")), default=0)

        heading = self.headings[column] if self.headings else ""
        cells = max((width(row[column]) for row in self.rows), default=0)
        words = max(map(width, heading.split()), default=0)
        least = min(cells, self.NARROWEST_PROSE) if column in self.prose else cells
        return max(least, words), max(cells, width(heading))

    def _table(self, widths: Sequence[int], gap: int) -> Table:
        table = Table(box=None, show_header=bool(self.headings), pad_edge=False, padding=(0, gap, 0, 0))
        for column, width in enumerate(widths):
            heading = self.headings[column] if self.headings else ""
            table.add_column(heading, width=width, justify="right" if column in self.right else "left")
        for row in self.rows:
            table.add_row(*row)
        return table

    def _stack(self) -> Iterator[str]:
        for *titles, name, cell in self.rows if not self.headings else ():
            yield from filter(None, titles)
            yield f"{name}: {cell}"
        for title, *cells in self.rows if self.headings else ():
            if title:
                yield title
            for heading, cell in zip(self.headings[1:], cells, strict=False):
                if cell:
                    yield f"  {heading}: {cell}" if heading else f"  {cell}"


def _share_out(widths: Sequence[tuple[int, int]], spare: int) -> list[int]:
    """Each column's width: its least, and of what is spare as much as it can use, the first columns first."""
    given = []
    for least, full in widths:
        more = min(spare, full - least)
        spare -= more
        given.append(least + more)
    return given
