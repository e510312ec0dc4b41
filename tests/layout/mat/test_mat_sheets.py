"""Mats on paper: what is printed, what is said before printing, the board and the record."""

from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from pdf_lines import page_lines
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.cli.mat_lines import mat_said
from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import Arrangement, MatWish, roles
from kitbuilder.layout.mat.exchange_board import Board, board_sheets
from kitbuilder.layout.mat.frames import Box, Frame, stacked
from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.mat.mat_set import MatSet, mat_set
from kitbuilder.layout.mat.tiling import printable
from kitbuilder.layout.model import Rect
from kitbuilder.number.sums import Sum
from kitbuilder.output.pdf import pdf
from kitbuilder.request.request import fitted_paper

WORDS, LOOK = designs.words(), designs.look()
EVERY = MatWish(("subtract", "add", "exchange"))


def mats(wish: MatWish, *sums: Sum, paper: str = "a4", limit: int | None = None) -> MatSet:
    return mat_set(sums, limit, wish, Style(designs.paper(paper), WORDS, LOOK))


def pages(found: MatSet, paper: str = "a4") -> list[str]:
    """The text of every page, read from the PDF."""
    profile = designs.paper(paper)
    drawn = [draw_sheet(s, n, Style(profile, WORDS, LOOK)) for n, s in enumerate(found.sheets, 1)]
    reader = PdfReader(BytesIO(pdf(drawn, "mats", "en-GB")))
    return [page.extract_text() for page in reader.pages]


def test_every_page_says_what_lies_where() -> None:
    whole, part, first, second, together, board = pages(mats(EVERY, Sum(634, 258)))
    for text in (whole, part, first, second, together, board):
        for heading in ("hundreds", "tens", "ones"):
            assert heading in text  # headings are repeated over every sheet that has room
    assert "the whole" in whole
    assert "the part taken out" in part
    assert "cut here, join 1 to 1" in whole
    assert "cut here, join 1 to 1" in part
    assert ("one part" in first, "the other part" in second) == (True, True)
    assert "all together" in together
    assert "10 tens fill 1 hundred" in board
    assert "10 ones fill 1 ten" in board


@pytest.mark.parametrize(
    ("headings", "expected"),
    [("words", ["tens", "ones"]), ("numbers", ["10", "1"]), ("letters", ["T", "O"])],
)
def test_headings_come_in_three_kinds(headings: str, expected: list[str]) -> None:
    wish = MatWish(headings=headings)  # type: ignore[arg-type]
    (text,) = pages(mats(wish, Sum(71, 48)))
    assert text.split()[:2] == expected


def test_all_papers_and_arrangements_are_drawn_inside_the_margins() -> None:
    # draw_sheet fails for words outside the margins or on top of each other.
    for paper in ("a3", "a4", "legal", "letter"):
        for arrangement in ("two", "three", "beside"):
            wish = MatWish(("subtract", "add", "exchange"), arrangement)
            found = mats(wish, Sum(634, 258), paper=paper, limit=1000)
            profile = designs.paper(paper)
            for number, sheet in enumerate(found.sheets, 1):
                draw_sheet(sheet, number, Style(profile, WORDS, LOOK))


def test_a_child_reads_an_x_height_of_5_mm() -> None:
    # Wilkins et al. 2009, J. Res. Reading 32:402-412 (read): 9 % faster than at 4.2 mm.
    assert metrics.x_height(LOOK.type_mm.child) >= 5.0


def test_the_sentence_before_printing() -> None:
    (plan,) = mats(MatWish(), Sum(634, 258)).plans
    assert str(mat_said(plan)) == (
        "The mat is 29 by 40 cm on 2 sheets of A4, turned, joined edge to edge: it holds "
        "6 hundreds at once in 634 − 258; 13 tens at once in 634 − 258 if the tens are taken "
        "first; 14 ones at once in 634 − 258."
    )
    (plan,) = mats(MatWish(), Sum(653, 158)).plans
    assert "15 tens at once in 653 − 158 when the parts are pushed together" in str(mat_said(plan))
    (plan,) = mats(MatWish(("add",)), Sum(12, 3)).plans
    assert str(mat_said(plan)) == (
        "The addition mat is 20 by 29 cm on one sheet of A4: it holds 1 ten at once in 3 + 9; "
        "12 ones at once in 3 + 9."
    )


def test_every_mat_made_is_named_before_printing(tmp_path: Path) -> None:
    args = ["mats", "634-258", "--mats", "exchange", "--out", str(tmp_path)]
    board = "The exchange board is 1 sheet: a bank for spare pieces, and frames to fill."
    told = CliRunner().invoke(main, args).stdout
    assert told.splitlines()[0] == board
    told = CliRunner().invoke(main, [*args, "--mats", "subtract,add,exchange"]).stdout
    mat, addition, last, *_ = told.splitlines()
    assert mat.startswith("The mat is ")
    assert addition.startswith("The addition mat is ")
    assert last == board
    told = CliRunner().invoke(main, [*args, "--unit", "11"]).stdout
    assert told.startswith("The exchange board is 2 sheets: ")


