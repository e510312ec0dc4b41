"""Kits of four places: their pieces, sheets and lesson, on three papers in three languages."""

import json
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner
from grids import each, pairs
from guards import small_type, words_apart, words_inside

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.exchange_marks import draw_exchange_card
from kitbuilder.draw.primitives import Strokes
from kitbuilder.errors import RefusedError
from kitbuilder.formats.plan_csv import read_plan
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.course.course_pages import worksheets
from kitbuilder.kit.course.plan_words import plan_sums
from kitbuilder.kit.guide import guide
from kitbuilder.kit.lesson.drawn_by_hand import Cluster
from kitbuilder.kit.lesson.script import script
from kitbuilder.kit.lesson.strips import Strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.records import CutWish, EstimateWish, ExchangeCard
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cards.bag_labels import LabelFace
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cards.exchange_cards import ExchangeFrames, exchange_sheets
from kitbuilder.layout.cutting.scissors_steps import SMALL
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.estimate import estimate
from kitbuilder.layout.mat.exchange_board import Board, board_sheets
from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.pages.print_run import _piles, run_sheets
from kitbuilder.layout.parts.contents import Line, Rule, SmallPieces
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.pieces.thousand import Thousands, check_thousand, thousand_sheets
from kitbuilder.layout.pieces.thousand_margin import most_unit
from kitbuilder.layout.pieces.thousand_unit import for_thousands
from kitbuilder.layout.printable import Page
from kitbuilder.layout.unit_costs import unit_costs
from kitbuilder.layout.worksheets.drawn import drawn_block
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.schedule import Task
from kitbuilder.pipeline import build, held, laid_out, paper_of
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_pieces, read_sum

LESSON = Sum(4003, 1758)


def asked(paper: str = "a4", words: str = "en-GB", within: int | None = None) -> Request:
    press = Press(words=designs.words(words))
    sums = () if within else (LESSON,)
    return Request(sums, fitted_paper(paper), within=within, press=press)


@lru_cache(4)
def usual(paper: str = "a4", words: str = "en-GB") -> LaidOut:
    """Return the kit of the lesson as it is laid out."""
    request = asked(paper, words)
    return laid_out(held(request), request)


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("letter", "es"), ("a3", "en-US")])
def test_every_page_keeps_its_words_apart_and_large(paper: str, words: str) -> None:
    request = asked(paper, words)
    laid = usual(paper, words)
    kinds = [sheet.kind for sheet in laid.sheets]
    assert kinds.index(SheetKind.THOUSANDS) + 1 == kinds.index(SheetKind.FOLDING)
    drawings = draw_pages(laid.sheets, paper_of(request), request.press)
    for sheet, drawing in zip(laid.sheets, drawings, strict=True):
        if sheet.kind in (SheetKind.THOUSANDS, SheetKind.FOLDING, SheetKind.LESSON):
            assert words_apart(drawing) == [], sheet.kind
            assert words_inside(drawing) == [], sheet.kind
            assert small_type(drawing) == [], sheet.kind


def test_a_kit_for_every_sum_takes_six_sheets_of_pieces() -> None:
    request = replace(asked(within=10_000), parts=("pieces",))
    kit = held(request)
    assert kit.pieces == Pieces(ones=18, tens=19, hundreds=19, thousands=9)
    printed = {SheetKind.PIECES: 0, SheetKind.THOUSANDS: 0}
    for sheet in laid_out(kit, request).sheets:
        if sheet.kind in printed:
            printed[sheet.kind] += sheet.copies
    assert printed == {SheetKind.PIECES: 1, SheetKind.THOUSANDS: 5}


