"""The exchange board: a bank for spare pieces, and frames of true size that ten pieces fill."""

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Headings
from kitbuilder.layout.mat.lying import FRAME_ACROSS, FRAME_DOWN
from kitbuilder.layout.mat.mat_records import FINGER, Icon, Label, LabelKind
from kitbuilder.layout.mat.mat_text import NAME, centred, line
from kitbuilder.layout.mat.tiling import FOOT, page_of
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.printable import Page
from kitbuilder.number import PLACES

GAP = 4.0
"""Millimetres between boxes, and between words and what stands beside them."""

_ONES = 4
"""The pile of ones is as wide as so many ones, at the least."""

_PILES = (_ONES, 1, 10, 10)
# How many units wide a pile of each place is, at the least.


@frozen
class FillFrame:
    """A frame divided into the ten pieces that fill it; they make one of place ``source``.

    ``one`` is the outline of that one piece beside the frame, where there is room for it.
    """

    source: int
    one: Rect | None
    rect: Rect
    slots: tuple[Rect, ...]

    def moved(self, dx: float, dy: float) -> "FillFrame":
        """Return the frame shifted by ``dx`` and ``dy`` mm."""
        slots = tuple(slot.moved(dx, dy) for slot in self.slots)
        one = self.one.moved(dx, dy) if self.one else None
        return FillFrame(self.source, one, self.rect.moved(dx, dy), slots)


@frozen
class Board:
    """One page of an exchange board; ``boxes`` are the bank's and those round the frames, mm."""

    boxes: tuple[Rect, ...]
    labels: tuple[Label, ...]
    icons: tuple[Icon, ...]
    frames: tuple[FillFrame, ...]

    @property
    def width(self) -> float:
        """Width of all boxes, mm."""
        return max(box.right for box in self.boxes)

    @property
    def height(self) -> float:
        """Height of all boxes, mm."""
        return max(box.bottom for box in self.boxes)

    def moved(self, dx: float, dy: float) -> "Board":
        """Return the board shifted by ``dx`` and ``dy`` mm."""
        return Board(
            tuple(box.moved(dx, dy) for box in self.boxes),
            tuple(
                Label(x.kind, x.role, x.rect.moved(dx, dy), x.text, x.size, x.quiet)
                for x in self.labels
            ),
            tuple(Icon(icon.name, icon.rect.moved(dx, dy)) for icon in self.icons),
            tuple(frame.moved(dx, dy) for frame in self.frames),
        )


