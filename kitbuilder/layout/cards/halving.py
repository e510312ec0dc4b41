"""A sheet halved at its middle lines: places of cards, cuts in order, mirrored backs."""

from functools import lru_cache

from kitbuilder.design.load import Paper
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Cut, Rect
from kitbuilder.layout.printable import Page

ASIDE = 0.8
"""Space in mm above and below the page's foot."""

PAD = 5.0
"""Clear space in mm between a card's cut edges and its ink."""


@frozen
class Halved:
    """A page halved ``times`` times into ``across`` by ``down`` equal cards that reach its edges.

    Each halving is at the middle line of the longer side (ISO 216 sizes keep their shape so).
    The lowest ``foot`` mm bear the page's foot: they are no card's, and are cut off first.
    """

    page: Page
    across: int
    down: int
    clear: float = 0.0
    foot: float = 0.0

    @classmethod
    def of(
        cls, paper: Paper, times: int, *, wide: bool, clear: float = 0.0, foot: float = 0.0
    ) -> "Halved":
        """Return ``paper`` halved into wide (lying) or tall (standing) cards.

        Ink stays ``clear`` mm further inside than the margins ask, as room for a shift; ``foot``
        is the height in mm of the page's foot above the margin.
        """
        short, long = 2 ** (times // 2), 2 ** (times - times // 2)
        turned = (times % 2 == 0) == wide
        page = Page.turned(paper) if turned else Page.upright(paper)
        strip = strip_high(page, foot) if foot else 0.0
        across, down = (long, short) if turned else (short, long)
        return cls(page, across, down, clear, strip)

    @property
    def places(self) -> tuple[Rect, ...]:
        """The cards' rectangles, row by row."""
        return _places(self)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in mm of one card."""
        return self.page.width / self.across, round(self.page.height - self.foot, 2) / self.down

    def ink(self, card: Rect) -> Rect | None:
        """Return where ink may lie on ``card``, front or back: inside margins, clear of cuts.

        None where the card lies in the margins.

        Opposite margins both count as the larger, for the back lies mirrored.
        """
        m = self.page.margins
        x, y = max(m.left, m.right) + self.clear, max(m.top, m.bottom) + self.clear
        inside = Rect(x, y, self.page.width - 2 * x, self.page.height - 2 * y)
        return card.inset(PAD).common(inside)

    def smallest_ink(self) -> tuple[float, float]:
        """Return the width and height in mm of the ink area every place can offer; 0 for none."""
        inks = [self.ink(place) for place in self.places]
        return min(i.width if i else 0.0 for i in inks), min(i.height if i else 0.0 for i in inks)

    def cuts(self, filled: int) -> tuple[Cut, ...]:
        """Return the cuts that free the first ``filled`` cards, each from edge to edge.

        First across, the middle line first; then each strip that holds cards is cut down.
        No cut is made between empty places.
        """
        return _cuts(self, filled)


@lru_cache(64)
def _places(way: Halved) -> tuple[Rect, ...]:
    width, height = way.size
    return tuple(
        Rect(i * width, j * height, width, height)
        for j in range(way.down)
        for i in range(way.across)
    )


@lru_cache(64)
def _cuts(way: Halved, filled: int) -> tuple[Cut, ...]:
    width, height = way.size
    rows = -(-filled // way.across)
    lines = sorted(range(1, min(rows, way.down - 1) + 1), key=lambda j: _rank(j, way.down))
    end = round(way.page.height - way.foot, 2)
    cuts = [Cut(0, end, way.page.width, end)] if way.foot and rows == way.down else []
    for j in lines:
        cuts.append(Cut(0, j * height, way.page.width, j * height))
    for row in range(rows):
        held = min(way.across, filled - row * way.across)
        columns = range(1, min(held, way.across - 1) + 1)
        for i in sorted(columns, key=lambda i: _rank(i, way.across)):
            bottom = end if row == way.down - 1 else (row + 1) * height
            cuts.append(Cut(i * width, row * height, i * width, bottom))
    return tuple(cuts)


def strip_high(page: Page, foot: float) -> float:
    """Return the height in mm of the strip for a page's foot: what is above it, in whole mm."""
    return round(page.height - int(page.height - page.margins.bottom - foot - 2 * ASIDE), 2)


def _rank(line: int, parts: int) -> tuple[int, int]:
    """Order lines as halving meets them: the middle, then the quarters, then the eighths."""
    depth, step = 0, parts
    while step > 1 and line % step:
        step //= 2
        depth += 1
    return depth, line


@lru_cache(64)
def behind(rect: Rect, page: Page, edge: str) -> Rect:
    """Return where the back of ``rect`` is drawn, mm from the back page's top left.

    ``edge`` is the paper's edge that the sheet is turned over on, "long-edge" or "short-edge".
    A standing edge mirrors left and right, a lying edge mirrors top and bottom; the back reads
    upright when the card is turned the way the sheet was.
    """
    is_turned = page.width > page.height
    if (edge == "long-edge") != is_turned:
        return Rect(page.width - rect.right, rect.y, rect.width, rect.height)
    return Rect(rect.x, page.height - rect.bottom, rect.width, rect.height)
