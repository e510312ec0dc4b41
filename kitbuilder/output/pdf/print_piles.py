"""The whole pile of a class set: a PDF for each paper and way of turning, each page in its copies.

A pile is printed with one setting. Where some of a paper's sheets have backs, those without one
get an empty back, so that nothing is printed on the back of something else. Sheets that are
turned over on different edges make different piles.
"""

from collections.abc import Iterator, Sequence

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Flip, Sheet, SheetKind, Stock
from kitbuilder.press.printing import Piled

BLANK = None
"""Stands in a pile for an empty back."""


@frozen
class FilePile:
    """A file's name, the pages in it (from 0, or ``BLANK``), and how the paper is turned over."""

    name: str
    order: tuple[int | None, ...]
    flip: Flip | None


def piles(sheets: Sequence[Sheet], how: Piled, kits: int) -> Iterator[FilePile]:
    """Yield the piles of ``sheets``, sheet by sheet or set by set for so many ``kits``.

    The print run, which asks for the copies, is left out: here they all are.
    """
    leaves = list(_leaves(sheets))
    stocks: tuple[Stock, ...] = ("card", "paper")
    for stock in stocks:
        own = [leaf for leaf in leaves if sheets[leaf[0]].stock == stock]
        ways = dict.fromkeys(sheets[leaf[1]].flip for leaf in own if len(leaf) > 1)
        first = next(iter(ways), None)
        for way in ways or (None,):
            held = [leaf for leaf in own if _way(leaf, sheets, first) == way]
            order = tuple(_pages(held, sheets, how, kits, way is not None))
            if order:
                named = f"-{way}" if len(ways) > 1 else ""
                yield FilePile(f"pile-{stock}{named}.pdf", order, way)


def _leaves(sheets: Sequence[Sheet]) -> Iterator[list[int]]:
    """Yield the pages of each sheet of paper: one, or a front and its back."""
    leaf: list[int] = []
    for index, sheet in enumerate(sheets):
        if sheet.flip is None:
            if leaf:
                yield leaf
            leaf = [] if sheet.kind == SheetKind.PRINT_RUN else [index]
        else:
            leaf.append(index)
    if leaf:
        yield leaf


def _way(leaf: Sequence[int], sheets: Sequence[Sheet], usual: Flip | None) -> Flip | None:
    return sheets[leaf[1]].flip if len(leaf) > 1 else usual


def _pages(
    leaves: Sequence[list[int]], sheets: Sequence[Sheet], how: Piled, kits: int, is_turned: bool
) -> Iterator[int | None]:
    for leaf, copies in _dealt(leaves, sheets, how, kits):
        sides: list[int | None] = [*leaf, BLANK] if is_turned and len(leaf) == 1 else [*leaf]
        for _ in range(copies):
            yield from sides


def _dealt(
    leaves: Sequence[list[int]], sheets: Sequence[Sheet], how: Piled, kits: int
) -> Iterator[tuple[list[int], int]]:
    """Yield each sheet of paper with how many copies follow each other.

    Set by set, the copies of a sheet are dealt to the sets as evenly as can be: what all kits
    have once is in each, what the class has once is in the first.
    """
    rounds = kits if how == "sets" else 1
    for number in range(rounds):
        for leaf in leaves:
            copies = sheets[leaf[0]].copies
            here = -(-(number + 1) * copies // rounds) - -(-number * copies // rounds)
            if here:
                yield leaf, here
