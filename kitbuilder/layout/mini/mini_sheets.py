"""The least kit for one sum on few sheets: pieces on top, steps below, then the mat.

Where pieces and steps do not fit one page, the pieces have sheets of their own after the steps:
page 1 says what is printed on card and what on paper, and its foot shows whether the size is right.
"""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Literal

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.card_packs import own_card
from kitbuilder.kit.lesson.script import LessonStep, Taught
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cards.free_card import with_free_cards
from kitbuilder.layout.cover.print_lists import ranges
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.sheet_steps import sheet_steps
from kitbuilder.layout.feet import footed
from kitbuilder.layout.mat.join_notes import with_joins
from kitbuilder.layout.mat.mat_set import MatSet, mat_set
from kitbuilder.layout.mini.dealt_steps import StepPage, dealt_steps
from kitbuilder.layout.mini.tonight_page import Top, foot_items, head_items
from kitbuilder.layout.mini.tonight_steps import Form, least_one, placed_steps, way
from kitbuilder.layout.mini.top_pieces import top_pieces
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.furniture import TRUE_TEN, foot_below
from kitbuilder.layout.parts.legend import MARKS, Mark, legend, marks_of
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines
from kitbuilder.layout.pieces.making import Making

_OVER_MARKS = 1.4
# Room in mm above what marks mean, off the line over what helps.

_BOTTOM, _LARGE_BOTTOM = 9.0, 10.3
# The margin below, in mm, and that under words larger than usual: below the foot's bar too.

_BELOW: tuple[Form, ...] = (("full", 2, 4), ("full", 2, 2), ("full", 2, 1))
"""How many steps stand below pieces, across and down, the others on pages of their own.

Their zones are drawn whole, as they are on the mat.
"""


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


_Head = tuple[tuple[Item, ...], float]
# A page's head, and the y at which steps may begin, in mm.


@frozen
class _Tonight:
    """What is laid out: the lesson, what helps, the words that need pages, and the mats.

    What ``marks`` of pictures mean stands at the top of the first page, of the first page of steps
    alone, or before what helps.
    """

    kit: Kit
    style: Style
    mats: MatSet
    marks: Literal["first", "steps", "help"] = "first"

    @property
    def lesson(self) -> Taught:
        """The lesson with the sum."""
        return next(block for block in self.kit.guide if isinstance(block, Taught))

    @property
    def help(self) -> tuple[Block, ...]:
        """What to do when something goes wrong, the most needed first."""
        wide = _area(self.style).whole.width
        told = (lines(one, settings(self.style.look).text, wide) for one in self.kit.help)
        if self.marks != "help":
            return tuple(told)
        return (legend(wide, self.style).moved(0, _OVER_MARKS), *told)

    def help_of(self, told: range) -> tuple[Block, ...]:
        """Return what of the help is ``told`` on a page."""
        return self.help[told.start : told.stop]

    def where(self, pages: int) -> str:
        """Return on which page the mat is, if ``pages`` stand before it."""
        count, words = len(self.mats.sheets), self.style.words
        if not count:
            return ""
        if count == 1:
            return words("mini.mat", page=pages + 1)
        return words("mini.mats", first=pages + 1, last=pages + count)

    def needs(self, before: int) -> tuple[tuple[str, str], ...]:
        """Return what the mat needs, if so many pages stand before it: glue; none if it is next."""
        count, words = len(self.mats.sheets), self.style.words
        if count > 1:
            return (("glue", words("mini.glue", first=before + 1, last=before + count)),)
        return (("paper", self.where(before)),) if count and before > 1 else ()

    def goes_on(self, step: int) -> str:
        """Return where ``step`` is, on the first page, and the mat if it is between."""
        if len(self.mats.sheets) == 1:
            return self.style.words("mini.goes_on", mat=2, step=step, page=3)
        return self.style.words("guide_pages.goes_on", step=step)


