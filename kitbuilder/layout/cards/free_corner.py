"""The corner of a card or label that nothing stands in: room for someone's own drawing."""

from collections.abc import Iterable

from kitbuilder.layout.model import Rect

OWN_PICTURE = "own_picture"
"""What the place kept free for someone's own drawing is called."""

MOST, LEAST = 24.0, 9.0
"""Millimetres the side of a free corner has."""

CLEAR = 2.0
"""Millimetres between a drawing and what stands beside it."""

_STEP = 1.0


def free_corner(ink: Rect, taken: Iterable[Rect]) -> Rect | None:
    """Return the largest square corner of ``ink`` that keeps clear of ``taken``, None for none.

    Of corners of one size the first is taken: right before left, top before bottom.
    """
    held = [rect.inset(-CLEAR) for rect in taken]
    side = min(MOST, ink.width / 2, ink.height / 2)
    while side >= LEAST:
        for x in (ink.right - side, ink.x):
            for y in (ink.y, ink.bottom - side):
                corner = Rect(x, y, side, side)
                if not any(corner.overlaps(rect) for rect in held):
                    return corner
        side -= _STEP
    return None
