"""Turns what stands on cards and answers into marks."""

from collections.abc import Iterable

from kitbuilder.design import metrics
from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.column_digits import draw_layout, draw_written
from kitbuilder.draw.piece_grids import draw_frames
from kitbuilder.layout.cards.card_pictures import DEPTH, Picture
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cards.fronts import Frames, Layout, Line, Worked
from kitbuilder.layout.cards.small_cards import Arrow, Loose
from kitbuilder.layout.model import Item, Rect


def draw_card(canvas: Canvas, face: CardFace) -> None:
    """Draw one side of a card, part by part."""
    for item in face.face(canvas.look):
        draw_part(canvas, item, face.unit)


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
