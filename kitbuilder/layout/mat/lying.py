"""How pieces lie on a mat: tens and ten-frames stand, hundreds lie free or in a pile.

A thousand, folded shut, lies as a hundred does.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect

PILE_STEP = 0.5
"""How far a hundred of a pile lies to the right of and below the one under it, in units.

A whole unit would leave a strip of ten squares of the one below in sight: it would look like a ten.
"""

FRAME_ACROSS, FRAME_DOWN = 2, 5
"""Ones in a standing ten-frame; they fill five down, then five down beside them."""

FRAMES_APART = 0.5
"""Units between two ten-frames."""

HUNDREDS_APART = 3.0
"""Millimetres between hundreds that lie free."""


@frozen
class Manner:
    """What may differ from mat to mat, and is the same in all zones of one.

    ``row`` is how many of the largest pieces lie free in a row, 0 where they lie in a pile;
    ``beside`` says whether a second ten-frame stands beside the first, else it stands below.
    """

    row: int
    beside: bool


@dataclass(frozen=True)
class Lying:
    """Pieces with their top left at (0, 0): a slot each in the order they are laid, and frames.

    ``slots[:n]`` is where n pieces lie; of two that overlap the later lies on top. ``frames``
    are the outlines printed for them: of each ten ones, of ten tens or fewer, of hundreds.
    """

    slots: tuple[Rect, ...]
    frames: tuple[Rect, ...]

    @cached_property
    def width(self) -> float:
        """Width of all together, mm."""
        return max(rect.right for rect in (*self.slots, *self.frames))

    @cached_property
    def height(self) -> float:
        """Height of all together, mm."""
        return max(rect.bottom for rect in (*self.slots, *self.frames))

    def moved(self, dx: float, dy: float) -> "Lying":
        """Return the same pieces and frames shifted by ``dx`` and ``dy`` mm."""
        return Lying(
            tuple(slot.moved(dx, dy) for slot in self.slots),
            tuple(frame.moved(dx, dy) for frame in self.frames),
        )


@lru_cache(1024)
def lying(place: int, count: int, unit: float, manner: Manner) -> Lying:
    """Return how ``count`` pieces (1 or more) of ``place`` (0 to 3) lie at ``unit`` mm."""
    if place == 0:
        return ones(count, unit, beside=manner.beside)
    if place == 1:
        return tens(count, unit)
    return free(count, unit, manner.row) if manner.row else pile(count, unit)


def pile(count: int, unit: float) -> Lying:
    """Return hundreds in a pile; the frame is that of the first."""
    step, side = PILE_STEP * unit, 10 * unit
    slots = tuple(Rect(k * step, k * step, side, side) for k in range(count))
    return Lying(slots, slots[:1])


def free(count: int, unit: float, row: int) -> Lying:
    """Return hundreds side by side, ``row`` of them in a row, a frame for each."""
    side = 10 * unit
    pitch = side + HUNDREDS_APART
    slots = tuple(Rect(k % row * pitch, k // row * pitch, side, side) for k in range(count))
    return Lying(slots, slots)


def tens(count: int, unit: float) -> Lying:
    """Return tens that stand side by side; the frame holds ten of them, or fewer."""
    slots = tuple(Rect(k * unit, 0, unit, 10 * unit) for k in range(count))
    return Lying(slots, (Rect(0, 0, min(count, 10) * unit, 10 * unit),))


def ones(count: int, unit: float, *, beside: bool) -> Lying:
    """Return ones in standing ten-frames, filled five down, then five down."""
    wide, high = FRAME_ACROSS * unit, FRAME_DOWN * unit
    apart = FRAMES_APART * unit
    dx, dy = (wide + apart, 0.0) if beside else (0.0, high + apart)
    slots = []
    for k in range(count):
        frame, inside = divmod(k, FRAME_ACROSS * FRAME_DOWN)
        across, down = divmod(inside, FRAME_DOWN)
        slots.append(Rect(frame * dx + across * unit, frame * dy + down * unit, unit, unit))
    frames = range(-(-count // (FRAME_ACROSS * FRAME_DOWN)))
    return Lying(tuple(slots), tuple(Rect(k * dx, k * dy, wide, high) for k in frames))
