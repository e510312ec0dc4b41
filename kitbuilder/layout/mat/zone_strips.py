"""The strip over a zone: its pictogram, name and hint, and where the bank is."""

from collections.abc import Iterator, Sequence
from typing import Literal

from kitbuilder.design import metrics
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.mat.mat_records import Icon, Label, LabelKind
from kitbuilder.layout.mat.mat_text import ICONS, MatText, line
from kitbuilder.layout.model import Rect

PAD = 3.0
"""Clear millimetres beside what stands in a strip."""

_SMALLER = (1.0, 0.9, 0.8, 0.7)
# The sizes of a zone's name that are tried, as parts of the usual one.

_LEADING, _ARROW = 1.25, 0.9
# The height of a line, and the length of the bank's arrows, in ems.

_AIR = (0.26, 0.0)
# How much higher a row is than it must be, in ems.

_LINES = {"beside": 0.0, "under": 1.0, "each in a row": 3.2, "in two rows": 4.2}
# Lines below the row of a name, by the way that hints stand.

Way = Literal["beside", "under", "each in a row", "in two rows"]


@frozen
class ZoneStrip:
    """How the strips of a mat are set: where hints stand, and the size of names in mm.

    ``air`` is how much higher the rows of names and of headings are than they must be, in ems.
    """

    way: Way
    size: float
    air: float
    text: MatText

    @property
    def row(self) -> float:
        """Height of the row of a name, mm."""
        return max((1.1 + self.air) * self.size, 2 * _LEADING * self.text.adult + 1)

    @property
    def height(self) -> float:
        """Height of a strip, mm."""
        return self.row + _LEADING * self.text.adult * _LINES[self.way]

    def marks(
        self, role: Role, index: int, area: Rect, spans: Sequence[Rect]
    ) -> tuple[tuple[Label, ...], tuple[Icon, ...]] | None:
        """Return what stands in the strip ``area`` of a zone, or None where it has no room.

        ``spans`` are the parts of the strip on one sheet each, left to right. On further
        sheets the name stands again, small.
        """
        text, middle = self.text, area.y + self.row / 2 - 0.08 * self.size
        name, hint = text.names[index], text.hints[index]
        side = 0.88 * self.size
        x = area.x + PAD
        icons = [Icon(ICONS[role], Rect(x, middle - side / 2, side, side))]
        x += side + 2
        labels = [line(LabelKind.NAME, role, name, self.size, x, middle)]
        after = labels[0].rect.right + PAD
        high = _LEADING * text.adult
        if self.way == "beside":
            one = self._hint(role, hint, after, middle)
            end = spans[0].right - PAD - (self._bank_width if index == 0 else 0)
            lines = (hint,) if one.rect.right <= end else _halves(hint, text.adult)
            for row, words in enumerate(lines):
                y = middle + (row - (len(lines) - 1) / 2) * high
                labels.append(self._hint(role, words, after, y))
        else:
            room = spans[0].width - 2 * PAD
            rows = metrics.wrap(hint, text.adult, room) if self.way == "in two rows" else (hint,)
            if len(rows) > 2:
                return None
            for number, words in enumerate(rows):
                y = area.y + self.row + 0.4 * text.adult + number * high
                labels.append(self._hint(role, words, area.x + PAD, y))
        for span in spans[1:]:
            again = line(LabelKind.AGAIN, role, name, text.adult, span.x + PAD, middle)
            labels.append(again)
        if index == 0:
            found = self._bank(role, area, spans[-1])
            labels, icons = [*labels, *found[0]], [*icons, *found[1]]
        boxes = [*(label.rect for label in labels), *(icon.rect for icon in icons)]
        return (tuple(labels), tuple(icons)) if _have_room(boxes, spans) else None

    def _hint(self, role: Role, words: str, x: float, middle: float) -> Label:
        return line(LabelKind.HINT, role, words, self.text.adult, x, middle)

    @property
    def _bank_width(self) -> float:
        """Width of what is said of the bank, with its bowl, mm."""
        text, adult = self.text, self.text.adult
        said = metrics.width(text.bank, adult)
        arrows = metrics.width(text.back, adult) + metrics.width(text.fetch, adult)
        return 0.75 * self.row + 2 + max(said, 2 * (_ARROW * adult + 1) + arrows + PAD)

    def _bank(self, role: Role, area: Rect, span: Rect) -> tuple[list[Label], list[Icon]]:
        """Return the bowl, what is said of it, and the arrows out of the mat and into it."""
        text, high = self.text, _LEADING * self.text.adult
        arrow, bowl = _ARROW * text.adult, 0.75 * self.row
        x = span.right - PAD - self._bank_width
        middle = area.y + self.row / 2 + 0.3
        if self.way in ("each in a row", "in two rows"):
            middle = area.bottom - 1.1 * high
        icons = [Icon("bank", Rect(x, middle - bowl / 2, bowl, bowl))]
        x += bowl + 2
        upper, lower = middle - high / 2, middle + high / 2
        labels = [line(LabelKind.BANK, role, text.bank, text.adult, x, upper)]
        for name, word in (("up", text.back), ("down", text.fetch)):
            icons.append(Icon(name, Rect(x, lower - arrow / 2, arrow, arrow)))
            labels.append(line(LabelKind.BANK, role, word, text.adult, x + arrow + 1, lower))
            x = labels[-1].rect.right + PAD
        return labels, icons


def _have_room(boxes: Sequence[Rect], spans: Sequence[Rect]) -> bool:
    """Say whether ``boxes`` stand clear of each other, each of them on one of ``spans``."""
    wider = [Rect(b.x - 0.5, b.y, b.width + 1, b.height) for b in boxes]
    apart = not any(a.overlaps(b) for k, a in enumerate(wider) for b in wider[:k])
    return apart and all(any(span.holds(box) for span in spans) for box in wider)


def strips(text: MatText) -> Iterator[ZoneStrip]:
    """Yield the ways to set strips, the best first."""
    ways: tuple[Way, ...] = ("beside", "under", "each in a row", "in two rows")
    for way in ways:
        for air in _AIR:
            for size in _SMALLER:
                yield ZoneStrip(way, size * text.name, air, text)


def _halves(words: str, size: float) -> tuple[str, ...]:
    """Return words broken into two lines of about the same width, after a sentence if it can."""
    first, stop, rest = words.partition(". ")
    if stop:
        return first + ".", rest
    least = metrics.width(words, size) / 2
    for more in range(20):
        lines = metrics.wrap(words, size, least * (1 + more / 20))
        if len(lines) <= 2:
            return lines
    return (words,)