def _laid(kit: Kit, style: Style) -> LaidOut | None:
    """Return ``kit`` on sheets, or None where its steps do not fit a page."""
    mats = mat_set(kit.sums, None, kit.mats, style) if kit.mats else MatSet((), ())
    tonight = _Tonight(kit, style, mats)
    at_help = replace(tonight, marks="help")
    below = (_with_pieces(tonight, form) for form in _BELOW)
    found = next(filter(None, below), None) or _apart(tonight) or _apart(at_help)
    if found is None:
        return None
    sheets, plan = found
    sheets = footed(sheets, style)
    if sheets[0].stock == "card" and len(mats.sheets) == 1:
        return LaidOut((sheets[0], *mats.sheets, *sheets[1:]), plan, mats)
    return LaidOut(with_joins((*sheets, *mats.sheets), style), plan, mats)


def _with_pieces(tonight: _Tonight, form: Form) -> tuple[tuple[Sheet, ...], CutPlan] | None:
    """Return sheets with pieces above steps; what marks mean is where that takes few."""
    if found := _below_pieces(tonight, form):
        return found
    others = (_below_pieces(replace(tonight, marks=at), form) for at in ("steps", "help"))
    return min(filter(None, others), key=lambda some: len(some[0]), default=None)


def _below_pieces(tonight: _Tonight, form: Form) -> tuple[tuple[Sheet, ...], CutPlan] | None:
    """Return a sheet of card with pieces on top and steps below, the other steps on paper."""
    style, steps = tonight.style, tonight.lesson.steps
    pieces = top_pieces(tonight.kit.pieces, style)
    if pieces is None:
        return None
    area = _area(style)
    letters = max((item.rect.bottom for item in pieces.marks), default=pieces.foot)
    y = max(pieces.foot + 2.0, letters - 3.5)
    taken = form[1] * form[2]
    here, later = steps[:taken], steps[taken:]
    rest: list[Sheet] = []
    if later:
        plain = _plain(tonight, MARKS if tonight.marks == "steps" else ())
        pages = _pages(tonight, later, plain[1], 1 + len(later))
        if pages is None:
            return None
        rest = _step_sheets(tonight, (pages, taken), plain, 1)
    mats = len(tonight.mats.sheets)
    printed = _print_below(tonight, 1 + len(rest) + mats)
    before = 1 if mats == 1 else 1 + len(rest)
    needs = _needs(tonight, printed, pieces.letters, before)
    helped = range(0 if later else len(tonight.help))  # help stands on the last page
    on = tonight.goes_on(taken + 1) if later else tonight.where(1)
    key = (mats == 1) + (2 if tonight.marks == "steps" else 1 + len(rest))  # its page
    for marks, where in _meant(tonight, here, key if rest else 0, on):
        head = head_items(_top(tonight, y, needs, marks), area, style)
        room = _room(tonight, helped, head[1], (where,))
        if room and (how := way(here, here, room, form, least_one(style), style)):
            break
    else:
        return None
    first = _page(tonight, StepPage(tuple(here), 0, how, helped), head, where)
    whole = replace(
        first,
        stock="card",
        items=(*pieces.sheet.items, *first.items),
        cuts=pieces.sheet.cuts,
        stops=pieces.sheet.stops,
    )
    return (whole, *rest), pieces.plan


def _print_below(tonight: _Tonight, count: int) -> str:
    """Return how ``count`` pages are printed, the first with the pieces on card."""
    words, paper = tonight.style.words, tonight.style.paper
    said = phrases.length(words, "mini.print_card", 10 * paper.unit_mm)
    if count < 2:
        return said
    return f"{said} {words('mini.then_paper', paper=ranges(range(2, count + 1)))}"


def _print_apart(tonight: _Tonight, steps: int, pieces: int) -> str:
    """Return how pages of ``steps`` are printed, then so many of ``pieces``, then the mats."""
    words, last = tonight.style.words, steps + pieces + len(tonight.mats.sheets)
    card = ranges(range(steps + 1, steps + pieces + 1))
    paper = ranges([*range(2, steps + 1), *range(steps + pieces + 1, last + 1)])
    then = words("mini.then", card=card, paper=paper)
    return f"{phrases.length(words, 'mini.print', TRUE_TEN)} {then}"


