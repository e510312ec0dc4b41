"""The pieces of one column in a picture of the mat, as arrows see them."""

from collections.abc import Mapping

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import State
from kitbuilder.layout.picture.frame_records import Column, ZoneFrame


@frozen
class Group:
    """The pieces of one column by their state, the loop round some, and where the column is.

    ``gone`` are those that move away, one by one.
    """

    boxes: Mapping[State, Rect]
    loop: Rect | None
    zone: ZoneFrame
    place: int
    gone: tuple[Rect, ...] = ()

    @property
    def column(self) -> Column:
        """The column it lies in."""
        return self.zone.columns[self.place]

    def leaving(self) -> Rect:
        """The box of what moves away: what is gone, else what is there."""
        return self._first("gone", "here", "new")

    def outermost(self) -> Rect:
        """The piece of those that move away which lies furthest right, near their middle."""
        out = self.leaving()
        middle = out.y + out.height / 2
        found = self.gone or (out,)
        return max(found, key=lambda r: (round(r.right, 3), -abs(r.y + r.height / 2 - middle)))

    def arriving(self) -> Rect:
        """The box of what arrives: what is new, else what is needed, else what is there."""
        return self._first("new", "needed", "here")

    def all(self) -> Rect:
        """The box of all its pieces."""
        boxes = list(self.boxes.values())
        if not boxes:
            return self._none()
        x, y = min(b.x for b in boxes), min(b.y for b in boxes)
        return Rect(x, y, max(b.right for b in boxes) - x, max(b.bottom for b in boxes) - y)

    def _first(self, *wanted: State) -> Rect:
        return next((self.boxes[state] for state in wanted if state in self.boxes), self._none())

    def _none(self) -> Rect:
        return Rect(self.column.pile, self.zone.y + 6, 0.01, 0.01)
