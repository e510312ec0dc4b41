"""Card sheets: straight cuts that free every card, and backs that lie under their fronts."""

from dataclasses import replace
from itertools import combinations, pairwise

import guards
import pytest
from grids import pairs

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins, Paper
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.exchange_marks import SHAFT
from kitbuilder.draw.primitives import Box, Strokes
from kitbuilder.kit.card_packs import answer, kit_pack, task_card
from kitbuilder.kit.card_records import BACKS, STAGES, Backs, Card, CardWishes, Stage, Task
from kitbuilder.kit.records import ExchangeCard
from kitbuilder.layout.cards.answer_boxes import (
    GREAT,
    LARGE,
    MIDDLE,
    PAD,
    SMALL,
    AnswerBox,
    Size,
    answer_boxes,
)
from kitbuilder.layout.cards.answer_sheets import FEW, answer_sheets
from kitbuilder.layout.cards.backs import back as back_of
from kitbuilder.layout.cards.backs import backs_fit
from kitbuilder.layout.cards.deal import CardFace, deal, halved, shape
from kitbuilder.layout.cards.exchange_cards import ExchangeFrames, exchange_sheets
from kitbuilder.layout.cards.fronts import front as front_of
from kitbuilder.layout.cards.halving import Halved
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, SmallPieces
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import wide as across_of
from kitbuilder.layout.picture.split import split, split_unit
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printer import Pair, Printer
from kitbuilder.request.request import Request, card_wish, fitted_paper

WORDS, LOOK = designs.words(), designs.look()
A4 = designs.paper("a4")
STYLE = Style(A4, WORDS, LOOK)
UNEVEN = Paper("Uneven", 210, 297, 10, "made up", Margins(4, 9, 6, 14))


def cards(count: int, wishes: CardWishes) -> list[Card]:
    return [task_card(Task(Sum(400 + n, 158)), wishes, WORDS) for n in range(count)]


def replay(cuts: tuple[Cut, ...], page: Rect) -> list[Rect]:
    """Cut ``page``; each cut must run from edge to edge of one part. Raise ``ValueError``."""
    parts = [page]
    for cut in cuts:
        down = cut.x1 == cut.x2
        for part in parts:
            ends = (part.y, part.bottom) if down else (part.x, part.right)
            at = cut.x1 if down else cut.y1
            low, high = (part.x, part.right) if down else (part.y, part.bottom)
            spans = (cut.y1, cut.y2) if down else (cut.x1, cut.x2)
            if low < at < high and spans == pytest.approx(ends):
                break
        else:
            raise ValueError(f"{cut} runs across no part from edge to edge")
        parts.remove(part)
        if down:
            parts += [
                Rect(part.x, part.y, at - part.x, part.height),
                Rect(at, part.y, part.right - at, part.height),
            ]
        else:
            parts += [
                Rect(part.x, part.y, part.width, at - part.y),
                Rect(part.x, at, part.width, part.bottom - at),
            ]
    return parts


def freed(rects: list[Rect], parts: list[Rect]) -> bool:
    return all(any(part.holds(r, 1e-6) and r.holds(part, 1e-6) for part in parts) for r in rects)


@pytest.mark.parametrize("wide", [True, False])
@pytest.mark.parametrize("times", [1, 2, 3])
def test_the_cuts_free_every_card_and_no_empty_place(times: int, wide: bool) -> None:
    way = Halved.of(A4, times, wide=wide)
    page = Rect(0, 0, way.page.width, way.page.height)
    assert len(way.places) == 2**times
    assert (way.size[0] > way.size[1]) == wide
    for filled in range(1, len(way.places) + 1):
        cuts = way.cuts(filled)
        parts = replay(cuts, page)
        assert freed(list(way.places[:filled]), parts)
        # one cut more than the parts wanted would be a cut not needed: a part is a card, or
        # waste that no two empty places share a cut in
        waste = len(parts) - filled
        assert waste <= 2, "what is left over of the last row, and the rows below"
        assert len(cuts) == len(parts) - 1


