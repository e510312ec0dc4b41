"""Turns what stands on cards and answers into marks."""

from collections.abc import Iterable

from kitbuilder.design import metrics
from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.column_digits import draw_layout, draw_written
from kitbuilder.draw.piece_grids import draw_frames, grid, merged, outline
from kitbuilder.layout.cards.card_pictures import DEPTH, Picture
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cards.exchange_cards import HEAD, PAD, ExchangeFrames
from kitbuilder.layout.cards.fronts import Frames, Layout, Line, Worked
from kitbuilder.layout.cards.small_cards import Arrow, Loose
from kitbuilder.layout.model import Item, Rect

THICKER = 0.4
"""How many mm thicker than other frames those on an exchange card are."""

CLEAR, HEAD_LONG = 1.4, 2.6
"""Space beside the arrow on an exchange card, and the length of its heads, in mm."""


def draw_card(canvas: Canvas, face: CardFace) -> None:
    """Draw one side of a card, part by part."""
    for item in face.face(canvas.look):
        draw_part(canvas, item, face.unit)
    if canvas.is_pictured and (corner := face.corner(canvas.look)):
        canvas.own_picture(corner)


def draw_part(canvas: Canvas, item: Item, unit: float) -> bool:
    """Draw one part of a card or an answer; say whether ``item`` was such a part."""
    rect = item.rect
    match item.content:
        case Line(text, size):
            canvas.text(rect.x, rect.bottom, text, size)
        case Layout():
            draw_layout(canvas, item.content, rect)
        case Worked(columns, size):
            draw_written(canvas, columns, rect.x, rect.y, size)
        case Frames(rects):
            draw_frames(canvas, _moved(rects, rect), unit)
        case Picture():
            draw_picture(canvas, item.content, rect)
        case Arrow():
            draw_arrow(canvas, item.content, rect)
        case Loose():
            draw_loose(canvas, item.content, rect)
        case _:
            return False
    return True


def draw_picture(canvas: Canvas, picture: Picture, rect: Rect) -> None:
    """Draw pieces small; a thousand shows its front, and its depth by its edges."""
    look, unit = canvas.look, picture.unit
    fine = min(1.0, max(0.4, unit / 3))
    cubes = _moved(picture.cubes, rect)
    draw_frames(canvas, (*cubes, *_moved(picture.rects, rect)), unit, fine=fine)
    deep = DEPTH * unit
    edges: list[Segment] = []
    for front in cubes:
        right, top = front.right + deep, front.y - deep
        edges += [
            (x, y, x + deep, y - deep)
            for x, y in ((front.x, front.y), (front.right, front.y), (front.right, front.bottom))
        ]
        edges += [
            (front.x + deep, top, right, top),
            (right, top, right, front.bottom - deep),
        ]
    canvas.lines(edges, fine * look.lines_mm.frame, look.ink.frame)


def draw_arrow(canvas: Canvas, arrow: Arrow, rect: Rect) -> None:
    """Write the number from the card's left edge, and draw the two cuts of its tip."""
    look = canvas.look
    middle = rect.y + rect.height / 2
    baseline = middle + metrics.digit_height(arrow.size) / 2
    canvas.text(rect.x, baseline, str(arrow.number), arrow.size)
    shoulder = rect.right - arrow.tip
    canvas.lines(
        [(shoulder, rect.y, rect.right, middle), (rect.right, middle, shoulder, rect.bottom)],
        look.lines_mm.cut,
        look.ink.cut,
        layer="cut",
    )


def draw_loose(canvas: Canvas, loose: Loose, rect: Rect) -> None:
    """Write a digit or a sign in the middle of its card."""
    look = canvas.look
    x, middle = rect.x + rect.width / 2, rect.y + rect.height / 2
    baseline = middle + metrics.digit_height(loose.size) / 2
    canvas.text(x, baseline, loose.text, loose.size, align="centre")
    if loose.text.isdigit():
        y = rect.bottom - 1.8
        canvas.lines([(x - 3, y, x + 3, y)], look.lines_mm.frame, look.ink.frame)


def _moved(rects: Iterable[Rect], to: Rect) -> tuple[Rect, ...]:
    return tuple(rect.moved(to.x, to.y) for rect in rects)


def draw_exchange_card(canvas: Canvas, card: ExchangeFrames, rect: Rect, unit: float) -> None:
    """Draw the heading and the true-size frames, and outline the card to cut.

    Every piece has a thick outline, so that ten are seen to be ten; an arrow with two heads
    between them says that it goes both ways.
    """
    look = canvas.look
    size = min(
        look.type_mm.child,
        look.type_mm.child * (rect.width - 2 * PAD) / metrics.width(card.text, look.type_mm.child),
    )
    canvas.text(rect.x + PAD, rect.y + HEAD - 2, card.text, size)
    pieces = (*card.one, *card.ten)
    grids = merged(line for piece in pieces for line in grid(piece, unit))
    canvas.lines(grids, look.lines_mm.grid, look.ink.grid)
    sides = merged(line for piece in pieces for line in outline(piece))
    canvas.lines(sides, look.lines_mm.frame + THICKER, look.ink.frame)
    one, ten = card.one[0], card.ten[0]
    _both_ways(canvas, one.right + CLEAR, ten.x - CLEAR, one.y + one.height / 2)
    canvas.box(rect, stroke=look.ink.cut, width=look.lines_mm.cut, layer="cut")


def _both_ways(canvas: Canvas, left: float, right: float, y: float) -> None:
    """Draw an arrow with a head at each end."""
    look = canvas.look
    for tip, way in ((left, HEAD_LONG), (right, -HEAD_LONG)):
        base = tip + way
        corners = ((tip, y), (base, y - HEAD_LONG / 2), (base, y + HEAD_LONG / 2))
        canvas.shape(corners, look.ink.frame)
    shaft = (left + HEAD_LONG, y, right - HEAD_LONG, y)
    canvas.lines([shaft], look.lines_mm.frame + THICKER, look.ink.frame)
