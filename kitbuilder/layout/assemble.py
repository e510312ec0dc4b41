"""A kit's sheets, in the order an adult needs them."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.card_packs import own_card
from kitbuilder.kit.card_records import BlankCard
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.bag import Bag, bag_of
from kitbuilder.layout.blank_backs import with_blank_backs
from kitbuilder.layout.cards.bag_labels import label_sheets
from kitbuilder.layout.cards.exchange_cards import exchange_sheets
from kitbuilder.layout.cards.free_card import (
    with_card_below,
    with_cards_beside,
    with_free_cards,
)
from kitbuilder.layout.cards.packs import pack_sheets
from kitbuilder.layout.course.course_sheets import adult_sheets, course_sheets
from kitbuilder.layout.course.week_page import pointing
from kitbuilder.layout.cover.cover_sheets import cover_sheets
from kitbuilder.layout.cutting.cut_map import CutMap, cut_map
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.cut_tree import useful
from kitbuilder.layout.cutting.scissors_page import scissors_pages
from kitbuilder.layout.feet import footed
from kitbuilder.layout.lesson.guide_pages import guide_sheets
from kitbuilder.layout.mat.mat_set import MatSet, kit_mats
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pages.folding_page import folding_sheets
from kitbuilder.layout.pieces.foot_strip import with_labels
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.small_paper import on_small_paper
from kitbuilder.layout.worksheets.sum_sheets import sum_sheets

_BY_HAND = Making()

AFTER_THE_WEEK = (
    SheetKind.ADDITION_MAT,
    SheetKind.EXCHANGE_BOARD,
    SheetKind.TASK_CARDS,
    SheetKind.RECORD,
    SheetKind.ANSWERS,
    SheetKind.PROGRESS,
    SheetKind.DIFFERENTLY,
)
"""What a kit that holds the first week needs only after it."""

TO_READ = (SheetKind.GUIDE, SheetKind.LESSON, SheetKind.DIFFERENTLY)
"""Pages that every child gets where nothing is asked for but pages to read."""

IN_EACH_BAG = (SheetKind.FOLDING, SheetKind.ANSWERS, SheetKind.GUIDE)
"""Pages that each child takes home, with the first lesson."""


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A kit on sheets: every sheet in order, how the pieces are cut, and the mats' plans.

    ``cut`` is the cutting map of all sheets, where there is one.
    """

    sheets: tuple[Sheet, ...]
    cutting: CutPlan | None
    mats: MatSet
    cut: CutMap | None = None


def lay_out(kit: Kit, cutting: CutWish, style: Style, making: Making = _BY_HAND) -> LaidOut:
    """Return ``kit`` on sheets in their order, its pieces made as ``making`` says.

    What each child holds is printed for every kit. Raises ``RefusedError`` where something does
    not fit the page.
    """
    metre, bank = _metre(kit, style), Bank.of(kit.pieces, cutting)
    flat = with_cards_beside(making.thousands(bank.thousands, style), _own_card(kit, style), style)
    # then exchange cards: they need the smallest unit, and a refusal names the largest that fits
    exchange = _for_each(_exchange(kit, making, style), cutting.kits)
    plan = making.plan(bank.in_bag, style.paper, cutting)
    pieces = _pieces(plan, kit, cutting, style, making)
    exchange = _filled(exchange, pieces, plan, kit, style)
    mats = kit_mats(kit, style)
    cards = _for_each(pack_sheets(kit.packs, kit.cards, style, max(making.slack)), cutting.kits)
    own = [s for s in (*mats.sheets, *exchange, *cards) if s.kind != SheetKind.ANSWERS]
    guide = _guide(kit, cutting, style)
    course = tuple(course_sheets(kit.course, cutting, style, guide))
    adult = tuple(adult_sheets(kit.course, cutting, style))
    folding = folding_sheets(style) if flat else ()
    read = (*folding, *guide, *cards, *course, *adult)
    bag = bag_of(bank, own, read, kit.course, cutting, style)
    weekly = bool(kit.course.weeks) and cutting.kits == 1  # a class is given all that it reads
    labels = _at(label_sheets(bank, bag, cutting, style), later=weekly)  # counted that late
    mat_sheets = _for_each(mats.sheets, cutting.kits)
    others = _cut_apart((*flat, *exchange, *cards, *labels), plan, cutting, weekly=weekly)
    cut = cut_map(plan, others, cutting.layers, mat_sheets)
    body: tuple[Sheet, ...] = (
        *pieces,
        *_numbered(flat, cut),
        *folding,
        *_numbered(exchange, cut),
        *_cutting_pages(_keeping(cut, pieces), bag, style, mat_sheets),
        *_numbered(mat_sheets, cut),
        *_numbered((*cards, *labels), cut),
        *(sheet for sheet in guide if _first_lesson(sheet)),
        *course,
        *_for_each(sum_sheets(kit.packs, style), cutting.kits),
        *(sheet for sheet in guide if not _first_lesson(sheet)),
        *adult,
        *_shown(kit, style),
        *metre,
    )
    body = tuple(pointing(_in_order(_handed_out(body, kit, cutting), cutting, weekly=weekly)))
    sheets = (*_cover(kit, body, style, cutting, making.file), *body)
    return LaidOut(footed(sheets, style, cutting.layers), plan, mats, cut)


