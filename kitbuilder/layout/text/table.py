"""Turns rows of words into a table no wider than the page; what is too wide takes more lines."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError
from kitbuilder.layout.text.flow import LEADING, Figure

Row = tuple[str, ...]

LONGEST = 0.3
"""The part of a table's width that one word may ask for; a longer one, as a name, is broken."""


@dataclass(frozen=True, slots=True)
class Table:
    """A table to draw, line by line, the first ``heads`` lines its headings.

    ``columns`` are left edges in mm, ``size`` is the em in mm.
    """

    lines: tuple[Row, ...]
    heads: int
    columns: tuple[float, ...]
    size: float


def table(rows: Sequence[Row], width: float, size: float) -> Figure:
    """Return ``rows``, headings first, as a figure ``width`` mm wide in type of ``size`` mm.

    Columns stand as far apart as the width allows, within bounds; where they do not fit, the
    columns of long sentences are broken into lines. Raises ``RefusedError`` where even single
    words are too wide.
    """
    columns = range(len(rows[0]))
    natural = [max(metrics.width(row[i], size) for row in rows) for i in columns]
    words = [[word for row in rows for word in row[i].split(" ")] for i in columns]
    least = [
        min(max(metrics.width(word, size) for word in column), LONGEST * width) for column in words
    ]
    spare = (width - sum(natural)) / max(1, len(natural) - 1)
    gap = min(2 * size, max(0.8 * size, spare))
    widths = _narrowed(natural, least, width - gap * (len(natural) - 1))
    broken = [list(_broken(row, widths, size)) for row in rows]
    edges = tuple(sum(widths[:i]) + i * gap for i in columns)
    lines = tuple(line for row in broken for line in row)
    laid = Table(lines, len(broken[0]), edges, size)
    return Figure("table", width, len(lines) * LEADING * size, laid)


def _narrowed(natural: Sequence[float], least: Sequence[float], room: float) -> list[float]:
    """Return widths that fill ``room`` at most: those that can give way most do so first."""
    widths = list(natural)
    over = sum(widths) - room
    for i in sorted(range(len(widths)), key=lambda i: least[i] - natural[i]):
        given = min(max(0.0, over), widths[i] - least[i])
        widths[i] -= given
        over -= given
    if over > 1e-6:
        raise RefusedError("page.wide-table", field="paper")
    return widths


def _broken(row: Row, widths: Sequence[float], size: float) -> Iterator[Row]:
    """Yield the lines of one row."""
    cells = [
        metrics.broken(cell, size, room + 1e-6) for cell, room in zip(row, widths, strict=True)
    ]
    yield from zip_longest(*cells, fillvalue="")
