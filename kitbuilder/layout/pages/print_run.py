"""A class set's first page: what to print how often, pile by pile, and what it takes."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.bag import HOME, cut_apart
from kitbuilder.layout.course.slip import slip_sheet
from kitbuilder.layout.cover.print_lists import ranges
from kitbuilder.layout.cutting.cut_map import counted
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.estimate import Estimate
from kitbuilder.layout.glue import glue
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind, Stock
from kitbuilder.layout.parts.block import Block, alike, row, stack, without_rules
from kitbuilder.layout.parts.contents import Panel
from kitbuilder.layout.parts.furniture import (
    Heading,
    header,
    labelled,
    paper_sheets,
    pictogram,
    rule,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide

GAPS = (2.4, 1.8, 1.2, 0.7)
"""Space between rows, mm: less where that takes fewer pages."""

TICK = 4.6
"""Side of a box to tick, mm."""

JOINED = (SheetKind.MAT, SheetKind.ADDITION_MAT, SheetKind.EXCHANGE_BOARD)
"""Sheets that are glued to each other."""

TAUGHT = {
    *(SheetKind.LESSON, SheetKind.GUIDE, SheetKind.ANSWERS),
    *(SheetKind.WEEK, SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY),
}
"""Sheets that whoever teaches needs too."""

_AIR = 12.0
# The most that spare height adds to a gap, in mm.

PAGES = 26.0
"""Width of the pages as they are typed, mm."""

_INDENT = 10.0
# Where names begin: below the words of a step, in mm.

_WIDE = 115.0
# Narrower than this, in mm for type of the usual size, what is printed stands above its pages.


@frozen
class _Run:
    """What a print run tells of: the kit, how it is cut, what that takes; ``width`` mm wide.

    Its rows are ``gap`` mm apart or more. The pages up to ``checked``, where the size is, are
    printed first. ``glue`` is the kind that is needed, if any.
    """

    kit: Kit
    plan: CutPlan | None
    cutting: CutWish
    takes: Estimate
    style: Style
    width: float
    checked: int
    glue: str
    gap: float = GAPS[0]

    @property
    def shared(self) -> bool:
        """Whether several children share a kit."""
        return self.cutting.sharing > 1

    def apart(self, pile: "RunPile") -> bool:
        """Say whether ``pile`` is of slips that are cut apart for all children."""
        return len(pile.kinds) == 1 and cut_apart(pile.kinds[0], pile.copies, self.cutting)


@frozen
class RunPile:
    """Pages printed together: of one kind, of one week, or all those that only the adult needs.

    ``later`` where the first week does not need them. Cards for own sums are ``loose`` on some:
    they are cut out by whoever needs them. Those ``folded`` are glued too.
    """

    kinds: tuple[SheetKind, ...]
    pages: tuple[int, ...]
    copies: int
    stock: Stock
    flip: str | None
    week: str = ""
    later: bool = False
    loose: bool = False
    folded: bool = False


def run_sheets(
    kit: Kit,
    sheets: Sequence[Sheet],
    plan: CutPlan | None,
    cutting: CutWish,
    takes: Estimate,
    style: Style,
) -> tuple[Sheet, ...]:
    """Return the print run of a kit whose other pages are ``sheets``; one page as a rule.

    ``takes`` is the estimate of the other pages; the run counts its own among what to print.
    """
    area = SheetArea.upright(style.paper)
    note = style.words("run.kits", kits=cutting.kits)
    title = style.words(f"title.{SheetKind.PRINT_RUN}")
    top, y = header(Heading("printer", title, ("adult",), note), area, style)
    room = area.body(y - 2.0)
    count = 1
    for _ in range(4):  # page numbers depend on how many pages come before
        held = takes.with_paper(count)
        usual = _Run(kit, plan, cutting, held, style, room.width, count + 1, glue(sheets))
        piles = tuple(_piles(sheets, count, cutting))
        pages = min((_pages(usual, gap, piles, room) for gap in GAPS), key=len)
        if len(pages) == count:
            break
        count = len(pages)
    return paper_sheets(SheetKind.PRINT_RUN, top, pages, area, style)


def _pages(usual: _Run, gap: float, piles: Sequence[RunPile], room: Rect) -> list[tuple[Item, ...]]:
    """Return the items of a run's pages with one of ``GAPS`` between rows, filled alike.

    No row is parted from its heading; where a table goes on, what its columns are is said again.
    """
    run = replace(usual, gap=gap)
    blocks, least = _blocks(run, piles), settings(run.style.look).least
    heads = _heads(least.lead / 2, run.width, run.style)
    again = Block(heads, run.width, least.lead)
    pages = [[*without_rules(page)] for page in alike(blocks, room.height, gap)]
    if any(map(_goes_on, pages)):
        high = room.height - again.height - 1.2
        pages = [[*without_rules(page)] for page in alike(blocks, high, gap)]
    for page in filter(_goes_on, pages):
        page[0] = stack((again, page[0]), 1.2)
    return [_spread(page, room, gap) for page in pages]


def _goes_on(page: Sequence[Block]) -> bool:
    """Say whether ``page`` begins with a row of a table, which has a rule above it."""
    return page[0].items[0].what == "rule"


def _spread(blocks: Sequence[Block], room: Rect, gap: float) -> tuple[Item, ...]:
    spare = room.height - sum(block.height + gap for block in blocks)
    return stack(blocks, gap + max(0.0, min(_AIR, spare / len(blocks)))).at(room.x, room.y)


def estimate_lines(takes: Estimate, words: Words) -> tuple[str, ...]:
    """Return what printing and cutting takes, a sentence a line."""
    said = [words("run.sheets", card=takes.card, paper=takes.paper)]
    if takes.cuts:  # none where a machine cuts
        pace = phrases.number(words, takes.wish.cuts_per_minute)
        time = phrases.minutes(words, takes.minutes)
        said.append(words("run.cuts", cuts=takes.cuts, minutes=time, pace=pace))
    if takes.folded:
        time = phrases.minutes(words, takes.fold_minutes)
        said.append(words("run.fold", count=takes.folded, minutes=time))
    if takes.ink_mm2:
        percent = phrases.number(words, takes.ink_per_cent, 1)
        said.append(words("run.ink", area=round(takes.ink_mm2 / 100), percent=percent))
    if takes.card_grams is not None and takes.wish.grammage is not None:
        grammage = phrases.number(words, takes.wish.grammage)
        said.append(words("run.weight", grams=round(takes.card_grams), grammage=grammage))
    if takes.cost is not None and takes.wish.per_sheet is not None:
        price = phrases.number(words, takes.wish.per_sheet)
        said.append(words("run.cost", cost=phrases.number(words, takes.cost, 2), price=price))
    return tuple(said)


def _piles(sheets: Sequence[Sheet], before: int, cutting: CutWish) -> Iterator[RunPile]:
    """Yield what is printed together; what the adult needs once is one pile.

    The pages of a week are a pile where bags are filled week by week. The first of ``sheets``
    is left out: on it the size was checked.
    """
    bagged = sheets if cutting.home else [replace(sheet, week="") for sheet in sheets]
    numbered = list(enumerate(bagged, before + 1))[1:]
    once = [(n, s) for n, s in numbered if s.copies == 1 and s.stock == "paper"]
    alone = [pair for pair in once if pair[1].kind is not SheetKind.THOUSANDS]
    others = [pair for pair in numbered if pair not in alone]
    for (_, copies, stock), same in groupby(others, key=lambda pair: _together(pair[1])):
        group = list(same)
        first, kinds = group[0][1], tuple(dict.fromkeys(sheet.kind for _, sheet in group))
        flips = {sheet.flip for _, sheet in group if sheet.flip}
        pages = tuple(n for n, _ in group)
        flip = min(flips) if flips else None
        loose = any(item.what == "card_frame" for _, sheet in group for item in sheet.items)
        folded = any(sheet.folds for _, sheet in group)
        yield RunPile(kinds, pages, copies, stock, flip, first.week, first.later, loose, folded)
    if alone:
        kinds = tuple(dict.fromkeys(sheet.kind for _, sheet in alone))
        yield RunPile(kinds, tuple(n for n, _ in alone), 1, "paper", None)


def _together(sheet: Sheet) -> tuple[str, int, Stock]:
    """Return what sheets of one pile have in common: their week or kind, copies, and stock."""
    return sheet.week or sheet.kind, sheet.copies, sheet.stock


def _blocks(run: _Run, piles: Sequence[RunPile]) -> list[Block]:
    width, style = run.width, run.style
    words, sets = style.words, settings(style.look)
    found = [_needs(run), rule(width)]
    told = words("run.check", pages=ranges(range(1, run.checked + 1)))
    found.append(_ticked(step_heading(1, told, width - 2 * TICK, style), width))
    number = 2
    stocks: tuple[Stock, ...] = ("card", "paper")
    for stock in stocks:
        own = [pile for pile in piles if pile.stock == stock]
        if own:
            head = _table_head(number, words(f"run.load_{stock}"), width, style)
            before = (None, *own)
            first, *rest = (_row(pile, run, last) for pile, last in zip(own, before, strict=False))
            found.append(stack((head, rule(width), first), 1.2))
            found += [stack((rule(width), each), 1.2) for each in rest]
            number += 1
    if run.cutting.home:
        found += [rule(width), *_bags(run, piles, number)]
    takes = " ".join(estimate_lines(run.takes, words)[1:])
    said = [lines(words("run.every"), sets.text, width), lines(takes, sets.least, width)]
    if run.shared:
        told = "run.turns_home" if run.cutting.home else "run.turns"
        weeks = run.cutting.home and any(pile.week and pile.later for pile in piles)
        turns = f"{words(told)} {words('run.turns_weeks')}" if weeks else words(told)
        if not run.cutting.home and run.cutting.readers % run.cutting.sharing == 1:
            turns = f"{turns} {words('run.turns_alone')}"
        said.append(lines(turns, sets.text, width))
    return [*found, rule(width), stack(said, 1.0)]


def _bags(run: _Run, piles: Sequence[RunPile], number: int) -> list[Block]:
    """Return what goes into each bag that is taken home: at once, then week by week."""
    words, sets, width = run.style.words, settings(run.style.look), run.width
    said = [words("run.fill_cut"), *_filled([p for p in piles if not (p.week and p.later)], run)]
    slips = [pile.pages for pile in piles if run.apart(pile)]
    each = run.kit.course.slips
    said += [words("run.fill_slips", page=ranges(pages), count=each) for pages in slips]
    taught = [n for p in piles if TAUGHT & {*p.kinds} for n in p.pages]
    own = words("run.own", pages=ranges(taught)) if taught else ""
    heading = step_heading(number, words("run.fill"), width, run.style)
    weeks = dict.fromkeys(pile.week for pile in piles if pile.week and pile.later)
    if weeks:
        said.append(words("run.fill_weeks"))
    found = [stack((heading, lines(" ".join(said), sets.text, width)), 0.6)]
    for week in weeks:
        pages = " ".join(_filled([pile for pile in piles if pile.week == week], run))
        found.append(tick(words("run.fill_week", week=week, pages=pages), width, run.style))
    return [*found, lines(own, sets.text, width)] if own else found


def _filled(piles: Sequence[RunPile], run: _Run) -> Iterator[str]:
    """Yield which pages of ``piles`` go into a bag once, and which once for each child."""
    of_bag: list[int] = []
    of_child: list[int] = []
    for pile in piles:
        if run.apart(pile) or pile.stock == "card":
            continue
        if pile.kinds[0] in HOME and run.shared:
            of_child += pile.pages
        elif pile.copies == run.cutting.kits:
            of_bag += pile.pages
    for key, pages in (("fill_bag", of_bag), ("fill_child", of_child)):
        if pages:
            form = "one" if len(pages) == 1 else "many"
            yield run.style.words(f"run.{key}.{form}", pages=ranges(pages))


def _needs(run: _Run) -> Block:
    """Return card, paper, tool, bags and time as a strip of pictograms."""
    words, text = run.style.words, settings(run.style.look).text
    takes, cutting = run.takes, run.cutting
    shared = Bank.of(run.kit.pieces, cutting).at_once
    said = [
        ("card", words("run.need_card", count=takes.card)),
        ("paper", words("run.need_paper", count=takes.paper)),
        ("envelope", words("run.need_box" if shared else "run.need_bags", count=cutting.kits)),
    ]
    if run.glue:
        said.insert(2, ("glue", words(f"cover.{run.glue}")))
    if takes.cuts:
        tool = words("run.need_guillotine" if cutting.layers > 1 else "run.need_scissors")
        said.insert(2, ("scissors", tool))
        said.append(("time", phrases.minutes(words, takes.minutes + takes.fold_minutes)))
    cells = [labelled(pictogram(name, 8.0), text_, text) for name, text_ in said]
    return wrapped(cells, run.width, 4.0, 1.5)


def _ticked(block: Block, width: float) -> Block:
    box = Rect(width - TICK, (block.height - TICK) / 2, TICK, TICK)
    item = Item("tick_box", box, Panel(line="write", radius=0.6))
    return Block((*block.items, item), width, block.height)


@frozen
class _Columns:
    """The middles of pages, copies and sides in a row, in mm.

    Pages take ``room`` mm. On a page ``narrow`` for its type what is printed stands above them.
    """

    pages: float
    copies: float
    sides: float
    room: float
    narrow: bool

    @property
    def left(self) -> float:
        """Where pages begin."""
        return self.pages - self.room / 2


def _columns(width: float, style: Style) -> _Columns:
    """Return where pages, copies and sides stand."""
    words, least = style.words, settings(style.look).least
    narrow = width < _WIDE * growth(style.look)
    gap = 2.0 if narrow else 4.0
    sides = width - wide(words("run.printed"), least) - gap - wide(words("run.sides"), least) / 2
    sides = min(sides, width - 2 * TICK - gap - 6.0)
    copies = sides - max(7.0, wide(words("run.sides"), least) / 2) - gap
    copies -= wide(words("run.copies"), least) / 2
    end = copies - wide(words("run.copies"), least) / 2 - gap
    room = end - gap if narrow else PAGES
    return _Columns(end - room / 2, copies, sides, room, narrow)


def _table_head(number: int, title: str, width: float, style: Style) -> Block:
    least, at = settings(style.look).least, _columns(width, style)
    heading = step_heading(number, title, width if at.narrow else at.left - 2, style)
    y = heading.height + least.lead / 2 if at.narrow else heading.height / 2
    high = heading.height + (least.lead if at.narrow else 0.0)
    return Block((*heading.items, *_heads(y, width, style)), width, high)


def _heads(y: float, width: float, style: Style) -> tuple[Item, ...]:
    """Return what the columns are, said at ``y``."""
    words, least, at = style.words, settings(style.look).least, _columns(width, style)
    said = (("pages", at.pages), ("copies", at.copies), ("sides", at.sides))
    items = [placed_line(words(f"run.{key}"), least, x, y, "centre") for key, x in said]
    return (*items, placed_line(words("run.printed"), least, width, y, "right"))


def _row(pile: RunPile, run: _Run, last: RunPile | None) -> Block:
    """Return one pile: its name and pages, how many copies, on how many sides.

    What is noted of the ``last`` pile is not said again.
    """
    style, width = run.style, run.width
    words, sets = style.words, settings(style.look)
    at = _columns(width, style)
    room = width if at.narrow else at.left - _INDENT - 1
    adult = len(pile.kinds) > 1 and not pile.week
    name = words("run.for_adult") if adult else _name(pile, words)
    noted = _alike(pile, last) and not (pile.flip or pile.week)
    notes = () if noted else _notes(pile, run, room, last)
    named = lines(name, sets.heading, room)
    said = stack((named, *notes))
    if at.narrow:
        return stack((said, _ticked(_numbers(pile, run, at, 0.0), width)))
    beside, apart = _beside(pile, said, run, at), _beside(pile, named, run, at)
    below = _notes(pile, run, width - _INDENT, last) if notes else []
    lower = stack((apart, *(note.moved(_INDENT, 0) for note in below)))
    return lower if lower.height + sets.least.lead < beside.height else beside


def _beside(pile: RunPile, said: Block, run: "_Run", at: _Columns) -> Block:
    """Return what is ``said`` of a pile with its numbers beside it."""
    numbers = _numbers(pile, run, at, said.height)
    told = said.at(_INDENT, (numbers.height - said.height) / 2)
    return _ticked(Block((*numbers.items, *told), run.width, numbers.height), run.width)


def _numbers(pile: RunPile, run: _Run, at: _Columns, least: float) -> Block:
    """Return a pile's pages, copies and sides, ``least`` mm high or higher."""
    sets, look = settings(run.style.look), run.style.look
    accent = Setting(1.2 * sets.text.size, 1.2 * sets.text.lead, tone="accent")
    typed = lines(ranges(pile.pages), accent, at.room, "centre")
    high = max(least, typed.height, 8.2)
    large = Setting(look.type_mm.title * 0.72, look.type_mm.title)
    items = [
        *typed.at(at.left, (high - typed.height) / 2),
        placed_line(str(pile.copies), large, at.copies, high / 2, "centre"),
    ]
    signs = row([pictogram("paper", 6.0)] * (2 if pile.flip else 1), 0.2)
    items += signs.at(at.sides - signs.width / 2, (high - 6.0) / 2)
    return Block(tuple(items), run.width, high)


