"""A table in the terminal."""

from collections.abc import Iterator, Sequence


def table(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Yield ``rows``, all of as many cells, with their columns set flush left."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        line = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        yield line.rstrip()
