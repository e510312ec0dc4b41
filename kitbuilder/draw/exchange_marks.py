"""The exchange board and the exchange cards as marks: frames of true size to lay pieces on."""

from collections.abc import Sequence

from kitbuilder.design.look import Look
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.mat_tiles import draw_icon, draw_label
from kitbuilder.draw.parts import shapes
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.layout.cards.exchange_cards import Arrow, ExchangeFrames
from kitbuilder.layout.mat.exchange_board import Board
from kitbuilder.layout.model import Rect

_OUTLINE, _LEAST = 0.5, 0.3
# Width of the outline of each piece in parts of a line to cut, so that none is cut; least, mm.

APART = 0.06
"""How far in units the outline of a place stands inside it."""

SHAFT, HEAD, HEAD_WIDE = 1.1, 3.4, 3.8
"""An arrow's width, and its head's length and width, in mm."""


def draw_board(canvas: Canvas, board: Board, unit: float) -> None:
    """Draw an exchange board: the bank's boxes and the frames to fill."""
    look = canvas.look
    for box in board.boxes:
        canvas.box(box, stroke=look.ink.text, width=look.lines_mm.frame, radius=2)
    for label in board.labels:
        draw_label(canvas, label, label.rect)
    for icon in board.icons:
        draw_icon(canvas, icon)
    for frame in board.frames:
        _pieces(canvas, (*((frame.one,) if frame.one else ()), *frame.slots), unit)


def draw_exchange_card(canvas: Canvas, card: ExchangeFrames, rect: Rect, unit: float) -> None:
    """Draw an exchange card: heading, one piece, the ten, an arrow each way, and its outline."""
    for label in card.labels:
        draw_label(canvas, label, label.rect)
    for icon in card.icons:
        draw_icon(canvas, icon)
    if card.small:
        _thousand(canvas, card.one, unit)
        _small(canvas, card.ten, card.small)
    else:
        _pieces(canvas, (card.one,), unit)
        _apart(canvas, card.ten, unit)
    for arrow in card.arrows:
        _arrow(canvas, arrow)
    look = canvas.look
    canvas.box(rect, stroke=look.ink.cut, width=look.lines_mm.cut, layer="cut")


def _thousand(canvas: Canvas, folded: Rect, unit: float) -> None:
    """Draw a folded thousand: a hundred on top, and below it the edges of its ten layers."""
    look, below = canvas.look, folded.height - 10 * unit
    edges = [folded.bottom - below * k / 10 for k in range(1, 10)]
    canvas.box(folded, stroke=look.ink.frame, width=look.lines_mm.frame)
    rows = [(folded.x, y, folded.right, y) for y in edges]
    canvas.lines(rows, look.lines_mm.fine, look.ink.frame)
    _pieces(canvas, (folded.as_high(10 * unit),), unit)


def _small(canvas: Canvas, pieces: Sequence[Rect], unit: float) -> None:
    """Draw a small picture of pieces: finer grids than theirs, so that it is no dark patch."""
    look = canvas.look
    grids = merged(line for piece in pieces for line in grid(piece, 5 * unit))
    canvas.lines(grids, look.lines_mm.fine, look.ink.grid, dash="0.6 0.6")
    sides = merged(line for piece in pieces for line in outline(piece))
    canvas.lines(sides, look.lines_mm.frame, look.ink.frame)


def _apart(canvas: Canvas, places: Sequence[Rect], unit: float) -> None:
    """Draw places that touch with a gap between their outlines, so that ten are seen at once."""
    look = canvas.look
    for place in places:
        x, y, wide, high = place.inset(APART * unit)
        levels = (place.y + unit * k for k in range(1, round(place.height / unit)))
        canvas.lines(((x, at, x + wide, at) for at in levels), look.lines_mm.grid, look.ink.grid)
        canvas.box(Rect(x, y, wide, high), stroke=look.ink.frame, width=_outlined(look))


def _pieces(canvas: Canvas, pieces: Sequence[Rect], unit: float) -> None:
    look = canvas.look
    grids = merged(line for piece in pieces for line in grid(piece, unit))
    canvas.lines(grids, look.lines_mm.grid, look.ink.grid)
    sides = merged(line for piece in pieces for line in outline(piece))
    canvas.lines(sides, _outlined(look), look.ink.frame)


def _outlined(look: Look) -> float:
    return max(_LEAST, _OUTLINE * look.lines_mm.cut)


def _arrow(canvas: Canvas, arrow: Arrow) -> None:
    """Draw an arrow across or down from its tail to its point."""
    x1, y1, x2, y2 = arrow
    dx, dy = (x2 > x1) - (x2 < x1), (y2 > y1) - (y2 < y1)
    neck = (x2 - HEAD * dx, y2 - HEAD * dy)
    colour, half = canvas.look.ink.accent, HEAD_WIDE / 2
    canvas.lines([(x1, y1, *neck)], SHAFT, colour)
    left = (neck[0] - half * dy, neck[1] - half * dx)
    right = (neck[0] + half * dy, neck[1] + half * dx)
    canvas.path(shapes.polygon(((x2, y2), left, right), colour))
