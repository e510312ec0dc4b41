"""Turns a stock of pieces into sheets of card (interim: blocks of ten by ten units)."""

from kitbuilder.designs import Paper
from kitbuilder.errors import RefusedError
from kitbuilder.number import Pieces
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.records import Item, Rect, Sheet


def piece_sheets(pieces: Pieces, paper: Paper) -> tuple[Sheet, ...]:
    """Place ``pieces`` at the paper's unit."""
    page, unit = Page.upright(paper), paper.unit_mm
    across, down = page.units(unit)
    if across < 10 or down < 10:
        raise RefusedError("too big")
    todo = ["hundreds"] * pieces.hundreds + ["tens"] * pieces.tens + ["ones"] * pieces.ones
    size = {"hundreds": (10, 10), "tens": (1, 10), "ones": (1, 1)}
    sheets: list[list[Item]] = []
    used: set[tuple[int, int]] = set()
    while todo:
        items: list[Item] = []
        used = set()
        left = []
        for what in todo:
            w, h = size[what]
            spot = next(
                (
                    (i, j)
                    for j in range(down - h + 1)
                    for i in range(across - w + 1)
                    if not any((i + a, j + b) in used for a in range(w) for b in range(h))
                ),
                None,
            )
            if spot is None:
                left.append(what)
                continue
            i, j = spot
            used |= {(i + a, j + b) for a in range(w) for b in range(h)}
            m = paper.margins_mm
            rect = Rect(m.left + i * unit, m.top + j * unit, w * unit, h * unit)
            items.append(Item(what, rect))
        sheets.append(items)
        todo = left
    return tuple(
        Sheet("pieces", n, "card", page.width, page.height, tuple(items))
        for n, items in enumerate(sheets, 1)
    )
