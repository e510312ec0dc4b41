"""Turns places into an exchange board: a bank for spare pieces and true-size frames to fill."""

from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.design import metrics
from kitbuilder.design.load import Look, Paper, Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import Headings
from kitbuilder.layout.mat.blocks import PAD
from kitbuilder.layout.mat.mat_records import FINGER, Label
from kitbuilder.layout.mat.mat_text import HEADING_LEADING, HINT_LEADING
from kitbuilder.layout.mat.tiling import printable
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.number import PLACES

_ONES = 5
"""The pile of ones is as wide as so many ones."""


@dataclass(frozen=True, slots=True)
class FillFrame:
    """The outline of one piece of place ``source``, divided into the ten that fill it."""

    source: int
    rect: Rect
    slots: tuple[Rect, ...]


@dataclass(frozen=True, slots=True)
class Board:
    """One page of an exchange board, in mm from the page's top left.

    ``boxes`` are the outlines of the bank's piles and round each frame.
    """

    boxes: tuple[Rect, ...]
    labels: tuple[Label, ...]
    frames: tuple[FillFrame, ...]

    def moved(self, dx: float, dy: float) -> "Board":
        """Return the board shifted by ``dx`` and ``dy`` mm."""
        return Board(
            tuple(box.moved(dx, dy) for box in self.boxes),
            tuple(
                Label(x.kind, x.role, x.place, x.rect.moved(dx, dy), x.text, x.hint)
                for x in self.labels
            ),
            tuple(
                FillFrame(f.source, f.rect.moved(dx, dy), tuple(s.moved(dx, dy) for s in f.slots))
                for f in self.frames
            ),
        )


def board_sheets(places: int, headings: Headings, style: Style) -> tuple[Sheet, ...]:
    """Return the exchange board for so many places, on one sheet where it fits, else on two.

    Tens stand upright. For one place there is nothing to exchange and no sheet. Raises
    ``RefusedError`` where a hundred and its clear space do not fit the page.
    """
    if places < 2:
        return ()
    for turned in (False, True):
        area = printable(style.paper, turned)
        bank = _bank(places, headings, style.paper.unit_mm, style.words, style.look, area.width)
        frames = _frames(places, style.paper.unit_mm, style.words, style.look, area.width)
        below = _bottom(bank)
        if max(_right(bank), _right(frames)) <= area.width + 1e-6:
            if below + _bottom(frames) <= area.height + 1e-6:
                both = _together(bank, frames.moved(0, below))
                return (_sheet(both, 1, style.paper, turned),)
            if max(below, _bottom(frames)) <= area.height + 1e-6:
                pages = (bank, frames)
                return tuple(_sheet(b, n, style.paper, turned) for n, b in enumerate(pages, 1))
    raise RefusedError("mat.no-board", field="unit", unit=style.unit, paper=style.paper.name)


def _sheet(board: Board, number: int, paper: Paper, turned: bool) -> Sheet:
    area = printable(paper, turned)
    size = (paper.width_mm, paper.height_mm)
    width, height = size[::-1] if turned else size
    item = Item("exchange_board", area, board.moved(area.x, area.y))
    return Sheet(SheetKind.EXCHANGE_BOARD, number, "paper", width, height, (item,))


def _bank(
    places: int, headings: Headings, unit: float, words: Words, look: Look, width: float
) -> Board:
    child, adult = look.type_mm.child, look.type_mm.adult
    strip = 1.2 * child + HINT_LEADING * adult
    said = (words("board.bank"), words("board.bank_hint"))
    title = max(metrics.width(said[0], child), metrics.width(said[1], adult))
    labels = [Label("role", "whole", None, Rect(PAD, 0, title, strip), *said)]
    least, texts = [], []
    for place in range(places - 1, -1, -1):
        text = words(f"mat.headings.{headings}.{PLACES[place]}")
        across = (_ONES, 1, 10)[place] * unit + 2 * FINGER
        texts.append(text)
        least.append(max(across, metrics.width(text, child) + 2 * PAD))
    factor = max(1.0, width / sum(least))
    head = HEADING_LEADING * child
    high = 10 * unit + 2 * FINGER
    boxes, x = [], 0.0
    for place, text, one in zip(range(places - 1, -1, -1), texts, least, strict=True):
        box = Rect(x, strip + head, one * factor, high)
        labels.append(Label("heading", "whole", place, Rect(x, strip, box.width, head), text))
        boxes.append(box)
        x = box.right
    return Board(tuple(boxes), tuple(labels), ())


def _frames(places: int, unit: float, words: Words, look: Look, width: float) -> Board:
    child = look.type_mm.child
    head = HEADING_LEADING * child
    sources = range(places - 1, 0, -1)
    least = [(10 * unit if source == 2 else unit) + 2 * FINGER for source in sources]
    texts = [words(f"board.fill_{PLACES[source]}") for source in sources]
    said = [
        max(one, metrics.width(t, child) + 2 * PAD) for t, one in zip(texts, least, strict=True)
    ]
    wide = said if sum(said) <= width else least
    spare = max(0.0, width - sum(wide)) / len(wide) if places > 2 else 0.0
    boxes, labels, frames, x = [], [], [], 0.0
    broken = [
        metrics.wrap(text, child, one + spare - 2 * PAD)
        for text, one in zip(texts, wide, strict=True)
    ]
    top = PAD + max(len(lines) for lines in broken) * head
    for source, one, lines in zip(sources, wide, broken, strict=True):
        across = one + spare
        for row, line in enumerate(lines):
            box = Rect(x, PAD + row * head, across, head)
            labels.append(Label("heading", "whole", source, box, line))
        boxes.append(Rect(x, PAD, across, top - PAD + 10 * unit + 2 * FINGER))
        size = 10 * unit if source == 2 else unit
        frame = Rect(x + (across - size) / 2, top + FINGER, size, 10 * unit)
        frames.append(FillFrame(source, frame, _slots(frame, source, unit)))
        x += across
    return Board(tuple(boxes), tuple(labels), tuple(frames))


def _slots(frame: Rect, source: int, unit: float) -> tuple[Rect, ...]:
    if source == 2:
        return tuple(Rect(frame.x + i * unit, frame.y, unit, 10 * unit) for i in range(10))
    return tuple(Rect(frame.x, frame.y + i * unit, unit, unit) for i in range(10))


def _together(a: Board, b: Board) -> Board:
    return Board(a.boxes + b.boxes, a.labels + b.labels, a.frames + b.frames)


def _right(board: Board) -> float:
    labels: Sequence[Rect] = [x.rect for x in board.labels]
    return max(rect.right for rect in (*board.boxes, *labels))


def _bottom(board: Board) -> float:
    return max(box.bottom for box in board.boxes)
