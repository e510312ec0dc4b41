"""A bag's label as marks."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.furniture import draw_part
from kitbuilder.layout.cards.bag_labels import LabelFace


def draw_label(canvas: Canvas, face: LabelFace) -> None:
    """Draw everything that stands on a label."""
    for item in face.items:
        draw_part(canvas, item, 0)