def _meant(
    tonight: _Tonight, here: Sequence[LessonStep], key: int, where: str
) -> list[tuple[tuple[Mark, ...], str]]:
    """Return what marks may be told of above the steps ``here``, with the foot below them.

    Where the others stand on a later page, ``key``, those of ``here`` do, or the foot names that.
    """
    if tonight.marks == "first" or not key:
        return [(MARKS if tonight.marks == "first" else (), where)]
    signs = tonight.style.words("mini.signs", page=key)
    return [(marks_of(step.scene for step in here), where), ((), f"{where}; {signs}"), ((), where)]


def _top(
    tonight: _Tonight, y: float, needs: tuple[tuple[str, str], ...], marks: tuple[Mark, ...]
) -> Top:
    """Return the top of the first page: the sum, what is done first, and what ``marks`` mean."""
    return Top(tonight.lesson.title, str(tonight.kit.sums[0]), needs, y, marks)


def _needs(
    tonight: _Tonight, printed: str, letters: Sequence[str], before: int
) -> tuple[tuple[str, str], ...]:
    """Return how all is ``printed``, what is cut first, and the mat, with pages ``before`` it."""
    kit, words = tonight.kit, tonight.style.words
    pieces = phrases.pieces(words, kit.pieces)
    cut = words("mini.cut_more", pieces=pieces)
    if letters:
        cut = words("mini.cut", letters=phrases.joined(words, list(letters)), pieces=pieces)
    care = ("care", words("mini.care"))
    return ("printer", printed), ("scissors", cut), care, *tonight.needs(before)


def _area(style: Style) -> SheetArea:
    """Return the area of a page for tonight: it goes further down than others."""
    area = SheetArea.upright(style.paper)
    least = _LARGE_BOTTOM if growth(style.look) > 1 else _BOTTOM
    low = max(least, area.page.margins.bottom + foot_below(style.look))
    high = area.page.height - low - area.whole.y
    return replace(area, whole=area.whole.as_high(high))


def _plain(tonight: _Tonight, marks: tuple[Mark, ...] = ()) -> _Head:
    """Return the head of a later page: its sum, what ``marks`` mean, and where steps may begin."""
    area = _area(tonight.style)
    return head_items(_top(tonight, area.whole.y, (), marks), area, tonight.style)


def _apart(tonight: _Tonight) -> tuple[tuple[Sheet, ...], CutPlan | None] | None:
    """Return pages of steps, as few as can be, then sheets of pieces."""
    style, kit, steps = tonight.style, tonight.kit, tonight.lesson.steps
    making, wish = Making(), CutWish()
    plan = making.plan(kit.pieces, style.paper, wish)
    card = own_card(kit.sums[0].places, style.words)
    cut = with_free_cards(making.sheets(plan, kit.pieces, style, wish), card, style)
    area = _area(style)
    letters, count = _letters(plan, style), 2
    found: dict[tuple[float, str], tuple[StepPage, ...] | None] = {}
    for _ in range(4):  # the pages to type depend on how many pages the steps take
        before = count + len(cut)
        needs = _needs(tonight, _print_apart(tonight, count, len(cut)), letters, before)
        marks = MARKS if tonight.marks == "first" else ()
        head = head_items(_top(tonight, area.whole.y, needs, marks), area, style)
        room = head[1], tonight.where(before)
        if room not in found:
            found[room] = _pages(tonight, steps, head[1], before)
        pages = found[room]
        if pages is None:
            return None
        if len(pages) == count:
            return (*_step_sheets(tonight, (pages, 0), head, len(cut)), *cut), plan
        count = len(pages)
    return None


def _pages(
    tonight: _Tonight, steps: Sequence[LessonStep], y: float, before: int
) -> tuple[StepPage, ...] | None:
    """Return ``steps`` on pages of which the first has room below ``y`` mm.

    As many pages stand ``before`` the mats, or fewer.
    """
    area, (head, later) = _area(tonight.style), _plain(tonight)
    on = tonight.style.words("guide_pages.goes_on", step=len(tonight.lesson.steps))
    ends = (tonight.where(before), on)
    if any(item.rect.right > area.whole.right + 0.1 for item in head):
        return None

    @lru_cache(64)
    def rooms(first: bool, helped: range) -> Rect | None:
        return _room(tonight, helped, y if first else later, ends)

    return dealt_steps(steps, rooms, len(tonight.help), tonight.style)