def test_a_missing_cut_frees_no_card_and_a_short_cut_is_found() -> None:
    way = Halved.of(A4, 2, wide=True)
    page = Rect(0, 0, way.page.width, way.page.height)
    cuts = way.cuts(4)
    assert not freed(list(way.places), replay(cuts[:-1], page))
    with pytest.raises(ValueError, match="edge to edge"):
        replay((Cut(0, 105, 200, 105),), page)


def on_paper(
    sheet: Sheet, rect: Rect, printer: Printer | None
) -> tuple[float, float, float, float]:
    """Return where ``rect`` comes out on the upright paper: left, top, right, bottom.

    A page lying on its long side is printed a quarter turn to the left; the back is printed
    with the paper turned over on its long edge, or, for "short-edge", upside down after that.
    The printer's back lands ``back_shift_mm`` off, seen from the front.
    """
    turned = sheet.width > sheet.height
    wide, high = (sheet.height, sheet.width) if turned else (sheet.width, sheet.height)
    corners = [(rect.x, rect.y), (rect.right, rect.bottom)]
    if printer:
        fix = printer.correction(sheet.width, sheet.height, turned, sheet.flip)
        corners = [(x * fix.across + fix.right, y * fix.down + fix.below) for x, y in corners]
    if turned:
        corners = [(y, high - x) for x, y in corners]
    if sheet.flip == "short-edge":
        corners = [(wide - x, high - y) for x, y in corners]
    if sheet.flip:
        shift = printer.back_shift_mm if printer else Pair(0, 0)
        corners = [(wide - x + shift.across, y + shift.down) for x, y in corners]
    xs, ys = sorted(x for x, _ in corners), sorted(y for _, y in corners)
    return xs[0], ys[0], xs[1], ys[1]


SHIFTY = Printer(
    "shifty", "a4", Pair(150, 150), Pair(150, 150), Margins(0, 0, 0, 0), Pair(1.3, -0.7)
)