def filled(source: int, unit: float, x: float, y: float) -> tuple[Rect, tuple[Rect, ...]]:
    """Return the frame that ten of the next smaller place fill, and its places, from (x, y).

    Tens fill it side by side; ones five down, then five down.
    """
    if source == 2:
        slots = tuple(Rect(x + k * unit, y, unit, 10 * unit) for k in range(10))
        return Rect(x, y, 10 * unit, 10 * unit), slots
    wide, high = FRAME_ACROSS * unit, FRAME_DOWN * unit
    slots = tuple(
        Rect(x + k // FRAME_DOWN * unit, y + k % FRAME_DOWN * unit, unit, unit) for k in range(10)
    )
    return Rect(x, y, wide, high), slots


def board_sheets(places: int, headings: Headings, style: Style) -> tuple[Sheet, ...]:
    """Return the exchange board for so many places, on one sheet where it fits, else on two.

    Ten hundreds have a sheet of their own. For one place there is nothing to exchange and no
    sheet. Raises ``RefusedError`` where the bank or the frames do not fit the page.
    """
    if places < 2:
        return ()
    for sheets, whole in ((1, True), (1, False), (2, True), (2, False)):
        for turned in (False, True):
            page = page_of(style.paper, turned)
            area = page.inside.as_high(page.inside.height - FOOT)
            boards: tuple[Board, ...] = (
                _bank(places, headings, style, area.width),
                _frames(places, style, area.width, whole=whole),
            )
            if sheets == 1:
                boards = (_together(*boards),)
            if all(b.width <= area.width + 1e-6 and b.height <= area.height + 1e-6 for b in boards):
                found = tuple(_sheet(n, page, b) for n, b in enumerate(boards, 1))
                return (*found, *(_of_hundreds(len(found) + 1, style) if places > 3 else ()))
    raise RefusedError("mat.no-board", field="unit", unit=style.unit, paper=style.paper.name)


def _sheet(number: int, page: Page, board: Board) -> Sheet:
    area = page.inside.as_high(page.inside.height - FOOT)
    item = Item("board", area, board.moved(area.x, area.y))
    return Sheet(SheetKind.EXCHANGE_BOARD, number, "paper", page.width, page.height, (item,))


def _of_hundreds(number: int, style: Style) -> tuple[Sheet, ...]:
    """Return the sheet with the frame that ten hundreds fill; none where no page holds it."""
    size, unit = style.look.type_mm.child, style.unit
    high = 2 + 1.2 * size
    text = style.words("board.fill_thousands")
    for turned in (True, False):
        page = page_of(style.paper, turned)
        inside = page.inside
        across, down = (5, 2) if turned else (2, 5)
        rect = Rect(0, high + FINGER, 10 * across * unit, 10 * down * unit)
        box = Rect(0, 0, rect.width + 2 * FINGER, rect.bottom + FINGER)
        box = box if box.width <= inside.width else Rect(0, 0, inside.width, box.height)
        if rect.width > inside.width + 1e-6 or box.height > inside.height - FOOT + 1e-6:
            continue
        rect = rect.moved((box.width - rect.width) / 2, 0)
        side = 10 * unit
        slots = tuple(
            Rect(rect.x + k % across * side, rect.y + k // across * side, side, side)
            for k in range(10)
        )
        name = centred(LabelKind.HEADING, "whole", text, size, box.width / 2, 2 + 0.6 * size)
        board = Board((box,), (name,), (), (FillFrame(3, None, rect, slots),))
        return (_sheet(number, page, board.moved((inside.width - box.width) / 2, 0)),)
    return ()


def _bank(places: int, headings: Headings, style: Style, width: float) -> Board:
    """Return the bank across the page: its name, and a box with its heading for each pile."""
    sizes, unit, words = style.look.type_mm, style.unit, style.words
    name = NAME * sizes.child
    middle = 0.55 * name
    icons = [Icon("bank", Rect(0, middle - 0.44 * name, 0.88 * name, 0.88 * name))]
    labels = [line(LabelKind.NAME, "whole", words("board.bank"), name, name + 2, middle)]
    after = labels[0].rect.right + GAP
    hint = words("board.bank_hint")
    if after + metrics.width(hint, sizes.adult) <= width:
        labels.append(line(LabelKind.HINT, "whole", hint, sizes.adult, after, middle))
    wide, texts = [], []
    for place in range(places - 1, -1, -1):
        texts.append(words(f"mat.headings.{headings}.{PLACES[place]}"))
        pile = _PILES[place] * unit + 2 * FINGER
        wide.append(max(pile, metrics.width(texts[-1], sizes.child) + 2 * FINGER))
    if sum(wide) > width:
        least = [_PILES[p] * unit + 2 * FINGER for p in range(places - 1, -1, -1)]
        wide = [max(low, one * width / sum(wide)) for low, one in zip(least, wide, strict=True)]
    spare = max(0.0, width - sum(wide)) / len(wide)
    size = min(
        sizes.child,
        *((w + spare - 2) / metrics.width(t, 1.0) for w, t in zip(wide, texts, strict=True)),
    )
    top = 1.1 * name + 1.1 * sizes.child
    boxes, x = [], 0.0
    for text, one in zip(texts, wide, strict=True):
        box = Rect(x, top, one + spare, 10 * unit + 2 * FINGER)
        at = top - 0.62 * sizes.child
        labels.append(centred(LabelKind.HEADING, "whole", text, size, x + box.width / 2, at))
        boxes.append(box)
        x = box.right
    return Board(tuple(boxes), tuple(labels), tuple(icons), ())


def _together(bank: Board, frames: Board) -> Board:
    below = frames.moved(0, bank.height + GAP)
    labels = bank.labels + below.labels
    return Board(bank.boxes + below.boxes, labels, bank.icons, below.frames)


def _frames(places: int, style: Style, width: float, *, whole: bool) -> Board:
    """Return for each exchange the frame of ten; with ``whole`` the one piece beside it too.

    A thousand has its own sheet.
    """
    sizes, unit = style.look.type_mm, style.unit
    sources = range(min(places, 3) - 1, 0, -1)
    texts = [style.words(f"board.fill_{PLACES[source]}") for source in sources]
    ones = [(10 if source == 2 else 1) * unit + GAP if whole else 0.0 for source in sources]
    room = [
        one + (10 if source == 2 else FRAME_ACROSS) * unit + 2 * (FINGER + 1)
        for one, source in zip(ones, sources, strict=True)
    ]
    said = [metrics.width(text, sizes.child) + GAP for text in texts]
    larger = [max(pair) for pair in zip(room, said, strict=True)]
    gaps = GAP * (len(room) - 1)
    room = larger if sum(larger) + gaps <= width else room
    spare = width - sum(room) - gaps
    if spare < 0:
        return Board((Rect(0, 0, width - spare, 1),), (), (), ())
    boxes, labels, frames, x = [], [], [], 0.0
    wide = [one + spare / len(room) for one in room]
    size, broken = _headings(texts, wide, sizes.child)
    high = max(map(len, broken)) * 1.2 * size
    for source, beside, across, lines in zip(sources, ones, wide, broken, strict=True):
        box = Rect(x, 0, across, 2 + high + 10 * unit + 2 * FINGER + 1)
        boxes.append(box)
        for row, text in enumerate(lines):
            at = 2 + (row + 0.55) * 1.2 * size
            labels.append(centred(LabelKind.HEADING, "whole", text, size, x + across / 2, at))
        top = 2 + high + FINGER
        one = Rect(0, top, beside - GAP, 10 * unit) if whole else None
        rect, slots = filled(source, unit, beside, top)
        frames.append(FillFrame(source, one, rect, slots).moved(x + (across - rect.right) / 2, 0))
        x = box.right + GAP
    return Board(tuple(boxes), tuple(labels), (), tuple(frames))


def _headings(
    texts: list[str], wide: list[float], child: float
) -> tuple[float, list[tuple[str, ...]]]:
    """Return the largest size at which every heading fits its box in at most two lines."""
    for part in range(20):
        size = child * (1 - part / 25)
        broken = [metrics.wrap(t, size, w - GAP + 0.01) for t, w in zip(texts, wide, strict=True)]
        fits = all(
            len(lines) <= 2 and all(metrics.width(x, size) <= w - GAP + 0.01 for x in lines)
            for lines, w in zip(broken, wide, strict=True)
        )
        if fits:
            break
    return size, broken