def _guide(kit: Kit, cutting: CutWish, style: Style) -> tuple[Sheet, ...]:
    """Return lessons and guide; a home without weeks has all lessons at once."""
    with on_small_paper(SheetKind.LESSON, style):
        guide = guide_sheets(kit.guide, style)
    return _at(guide, later=False) if cutting.home and not kit.course.weeks else guide


def _cover(
    kit: Kit, body: Sequence[Sheet], style: Style, cutting: CutWish, file: str
) -> tuple[Sheet, ...]:
    with on_small_paper(SheetKind.COVER, style):
        return cover_sheets(kit, body, style, cutting, file)


def _at(sheets: Iterable[Sheet], *, later: bool) -> tuple[Sheet, ...]:
    """Return ``sheets``, marked as ``later`` tells."""
    return tuple(replace(sheet, later=later) for sheet in sheets)


def _pieces(
    plan: CutPlan | None, kit: Kit, cutting: CutWish, style: Style, making: Making
) -> tuple[Sheet, ...]:
    """Return the sheets of pieces; in a family's kit a card for own sums fills what falls off."""
    sheets = making.sheets(plan, kit.pieces, style, cutting)
    if plan is None or plan.kits * plan.layers > 1:
        return sheets
    return with_free_cards(sheets, _own_card(kit, style), style)


def _own_card(kit: Kit, style: Style) -> BlankCard | None:
    """Return the card for a sum of one's own: of the first pack that has one, or for any sum.

    A kit for sums without cards of them has none, but for that of a course.
    """
    found = next((pack.blank for pack in kit.packs if pack.blank), None)
    if found or (kit.sums and not kit.course.weeks):
        return found
    places = 4 if kit.pieces.thousands else 3 if kit.pieces.hundreds else 2
    return own_card(places, style.words)


def _exchange(kit: Kit, making: Making, style: Style) -> tuple[Sheet, ...]:
    """Return the exchange cards; where they do not fit, type too large for any card is told first.

    A smaller unit would not help there.
    """
    try:
        return exchange_sheets(kit.exchange_cards, style)
    except RefusedError as refused:
        try:
            tuple(pack_sheets(kit.packs, kit.cards, style, max(making.slack)))
        except ValueError:
            raise refused from None
        raise


def _filled(
    exchange: Iterable[Sheet],
    pieces: Sequence[Sheet],
    plan: CutPlan | None,
    kit: Kit,
    style: Style,
) -> tuple[Sheet, ...]:
    """Return the ``exchange`` cards, what falls off of them not left empty.

    It bears a family's labels for envelopes if no other sheet has any, or a card for own sums.
    """
    sheets = tuple(exchange)
    if plan is None:
        return sheets
    labelled = any(item.what == "label" for sheet in pieces for item in sheet.items)
    if plan.kits * plan.layers == 1 and not labelled:
        sheets = with_labels(sheets, plan.bag, style)
    return with_card_below(sheets, _own_card(kit, style), style)


def _shown(kit: Kit, style: Style) -> tuple[Sheet, ...]:
    """Return the sheets of a demonstration, where one is wished for."""
    if kit.demonstration is None:
        return ()
    from kitbuilder.layout.demonstration.demo_plan import demonstration_sheets

    return demonstration_sheets(kit.demonstration, style)


def _metre(kit: Kit, style: Style) -> tuple[Sheet, ...]:
    """Return the page of a metre, where one is wished for."""
    if not kit.metre:
        return ()
    from kitbuilder.layout.pages.metre_page import metre_sheets

    return metre_sheets(style)


