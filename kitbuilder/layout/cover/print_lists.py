"""What to print on card and on paper, and the pages to type into a print window."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, zip_longest

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Flip, Sheet, SheetKind, Stock

OF_A_WEEK = (SheetKind.WEEK, SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY)
"""Kinds of sheets that stand in one line of what to print."""


@frozen
class Row:
    """One line of a list: its pages, what they are, the edge they are turned over on, copies."""

    stock: Stock
    numbers: tuple[int, ...]
    said: str
    flip: Flip | None = None
    copies: int = 1

    @property
    def pages(self) -> str:
        """The pages as they are typed."""
        return ranges(self.numbers)


def printed(sheets: Sequence[Sheet], first: int, words: Words) -> tuple[Row, ...]:
    """Return a line for each kind among ``sheets``, the first being page ``first``.

    What is printed only later is left out. Sheets of one kind that are printed in different
    numbers have a line each.
    """
    runs: dict[tuple[Stock, str, int], list[tuple[int, Sheet]]] = {}
    numbered = [(n, s) for n, s in enumerate(sheets, first) if not s.later]
    for key, same in groupby(numbered, key=lambda one: _belongs(one[1])):
        runs.setdefault(key, []).extend(same)
    found = []
    for (stock, _, copies), run in runs.items():
        kinds = {sheet.kind for _, sheet in run}
        kind = run[0][1].kind if len(kinds) == 1 or kinds <= set(OF_A_WEEK) else "cards"
        said = words(f"title.{kind}")
        flip = next((sheet.flip for _, sheet in run if sheet.flip), None)
        if any(sheet.folds for _, sheet in run):
            said = words("cover.fold", what=said)
        if copies > 1:
            said = words("cover.copies", what=said, count=copies)
        found.append(Row(stock, tuple(number for number, _ in run), said, flip, copies))
    return tuple(found)


def by_edge(pages: Sequence[tuple[int, Flip | None]]) -> tuple[tuple[str, Flip | None], ...]:
    """Return what is typed for ``pages`` in one go each: those turned over on one edge.

    A page comes with the edge that its sheet is turned over on, if it has a back.
    """
    edges = dict.fromkeys(flip for _, flip in pages)
    return tuple((ranges([n for n, flip in pages if flip == edge]), edge) for edge in edges)


def later_weeks(sheets: Iterable[Sheet]) -> int:
    """Return for how many weeks ``sheets`` are printed only later."""
    return len({sheet.week for sheet in sheets if sheet.later and sheet.week})


def weekly(sheets: Sequence[Sheet], first: int) -> tuple[tuple[str, str], ...]:
    """Return the name of each later week and the pages on paper that are printed for it.

    What is for no week is printed with the first of them, where further kinds of sums begin.
    """
    later = [(n, s) for n, s in enumerate(sheets, first) if s.later and s.stock == "paper"]
    names = list(dict.fromkeys(sheet.week for _, sheet in later if sheet.week))
    return tuple(
        (name, ranges([n for n, s in later if (s.week or names[0]) == name])) for name in names
    )


def edges(sheets: Sequence[Sheet]) -> Iterator[Flip | None]:
    """Yield the edge that each of ``sheets`` is turned over on: a front's is that of its back."""
    for sheet, after in zip_longest(sheets, sheets[1:]):
        yield sheet.flip or (after.flip if after else None)


def _belongs(sheet: Sheet) -> tuple[Stock, str, int]:
    """Return what sheets of one line have in common: card or paper, a kind, and copies.

    Pupils' cards are one line, whatever they are; so are a week and its worksheets.
    """
    kind = SheetKind.WEEK if sheet.kind in OF_A_WEEK else sheet.kind
    of_pupils = sheet.section and sheet.stock == "card"
    return sheet.stock, "" if of_pupils else str(kind), sheet.copies


def ranges(pages: Sequence[int]) -> str:
    """Return page numbers as a print window takes them: "2, 6–7"."""
    runs: list[list[int]] = []
    for page in sorted(pages):
        if runs and page == runs[-1][1] + 1:
            runs[-1][1] = page
        else:
            runs.append([page, page])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in runs)
