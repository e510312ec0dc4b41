"""The whole pile of a class set: a PDF a paper, each page in its copies."""

from collections.abc import Iterator, Sequence

from kitbuilder.layout.model import Sheet, Stock
from kitbuilder.output.pdf import About, Pages, document


def piles(pages: Pages, sheets: Sequence[Sheet], about: About) -> Iterator[tuple[str, bytes]]:
    """Yield the name and the PDF of the pile of each paper that is printed on.

    ``pages`` are those of ``sheets``, each once. A back follows its front, copy by copy, so
    that a pile can be printed on both sides. The content of a page is held once.
    """
    stocks: tuple[Stock, ...] = ("card", "paper")
    for stock in stocks:
        order = list(_order(sheets, stock))
        if order:
            yield f"pile-{stock}.pdf", document(pages, about, order)


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