def test_the_board_has_true_frames_on_one_page() -> None:
    for name in ("a4", "a3", "letter", "legal"):
        paper = designs.paper(name)
        (sheet,) = board_sheets(3, "words", Style(paper, WORDS, LOOK))
        board = sheet.items[0].content
        assert isinstance(board, Board)
        inside = printable(paper, sheet.width != paper.width_mm)
        assert all(inside.holds(box) for box in board.boxes)
        hundred, ten = board.frames
        assert (hundred.rect.width, hundred.rect.height) == (100, 100)
        assert (ten.rect.width, ten.rect.height) == (10, 100)
        for frame in board.frames:
            assert len(frame.slots) == 10
            assert sum(s.width * s.height for s in frame.slots) == pytest.approx(
                frame.rect.width * frame.rect.height
            )


def test_the_board_of_two_places_and_of_large_units() -> None:
    paper = designs.paper("a4")
    assert board_sheets(1, "words", Style(paper, WORDS, LOOK)) == ()
    (sheet,) = board_sheets(2, "words", Style(paper, WORDS, LOOK))
    board = sheet.items[0].content
    assert isinstance(board, Board)
    assert [f.source for f in board.frames] == [1]
    assert len(board_sheets(3, "words", Style(fitted_paper("a4", unit=11.0), WORDS, LOOK))) == 2
    with pytest.raises(RefusedError, match="exchange board"):
        board_sheets(3, "words", Style(fitted_paper("a4", unit=19.0), WORDS, LOOK))


def test_halves_of_a_diamond_and_the_number_meet() -> None:
    found = mats(MatWish(arrangement="beside"), Sum(634, 258))
    joins: dict[int, list[tuple[str, tuple[float, ...]]]] = {}
    for sheet in found.sheets:
        tile = sheet.items[0].content
        assert isinstance(tile, MatTile)
        for join in tile.joins:
            joins.setdefault(join.number, []).append((join.edge, join.diamonds))
            for mark, spot in zip(join.marks, join.diamonds, strict=True):
                level = join.edge in ("top", "bottom")
                assert (mark.x if level else mark.y) == pytest.approx(spot + 3)
                assert tile.area.holds(mark)
            assert join.box is not None
            assert tile.area.holds(join.box)
    opposite = {("bottom", "top"), ("right", "left")}
    assert sorted(joins) == [1, 2, 3]  # whole to part, whole to rest, part to rest
    for (edge, spots), (other, others) in joins.values():
        assert (edge, other) in opposite
        assert spots == others


def test_where_words_leave_no_room_for_two_marks_of_a_join_there_is_one() -> None:
    # In bold Spanish on Letter the names of the zones leave 10 mm of the second join free.
    words, look, sum_ = designs.words("es"), designs.look("bold"), Sum(928, 771)
    sheets = mat_set((sum_,), None, MatWish(), Style(designs.paper("letter"), words, look)).sheets
    tiles = [sheet.items[0].content for sheet in sheets]
    joins = [join for tile in tiles if isinstance(tile, MatTile) for join in tile.joins]
    assert (
        sorted((join.number, len(join.diamonds)) for join in joins) == [(1, 2)] * 2 + [(2, 1)] * 2
    )


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
@pytest.mark.parametrize("arrangement", ["two", "three", "beside"])
def test_a_sketch_shows_how_the_sheets_join(arrangement: Arrangement, paper: str) -> None:
    found = mats(MatWish(arrangement=arrangement), Sum(634, 278), paper=paper)
    tiles = [s.items[0].content for s in found.sheets]
    drawn = [t for t in tiles if isinstance(t, MatTile) and t.sketch]
    assert len(drawn) == 1 and drawn[0].sketch is not None
    tile, box = drawn[0], drawn[0].sketch
    assert tile.area.holds(box)
    assert not any(label.rect.overlaps(box) for label in tile.mat.labels)
    # its pages' numbers: those of the mat's own pages, which follow each other
    texts = pages(found, paper)
    first = texts[tile.number - 1].split()
    assert "pages" in first
    after = first[first.index("pages") + 1 :]
    assert after[: len(tiles)] == [str(n) for n in range(1, len(tiles) + 1)]