def _alike(pile: RunPile, last: RunPile | None) -> bool:
    """Say whether ``pile`` has the same kinds of pages as the ``last``."""
    return last is not None and last.kinds == pile.kinds


def _name(pile: RunPile, words: Words) -> str:
    """Return what ``pile`` is called: its kind, its week, or its only kind in a week."""
    kind = words(f"title.{pile.kinds[0]}")
    if pile.folded:
        kind = words("cover.fold", what=kind)
    if pile.week and len(pile.kinds) == 1:
        return words("plan.beside", first=pile.week, then=kind)
    return pile.week or kind


def _notes(pile: RunPile, run: _Run, room: float, last: RunPile | None) -> list[Block]:
    words, least = run.style.words, settings(run.style.look).least
    plan, said = run.plan, []
    bank = Bank.of(run.kit.pieces, run.cutting)
    if pile.kinds == (SheetKind.PIECES,) and not _alike(pile, last):
        said.append(words("run.each", pieces=phrases.pieces(words, bank.in_bag)))
        if plan and any(count.count for count in plan.spares):
            said.append(words("run.spares", pieces=counted(plan.spares, words)))
    if pile.kinds == (SheetKind.THOUSANDS,) and bank.at_once:
        said.append(bank.told(words, run.cutting.kits))
    if pile.kinds[0] in JOINED and len(pile.pages) > 1:
        said.append(words("run.glued"))
    if pile.loose:
        said.append(words("run.loose"))
    if pile.flip:
        said.append(words(f"run.sides_{pile.flip}"))
    if pile.week and len(pile.kinds) > 1 and not _alike(pile, last):
        said.append("; ".join(words(f"title.{kind}") for kind in pile.kinds))
    if run.apart(pile):
        said.append(words("run.slips", count=slip_sheet(run.style)[1]))
    elif run.cutting.home and pile.kinds[0] in HOME:
        said.append(_where(run, back=pile.kinds == (SheetKind.SLIP,)))
    return [lines(text, least, room) for text in said]


def _where(run: _Run, *, back: bool) -> str:
    """Return how many pages go into a bag, and whether they stay at home or come ``back``."""
    words = run.style.words
    if run.shared:
        return words("run.each_child_back") if back else words("run.each_child")
    return words("run.home_back") if back else words("run.home")
