"""Figures of the stops of a cutting map: pictures at a scale, numbers with room."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.design import metrics
from kitbuilder.design.load import Look, Words
from kitbuilder.kit import phrases
from kitbuilder.layout.cutting.stack_order import Line, Panel, Stop
from kitbuilder.layout.model import Rect
from kitbuilder.layout.text.flow import LEADING, Figure

ARROW = 2.2
"""Length in mm of the arrows at the ends of a line."""

GAP = 4.0
"""Space in mm between two figures."""

PAD = 2.0
"""Space in mm between a stop's frame and what it holds."""

_INSIDE = 6.5
"""A line that ends further than this from the part's border, in mm, is marked where it ends."""

_APART = (0.25, 0.08)
"""Space beside a number, and over and under it, that no other enters, in parts of its size."""

_BELOW = 0.25
"""Room below the line that words stand on, in parts of their size."""

_SMALL = (5.0, 25.0)
"""A small part is drawn this wide or this long (mm) at least, so that it can be seen."""

_EDGE = 0.6
"""Space in mm round a picture."""

_STEP = 1.12
"""How much larger or smaller the next picture is tried."""

_LEAST = 0.02
"""No picture is smaller than this part of the true size."""


@dataclass(frozen=True, slots=True)
class End:
    """One end of a line: its arrow, and its number behind that, if it is written there.

    Millimetres from the picture's top left: ``at`` is where the line runs, ``tip`` where along
    it the arrow points, against ``way`` (1 down or right). ``inside`` it needs a clear ground.
    """

    down: bool
    at: float
    tip: float
    way: int
    inside: bool
    number: str

    def word(self, size: float) -> Rect:
        """Return where the number stands, with type of ``size`` mm."""
        across, high = metrics.width(self.number, size), 0.72 * size
        base = self.tip + self.way * (ARROW + 1.0)
        if self.down:
            top = base if self.way > 0 else base - high
            return Rect(self.at - across / 2, top, across, high)
        return Rect(base if self.way > 0 else base - across, self.at - high / 2, across, high)

    def clear(self, size: float) -> Rect:
        """Return the room that arrow and number take."""
        word = self.word(size) if self.number else None
        long = ARROW + 0.4
        if self.down:
            wide = max(word.width if word else 0.0, ARROW)
            long += 1.0 + word.height if word else 0.0
            return Rect(self.at - wide / 2, min(self.tip, self.tip + self.way * long), wide, long)
        high = max(1.2 * size if word else 0.0, ARROW)
        long += 1.0 + word.width if word else 0.0
        return Rect(min(self.tip, self.tip + self.way * long), self.at - high / 2, long, high)


@dataclass(frozen=True, slots=True)
class PanelFigure:
    """A panel to draw at ``scale``, with the ends of its lines and words below.

    ``side``, ``head`` and ``foot`` are the room in mm at its left, above it and below it;
    all of it is ``width`` by ``height`` mm.
    """

    panel: Panel
    scale: float
    ends: tuple[End, ...]
    side: float
    head: float
    foot: float
    caption: tuple[str, ...]
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class StopFigure:
    """Pictures in one frame: the numbers of their lines, how to stack them, and each picture.

    The pictures' rectangles count from the frame's top left.
    """

    numbers: str
    told: tuple[str, ...]
    panels: tuple[tuple[Rect, PanelFigure], ...]


def stop_figures(
    stops: Sequence[Stop], layers: int, words: Words, look: Look, area: Rect, scale: float
) -> Iterator[Figure]:
    """Yield a frame for each stop: what to stack, how many at a time, and how often to cut."""
    for stop in stops:
        high = area.height
        frame = _frame(stop, layers, words, look, area, scale, high)
        while frame.height > area.height and high > area.height / 8:
            high /= _STEP
            frame = _frame(stop, layers, words, look, area, scale, high)
        yield frame


def _frame(
    stop: Stop, layers: int, words: Words, look: Look, area: Rect, scale: float, high: float
) -> Figure:
    """Return a stop's words and pictures, no picture higher than ``high`` mm."""
    size, large = look.type_mm.adult, look.type_mm.heading
    told, numbers = _told(stop, layers, words), _range(stop.numbers)
    top = PAD + max(LEADING * large, len(told) * LEADING * size)
    head = metrics.width(numbers, large) + size + max(metrics.width(t, size) for t in told)
    inner = Rect(area.x, area.y, area.width - 2 * PAD, high - top - PAD)
    placed, x, y, bottom, right = [], PAD, top, top, PAD + head
    for panel in stop.panels:
        picture = _picture(panel, [_share(panel, stop, words)], look, inner, scale)
        if x > PAD and x + picture.width > area.width - PAD:
            x, y = PAD, bottom + GAP
        rect = Rect(x, y, picture.width, picture.height)
        placed.append((rect, picture))
        x, bottom, right = rect.right + GAP, max(bottom, rect.bottom), max(right, rect.right)
    content = StopFigure(numbers, told, tuple(placed))
    return Figure("stop", right + PAD, bottom + PAD, content, GAP)


