"""How many sums stand across and down on a page: all of its height is shared between them."""

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect

GAP = 4.0
"""Space between the frames of sums, in mm."""


@frozen
class SumGrid:
    """``across`` by ``down`` places of one size, a gap apart, row by row in ``room``."""

    room: Rect
    across: int
    down: int

    @property
    def places(self) -> tuple[Rect, ...]:
        """The places, row by row."""
        width = (self.room.width - (self.across - 1) * GAP) / self.across
        height = (self.room.height - (self.down - 1) * GAP) / self.down
        return tuple(
            Rect(self.room.x + i * (width + GAP), self.room.y + j * (height + GAP), width, height)
            for j in range(self.down)
            for i in range(self.across)
        )


def fits(room: float, least: float) -> int:
    """Return how many places of ``least`` mm, a gap apart, fit ``room`` mm."""
    return int((room + GAP + 1e-6) / (least + GAP))


def grid(count: int, room: Rect, across: int, down: int) -> SumGrid:
    """Return a grid for one page of ``count`` sums, of which ``across`` by ``down`` fit a page.

    Pages are filled alike: of nine sums where eight fit a page, five stand on the first.
    """
    pages = -(-count // (across * down))
    each = -(-count // max(1, pages))
    return SumGrid(room, across, max(1, -(-each // across)))