@pytest.mark.parametrize(
    ("cutting", "made", "labels"),
    [
        (CutWish(15, children=30), 5 * 4, 16),  # 5 of 15 kits are used with thousands at once
        (CutWish(2), 1 * 4, 4),  # one to spare
        (CutWish(15, children=30, home=True), 15 * 4, 15),  # nobody has a bank at home
        (CutWish(1), 4, 0),
    ],
)
def test_a_class_shares_a_bank_of_thousands(cutting: CutWish, made: int, labels: int) -> None:
    request = Request((LESSON,), fitted_paper("a4"), cutting=cutting)
    laid = laid_out(held(request), request)
    items = [(sheet, item) for sheet in laid.sheets for item in sheet.items]
    found = (
        len(item.content.outlines) * sheet.copies
        for sheet, item in items
        if isinstance(item.content, Thousands)
    )
    assert sum(found) == made
    assert sum(isinstance(item.content, LabelFace) for _, item in items) == labels


@pytest.mark.parametrize("words", ["en-GB", "es"])
def test_how_a_bank_of_thousands_works_is_told_where_it_is_printed(words: str) -> None:
    request = replace(asked(words=words), cutting=CutWish(15, children=30))
    kit = held(request)
    laid = laid_out(kit, request)
    told = Bank.of(kit.pieces, request.cutting).told(request.press.words, 15)
    style = request.press.style(paper_of(request))
    takes = estimate(laid.sheets, [0.0] * len(laid.sheets), 1, EstimateWish())
    run = run_sheets(kit, laid.sheets, laid.cutting, request.cutting, takes, style)
    for kind, sheets in ((SheetKind.COVER, laid.sheets), (SheetKind.PRINT_RUN, run)):
        lines = [
            item.content.text
            for sheet in sheets
            for item in sheet.items
            if sheet.kind is kind and isinstance(item.content, Line)
        ]
        assert told in " ".join(lines), kind
    assert laid.cutting
    assert "thousands" not in {count.what for count in laid.cutting.bag}


def test_a_thousand_printed_once_stays_with_the_others() -> None:
    request = Request(
        (Sum(5000, 2345),), fitted_paper("a4"), parts=("pieces",), cutting=CutWish(9, 5)
    )
    sheets = laid_out(held(request), request).sheets
    once = [n for n, s in enumerate(sheets) if s.kind is SheetKind.THOUSANDS and s.copies == 1]
    assert once  # 3 × 5 thousands, two on a sheet: the last one has a sheet of its own
    piles = [
        pile for pile in _piles(sheets, 0, request.cutting) if SheetKind.THOUSANDS in pile.kinds
    ]
    assert all(pile.kinds == (SheetKind.THOUSANDS,) for pile in piles)


def test_a_stack_of_thousands_is_on_the_cutting_map() -> None:
    request = Request((LESSON,), fitted_paper("a4"), parts=("pieces",), cutting=CutWish(3, 5))
    cut = laid_out(held(request), request).cut
    assert cut
    ends = [
        node.what
        for one in cut.sheets
        if one.sheet.kind is SheetKind.THOUSANDS
        for node in one.root.ends()
        if node.what
    ]
    assert ends == ["thousand", "thousand"]


def test_a_thousand_is_unfolded_where_it_is_exchanged() -> None:
    told = [step.told for step in script(LESSON, designs.words("en-GB"))]
    assert sum("move them to their place" in line for line in told) == 1
    assert any("First ones, then tens, then hundreds." in line for line in told)


def test_small_ones_come_with_advice_on_cutting() -> None:
    assert [fitted_paper("a4", unit=unit).unit_mm < SMALL for unit in (6.5, 7)] == [True, False]
    for unit, advised in ((None, False), (6.5, True)):
        request = Request((Sum(43, 17),), fitted_paper("a4", unit=unit))
        pages = laid_out(held(request), request).sheets
        said = " ".join(
            item.content.text
            for sheet in pages
            if sheet.kind is SheetKind.CUTTING
            for item in sheet.items
            if isinstance(item.content, Line)
        )
        assert ("an adult snips" in said) == advised


def test_the_record_and_the_cutter_know_thousands(tmp_path: Path) -> None:
    press = Press(dxf=True, svg=True)
    request = Request((LESSON,), fitted_paper("a4"), parts=("pieces",), press=press)
    build(request, tmp_path)
    table = json.loads((tmp_path / "kit.json").read_text())
    assert table["pieces"] == {"thousands": 4, "hundreds": 10, "tens": 10, "ones": 13}
    page = next(n for n, s in enumerate(table["sheets"], 1) if s["kind"] == "thousands")
    drawing = next(tmp_path.glob(f"*{page:02}.dxf")).read_text()
    assert {"FOLD", "CUT"} <= set(drawing.split())


