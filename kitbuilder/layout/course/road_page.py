"""How far we are: a row a kind of sum with boxes for each stage, and what comes after the week."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Road, RoadRow
from kitbuilder.layout.course.flowing import flowing
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, beside, row, stack
from kitbuilder.layout.parts.contents import Arrow, Panel, Rule
from kitbuilder.layout.parts.furniture import Heading, pictogram, rule, tick
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, line, lines, wide
from kitbuilder.number.course.stages import STAGES

_NAMES, _BOX, _DATE, _SIDE = 0.33, 7.2, 4.6, 9.0
# The share of the width for a kind's name; a box's side, what stands below it for the day, and a
# pictogram's side, in mm.


def road_sheets(road: Road, style: Style) -> Iterator[Sheet]:
    """Yield the page of ``road``, or as many as its rows need."""
    words = style.words
    heading = Heading("right", words("road.title"), ("adult", "child"), words("road.name"))
    width = SheetArea.upright(style.paper).whole.width
    yield from flowing(SheetKind.PROGRESS, heading, _Road(road, style, width).blocks(), style)


@frozen
class _Road:
    road: Road
    style: Style
    width: float

    def blocks(self) -> list[Block]:
        """Return the page's blocks from top to bottom."""
        words, text = self.style.words, settings(self.style.look).text
        opened = stack((lines(words("road.how"), text, self.width), self._stages()), 1.6)
        rows = [stack((rule(self.width), self._row(one)), 1.4) for one in self.road.rows]
        rows[0] = stack((opened, rows[0]), 1.6)
        found = [*rows, rule(self.width)]
        if self.road.reach:
            found.append(self._told("build", words("road.more"), " ".join(self.road.reach)))
        found.append(self._cells())
        if self.road.checked:
            found.append(self._told("pencil", words("plan.check"), words("road.check")))
        if self.road.taught:
            found.append(self._told("adult", words("road.differently"), words("road.own")))
        return found

    @property
    def _columns(self) -> tuple[float, float]:
        """Where the first stage's column begins, and how wide each is."""
        left = _NAMES * self.width
        return left, (self.width - left) / len(STAGES)

    def _stages(self) -> Block:
        """Return the stages over their columns, arrows between them."""
        words, text = self.style.words, settings(self.style.look).text
        least = self.style.look.type_mm.least
        left, each = self._columns
        items: list[Item] = []
        high = 0.0
        for number, stage in enumerate(STAGES):
            x = left + number * each
            items += pictogram(f"stage-{stage}", _SIDE).at(x, 0)
            said = _in_column(words(f"stages.{stage}"), text, each - 2.0, least)
            items += said.at(x, _SIDE + 0.8)
            high = max(high, _SIDE + 0.8 + said.height)
            if number:
                way = Rect(x - 0.52 * each, 0, 0.36 * each, _SIDE)
                ends = ((0.0, _SIDE / 2), (way.width, _SIDE / 2))
                items.append(Item("arrow", way, Arrow(ends)))
        return Block(tuple(items), self.width, high)

    def _row(self, one: RoadRow) -> Block:
        """Return a kind of sum: its name and first sum, its boxes, further sums below."""
        words, sets = self.style.words, settings(self.style.look)
        left, each = self._columns
        name = fitted(words(f"road.{one.kind}"), sets.heading, left - 3.0, 0.8 * sets.heading.size)
        sum_ = sets.child.sized(0.72 * sets.child.size)
        part = (left - 3.0) / wide(str(one.opening), sum_)
        first = line(str(one.opening), sum_.sized(max(sets.least.size, min(1.0, part) * sum_.size)))
        said = stack((name, first if one.opening else EMPTY), 0.4)
        items = [*said.items]
        side = min(_BOX, (each - 2.0) / max(one.boxes) - 1.4)
        for number, count in enumerate(one.boxes):
            for k in range(count):
                at = Rect(left + number * each + k * (side + 1.4), 0.8, side, side)
                items.append(Item("tick_box", at, Panel(line="write", radius=1.0)))
                day = Rect(at.x, at.bottom + _DATE, side, 0.01)
                items.append(Item("rule", day, Rule("divider")))
        top = Block(tuple(items), self.width, max(said.height, side + _DATE + 1.2))
        if one.reached:
            listed = phrases.in_row([str(sum_).replace(" ", "\xa0") for sum_ in one.more])
            below = words("road.further", sums=listed) if listed else ""
        else:
            below = words("road.needs_more")
        return stack((top, lines(below, sets.least, self.width) if below else EMPTY), 0.8)

    def _told(self, picture: str, title: str, said: str) -> Block:
        """Return a pictogram with a title and words beside it."""
        sets = settings(self.style.look)
        room = self.width - _SIDE - 3.0
        told = stack((line(title, sets.heading), lines(said, sets.text, room)), 0.3)
        return Block(
            (*pictogram(picture, _SIDE).items, *told.at(_SIDE + 3.0, 0)),
            self.width,
            max(_SIDE, told.height),
        )

    def _cells(self) -> Block:
        """Return what to do when it goes badly, when it is known already, and later in the year."""
        words, sets = self.style.words, settings(self.style.look)
        across = 3 if self.width > 150 * sets.text.size / 3.9 else 1
        each = (self.width - GUTTER * (across - 1)) / across
        cells = []
        for key, picture in (("back", "left"), ("skip", "right"), ("return", "time")):
            title = beside(pictogram(picture, 6.4), line(words(f"road.{key}"), sets.heading))
            told = lines(words(f"road.{key}_told"), sets.text, each)
            ticks = [
                tick(said, each, self.style)
                for said in (words.lines("road.returns") if key == "return" else ())
            ]
            cell = stack((title, *ticks, told), 0.6)
            cells.append(cell.as_wide(each))
        return row(cells, GUTTER) if across > 1 else stack(cells, 2.0)


def _in_column(said: str, setting: Setting, width: float, least: float) -> Block:
    """Return words under a stage's pictogram, smaller where the column is narrow.

    None where they would be smaller than ``least``: the pictogram stands alone.
    """
    widest = max(wide(word, setting) for word in said.split())
    size = min(setting.size, setting.size * (width - 0.1) / widest)
    return lines(said, setting.sized(size), width) if size >= least else EMPTY
