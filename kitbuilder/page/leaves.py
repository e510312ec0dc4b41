"""The pages of a job as they are drawn: each once, and not again where the next wish leaves it."""

from collections.abc import Sequence
from typing import Self

from kitbuilder.design.load import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_page
from kitbuilder.layout.model import Sheet
from kitbuilder.page.preview import preview
from kitbuilder.press.printing import Press

MANY = 60
"""Pages of which a job's drawings are all held; of more, only those that are looked at."""


class Leaves:
    """Sheets, and what is drawn of them so far: drawings and pictures by page."""

    def __init__(
        self,
        sheets: Sequence[Sheet],
        paper: Paper,
        press: Press,
        drawings: Sequence[Drawing] = (),
    ) -> None:
        self._sheets = tuple(sheets)
        self._paper, self._press = paper, press
        self._drawings = dict(enumerate(drawings, 1))
        self._pictures: dict[int, str] = {}

    def __len__(self) -> int:
        return len(self._sheets)

    def after(self, earlier: Self | None) -> Self:
        """Take over what was drawn of ``earlier`` sheets that come again; return these leaves."""
        if earlier and (earlier._paper, earlier._press) == (self._paper, self._press):
            both = zip(earlier._sheets, self._sheets, strict=False)
            for page, (before, now) in enumerate(both, 1):
                if page in earlier._drawings and page not in self._drawings and before == now:
                    self._drawings[page] = earlier._drawings[page]
                    if page in earlier._pictures:
                        self._pictures[page] = earlier._pictures[page]
        return self

    def drawing(self, page: int) -> Drawing:
        """Return the drawing of a page. Raises ``RefusedError`` where it would leave the page."""
        if page not in self._drawings:
            sheet = self._sheets[page - 1]
            self._drawings[page] = draw_page(sheet, page, self._paper, self._press)
        return self._drawings[page]

    def picture(self, page: int) -> str:
        """Return the picture of a page. Raises as ``drawing`` does."""
        if page not in self._pictures:
            self._pictures[page] = preview(self.drawing(page), page)
        return self._pictures[page]

    def drawings(self) -> tuple[Drawing, ...]:
        """Return all drawings, to be drawn now where they are few; of many, none."""
        pages = range(1, len(self) + 1)
        if len(self) > MANY and not all(page in self._drawings for page in pages):
            return ()
        return tuple(map(self.drawing, pages))