def test_lost_thousands_are_printed_alone_with_how_to_fold_them() -> None:
    request = Request((), fitted_paper("a4"), extra=read_pieces("3,0,0,0"), parts=("pieces",))
    kinds = [(s.kind, s.copies) for s in laid_out(held(request), request).sheets]
    assert kinds[1:] == [
        (SheetKind.THOUSANDS, 1),
        (SheetKind.THOUSANDS, 1),
        (SheetKind.FOLDING, 1),
    ]


def test_units_are_compared_with_the_sheets_of_thousands() -> None:
    request = asked()
    style = request.press.style(request.paper)
    found = unit_costs(held(request), style, Making(), (5.0, 5.5, 6.0))
    costs = {cost.unit: cost for cost in found}
    # one sheet of small pieces and two of thousands; larger ones than 5.52 mm print no thousand
    assert costs[5.0].piece_sheets == 3
    assert costs[5.5].piece_sheets == 5
    assert costs[6.0].piece_sheets is None


def test_backs_of_cards_show_thousands_of_both_parts() -> None:
    cards = CardWishes(backs="long-edge")
    request = Request((Sum(8524, 3857),), fitted_paper("a4"), parts=("cards",), cards=cards)
    backs = [sheet for sheet in laid_out(held(request), request).sheets if sheet.flip]
    piles = [
        item.content
        for sheet in backs
        for card in sheet.items
        if isinstance(card.content, CardFace)
        for item in card.content.face
        if isinstance(item.content, SmallPieces)
    ]
    # four places of what is left and of what came out; only a thousand is higher than it is wide
    assert len(piles) == 8
    thick = [
        len(p.rects) for p in piles if p.rects[0].height > 1.05 * p.rects[0].width > 2 * p.unit
    ]
    assert sorted(thick) == [3, 4]


def test_the_largest_unit_is_told(tmp_path: Path) -> None:
    args = ["kit", "4003-1758", "--only", "pieces", "--out", str(tmp_path / "o")]
    said = CliRunner().invoke(main, args).output
    assert "so they are 5 mm wide; on A4 the most is --unit 5.52" in said


@pytest.mark.parametrize(
    ("paper", "words", "look"),
    pairs(("a4", "letter", "a3", "legal"), ("en-GB", "es"), ("plain", "bold")),
)
def test_the_largest_unit_has_room_for_a_band_and_the_legend(
    paper: str, words: str, look: str
) -> None:
    found = fitted_paper(paper)
    most = most_unit(Page.upright(found))
    press = Press(words=designs.words(words), look=designs.look(look))
    for unit in (most, for_thousands(found).unit_mm):
        style = press.style(replace(found, unit_mm=unit))
        sheet = thousand_sheets(9, style)[-1]  # one alone
        assert sum(item.what == "band" for item in sheet.items) == 1
        said = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
        assert all(style.words(f"thousand.{way}") in said for way in ("to", "away"))
    with pytest.raises(RefusedError, match=f"{most:g}"):
        check_thousand(replace(found, unit_mm=round(most + 0.01, 2)))


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
@pytest.mark.parametrize("words", ["en-GB", "en-US", "es"])
@pytest.mark.parametrize("look", ["plain", "bold"])
def test_the_exchange_board_has_a_frame_for_ten_hundreds(paper: str, words: str, look: str) -> None:
    """Ten hundreds fill 1000 units, as large as an opened thousand, on a sheet of their own."""
    press = Press(words=designs.words(words), look=designs.look(look))
    style = press.style(for_thousands(fitted_paper(paper)))
    boards = [sheet.items[0].content for sheet in board_sheets(4, "words", style)]
    frames = [frame for one in boards if isinstance(one, Board) for frame in one.frames]
    assert [frame.source for frame in frames] == [2, 1, 3]
    rect = frames[-1].rect
    assert sorted((rect.width, rect.height)) == [20 * style.unit, 50 * style.unit]
    assert len(frames[-1].slots) == 10
    assert all(rect.holds(slot) for slot in frames[-1].slots)
    for sheet in board_sheets(4, "words", style):
        area = sheet.items[0].rect
        board = sheet.items[0].content
        assert isinstance(board, Board)
        assert all(area.holds(box) for box in board.boxes)