def test_a_mat_of_one_sheet_has_no_sketch() -> None:
    tile = mats(MatWish(), Sum(71, 48)).sheets[0].items[0].content
    assert isinstance(tile, MatTile)
    assert tile.sketch is None


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
@pytest.mark.parametrize("arrangement", ["two", "three", "beside"])
def test_words_and_numbers_at_a_join_keep_clear_of_every_mark(
    arrangement: Arrangement, paper: str
) -> None:
    # A diamond is 3 mm each way from its spot on the edge; half of it lies on either sheet.
    found = mats(MatWish(arrangement=arrangement), paper=paper, limit=1000)
    named = 0
    for sheet in found.sheets:
        tile = sheet.items[0].content
        assert isinstance(tile, MatTile)
        boxes = [join.box for join in tile.joins if join.box]
        again = [x.rect for x in tile.mat.labels if x.kind == "again" and tile.area.holds(x.rect)]
        named += len(boxes)
        for join in tile.joins:
            level = join.edge in ("top", "bottom")
            line = getattr(tile.area, {"left": "x", "top": "y"}.get(join.edge, join.edge))
            for spot in join.diamonds:
                x, y = (spot, line) if level else (line, spot)
                mark = Rect(x - 3, y - 3, 6, 6)
                assert not any(mark.overlaps(box) for box in (*boxes, *again))
            rects = (*(zone.rect for zone in tile.mat.zones), *tile.mat.outlines)
            ends = [e for r in rects for e in ((r.x, r.right) if level else (r.y, r.bottom))]
            for mark in join.marks:
                assert not any(mark.overlaps(box) for box in (*boxes, *again))
                low, high = (mark.x, mark.right) if level else (mark.y, mark.bottom)
                assert not any(low < end < high for end in ends)  # no line strikes the number
    assert named >= 2 * (len(found.sheets) - 1)  # both sides of each join, at the least


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_zones_beside_each_other_end_at_a_join_and_are_named_on_every_sheet(paper: str) -> None:
    found = mats(MatWish(arrangement="beside"), paper=paper, limit=1000)
    mat = found.plans[0].mat
    whole, part, rest = mat.outlines
    assert part.right == pytest.approx(rest.x, abs=1e-6)
    assert (part.x, rest.right) == pytest.approx((whole.x, whole.right), abs=1e-6)
    for tile in mat.tiles:
        crossing = [box for box in (part, rest) if box.x + 1e-6 < tile.x < box.right - 1e-6]
        assert not crossing  # no sheet begins within a part
        shown = {
            role
            for role, box in zip(roles("beside"), mat.outlines, strict=True)
            if box.common(tile)
        }
        named = {x.role for x in mat.labels if tile.holds(x.rect) and x.kind in ("role", "again")}
        assert shown <= named


def test_a_frame_of_the_board_is_printed_at_true_size() -> None:
    # Read back by pdfium: a hundred is 100 mm both ways and its ten slots are 10 mm wide.
    profile = designs.paper("letter")
    (sheet,) = board_sheets(3, "words", Style(profile, WORDS, LOOK))
    data = pdf([draw_sheet(sheet, 1, Style(profile, WORDS, LOOK))], "board", "en-GB")
    lines = page_lines(pdfium.PdfDocument(data)[0])
    down = sorted({round(x1, 2) for x1, y1, x2, y2 in lines if x1 == x2 and abs(y2 - y1) > 99.9})
    across = [abs(x2 - x1) for x1, y1, x2, y2 in lines if y1 == y2]
    assert sum(abs(length - 100) < 0.05 for length in across) >= 2
    slots = [b - a for a, b in pairwise(down) if abs(b - a - 10) < 0.05]
    assert len(slots) >= 11  # ten in the hundred, one across the ten


@pytest.mark.parametrize("places", [2, 3])
def test_each_box_of_the_bank_holds_its_pieces_and_fingers(places: int) -> None:
    # Five ones in a row, one ten, one hundred, and 5 mm for fingers on either side (a choice):
    # with letters for headings it is the pieces that say how wide a box is.
    paper = replace(designs.paper("a4"), unit_mm=13.0)
    sheets = board_sheets(places, "letters", Style(paper, WORDS, LOOK))
    board = sheets[0].items[0].content
    assert isinstance(board, Board)
    for box, units in zip(board.boxes, (10, 1, 5)[-places:], strict=False):
        assert box.width >= units * 13 + 10
        assert box.height >= 130 + 10


def test_the_narrower_of_two_zones_stands_in_the_middle() -> None:
    def of(width: float) -> Frame:
        sheet = Rect(0, 0, width, 50)
        return Frame((), (Box("whole", 0, sheet),), (), (), (sheet,), (False,), 0)

    for upper, lower in ((100, 40), (40, 100)):
        both = stacked(of(upper), of(lower))
        assert both is not None
        spans = [(box.rect.x, box.rect.right, box.rect.y) for box in both.cells]
        assert sorted(x for x, _, _ in spans) == [0, 30]  # 100 - 40 leaves 30 on either side
        assert [x + right for x, right, _ in spans] == [100, 100]
        assert [y for _, _, y in spans] == [0, 50]


def test_a_wish_checks_itself() -> None:
    assert mats(MatWish()).sheets == ()  # no sums, no mat
    for change in ({"kinds": ("x",)}, {"arrangement": "add"}, {"headings": "x"}):
        with pytest.raises(ValueError, match="MatWish"):
            MatWish(**change)
