"""Cards as marks: what stands on a face, and an arrow card's tip."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.part_marks import draw_part
from kitbuilder.layout.cards.free_corner import OWN_PICTURE
from kitbuilder.layout.cards.small_cards import ArrowCard
from kitbuilder.layout.model import Item, Rect


def draw_face(canvas: Canvas, face: tuple[Item, ...], at: Rect | None = None) -> None:
    """Draw the parts of a card's face, which count from the top left of ``at``, or the page's."""
    for item in face:
        placed = Item(item.what, item.rect.moved(at.x, at.y), item.content) if at else item
        if item.what == OWN_PICTURE:
            canvas.own_picture(placed.rect)
        else:
            draw_part(canvas, placed, 0)


def draw_arrow_card(canvas: Canvas, card: ArrowCard, rect: Rect) -> None:
    """Draw the digits of an arrow card, and the two cuts of its tip."""
    draw_face(canvas, card.face, rect)
    look, middle = canvas.look, rect.y + rect.height / 2
    shoulder = rect.right - card.tip
    canvas.lines(
        [(shoulder, rect.y, rect.right, middle), (rect.right, middle, shoulder, rect.bottom)],
        look.lines_mm.cut,
        look.ink.cut,
        layer="cut",
    )