def test_several_thousands_lie_in_a_pile_on_the_mat_as_in_pictures() -> None:
    request = Request((Sum(4003, 1758),), fitted_paper("letter"), parts=("mats",))
    sheets = laid_out(held(request), request).sheets
    tiles = [i.content for s in sheets for i in s.items if isinstance(i.content, MatTile)]
    slots = tiles[0].mat.zone("whole", 3).slots
    steps = {round(b.x - a.x, 3) for a, b in pairwise(slots)}
    assert len(slots) == 4
    assert steps == {paper_of(request).unit_mm / 2}


def test_a_plan_of_four_places_is_printed_and_drawn() -> None:
    rows = ("pieces,4003,1758", "both,7231,2684", "drawn,9412,5637", "written,6003,1748")
    days = (f"2027-01-{11 + k},1,{k + 1},practice,{row}" for k, row in enumerate(rows))
    tasks = read_plan("\n".join(("date,week,day,phase,kind,whole,part", *days)))
    request = Request(plan_sums(tasks), fitted_paper("a4"), plan=tasks)
    kinds = {sheet.kind for sheet in laid_out(held(request), request).sheets}
    assert {SheetKind.WEEK, SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY} <= kinds


def test_how_a_thousand_is_drawn_is_told_where_there_is_one() -> None:
    words = designs.words("en-GB")
    told = [writing([sum_], words).draw_told for sum_ in (Sum(634, 258), LESSON)]
    assert ["thousand" in said for said in told] == [False, True]
    stages = writing([LESSON], words).drawing
    assert all(any(cluster.place == 3 for cluster in stage) for stage in stages)


def test_a_drawn_thousand_is_higher_than_a_drawn_hundred() -> None:
    high = [
        max(item.rect.bottom for item in drawn_block((Cluster(place, 1),), 1.0).items)
        for place in (2, 3)
    ]
    assert high[1] > high[0]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_cutting_and_packing_tell_of_thousands(paper: str) -> None:
    laid = usual(paper)
    assert laid.cutting
    check_plan(laid.cutting)
    said = {
        kind: [
            item.content.text
            for sheet in laid.sheets
            for item in sheet.items
            if sheet.kind is kind and isinstance(item.content, Line)
        ]
        for kind in (SheetKind.COVER, SheetKind.CUTTING)
    }
    assert any("Cups will do" in line for line in said[SheetKind.COVER])
    assert "4 thousands" in said[SheetKind.CUTTING]  # to be counted into an envelope
    assert "Thousands" in said[SheetKind.CUTTING]  # among the other sheets


def test_the_exchange_card_of_a_thousand_shows_its_layers() -> None:
    # A hundred of 50 mm, and under it ten layers in one unit: nine edges between them.
    style = Press().style(fitted_paper("a4", unit=5))
    (sheet,) = exchange_sheets([ExchangeCard(3, "1 thousand is 10 hundreds")], style)
    card = sheet.items[0].content
    assert isinstance(card, ExchangeFrames)
    assert (card.one.width, card.one.height) == pytest.approx((50, 55))
    canvas = Canvas("card", sheet.width, sheet.height, style.look)
    draw_exchange_card(canvas, card, sheet.items[0].rect, style.unit)
    below = {
        y1
        for mark in canvas.drawing().marks
        if isinstance(mark, Strokes)
        for x1, y1, x2, y2 in mark.lines
        if y1 == y2 and card.one.y + 50.1 < y1 < card.one.bottom - 0.1
        if x1 < card.one.right and x2 > card.one.x
    }
    assert len(below) == 9


