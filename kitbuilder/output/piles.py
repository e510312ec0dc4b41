"""The whole pile of a class set: a PDF a paper, each page in its copies."""

from collections.abc import Iterator, Sequence

from kitbuilder.layout.model import Sheet, Stock


def piles(sheets: Sequence[Sheet]) -> Iterator[tuple[str, list[int]]]:
    """Yield the name of the pile of each paper that is printed on, and the pages in it, from 0.

    A back follows its front, copy by copy, so that a pile can be printed on both sides.
    """
    stocks: tuple[Stock, ...] = ("card", "paper")
    for stock in stocks:
        order = list(_order(sheets, stock))
        if order:
            yield f"pile-{stock}.pdf", order


def _order(sheets: Sequence[Sheet], stock: Stock) -> Iterator[int]:
    """Yield the indexes of the pages of one pile, in order."""
    index = 0
    while index < len(sheets):
        sides = [index]
        while index + 1 < len(sheets) and sheets[index + 1].flip is not None:
            index += 1
            sides.append(index)
        if sheets[sides[0]].stock == stock:
            for _ in range(sheets[sides[0]].copies):
                yield from sides
        index += 1
