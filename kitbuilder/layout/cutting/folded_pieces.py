"""Folded pieces: their outlines flat on the sheet, and the line each is folded on."""

from kitbuilder.layout.model import Rect

FOLDED = {"folded_hundreds": (20, 10), "folded_tens": (10, 2)}
"""What a folded piece is called, and its outline flat on the sheet, in units."""


def fold_line(what: str, rect: Rect) -> tuple[float, float, float, float]:
    """Return the line (x1, y1, x2, y2) that a folded piece is folded on.

    A hundred is folded across its longer side, a ten along it.
    """
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    lying = rect.width > rect.height
    if lying == (what == "folded_hundreds"):
        return (x, rect.y, x, rect.bottom)
    return (rect.x, y, rect.right, y)
