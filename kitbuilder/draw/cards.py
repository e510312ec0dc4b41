"""Turns task cards, exchange cards and worked answers into marks."""

from kitbuilder import measure
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.columns import draw_written, written_size
from kitbuilder.draw.pieces import draw_frames
from kitbuilder.kit.records import Answer
from kitbuilder.sheet.cards import HEAD, PAD, CardFace, ExchangeFrames
from kitbuilder.sheet.flow import LEADING
from kitbuilder.sheet.records import Rect


def draw_task_card(canvas: Canvas, face: CardFace) -> None:
    """Write the sum large at the top of the card and what to do below it."""
    look, ink = canvas.look, face.ink
    numeral, child = look.type_mm.numeral, look.type_mm.child
    baseline = ink.y + numeral
    canvas.text(ink.x, baseline, str(face.card.sum), numeral)
    lines = [line for said in face.card.lines for line in measure.wrap(said, child, ink.width)]
    step = min(LEADING * child, (ink.bottom - baseline - 0.3 * child) / len(lines))
    for line in lines:
        baseline += step
        canvas.text(ink.x, baseline, line, child)


def draw_exchange_card(canvas: Canvas, card: ExchangeFrames, rect: Rect, unit: float) -> None:
    """Draw the heading and the true-size frames, and outline the card to cut."""
    look = canvas.look
    size = min(
        look.type_mm.child,
        look.type_mm.child * (rect.width - 2 * PAD) / measure.width(card.text, look.type_mm.child),
    )
    canvas.text(rect.x + PAD, rect.y + HEAD - 2, card.text, size)
    draw_frames(canvas, (*card.one, *card.ten), unit)
    canvas.box(rect, stroke=look.ink.cut, width=look.lines_mm.cut, layer="cut")


def draw_answer(canvas: Canvas, answer: Answer, rect: Rect) -> None:
    """Write one sum worked in columns, and beside it what is left and what was exchanged."""
    look = canvas.look
    size = 6.0
    frame = rect.inset(0.5)
    canvas.box(frame, stroke=look.ink.guide, width=look.lines_mm.guide, radius=2)
    width, height = written_size(answer.columns, size)
    top = frame.y + (frame.height - height) / 2
    draw_written(canvas, answer.columns, frame.x + 3, top, size)
    x = frame.x + 3 + width + 5
    heading, adult = look.type_mm.heading, look.type_mm.adult
    baseline = top + heading
    canvas.text(x, baseline, str(answer.sum), heading)
    baseline += 0.3 * adult
    for said in answer.lines:
        for line in measure.wrap(said, adult, frame.right - 2 - x):
            baseline += LEADING * adult
            canvas.text(x, baseline, line, adult)
        baseline += 0.3 * adult