def _letters(plan: CutPlan | None, style: Style) -> tuple[str, ...]:
    """Return the letters of a sheet of pieces, in the order they are cut: of that with the least.

    There are none where a sheet has lines without a letter, or letters in another order.
    """
    found: list[tuple[str, ...]] = []
    for sheet in plan.cut_sheets if plan else ():
        steps = sheet_steps(sheet, style)
        found.append((*((steps.foot,) if steps.foot else ()), *steps.names))
    least = min(found, key=len, default=())
    alike = all(all(names) and least == names[: len(least)] for names in found)
    return least if alike else ()


def _step_sheets(
    tonight: _Tonight,
    dealt: tuple[Sequence[StepPage], int],
    head: _Head,
    before: int,
) -> list[Sheet]:
    """Return the pages of steps ``dealt`` after some others, and after ``before`` other pages.

    The foot of the last says where the mat is, of those before it which step comes next.
    """
    pages, start = dealt
    below = len(tonight.mats.sheets) == 1 and start  # the mat is page 2
    where = tonight.where(1 if below else before + len(pages))
    told = next(k for k, page in enumerate(pages) if page.helped)
    key = told + 1 + (1 if start else 0) + (1 if below else 0)
    sheets = []
    for number, dealt_page in enumerate(pages, 2 if start else 1):
        counted = replace(dealt_page, before=start + dealt_page.before)
        after = counted.before + len(counted.steps) + 1
        on = tonight.style.words("guide_pages.goes_on", step=after)
        said = where if dealt_page is pages[-1] else on
        if tonight.marks == "help" and dealt_page in pages[:told]:
            counted, head, said = _signed(tonight, counted, (head, said), key)
        sheets.append(replace(_page(tonight, counted, head, said), number=number))
        head = _plain(tonight)
    return sheets


def _signed(
    tonight: _Tonight, page: StepPage, around: tuple[_Head, str], key: int
) -> tuple[StepPage, _Head, str]:
    """Return ``page`` with what its marks mean above its steps, or where that stands in its foot.

    With the head and the foot ``around`` it as they are where there is no room. What all marks
    mean stands on the page ``key``.
    """
    style, how, (head, where) = tonight.style, page.how, around
    if how is None:
        return page, head, where
    form = how.frame.manner, how.across, how.down
    for marks, said in _meant(tonight, page.steps, key, where):
        if marks and not page.before:
            continue  # all that is needed stands above
        above = _plain(tonight, marks) if marks else head
        room = _room(tonight, page.helped, above[1], (said,))
        least = least_one(style)
        if room and (found := way(page.steps, tonight.lesson.steps, room, form, least, style)):
            smaller = min(found, how, key=lambda some: some.frame.unit)
            return replace(page, how=smaller), above, said
    return page, head, where


def _page(tonight: _Tonight, steps: StepPage, head: _Head, where: str) -> Sheet:
    """Return a page of ``steps``; its foot tells ``where`` to go on."""
    style = tonight.style
    area, (above, y) = _area(style), head
    below, bottom = foot_items(tonight.help_of(steps.helped), where, area, style)
    here: tuple[Item, ...] = ()
    if steps.how:
        room = Rect(area.whole.x, y, area.whole.width, bottom - y)
        here = placed_steps(steps.steps, steps.before + 1, room, steps.how, style)
    page = area.page
    return Sheet(SheetKind.MINI, 1, "paper", page.width, page.height, (*above, *here, *below))


def _room(tonight: _Tonight, helped: range, y: float, ends: Sequence[str]) -> Rect | None:
    """Return the room below ``y``, if any, on a page whose foot tells any of ``ends``."""
    area = _area(tonight.style)
    told = tonight.help_of(helped)
    bottom = min(foot_items(told, end, area, tonight.style)[1] for end in ends)
    return Rect(area.whole.x, y, area.whole.width, bottom - y) if bottom > y else None
