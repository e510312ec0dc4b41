"""The checker of drawn words: none leaves the page, no two run into each other."""

from kitbuilder.draw.canvas import Canvas, OffPageError
from kitbuilder.layout.model import Rect


def check_words(canvas: Canvas, inside: Rect) -> None:
    """Raise ``OffPageError`` for words outside ``inside`` (mm) or on top of other words."""
    boxes = canvas.text_boxes
    for box in boxes:
        if not inside.holds(box.rect, 0.05):
            raise OffPageError(f"the words {box.text!r} at {box.rect} leave {inside}")
    ordered = sorted(boxes, key=lambda box: box.rect.y)
    for position, box in enumerate(ordered):
        for other in ordered[position + 1 :]:
            if other.rect.y >= box.rect.bottom:
                break
            if box.rect.overlaps(other.rect, 0.5):
                raise OffPageError(f"the words {box.text!r} and {other.text!r} run together")