def _first_lesson(sheet: Sheet) -> bool:
    return sheet.kind is SheetKind.LESSON and not sheet.later


def _handed_out(body: Iterable[Sheet], kit: Kit, cutting: CutWish) -> Iterator[Sheet]:
    """Yield ``body`` with copies of what each child takes home, or gets.

    Where pages to read are all that was asked for, every child gets one of each. Lessons on
    further kinds of sums go into a bag with the second week, where these begin.
    """
    second = next((week.name for week in kit.course.weeks[1:] if not week.later), "")
    only_read = not (kit.pieces.value or kit.mats or kit.packs)
    for sheet in body:
        taken = sheet.kind in IN_EACH_BAG or _first_lesson(sheet)
        if (only_read and sheet.kind in TO_READ) or (cutting.home and taken):
            yield replace(sheet, copies=cutting.readers)
        elif cutting.home and sheet.kind is SheetKind.LESSON and second:
            yield replace(sheet, copies=cutting.readers, week=second)
        else:
            yield sheet


def _in_order(body: Iterable[Sheet], cutting: CutWish, *, weekly: bool) -> tuple[Sheet, ...]:
    """Return ``body`` with what is needed now first, and of what comes later card first.

    So the pages of each are a plain run of numbers. With ``weekly`` the first week tells what
    is needed now.
    """
    sheets = [_timed(sheet) if weekly else sheet for sheet in body]
    ordered = tuple(sorted(sheets, key=lambda s: (s.later, s.later and s.stock == "paper")))
    # a print run lists what has backs apart from what has none
    return ordered if cutting.kits > 1 else with_blank_backs(ordered)


def _cut_apart(
    sheets: Iterable[Sheet], plan: CutPlan | None, cutting: CutWish, *, weekly: bool
) -> list[Sheet]:
    """Return what is cut by hand for all alike; ``weekly`` as for ``_in_order``.

    A few cards without pieces need no map: their own lines say enough.
    """
    if plan is None and cutting.kits == cutting.layers == 1:
        return []
    found = [sheet for sheet in sheets if sheet.cuts and not sheet.section]
    return list(map(_timed, found)) if weekly else found


def _timed(sheet: Sheet) -> Sheet:
    """Return ``sheet``, marked where the first week does not need it."""
    return replace(sheet, later=sheet.later or sheet.kind in AFTER_THE_WEEK)


def _keeping(cut: CutMap, pieces: Iterable[Sheet]) -> CutMap:
    """Return ``cut``, ``pieces`` with what is of use where they fall off."""
    if cut.plan is None:
        return cut
    fronts = [sheet for sheet in pieces if not sheet.flip]
    both = zip(cut.plan.cut_sheets, fronts, strict=True)
    sheets = tuple(replace(one, kept=useful(sheet.items)) for one, sheet in both)
    return replace(cut, plan=replace(cut.plan, cut_sheets=sheets))


def _cutting_pages(cut: CutMap, bag: Bag, style: Style, mats: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return what says how everything is cut, by scissors or in stacks."""
    if cut.layers == 1:
        return scissors_pages(cut, bag, style)
    from kitbuilder.layout.cutting.stack_page import stack_pages

    return stack_pages(cut, bag, style, tuple(_numbered(mats, cut)))


def _numbered(sheets: Iterable[Sheet], cut: CutMap) -> Iterator[Sheet]:
    """Yield ``sheets``; those on the map with its name, its numbers and their cuts in its order."""
    printed = [one.printed for one in cut.sheets if cut.layers > 1]
    known = {(sheet.kind, frozenset(sheet.cuts)): sheet for sheet in printed}
    for sheet in sheets:
        found = None if sheet.section else known.get((sheet.kind, frozenset(sheet.cuts)))
        if found and sheet.cuts:
            yield replace(sheet, cuts=found.cuts, stops=found.stops, name=found.name)
        else:
            yield sheet


def _for_each(sheets: Iterable[Sheet], kits: int) -> tuple[Sheet, ...]:
    """Return ``sheets`` with copies for each kit; what only the adult reads is printed once."""
    return tuple(
        sheet
        if sheet.kind in (SheetKind.ANSWERS, SheetKind.SUM_KEY)
        else replace(sheet, copies=sheet.copies * kits)
        for sheet in sheets
    )
