"""Turns a bag's label into words and boxes to tick."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.cards.bag_labels import LabelFace
from kitbuilder.layout.text.flow import LEADING


def draw_label(canvas: Canvas, face: LabelFace) -> None:
    """Write the kit's number, its contents, and boxes to tick at the foot."""
    look, ink = canvas.look, face.ink
    size = look.type_mm.adult
    baseline = ink.y + look.type_mm.heading
    canvas.text(ink.x, baseline, face.title, look.type_mm.heading)
    baseline += 0.4 * look.type_mm.heading
    for line in face.lines:
        baseline += LEADING * size
        canvas.text(ink.x, baseline, line, size)
    canvas.text(ink.x, face.boxes[0].y - 0.4 * size, face.packed, size, colour=look.ink.quiet)
    if face.corner:
        canvas.own_picture(face.corner)
    for box in face.boxes:
        canvas.box(box, stroke=look.ink.frame, width=look.lines_mm.guide)
