"""A bag's label as marks."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.card_faces import draw_face
from kitbuilder.layout.cards.bag_labels import LabelFace


def draw_label(canvas: Canvas, face: LabelFace) -> None:
    """Draw everything that stands on a label."""
    draw_face(canvas, face.items)
