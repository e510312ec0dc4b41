"""A corner or side of a card or label that nothing stands in: for someone's own drawing."""

from collections.abc import Iterable

from kitbuilder.layout.model import Rect

OWN_PICTURE = "own_picture"
"""What the place kept free for someone's own drawing is called."""

MOST, LEAST = 24.0, 9.0
"""Millimetres the side of a free corner has."""

CLEAR = 2.0
"""Millimetres between a drawing and what stands beside it."""

_STEP = 1.0
_FRAME = 3.0
"""Millimetres between a frame and a drawing in it."""


def free_corner(ink: Rect, taken: Iterable[Rect]) -> Rect | None:
    """Return the largest square at a side of ``ink`` that keeps clear of ``taken``, None for none.

    Of squares of one size the first is taken: right before left, a corner before the rest of a
    side, top before bottom. What is as large as ``ink`` is a frame: the square stays within.
    """
    all_ = list(taken)
    held = [rect.inset(-CLEAR) for rect in all_ if not _is_frame(rect, ink)]
    room = ink.inset(_FRAME) if len(held) < len(all_) else ink
    side = min(MOST, room.width / 2, room.height / 2)
    while side >= LEAST:
        rows = [room.y + k * _STEP for k in range(1, int((room.height - side) / _STEP))]
        for x in (room.right - side, room.x):
            for y in (room.y, room.bottom - side, *rows):
                corner = Rect(x, y, side, side)
                if not any(corner.overlaps(rect) for rect in held):
                    return corner
        side -= _STEP
    return None


def _is_frame(rect: Rect, ink: Rect) -> bool:
    return rect.width > 0.95 * ink.width and rect.height > 0.95 * ink.height
