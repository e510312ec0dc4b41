"""Turns the least kit for one sum into few sheets: pieces on top, steps below, then the mat.

Where pieces and steps do not fit one page, the pieces have sheets of their own before the steps.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.script import LessonStep, Taught
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.mat.mat_set import MatSet, mat_set
from kitbuilder.layout.mini.tonight_page import Top, foot_items, head_items
from kitbuilder.layout.mini.tonight_steps import LEAST_ONE, Form, Way, least_one, placed_steps, way
from kitbuilder.layout.mini.top_pieces import top_pieces
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind, Stock
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.pieces.making import Making

_BOTTOM = 9.0
# The margin below, in mm.

_ON_ONE: tuple[Form, ...] = (("row", 2, 4, False), ("row", 2, 4, True))
_FORMS: tuple[Form, ...] = (
    ("row", 2, 4, False),
    ("row", 2, 4, True),
    ("full", 2, 2, False),
    ("bare", 2, 3, False),
    ("bare", 2, 2, False),
    ("row", 1, 3, False),
    ("full", 1, 2, False),
    ("bare", 1, 2, False),
    ("row", 1, 2, False),
    ("bare", 1, 1, False),
)
"""How zones are drawn, and how many steps stand across and down: the first that fits."""


def mini_sheets(kit: Kit, style: Style) -> LaidOut:
    """Return ``kit``, a mini kit, on few sheets of paper.

    Raises ``RefusedError`` where something does not fit the page, naming what would help.
    """
    found = _laid(kit, style)
    if found is not None:
        return found
    ways = []
    if _works(kit, Style(style.paper, style.words, designs.look())):
        ways.append(Said("option.with", option="look", value="plain"))
    papers = map(designs.paper, designs.names("paper"))
    kin = sorted(papers, key=lambda p: (p.name[0] != style.paper.name[0], p.width_mm))
    for other in kin:
        grows = other.width_mm > style.paper.width_mm and other.height_mm > style.paper.height_mm
        if grows and _works(kit, Style(other, style.words, style.look)):
            ways.append(Said("option.with", option="paper", value=other.name.lower()))
            break
    raise RefusedError(
        "mini.too-large",
        field="paper",
        sum=kit.sums[0],
        paper=style.paper.name,
        look=style.look.name,
        ways=ways or [Said("way.larger-paper")],
    )


def _works(kit: Kit, style: Style) -> bool:
    try:
        return _laid(kit, style) is not None
    except RefusedError:
        return False


@dataclass(frozen=True, slots=True)
class _Tonight:
    """What is laid out: the lesson, what helps, the words that need pages, and the mats."""

    kit: Kit
    style: Style
    mats: MatSet

    @property
    def lesson(self) -> Taught:
        """The lesson with the sum."""
        return next(block for block in self.kit.guide if isinstance(block, Taught))

    @property
    def help(self) -> tuple[str, ...]:
        """What to do when something goes wrong, the most needed first."""
        return self.kit.help

    def where(self, pages: int) -> str:
        """Return on which page the mat is, if ``pages`` stand before it."""
        count, words = len(self.mats.sheets), self.style.words
        if not count:
            return ""
        if count == 1:
            return words("mini.mat", page=pages + 1)
        return words("mini.mats", first=pages + 1, last=pages + count)


def _laid(kit: Kit, style: Style) -> LaidOut | None:
    """Return ``kit`` on sheets, or None where its steps do not fit a page."""
    mats = mat_set(kit.sums, None, kit.mats, style) if kit.mats else MatSet((), ())
    tonight = _Tonight(kit, style, mats)
    found = _on_one(tonight) or _apart(tonight)
    if found is None:
        return None
    sheets, plan = found
    return LaidOut((*sheets, *mats.sheets), plan, mats)


def _on_one(tonight: _Tonight) -> tuple[tuple[Sheet, ...], CutPlan] | None:
    """Return one sheet with pieces on top and all steps below, and the plan that cuts it."""
    style, lesson = tonight.style, tonight.lesson
    pieces = top_pieces(tonight.kit.pieces, style)
    if pieces is None:
        return None
    area = _area(style)
    marks = max((item.rect.bottom for item in pieces.marks), default=pieces.foot)
    letters = phrases.joined(style.words, list(pieces.letters))
    said = (
        ("printer", style.words("mini.print", length=_long(style))),
        ("scissors", style.words("mini.cut", letters=letters)),
        ("care", style.words("mini.care")),
    )
    top = Top(lesson.title, str(tonight.kit.sums[0]), said, max(pieces.foot + 2.0, marks - 3.5))
    head, y = head_items(top, area, style)
    for helped, form in product(range(len(tonight.help), 0, -1), _ON_ONE):
        foot, bottom = foot_items(tonight.help[:helped], tonight.where(1), area, style)
        room = Rect(area.whole.x, y, area.whole.width, max(1.0, bottom - y))
        how = way(lesson.steps, room, form, least_one(style), style)
        if how is not None and how.across * how.down >= len(lesson.steps):
            steps = placed_steps(lesson.steps, 1, room, how, style)
            items = (*pieces.sheet.items, *head, *steps, *foot)
            cuts, stops = pieces.sheet.cuts, pieces.sheet.stops
            return (_sheet(1, "card", items, area, cuts, stops),), pieces.plan
    return None


def _area(style: Style) -> SheetArea:
    """Return the area of a page for tonight: it goes further down than others."""
    area = SheetArea.upright(style.paper)
    low = max(_BOTTOM, area.page.margins.bottom)
    high = area.page.height - low - area.whole.y
    return replace(area, whole=area.whole.as_high(high))


def _long(style: Style) -> str:
    return f"{10 * style.paper.unit_mm:g}"


def _sheet(
    number: int,
    stock: Stock,
    items: tuple[Item, ...],
    area: SheetArea,
    cuts: tuple[Cut, ...] = (),
    stops: tuple[int, ...] = (),
) -> Sheet:
    page = area.page
    return Sheet(SheetKind.MINI, number, stock, page.width, page.height, items, cuts, stops=stops)


def _apart(tonight: _Tonight) -> tuple[tuple[Sheet, ...], CutPlan | None] | None:
    """Return sheets of pieces, then pages of steps, as few as can be."""
    style, kit, lesson = tonight.style, tonight.kit, tonight.lesson
    making, wish = Making(), CutWish()
    plan = making.plan(kit.pieces, style.paper, wish)
    cut = making.sheets(plan, kit.pieces, style, wish)
    area = _area(style)
    said = (
        ("printer", style.words("mini.print_more", length=_long(style))),
        ("scissors", style.words("mini.cut_more", pieces=phrases.pieces(style.words, kit.pieces))),
        ("care", style.words("mini.care")),
    )
    top = Top(lesson.title, str(kit.sums[0]), said, area.whole.y)
    head, y = head_items(top, area, style)
    ways: list[tuple[int, Way]] = []
    for least in (least_one(style), LEAST_ONE):
        ways = ways or [
            (helped, how)
            for helped in range(len(tonight.help), 0, -1)
            for how in _ways(lesson.steps, _room(tonight, helped, y, area), least, style)
        ]
    if not ways:
        return None
    helped, how = min(ways, key=lambda w: (_pages(lesson.steps, w[1]), -w[0]))
    count = _pages(lesson.steps, how)
    sheets = list(cut)
    each = -(-len(lesson.steps) // count)
    each += each % how.across
    where = tonight.where(len(cut) + count)
    for number in range(count):
        steps = lesson.steps[number * each : (number + 1) * each]
        helps = tonight.help[:helped] if number == count - 1 else ()
        foot, bottom = foot_items(helps, where, area, style)
        room = Rect(area.whole.x, y, area.whole.width, bottom - y)
        here = placed_steps(steps, 1 + number * each, room, how, style)
        sheets.append(_sheet(number + 1, "paper", (*head, *here, *foot), area))
        head, y = head_items(replace(top, needs=()), area, style)
    return tuple(sheets), plan


def _room(tonight: _Tonight, helped: int, y: float, area: SheetArea) -> Rect:
    bottom = foot_items(tonight.help[:helped], tonight.where(9), area, tonight.style)[1]
    return Rect(area.whole.x, y, area.whole.width, max(1.0, bottom - y))


def _ways(steps: Sequence[LessonStep], room: Rect, least: float, style: Style) -> Iterator[Way]:
    """Yield the ways in which the steps can stand on pages like ``room``."""
    for form in _FORMS:
        how = way(steps, room, form, least, style)
        if how is not None:
            yield how


def _pages(steps: Sequence[LessonStep], how: Way) -> int:
    return -(-len(steps) // (how.across * how.down))