@pytest.mark.parametrize(("paper", "cuts"), [("a4", 5 + 2 + 4), ("letter", 5 + 2 + 4)])
def test_slits_bands_and_folding_are_in_cuts_and_minutes(paper: str, cuts: int) -> None:
    sheets = [s for s in usual(paper).sheets if s.kind is SheetKind.THOUSANDS]
    assert [(s.copies, s.snips) for s in sheets] == [
        (2, 2 + 4)
    ]  # two slits; two bands: four sides, one a cut
    takes = estimate(sheets, [0.0], 1, EstimateWish())
    assert takes.cuts == 2 * cuts
    assert takes.fold_minutes == 4 * 2


@pytest.mark.parametrize(("paper", "words"), [("letter", "en-GB"), ("letter", "es"), ("a4", "es")])
def test_a_slit_is_told_from_a_cut_by_scissors_and_a_legend(paper: str, words: str) -> None:
    request = asked(paper, words)
    sheet = next(s for s in usual(paper, words).sheets if s.kind is SheetKind.THOUSANDS)
    said = {item.content.text for item in sheet.items if isinstance(item.content, Line)}
    say = request.press.words
    assert {say("thousand.to"), say("thousand.away")} <= said
    assert {say("thousand.slit"), say("thousand.until")} & said, "of these one"
    signs = [item.rect for item in sheet.items if item.what == "pictogram"]
    slits = [
        x
        for item in sheet.items
        if isinstance(item.content, Thousands)
        for x, *_ in item.content.slits
    ]
    assert all(any(r.x - 0.5 < x < r.right and r.width >= 3 for r in signs) for x in slits)
    assert sum(item.what == "band" for item in sheet.items) == 2


def test_each_home_bag_holds_the_page_on_folding() -> None:
    cutting = CutWish(29, children=29, home=True)
    wish = Request((Sum(3421, 1768),), fitted_paper("a4"), parts=("pieces",), cutting=cutting)
    sheets = laid_out(held(wish), wish).sheets
    assert [s.copies for s in sheets if s.kind is SheetKind.FOLDING] == [29]
    alone = replace(wish, cutting=CutWish(29, children=29))
    sheets = laid_out(held(alone), alone).sheets
    assert [s.copies for s in sheets if s.kind is SheetKind.FOLDING] == [1]


def test_two_sums_of_four_places_are_told_what_a_kit_for_tonight_holds(tmp_path: Path) -> None:
    out = ["--out", str(tmp_path / "o")]
    said = CliRunner().invoke(main, ["kit", "4003-1758", "8524-3857", "--mini", *out])
    assert said.exit_code == 2
    assert "leave out --mini, or give smaller numbers" in said.stderr
    assert CliRunner().invoke(main, ["kit", "403-158", "524-57", "--mini", *out]).exit_code == 2


def test_the_way_out_of_a_card_too_large_is_open(tmp_path: Path) -> None:
    args = ["kit", "4003-1758", "--paper", "a5", "--only", "cards", "--look", "bold"]
    args += ["--out", str(tmp_path / "o")]
    said = CliRunner().invoke(main, args).stderr
    assert "choose --unit 8.3 or less, or leave exchange cards out with --kinds tasks" in said
    assert CliRunner().invoke(main, [*args, "--unit", "8.3"]).exit_code == 0
    assert CliRunner().invoke(main, [*args, "--kinds", "tasks"]).exit_code == 0


def test_a_key_says_what_to_do_where_the_pieces_are_too_few() -> None:
    words = designs.words()
    tasks = tuple(
        Task(None, 1, 1, "practice", "written", Sum(*n)) for n in ((4003, 1758), (8524, 3857))
    )
    for few, foot in ((Pieces(13, 10, 10, 4), "key_foot_few"), (Pieces(19, 19, 19, 9), "key_foot")):
        (key,) = worksheets(tasks, words, daily=False, pieces=few)[1]
        assert key.foot == words(f"worksheet.{foot}")


