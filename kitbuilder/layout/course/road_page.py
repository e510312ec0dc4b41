"""How far we are: a row a kind of sum with boxes for each stage, and what comes after the week."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

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

_NAMES, _BOX, _DATE, _SIDE, _APART = 0.33, 7.2, 4.6, 9.0, 1.6
# The share of the width for a kind's name; a box's side, what stands below it for the day, a
# pictogram's side, and the gap between notes in a column, in mm.


def road_sheets(road: Road, style: Style) -> Iterator[Sheet]:
    """Yield the page of ``road``, or as many as its rows need.

    What is told below the rows stands in two columns where that saves a page.
    """
    words = style.words
    heading = Heading("right", words("road.title"), ("adult", "child"), words("road.name"))
    width = SheetArea.upright(style.paper).whole.width
    page = _Road(road, style, width)

    def flowed(blocks: Sequence[Block]) -> list[Sheet]:
        over = page.stages(), len(road.rows)
        return list(flowing(SheetKind.PROGRESS, heading, blocks, style, over=over))

    usual = flowed(page.blocks())
    if len(usual) > 1 and page.is_wide:
        usual = min(usual, flowed(page.blocks(close=True)), key=len)
    if len(usual) > 2:
        brief = replace(page, brief=True)
        usual = min(usual, flowed(brief.blocks()), key=len)
    yield from usual


@frozen
class _Note:
    """What is told below the rows: a pictogram, a title, and words after boxes to tick."""

    picture: str
    title: str
    told: str
    ticks: tuple[str, ...] = ()


@frozen
class _Road:
    """The page of ``road``, ``width`` mm wide.

    A ``brief`` one lists no more sums of a kind than fit one line, and sets what is told below
    the rows over its whole width.
    """

    road: Road
    style: Style
    width: float
    brief: bool = False

    def blocks(self, *, close: bool = False) -> list[Block]:
        """Return the page's blocks from top to bottom; ``close`` tells all in two columns."""
        words, text = self.style.words, settings(self.style.look).text
        how = words("road.how")
        if begins := self.road.begins:
            how = f"{how} {words('road.begin', kind=words(f'road.{begins}'))}"
        opened = stack((lines(how, text, self.width), self.stages()), 1.6)
        rows = [stack((rule(self.width), self._row(one)), 1.0) for one in self.road.rows]
        rows[0] = stack((opened, rows[0]), 1.6)
        before, cells, after = self._notes()
        told = (
            [self._beside((*before, *cells, *after))]
            if close
            else [*map(self._told, before), *self._cells(cells), *map(self._told, after)]
        )
        return [*rows, rule(self.width), *told]

    @property
    def is_wide(self) -> bool:
        """Whether notes can stand beside each other."""
        return self.width > 150 * settings(self.style.look).text.size / 3.9

    def _notes(self) -> tuple[tuple[_Note, ...], tuple[_Note, ...], tuple[_Note, ...]]:
        """Return what the pieces can do, what to do when, and what is told to the adult."""
        words, road = self.style.words, self.road
        before = [_Note("build", words("road.more"), " ".join(road.reach))] if road.reach else []
        cells = (
            _Note("left", words("road.back"), words("road.back_told")),
            _Note("right", words("road.skip"), words("road.skip_told")),
            _Note(
                "time",
                words("road.return"),
                words("road.return_told"),
                tuple(words.lines("road.returns")),
            ),
        )
        after = []
        if road.checked:
            after.append(_Note("pencil", words("plan.check"), words("road.check")))
        if road.taught:
            after.append(_Note("adult", words("road.differently"), words("road.own")))
        return tuple(before), cells, tuple(after)

    @property
    def is_narrow(self) -> bool:
        """Whether a stage's name is too wide for a column beside the kinds of sums."""
        text, each = settings(self.style.look).text, (1 - _NAMES) * self.width / len(STAGES)
        said = " ".join(self.style.words(f"stages.{stage}") for stage in STAGES)
        return any(wide(word, text) > each - 2.5 for word in said.split())

    @property
    def _columns(self) -> tuple[float, float]:
        """Where the first stage's column begins, and how wide each is."""
        left = 0.0 if self.is_narrow else _NAMES * self.width
        return left, (self.width - left) / len(STAGES)

    def stages(self) -> Block:
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
        words, least = self.style.words, settings(self.style.look).least
        named, boxes = self._named(one), self._boxes(one)
        if self.is_narrow:
            top = stack((named, boxes), 0.6)
        else:
            high = max(named.height, boxes.height)
            top = Block((*named.items, *boxes.items), self.width, high)
        example = str(one.opening).replace(" ", "\xa0")
        further = self._further(one) if one.reached else words("road.needs_more", sum=example)
        below = one.told or further
        return stack((top, lines(below, least, self.width) if below else EMPTY), 0.6)

    def _further(self, one: RoadRow) -> str:
        """Return the further sums of a kind, as many as there is room for."""
        named = [str(sum_).replace(" ", "\xa0") for sum_ in one.more]
        least = settings(self.style.look).least
        for count in range(len(named), 0, -1):
            said = self.style.words("road.further", sums=phrases.in_row(named[:count]))
            if not self.brief or wide(said, least) <= self.width:
                return said
        return ""

    def _named(self, one: RoadRow) -> Block:
        """Return the name of a kind and its first sum, beside each other on a narrow page.

        One that takes more pieces is no sum to do now.
        """
        words, sets = self.style.words, settings(self.style.look)
        room = self.width if self.is_narrow else self._columns[0] - 3.0
        name = fitted(words(f"road.{one.kind}"), sets.heading, room, 0.8 * sets.heading.size)
        if not (one.opening and one.reached):
            return name
        sum_ = sets.child.sized(0.72 * sets.child.size)
        size = min(1.0, room / wide(str(one.opening), sum_)) * sum_.size
        first = line(str(one.opening), sum_.sized(max(sets.least.size, size)))
        used = wide(words(f"road.{one.kind}"), sets.heading) + 5.0
        if self.is_narrow and used + first.width <= room:
            return beside(line(words(f"road.{one.kind}"), sets.heading), first, 5.0)
        return stack((name, first), 0.4)

    def _boxes(self, one: RoadRow) -> Block:
        """Return the boxes of each stage, a line for the day below each."""
        left, each = self._columns
        most = max(count for row_ in self.road.rows for count in row_.boxes)
        side = min(_BOX, (each - 2.0) / most - 1.4)
        items = []
        for number, count in enumerate(one.boxes):
            for k in range(count):
                at = Rect(left + number * each + k * (side + 1.4), 0.8, side, side)
                items.append(Item("tick_box", at, Panel(line="write", radius=1.0)))
                day = Rect(at.x, at.bottom + _DATE, side, 0.01)
                items.append(Item("rule", day, Rule("divider")))
        return Block(tuple(items), self.width, side + _DATE + 1.2)

    def _told(self, note: _Note) -> Block:
        """Return ``note`` over the whole width."""
        if self.brief:
            return self._cell(note, self.width)
        sets = settings(self.style.look)
        room = self.width - _SIDE - 3.0
        told = stack((line(note.title, sets.heading), lines(note.told, sets.text, room)), 0.3)
        return Block(
            (*pictogram(note.picture, _SIDE).items, *told.at(_SIDE + 3.0, 0)),
            self.width,
            max(_SIDE, told.height),
        )

    def _cells(self, notes: Sequence[_Note]) -> list[Block]:
        """Return ``notes`` beside each other where there is room, else a block each."""
        if not self.is_wide:
            return [self._cell(note, self.width) for note in notes]
        each = (self.width - GUTTER * (len(notes) - 1)) / len(notes)
        return [row([self._cell(note, each) for note in notes], GUTTER)]

    def _beside(self, notes: Sequence[_Note]) -> Block:
        """Return ``notes`` in two columns, as low as can be."""
        each = (self.width - GUTTER) / 2
        cells = [self._cell(note, each) for note in notes]
        ways = product((True, False), repeat=len(cells))
        both = (
            [
                stack([cell for cell, on in zip(cells, way, strict=True) if on is side], _APART)
                for side in (True, False)
            ]
            for way in ways
        )
        left, right = min(both, key=lambda two: max(block.height for block in two))
        return row((left.as_wide(each), right), GUTTER)

    def _cell(self, note: _Note, width: float) -> Block:
        """Return ``note`` in a column ``width`` mm wide."""
        sets = settings(self.style.look)
        title = beside(pictogram(note.picture, 6.4), line(note.title, sets.heading))
        ticks = [tick(said, width, self.style) for said in note.ticks]
        return stack((title, *ticks, lines(note.told, sets.text, width)), 0.6).as_wide(width)


def _in_column(said: str, setting: Setting, width: float, least: float) -> Block:
    """Return words under a stage's pictogram, smaller where the column is narrow.

    None where they would be smaller than ``least``: the pictogram stands alone.
    """
    room = setting.size * (width - 0.1)
    size = min(setting.size, room / wide(said, setting))
    if size >= least:
        return line(said, setting.sized(size))
    size = min(setting.size, room / max(wide(word, setting) for word in said.split()))
    return lines(said, setting.sized(size), width) if size >= least else EMPTY