@pytest.mark.parametrize("printer", [None, SHIFTY])
@pytest.mark.parametrize("paper", [A4, UNEVEN, designs.paper("letter"), designs.paper("a3")])
@pytest.mark.parametrize("backs", ["long-edge", "short-edge"])
@pytest.mark.parametrize("way", [(1, True), (1, False), (2, True)])
def test_each_back_lies_under_its_front(
    way: tuple[int, bool], backs: Backs, paper: Paper, printer: Printer | None
) -> None:
    wishes = CardWishes(backs=backs)
    page = Halved.of(paper, way[0], wide=way[1], clear=1.3 if printer else 0)
    sheets = list(deal(SheetKind.TASK_CARDS, cards(11, wishes), page, STYLE, backs))
    assert [s.flip for s in sheets] == [None, backs] * (len(sheets) // 2)
    for front, back in zip(sheets[::2], sheets[1::2], strict=True):
        under = {id(i.content.card): (i.rect, i.content.ink) for i in faces(back)}
        for item in faces(front):
            for ours, theirs in zip(
                (item.rect, item.content.ink), under[id(item.content.card)], strict=True
            ):
                assert on_paper(back, theirs, printer) == pytest.approx(
                    on_paper(front, ours, None), abs=0.1
                )
            if printer:  # what the shift moves still prints
                fix = printer.correction(back.width, back.height, back.width > back.height, backs)
                ink = under[id(item.content.card)][1].moved(fix.right, fix.below)
                assert page.page.inside.holds(ink, 1e-6)


class _Face(Item):
    content: CardFace


def faces(sheet: Sheet) -> list[_Face]:
    return [i for i in sheet.items if isinstance(i.content, CardFace)]  # type: ignore[misc]


@pytest.mark.parametrize("way", [(1, True), (2, True)])
def test_ink_stands_in_the_middle_of_what_prints_of_its_card(way: tuple[int, bool]) -> None:
    # Uneven margins leave each place another room; a card's ink is as far from either side.
    page = Halved.of(UNEVEN, way[0], wide=way[1])
    (sheet,) = deal(SheetKind.TASK_CARDS, cards(2 ** way[0], CardWishes()), page, STYLE, "separate")
    for item in faces(sheet):
        room, ink = page.ink(item.rect), item.content.ink
        assert room is not None
        assert ink.x - room.x == pytest.approx(room.right - ink.right)
        assert ink.y - room.y == pytest.approx(room.bottom - ink.bottom)


def test_a_back_on_the_wrong_side_is_found() -> None:
    wishes = CardWishes(backs="long-edge")
    way = Halved.of(A4, 2, wide=True)
    front, back = deal(SheetKind.TASK_CARDS, cards(3, wishes), way, STYLE, "long-edge")
    first = faces(front)[0]
    assert on_paper(back, first.rect, None) != pytest.approx(on_paper(front, first.rect, None))


@pytest.mark.parametrize("way", [(1, False), (2, True)])
def test_folded_backs_lie_under_their_fronts(way: tuple[int, bool]) -> None:
    page = Halved.of(UNEVEN, way[0], wide=way[1])
    sheets = list(
        deal(SheetKind.TASK_CARDS, cards(5, CardWishes(backs="fold")), page, STYLE, "fold")
    )
    for sheet in sheets:
        sides, folds = faces(sheet), sheet.folds
        assert len(sides) == 2 * len(folds)
        for front, back, fold in zip(sides[::2], sides[1::2], folds, strict=True):
            assert front.content.card is back.content.card
            for ours, theirs in (
                (front.rect, back.rect),
                (front.content.ink, back.content.ink),
            ):
                assert (2 * fold.x1 - theirs.right, 2 * fold.x1 - theirs.x) == pytest.approx(
                    (ours.x, ours.right), abs=0.1
                )
                assert (theirs.y, theirs.bottom) == pytest.approx((ours.y, ours.bottom))
        # a card and its back stay one piece of paper
        doubled = [Rect(f.rect.x, f.rect.y, 2 * f.rect.width, f.rect.height) for f in sides[::2]]
        assert freed(doubled, replay(sheet.cuts, Rect(0, 0, sheet.width, sheet.height)))


def test_the_smallest_card_that_its_content_fits_is_chosen() -> None:
    def size(paper: str, stage: str, backs: Backs = "separate") -> tuple[float, float]:
        wishes = CardWishes(backs=backs)
        asked = [task_card(Task(Sum(634, 258), stage), wishes, WORDS)]  # type: ignore[arg-type]
        style = Style(designs.paper(paper), look=LOOK)
        return halved(asked, style, backs, tall_first=stage == "written").size

    # 13 mm below the cards: the margin, the page's own foot, and what stands round it
    low, lying = (210 - 13) / 2, (297 - 13) / 2
    assert size("a4", "pieces") == (148.5, low)  # near A6: five lines are too high for A7
    assert size("a4", "both") == (148.5, low)
    assert size("a4", "written") == (74.25, low)  # near A7, standing
    assert size("a3", "pieces") == (148.5, (420 - 13) / 4)  # halved three times
    assert size("a4", "written", "fold") == (105, lying)


@pytest.mark.parametrize(
    ("stage", "backs", "paper"), pairs(STAGES, BACKS, ("a4", "letter", "legal", "a3"))
)
def test_every_stage_and_back_fits_every_usual_paper(stage: str, backs: str, paper: str) -> None:
    """On Letter, to be folded, the layout goes below the words: a half sheet is too narrow."""
    wishes = card_wish("tasks", stage, backs)
    request = Request((Sum(431, 256), Sum(42, 17)), fitted_paper(paper), parts=("cards",))
    request = replace(request, cards=wishes)
    assert "task_cards" in {sheet.kind for sheet in laid_out(held(request), request).sheets}


@pytest.mark.parametrize(
    ("stage", "sum_", "backed"),
    pairs(STAGES, (Sum(71, 48), Sum(305, 148)), (False, True)),
    ids=str,
)
def test_nothing_on_a_card_runs_into_anything_else(sum_: Sum, stage: Stage, backed: bool) -> None:
    card = task_card(Task(sum_, stage), CardWishes(backs="fold"), WORDS)
    side = back_of if backed else front_of
    laid = 0
    for high in range(30, 140, 5):
        for wide in range(60, 200, 20):
            ink = Rect(0, 0, wide, high)
            face = side(card, ink, STYLE)
            if face is None:
                continue
            laid += 1
            lines = [item.rect for item in face if isinstance(item.content, Line)]
            drawn = [item.rect for item in face if item.what == "small_pieces"]
            assert all(ink.holds(item.rect, 0.02) for item in face)
            tight = [Rect(r.x, r.y + 0.2 * r.height, r.width, 0.6 * r.height) for r in lines]
            boxes = [*tight, *drawn]
            for number, one in enumerate(boxes):
                assert not any(one.overlaps(other, 0.05) for other in boxes[number + 1 :])
    assert laid


@pytest.mark.parametrize("sum_", [Sum(71, 48), Sum(634, 258), Sum(4002, 1768)], ids=str)
@pytest.mark.parametrize("look", ["plain", "bold"])
def test_the_dots_of_a_written_card_stand_clear_of_its_columns(sum_: Sum, look: str) -> None:
    style = Style(A4, WORDS, designs.look(look))
    card = task_card(Task(sum_, "written"), CardWishes(stage="written", headings=True), WORDS)
    face = front_of(card, Rect(0, 0, *halved([card], style, "separate").size), style)
    assert face is not None
    dots = next(item.rect for item in face if item.what == "dots")
    others = [item for item in face if item.what not in ("dots", "card_frame")]
    assert [item.what for item in others if item.rect.overlaps(dots)] == []


@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
@pytest.mark.parametrize("look", ["plain", "bold"])
def test_every_written_card_has_three_places_for_its_check(
    look: str, paper: str, language: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(language), designs.look(look))
    card = task_card(Task(Sum(634, 258), "written"), CardWishes(stage="written"), style.words)
    face = front_of(card, Rect(0, 0, *halved([card], style, "separate").size), style)
    assert face
    said = {i.content.text: i.rect.y for i in face if isinstance(i.content, Line)}
    places = [i.rect for i in face if i.what == "rule" and i.rect.y > said["="]]
    assert len(places) == 3
    assert min(place.width for place in places) >= 9.5


@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_line_of_a_task_is_broken_beside_its_columns(paper: str, language: str) -> None:
    style = Style(fitted_paper(paper), designs.words(language), LOOK)
    card = task_card(Task(Sum(305, 148)), CardWishes(stage="both"), style.words)
    width, height = halved([card], style, "separate", tall_first=False).size
    face = front_of(card, Rect(0, 0, width, height), style)
    assert face
    said = [item.content.text for item in face if isinstance(item.content, Line)]
    assert set(card.lines) <= set(said)


def test_ten_pieces_on_an_exchange_card_are_seen_to_be_ten() -> None:
    request = Request((Sum(71, 48), Sum(634, 278)), A4, parts=("cards",))
    sheet = next(s for s in laid_out(held(request), request).sheets if s.kind == "exchange_cards")
    marks = draw_sheet(sheet, 2, Style(A4, WORDS, LOOK)).marks
    strokes = [mark for mark in marks if isinstance(mark, Strokes) and mark.layer == "print"]
    boxes = [(mark.x, mark.y, mark.width, mark.height) for mark in marks if isinstance(mark, Box)]
    for item in sheet.items:
        if isinstance(item.content, ExchangeFrames):
            places = item.content.ten  # as wide as what is laid there; their outlines do not touch
            assert len({(place.x, place.y) for place in places}) == 10
            assert all(min(place.width, place.height) == A4.unit_mm for place in places)
            drawn = [place.inset(0.6) for place in places]
            assert all(any(box == pytest.approx(tuple(rect)) for box in boxes) for rect in drawn)
    # two arrows on each card, one each way
    cards = [item for item in sheet.items if item.what == "exchange_card"]
    assert sum(mark.width == SHAFT for mark in strokes) == 2 * len(cards)


def test_both_exchange_cards_lie_on_one_sheet_at_true_size() -> None:
    # 100 + 14 + 100 mm and 10 + 14 + 20 mm with 3 mm round either: 270 mm, of A4's 287 on its
    # side; Letter prints 267, and upright 203: the hundred above its ten is 106 mm wide.
    cards = [ExchangeCard(2, "1 hundred is 10 tens"), ExchangeCard(1, "1 ten is 10 ones")]
    for paper, wide in ((A4, 297), (fitted_paper("letter"), 215.9)):
        (sheet,) = exchange_sheets(cards, Style(paper, WORDS, LOOK))
        assert sheet.width == wide
        hundred, ten = (item.content for item in sheet.items)
        assert isinstance(hundred, ExchangeFrames) and isinstance(ten, ExchangeFrames)
        assert hundred.icons == ()  # the sign is a ten's
        assert {(x.width, x.height) for x in (hundred.one, *hundred.ten)} == {(100, 100), (10, 100)}
        assert {(x.width, x.height) for x in (ten.one, *ten.ten)} == {(10, 100), (10, 10)}
        ones = sorted({x.x for x in ten.ten}), sorted({x.y for x in ten.ten})
        assert [len(each) for each in ones] == [2, 5]  # the frame stands, two across
        for item, card in zip(sheet.items, (hundred, ten), strict=True):
            inside = (card.one, *card.ten, *(label.rect for label in card.labels))
            assert all(item.rect.holds(rect) for rect in inside)
            for a, b in combinations(inside, 2):
                assert not a.overlaps(b)


@pytest.mark.parametrize("look", ["plain", "bold", "spare", "outline"])
@pytest.mark.parametrize("language", ["en-GB", "es"])
def test_exchange_cards_fit_in_every_look(look: str, language: str) -> None:
    words = designs.words(language)
    cards = [ExchangeCard(k, words(f"exchange.{PLACES[k]}")) for k in (2, 1)]
    for paper in ("a4", "letter", "a5"):
        style = Style(designs.paper(paper), words, designs.look(look))
        unit = min(style.unit, 8.0) if paper == "a5" else style.unit
        style = replace(style, paper=replace(style.paper, unit_mm=unit))
        for number, sheet in enumerate(exchange_sheets(cards, style), 1):
            draw_sheet(sheet, number, style)  # fails for words on words or off the page


@pytest.mark.parametrize(("count", "across"), [(2, 1), (FEW, 2), (FEW + 1, 2)])
def test_few_answers_stand_on_one_page_as_large_as_they_fit(count: int, across: int) -> None:
    sums = tuple(Sum(500 + 7 * k, 128 + k) for k in range(count))
    request = Request(sums, fitted_paper("a4"), parts=("cards",))
    drawn = [s for s in laid_out(held(request), request).sheets if s.kind == "answers"]
    boxes = [item.rect for sheet in drawn for item in sheet.items if item.what == "answer"]
    assert len(boxes) == count
    assert len(drawn) == (1 if count <= FEW else 2)
    assert len({box.x for box in boxes}) == across


@pytest.mark.parametrize("sum_", [Sum(43, 17), Sum(305, 148), Sum(4002, 1768)], ids=str)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_lone_answer_fills_its_page_with_pieces(sum_: Sum, paper: str) -> None:
    style = Style(fitted_paper(paper), designs.words("es"))
    (sheet,) = answer_sheets([kit_pack((sum_,), CardWishes(), style.words)], style)
    (box,) = (i.content for i in sheet.items if isinstance(i.content, AnswerBox))
    assert box.height > 0.5 * sheet.height
    assert guards.small_ones(box.face, 2.4) == []
    drawing = draw_sheet(sheet, 1, style)
    assert guards.words_apart(drawing) == [] and guards.ink(drawing, 300) < 0.06


def test_answers_in_large_type_fill_their_pages_too() -> None:
    # Two take two pages of Letter: each is as large as its page, more than 150 mm of 227.
    style = Style(fitted_paper("letter"), designs.words("es"), designs.look("bold"))
    pack = kit_pack((Sum(43, 17), Sum(305, 148)), CardWishes(), style.words)
    sheets = answer_sheets([pack], style)
    boxes = [i.content for s in sheets for i in s.items if isinstance(i.content, AnswerBox)]
    assert len(sheets) == 2 and all(box.height > 150 for box in boxes)
    for page, sheet in enumerate(sheets, 1):
        assert guards.words_apart(draw_sheet(sheet, page, style)) == []


@pytest.mark.parametrize("size", [*GREAT, LARGE, *MIDDLE, SMALL])
def test_a_box_is_as_high_as_what_stands_in_it(size: Size) -> None:
    sums = [Sum(w, p) for w in (998, 532, 413, 203, 62) for p in (9, 35, 58, 109) if p < w]
    answers = [answer(sum_, WORDS) for sum_ in (*sums, Sum(1000, 463))]
    for box in answer_boxes(
        answers, max(130, 12 * size.digits) if size.beside else 90, STYLE, size
    ):
        (item,) = box.items
        assert isinstance(item.content, AnswerBox)
        frame, *inner = item.content.face
        assert frame.rect.height == box.height == item.rect.height
        lowest = max(i.rect.bottom for i in inner)
        assert lowest <= box.height - PAD + 1e-6
        assert lowest >= box.height - PAD - (12 if item.content.answer.sum.places > 3 else 6)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("language", designs.names("words"))
def test_the_ready_made_answers_take_one_page(paper: str, language: str) -> None:
    style = Style(fitted_paper(paper), designs.words(language))
    pack = kit_pack(LESSONS, CardWishes(), style.words)
    sheets = answer_sheets([pack], style)
    # Spanish on Letter needs 233 mm of 227
    assert len(sheets) == (2 if paper == "letter" and language.startswith("es") else 1)
    for page, sheet in enumerate(sheets, 1):
        drawing = draw_sheet(sheet, page, style)
        assert guards.words_apart(drawing) == []
        assert guards.small_type(drawing) == []
        assert guards.blank_bands(drawing) == []
        boxes = [i.content for i in sheet.items if isinstance(i.content, AnswerBox)]
        assert [guards.small_ones(box.face, 1.8) for box in boxes] == [[]] * len(boxes)


def test_cards_of_one_shape_fit_where_each_of_them_fits() -> None:
    sums = [Sum(w, p) for w in (998, 532, 413, 203) for p in (109, 149, 189)]
    for name in ("plain", "bold"):
        style = replace(STYLE, look=designs.look(name))
        assert len({across_of(digit, settings(style.look).text) for digit in "0123456789"}) == 1
        made = [task_card(Task(sum_), CardWishes(backs="long-edge"), WORDS) for sum_ in sums]
        told = set()
        for width in range(60, 180, 8):
            for high in (70, 90, 130):
                ink = Rect(0, 0, width, high)
                each = [back_of(card, ink, style) is not None for card in made]
                groups: dict[object, list[Card]] = {}
                for card in made:
                    groups.setdefault(shape(card), []).append(card)
                alike = [backs_fit(group, ink, style) for group in groups.values()]
                assert all(alike) == all(each)
                told.add(all(each))
        assert told == {True, False} and len(groups) < len(made)


def test_no_cut_runs_along_the_edge_of_the_paper() -> None:
    # Without margins the card's left and upper sides are the paper's own; two sides are cut.
    bare = Paper("Bare", 297, 210, 10, "made up", Margins(0, 0, 0, 0))
    (sheet,) = exchange_sheets([ExchangeCard(2, "10 tens")], Style(bare, WORDS, LOOK))
    box = sheet.items[0].rect
    assert (box.x, box.y) == (0, 0)
    assert sheet.cuts == (
        Cut(0, box.bottom, sheet.width, box.bottom),
        Cut(box.right, 0, box.right, box.bottom),
    )


@pytest.mark.parametrize(("across", "step"), [(70, 10.6), (30, 0.5)])
def test_hundreds_in_a_picture_lie_free_or_in_a_pile_that_shows_each(
    across: int, step: float
) -> None:
    # Side by side where there is room, else each half a unit right of the last, and down:
    # what is seen of a covered one is an L, never a strip of ten squares.
    unit = split_unit(Pieces(hundreds=3), across, 20, 2.0)
    (item,) = split(Pieces(hundreds=3), across, 20, unit).items
    assert isinstance(item.content, SmallPieces)
    rects = item.content.rects
    assert all(b.x - a.x == pytest.approx(step * unit) for a, b in pairwise(rects))
    down = {round((b.y - a.y) / unit, 6) for a, b in pairwise(rects)}
    assert down == ({0.0} if step > 10 else {0.5})
    with pytest.raises(ValueError, match="do not fit"):
        split(Pieces(hundreds=3), across, 20, 3 * unit)
