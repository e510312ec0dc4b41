"""The columns of a mat: the least room each one takes, and where its pieces and its box lie."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design import metrics
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import MatNeeds, Role
from kitbuilder.layout.mat.lying import HUNDREDS_APART, Lying, Manner, lying
from kitbuilder.layout.mat.mat_records import FINGER, Zone
from kitbuilder.layout.mat.mat_text import MatText
from kitbuilder.layout.mat.tiling import Stretch
from kitbuilder.layout.model import Rect

BOX_WIDTH, BOX_HEIGHT = 18.0, 21.0
"""The box for a count: a digit card of 18 mm lies in it."""

ABOVE, BELOW = 2.5, 3.0
"""Clear millimetres above the pieces, for ticks, and below the boxes."""

LEFT = 5.0
"""The most that pieces with a box beside them stand from the left border of their zone, mm."""

_EPS = 1e-6


def held(needs: MatNeeds, role: Role, place: int) -> int:
    """Return how many pieces a zone has places for: tens at least nine, or ten beside hundreds.

    So every mat shows the same frame of tens, and every zone has a ten-frame. A zone of
    hundreds or thousands that never holds one has place for one.
    """
    least = (1, 9 if needs.places < 3 else 10, 1, 1)[place]
    return max(least, needs.holding(role, place).most)


@frozen
class Columns:
    """The columns of a row of zones at one unit (mm), all lying in one manner."""

    needs: MatNeeds
    unit: float
    manner: Manner

    def lying(self, role: Role, place: int) -> Lying:
        """Return how the fullest moment of a zone lies."""
        free = self.manner if place == self.needs.places - 1 else replace(self.manner, row=0)
        return lying(place, held(self.needs, role, place), self.unit, free)

    def pitch(self, place: int) -> float:
        """Return how far apart pieces lie where a join may pass between them, mm; 0 for none."""
        if place == 1:
            return self.unit
        free = place == self.needs.places - 1 and place > 1 and self.manner.row
        return 10 * self.unit + HUNDREDS_APART if free else 0.0

    def stretch(self, every: Sequence[Role], place: int, text: MatText) -> Stretch:
        """Return the column of ``place`` that zones of ``every`` role share."""
        fullest = max((self.lying(role, place) for role in every), key=lambda x: x.width)
        words = metrics.width(text.headings[place], text.adult)
        least = max(fullest.width + 2 * FINGER, words + 2 * FINGER, BOX_WIDTH + 2 * FINGER)
        pitch = self.pitch(place)
        count = round(fullest.width / pitch) if pitch else 0
        stops = tuple(FINGER + k * pitch for k in range(1, count))
        return Stretch(least, stops=stops)

    def height(self, role: Role, place: int, width: float) -> float:
        """Return the least height of a zone ``width`` mm wide."""
        found = self.lying(role, place)
        if width >= found.width + 3 * FINGER + BOX_WIDTH - _EPS:
            return ABOVE + max(found.height + FINGER, BOX_HEIGHT + BELOW)
        return ABOVE + found.height + FINGER + BOX_HEIGHT + BELOW

    def zone(self, role: Role, place: int, rect: Rect, tiles: Sequence[Rect]) -> Zone | None:
        """Return a zone with its pieces and its box, or None where the box has no room.

        Pieces keep clear of joins where they can.
        """
        found = self.lying(role, place)
        under = rect.bottom - BELOW - BOX_HEIGHT
        below = under >= rect.y + ABOVE + found.height + FINGER - _EPS
        spare = rect.width - found.width
        x = rect.x + (spare / 2 if below else min(LEFT, spare / 4))
        best = min(
            (found.moved(left, top) for left, top in self._spots(place, found, rect, x, tiles)),
            key=lambda one: sum(not on_one(slot, tiles) for slot in one.slots),
        )
        ends = max(best.frames[-1].right, best.slots[-1].right)
        spans = [part for part in (rect.common(tile) for tile in tiles) if part]
        middles = [(rect.x + rect.right) / 2, (ends + rect.right) / 2]
        middles += [(span.x + span.right) / 2 for span in spans]
        for middle in middles:
            box = Rect(middle - BOX_WIDTH / 2, under, BOX_WIDTH, BOX_HEIGHT)
            free = not any(box.overlaps(other) for other in (*best.slots, *best.frames))
            if free and rect.holds(box) and on_one(box, tiles):
                moment = self.needs.holding(role, place).moment
                return Zone(place, role, rect, best.slots, best.frames, box, moment)
        return None

    def _spots(
        self, place: int, found: Lying, rect: Rect, x: float, tiles: Sequence[Rect]
    ) -> Iterator[tuple[float, float]]:
        """Yield where the pieces of a zone may begin, the best first.

        That is where a join runs after the fifth, so that zones above each other look alike;
        else the usual place ``x``.
        """
        y = rect.y + ABOVE
        least, most = rect.x + FINGER, rect.right - FINGER - found.width
        pitch = self.pitch(place)
        count = round(found.width / pitch) if pitch else 0
        gap = HUNDREDS_APART / 2 if place > 1 else 0.0
        joins = sorted({tile.x for tile in tiles if rect.x < tile.x < rect.right})
        between = [join - k * pitch + gap for join in joins for k in range(count - 1, 0, -1)]
        fifth = [join - 5 * pitch + gap for join in joins if count > 5]
        clear = [at for join in joins for at in (join - FINGER - found.width, join + FINGER)]
        for left in (*fifth, x, *between, *clear):
            if left == x or least - _EPS <= left <= most + _EPS:
                yield left, y
        lowest = rect.bottom - BELOW - BOX_HEIGHT - FINGER - found.height
        for join in sorted({tile.y for tile in tiles if rect.y < tile.y < rect.bottom}):
            if join + FINGER <= lowest + _EPS:
                yield x, join + FINGER


def on_one(rect: Rect, tiles: Sequence[Rect]) -> bool:
    """Say whether a rectangle lies wholly on one of the tiles."""
    return any(tile.holds(rect, 1e-4) for tile in tiles)
