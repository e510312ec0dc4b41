"""What to print on card and on paper, and the pages to type into a print window."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.layout.model import Sheet, SheetKind, Stock

OF_A_WEEK = (SheetKind.WEEK, SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY)
"""Kinds of sheets that stand in one line of what to print."""


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a list: the pages as they are typed, what they are, and how they are printed."""

    stock: Stock
    first: int
    last: int
    said: str

    @property
    def pages(self) -> str:
        """The pages as they are typed: one number, or the first and the last."""
        return str(self.first) if self.first == self.last else f"{self.first}–{self.last}"


def printed(sheets: Sequence[Sheet], first: int, words: Words) -> tuple[Row, ...]:
    """Return a line for each run of ``sheets`` of one kind, the first being page ``first``."""
    found = []
    for (stock, _, copies), same in groupby(sheets, key=_belongs):
        run = list(same)
        kinds = {sheet.kind for sheet in run}
        said = words("title.cards") if len(kinds) > 1 else words(f"title.{run[0].kind}")
        side = next((sheet.flip for sheet in run if sheet.flip), None)
        if side:
            said = words(f"cover.sides_{side}", what=said)
        if any(sheet.folds for sheet in run):
            said = words("cover.fold", what=said)
        if copies > 1:
            said = words("cover.copies", what=said, count=copies)
        found.append(Row(stock, first, first + len(run) - 1, said))
        first += len(run)
    return tuple(found)


def _belongs(sheet: Sheet) -> tuple[Stock, str, int]:
    """Return what sheets of one line have in common: card or paper, a kind, and copies.

    Pupils' cards are one line, whatever they are.
    """
    kind = "" if sheet.section and sheet.stock == "card" else str(sheet.kind)
    return sheet.stock, kind, sheet.copies


def ranges(rows: Sequence[Row]) -> str:
    """Return the pages of ``rows`` as a print window takes them: "2, 6–7"."""
    runs: list[list[int]] = []
    for row in sorted(rows, key=lambda row: row.first):
        if runs and row.first == runs[-1][1] + 1:
            runs[-1][1] = row.last
        else:
            runs.append([row.first, row.last])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in runs)