@pytest.mark.parametrize(("words", "paper"), [("es", "a4"), ("en-GB", "a3"), ("es", "a3")])
def test_a_lesson_in_large_type_fits(words: str, paper: str, tmp_path: Path) -> None:
    # its last page had columns so large that the heading beside them, or marks, had no room
    args = ("kit", "4002-1768", "--look", "bold", "--words", words, "--paper", paper)
    told = CliRunner().invoke(main, [*args, "--only", "guide", "--out", str(tmp_path)])
    assert told.exit_code == 0, told.output


@pytest.mark.parametrize(("words", "paper"), each(("en-GB", "es"), ("a4", "letter", "a3")))
def test_no_step_of_a_lesson_stands_alone_on_its_last_page(paper: str, words: str) -> None:
    """Nine steps are four, three and two, not four, four and one."""
    press = Press(words=designs.words(words))
    asked = Request((read_sum("4002 - 1768"),), fitted_paper(paper), press=press, parts=("guide",))
    pages = [s for s in laid_out(held(asked), asked).sheets if s.kind is SheetKind.LESSON]
    steps = [sum(item.what == "step_number" for item in page.items) for page in pages]
    assert sum(steps) == 9
    assert min(steps) > 1


def test_a_whole_card_stands_below_the_labels_of_a_large_sheet() -> None:
    """A little one beside them left the lower third of A3 empty."""
    asked = Request((read_sum("4002 - 1768"),), fitted_paper("a3"), parts=("pieces", "cards"))
    sheets = laid_out(held(asked), asked).sheets
    sheet = next(s for s in sheets if s.kind is SheetKind.EXCHANGE_CARDS)
    labels = [item.rect for item in sheet.items if item.what == "label"]
    cards = [item.rect for item in sheet.items if item.what == "card_frame"]
    assert len(cards) == 2
    assert min(card.y for card in cards) > max(label.bottom for label in labels)
    assert min(card.height for card in cards) > 70


def test_a_worksheets_column_holds_two_numbers_above_each_other() -> None:
    # Across two zeros 10 is written, struck, and 9 above it, by a child: 10 mm for both at least.
    pages = [sheet for sheet in usual().sheets if sheet.kind is SheetKind.WORKSHEET]
    frames = [(i.rect, sheet) for sheet in pages for i in sheet.items if i.what == "columns"]
    assert frames
    for frame, sheet in frames:
        dashed = [i.rect.y for i in sheet.items if i.content == Rule("dashed")]
        marks = min(y - frame.y for y in dashed if y > frame.y)
        assert frame.width / 4 >= 12 and marks >= 10
        named = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
        assert named.count("Th") == sum(s is sheet for _, s in frames)


def test_a_step_alone_in_its_row_fills_it_and_ten_tens_stay_apart() -> None:
    # Steps 5 and 6 stand beside each other, 7 below them: a quarter of the page was empty.
    lessons = [s for s in usual().sheets if s.kind is SheetKind.LESSON]
    zones = [[i.rect for i in sheet.items if i.what == "zone"] for sheet in lessons]
    low = max(zones[1], key=lambda zone: zone.y)
    assert low.width == pytest.approx(max(z.width for z in zones[-1]))
    tens = [
        item.content
        for item in lessons[0].items
        if isinstance(item.content, SmallPieces)
        and len(item.content.rects) == 10
        and item.content.rects[0].width < item.content.rects[0].height / 5
    ]
    for pieces in tens:
        gaps = [b.x - a.right for a, b in pairwise(pieces.rects)]
        assert min(gaps) >= 0.29 * pieces.unit
    assert tens


def test_a_further_kind_says_how_often_it_exchanges() -> None:
    words = designs.words("en-GB")
    lessons = guide((Sum(43, 17), Sum(3214, 1568), Sum(431, 257)), words)
    further = next(lesson for lesson in lessons if isinstance(lesson, Strips))
    titles = [one.title for one in further.strips]
    assert titles == ["Three exchanges: 3214 − 1568", "Two exchanges: 431 − 257"]