def _told(stop: Stop, layers: int, words: Words) -> tuple[str, ...]:
    whole = all(panel.whole for panel in stop.panels)
    held = words.count("count.sheet" if whole else "count.part", stop.parts)
    if stop.parts > 1:
        held = words("cutting.at_a_time", parts=held, layers=min(layers, stop.parts))
    cuts = words.count("count.cut", stop.strokes)
    return held, words("cutting.each_line", cuts=cuts) if len(stop.numbers) > 1 else cuts


def _range(numbers: Sequence[int]) -> str:
    return str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]}–{numbers[-1]}"


def _source(panel: Panel, words: Words) -> str:
    name = _named_sheets(panel.sheets, words)
    if panel.whole:
        return words("cutting.sheet", name=name, what=words(f"title.{panel.whole}"))
    return words("cutting.of", name=name)


def _share(panel: Panel, stop: Stop, words: Words) -> str:
    """Return where the parts of a picture come from, and how many where there are others."""
    said = _source(panel, words)
    if len(stop.panels) == 1:
        return said
    return words("cutting.share", count=panel.parts, source=said)


def _named_sheets(names: Sequence[str], words: Words) -> str:
    """Return "A", "A and B", or "A – F"."""
    return phrases.joined(words, names) if len(names) < 4 else f"{names[0]} – {names[-1]}"


def _picture(
    panel: Panel, caption: Sequence[str], look: Look, area: Rect, scale: float
) -> PanelFigure:
    """Return ``panel`` in a picture of ``scale``: larger where its numbers need the room, smaller
    where the page is too small.
    """
    size = look.type_mm.adult
    short, long = sorted((panel.width, panel.height))
    scale = max(scale, min(_SMALL[0] / short, _SMALL[1] / long))
    found = _at_scale(panel, caption, size, scale)
    while not _all_numbered(found):
        scale *= _STEP
        larger = _at_scale(panel, caption, size, scale)
        if not _fits(larger, area):
            break
        found = larger
    while not _fits(found, area) and scale > _LEAST:
        scale /= _STEP
        found = _at_scale(panel, caption, size, scale)
    return found


def _at_scale(panel: Panel, caption: Sequence[str], size: float, scale: float) -> PanelFigure:
    width, height = panel.width * scale, panel.height * scale
    ends = _ends(panel, scale, size)
    room = [end.clear(size) for end in ends]
    left = _EDGE - min(0.0, *(box.x for box in room))
    top = _EDGE - min(0.0, *(box.y for box in room))
    right = _EDGE + max(0.0, *(box.right - width for box in room))
    bottom = _EDGE + max(0.0, *(box.bottom - height for box in room))
    across = left + max(width + right, max(metrics.width(line, size) for line in caption))
    high = top + height + bottom + len(caption) * LEADING * size
    return PanelFigure(panel, scale, ends, left, top, bottom, tuple(caption), across, high)


def _fits(picture: PanelFigure, area: Rect) -> bool:
    return picture.width <= area.width and picture.height <= area.height


def _all_numbered(picture: PanelFigure) -> bool:
    numbers = {str(line.number) for line in picture.panel.lines}
    return numbers <= {end.number for end in picture.ends}


def _ends(panel: Panel, scale: float, size: float) -> tuple[End, ...]:
    """Return both ends of all lines; every line is numbered once before any is twice.

    A second number is left out where it would stand on the part's border.
    """
    part = Rect(0, 0, scale * panel.width, scale * panel.height)
    pairs = [_pair(line, panel, scale) for line in panel.lines]
    taken: list[Rect] = []
    chosen: set[tuple[int, int]] = set()
    for again in (False, True):
        for index, pair in enumerate(pairs):
            for side, end in enumerate(pair):
                word = end.word(size)
                box = Rect(word.x, word.y, word.width, word.height + _BELOW * size)
                beside, over = (part * size for part in _APART)
                apart = Rect(
                    box.x - beside, box.y - over, box.width + 2 * beside, box.height + 2 * over
                )
                free = (index, side) not in chosen and not any(map(apart.overlaps, taken))
                free = free and not (again and end.inside and not part.holds(word, 0))
                if free and (again or not {(index, 0), (index, 1)} & chosen):
                    taken.append(box)
                    chosen.add((index, side))
    return tuple(
        end if (index, side) in chosen else End(end.down, end.at, end.tip, end.way, end.inside, "")
        for index, pair in enumerate(pairs)
        for side, end in enumerate(pair)
    )


def _pair(line: Line, panel: Panel, scale: float) -> tuple[End, End]:
    length = scale * (panel.height if line.down else panel.width)
    number = str(line.number)

    def end(tip: float, border: float, way: int) -> End:
        inside = abs(tip - border) > _INSIDE
        tip = (tip if inside else border) + 0.3 * way
        return End(line.down, line.at * scale, tip, way, inside, number)

    return end(line.start * scale, 0.0, -1), end(line.end * scale, length, 1)
