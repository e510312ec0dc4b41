"""Mats on paper: what is printed, what is said before printing, the board and the record."""

import json
from dataclasses import replace
from io import BytesIO
from itertools import pairwise, product
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from grids import pairs, some
from pdf_lines import page_lines
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.cli.told import mat_lines
from kitbuilder.cli.told.mat_lines import mat_said
from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.mat_tiles import guides
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import BANDS, ZONES, MatWish
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.lesson import guide_pages
from kitbuilder.layout.mat.exchange_board import Board, board_sheets
from kitbuilder.layout.mat.join_notes import with_joins
from kitbuilder.layout.mat.joins import FACE
from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.mat.mat_set import MatSet, mat_set
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Rect, SheetKind
from kitbuilder.layout.parts.contents import Line, PageNumber, Ruler
from kitbuilder.number.scale import HUNDREDTHS
from kitbuilder.number.sums import Sum
from kitbuilder.output.pdf.document import pdf
from kitbuilder.pipeline import prepare
from kitbuilder.request.request import Request, fitted_paper

WORDS, LOOK = designs.words(), designs.look()
EVERY = MatWish(("subtract", "add", "exchange"))
TWO_SUMS = (Sum(43, 17), Sum(634, 258))


def mats(wish: MatWish, *sums: Sum, paper: str = "a4", limit: int | None = None) -> MatSet:
    return mat_set(sums, limit, wish, Style(designs.paper(paper), WORDS, LOOK))


def pages(found: MatSet, paper: str = "a4") -> list[str]:
    """The text of every page, read from the PDF."""
    style = Style(designs.paper(paper), WORDS, LOOK)
    joined = with_joins(found.sheets, style)
    drawn = [draw_sheet(sheet, number, style) for number, sheet in enumerate(joined, 1)]
    reader = PdfReader(BytesIO(pdf(drawn, "mats", "en-GB")))
    return [page.extract_text() for page in reader.pages]


def test_every_page_says_what_lies_where() -> None:
    whole, part, together, first, second, board = pages(mats(EVERY, Sum(634, 258)))
    for text in (whole, part, together, first, second, board):
        for heading in ("hundreds", "tens", "ones"):
            assert heading in text
    assert "the whole" in whole
    assert "the bank is beyond this edge" in whole
    assert "each a little lower and to the right" in " ".join(whole.split())
    assert "the part" in part
    assert "Cut off this edge. Glue page 2 behind it" in whole
    assert "Glue this page behind page 1:" in part
    assert ("one part" in first, "the other part" in second) == (True, True)
    assert "all together" in together  # the whole lies above its parts here too
    assert "the bank is beyond this edge" in together
    assert "10 tens fill 1 hundred" in board
    assert "10 ones for 1 ten" in board


@pytest.mark.parametrize(
    ("headings", "expected"),
    [("words", ["tens", "ones"]), ("numbers", ["10", "1"]), ("letters", ["T", "O"])],
)
def test_headings_come_in_three_kinds(headings: str, expected: list[str]) -> None:
    wish = MatWish(headings=headings)  # type: ignore[arg-type]
    (text,) = pages(mats(wish, Sum(71, 48)))
    assert set(expected) <= set(text.split())


def test_a_heading_stands_clear_of_the_sides_of_its_column() -> None:
    # "unidades" is wider than the ones beside it: 3.5 mm are free at each side.
    style = Style(fitted_paper("letter"), designs.words("es"), LOOK)
    found = mat_set((Sum(305, 148),), None, MatWish(), style)
    mat = found.plans[0].mat
    zone = next(z for z in mat.zones if z.role == "whole" and z.place == 0)
    heading = next(label for label in mat.labels if label.text == "unidades")
    assert heading.rect.x - zone.rect.x >= 3.4
    assert zone.rect.right - heading.rect.right >= 3.4


def test_all_papers_and_arrangements_are_drawn_inside_the_margins() -> None:
    # draw_sheet fails for words outside the margins or on top of each other.
    for paper, arrangement in some(product(("a3", "a4", "legal", "letter"), ZONES), 2):
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
        "The mat is 29 by 37 cm on 2 sheets of A4, turned, glued edge under edge: it holds "
        "6 hundreds at once in 634 − 258; 13 tens at once in 634 − 258 if the tens are taken "
        "first; 14 ones at once in 634 − 258."
    )
    (plan,) = mats(MatWish(), Sum(653, 158)).plans
    assert "15 tens at once in 653 − 158 when the parts are pushed together" in str(mat_said(plan))
    (plan,) = mats(MatWish(("add",)), Sum(12, 3)).plans
    assert str(mat_said(plan)) == (
        "The addition mat is 20 by 54 cm on 2 sheets of A4, glued edge under edge: it holds "
        "1 ten at once in 3 + 9; 12 ones at once in 3 + 9."
    )


def test_every_mat_made_is_named_before_printing(tmp_path: Path) -> None:
    args = ["kit", "634-258", "--only", "mats", "--mat", "exchange", "--out", str(tmp_path)]
    board = "The exchange board is 1 sheet: a bank for spare pieces, and frames to fill."
    told = CliRunner().invoke(main, args).stdout
    assert told.splitlines()[0] == board
    told = CliRunner().invoke(main, [*args, "--mat", "subtract,add,exchange"]).stdout
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
        inside = page_of(paper, sheet.width != paper.width_mm).inside
        assert all(inside.holds(box) for box in board.boxes)
        hundred, ten = board.frames
        assert (hundred.rect.width, hundred.rect.height) == (100, 100)
        assert (ten.rect.width, ten.rect.height) == (20, 50)  # a ten-frame stands
        for frame, piece in ((hundred, 10 * 100), (ten, 10 * 10)):
            assert [s.width * s.height for s in frame.slots] == [pytest.approx(piece)] * 10
            assert all(frame.rect.holds(slot) for slot in frame.slots)
            assert not any(a.overlaps(b) for a, b in pairwise(frame.slots))


def test_one_piece_lies_beside_the_frame_of_ten_where_there_is_room() -> None:
    # A hundred beside ten tens is 200 mm and more: A3 prints 287 across, A4 200.
    for name, room in (("a3", True), ("a4", False)):
        (sheet,) = board_sheets(3, "words", Style(designs.paper(name), WORDS, LOOK))
        board = sheet.items[0].content
        assert isinstance(board, Board)
        ones = [frame.one for frame in board.frames]
        sizes = [(one.width, one.height) for one in ones if one]
        assert sizes == ([(100, 100), (10, 100)] if room else [])


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
    assert len(slots) >= 10  # in the hundred


@pytest.mark.parametrize("places", [2, 3])
def test_each_box_of_the_bank_holds_its_pieces_and_fingers(places: int) -> None:
    # Four ones in a row, one ten, one hundred, and 2 mm for fingers on either side (a choice):
    # with letters for headings it is the pieces that say how wide a box is.
    paper = replace(designs.paper("a4"), unit_mm=13.0)
    sheets = board_sheets(places, "letters", Style(paper, WORDS, LOOK))
    board = sheets[0].items[0].content
    assert isinstance(board, Board)
    for box, units in zip(board.boxes, (10, 1, 4)[-places:], strict=False):
        assert box.width >= units * 13 + 4
        assert box.height >= 130 + 4


def test_the_record_tells_how_the_sheets_join(tmp_path: Path) -> None:
    args = [
        "kit",
        "--only",
        "mats",
        "--within",
        "1000",
        "--mat",
        "subtract,add",
        "--out",
        str(tmp_path),
    ]
    assert CliRunner().invoke(main, args).exit_code == 0
    table = json.loads((tmp_path / "kit.json").read_text("utf-8"))["mat_sheets"]
    assert [(s["mat"], s["page"], s["row"], s["column"]) for s in table[:5]] == [
        ("mat", 2, 1, 1),  # page 1 says how to print
        ("mat", 3, 1, 2),
        ("mat", 4, 2, 1),
        ("mat", 5, 2, 2),
        ("addition_mat", 6, 1, 1),
    ]
    # Every join is told on both of its pages; the one above or on the left is cut.
    ends = {(s["page"], j["page"]): (j["edge"], j["cut"]) for s in table for j in s["joins"]}
    assert ends[2, 3] == ("right", True)
    assert ends[2, 4] == ("bottom", True)
    assert ends[5, 4] == ("left", False)
    assert all(
        {edge, ends[b, a][0]} in ({"left", "right"}, {"top", "bottom"}) and cut != ends[b, a][1]
        for (a, b), (edge, cut) in ends.items()
    )
    # What the pages show of the mat joins without a gap: 200 + 197 mm across.
    first, second = table[:2]
    assert second["x_mm"] == first["width_mm"] == 200
    assert second["width_mm"] == 197


def test_a_sheet_of_two_rows_says_which_page_joins_at_which_edge() -> None:
    # Pages 5 6 over 7 8, after four other pages: 7 joins below 5, and 8 below 6.
    style = Style(designs.paper("letter"), designs.words("es"), LOOK)
    found = mat_set((Sum(634, 258),), None, MatWish(), style).sheets
    cover = (replace(found[0], items=(), cuts=()),) * 4
    said, seen = [], []
    for sheet in with_joins((*cover, *found), style)[4:]:
        words = [item.content.text for item in sheet.items if isinstance(item.content, Line)]
        said.append(" ".join(word for word in words if not word.isdigit()))
        seen.append([word for word in words if word.isdigit()])
    assert "la página 6 a la derecha, la 7 abajo" in said[0]
    assert "este borde. Pegar la página 8 por detrás" in said[1]
    assert "el borde derecho. Pegar la página 8 por detrás" in said[2]
    assert "por detrás de las páginas 6 y 7" in said[3]
    assert seen == [["5", "6", "7", "8"]] * 4  # in a picture of all four


def test_faces_and_words_keep_clear_of_each_other() -> None:
    # A face is a ring of 8 mm round its spot on the edge; half of it lies on either sheet.
    for paper in ("a4", "letter", "a3"):
        found = mats(MatWish(), paper=paper, limit=1000)
        for sheet in found.sheets:
            tile = sheet.items[0].content
            assert isinstance(tile, MatTile)
            boxes = [zone.box for zone in tile.mat.zones]
            for join in tile.joins:
                assert join.faces
                level = join.edge in ("top", "bottom")
                line = getattr(tile.area, {"left": "x", "top": "y"}.get(join.edge, join.edge))
                for spot in join.faces:
                    x, y = (spot, line) if level else (line, spot)
                    face = Rect(x - FACE, y - FACE, 2 * FACE, 2 * FACE)
                    assert not any(face.overlaps(other) for other in (*tile.mat.marked, *boxes))


def test_no_second_face_stands_on_a_piece() -> None:
    """It lay over the outline of the tenths of 3.5 − 1.7, where no other place was free."""
    found = mats(MatWish(), Sum(350, 170, HUNDREDTHS), Sum(440, 170, HUNDREDTHS))
    (left, right) = (sheet.items[0].content for sheet in found.sheets)
    assert isinstance(left, MatTile) and isinstance(right, MatTile)
    slots = [slot for zone in left.mat.zones for slot in zone.slots]
    (join,) = left.joins
    assert join.edge == "right" and join.faces
    for y in join.faces:
        face = Rect(left.area.right - FACE, y - FACE, 2 * FACE, 2 * FACE)
        assert not any(face.overlaps(slot) for slot in slots)


@pytest.mark.parametrize("paper", ["a3", "a4"])
def test_ticks_beside_a_pile_keep_clear_of_the_column_line(paper: str) -> None:
    tile = mats(MatWish(), Sum(634, 258), paper=paper).sheets[0].items[0].content
    assert isinstance(tile, MatTile)
    zone = tile.mat.zones[0]
    ticks = [x for x, y, x2, y2 in guides(zone) if y == y2 and x2 <= zone.frames[0].x]
    assert ticks and min(ticks) > zone.rect.x + 0.8


def test_a_wish_checks_itself() -> None:
    assert mats(MatWish()).sheets == ()  # no sums, no mat
    for change in ({"kinds": ("x",)}, {"arrangement": "add"}, {"headings": "x"}):
        with pytest.raises(ValueError, match="MatWish"):
            MatWish(**change)


@pytest.mark.parametrize("paper", ["a3", "a4", "letter", "a5"])
def test_a_mat_stands_clear_of_its_foot(paper: str) -> None:
    # the other looks have the type of the plain one
    for words, look, of in pairs(designs.names("words"), ("plain", "bold"), TWO_SUMS):
        style = Style(designs.paper(paper), designs.words(words), designs.look(look))
        for sheet in mat_set((of,), None, MatWish(), style).sheets:
            number = next(i for i in sheet.items if isinstance(i.content, PageNumber))
            bar = next(i for i in sheet.items if isinstance(i.content, Ruler))
            assert isinstance(number.content, PageNumber)
            digits = 0.35 * number.content.size
            top = min(bar.rect.y, number.rect.y + number.rect.height / 2 - digits)
            low = max(i.rect.bottom for i in sheet.items[: sheet.items.index(bar)])
            assert top - low >= 2.0, (words, look, of)


def test_the_sheets_of_a_class_set_join_by_the_numbers_that_they_bear() -> None:
    """They were counted without the print run in front of them."""
    asked = Request((Sum(634, 258),), fitted_paper("a4"), cutting=CutWish(6, layers=3))
    sheets = prepare(asked).laid.sheets
    mat = [page for page, sheet in enumerate(sheets, 1) if sheet.kind is SheetKind.MAT]
    assert len(mat) > 1
    for page in mat:
        said = [i.content.text for i in sheets[page - 1].items if isinstance(i.content, Line)]
        assert [int(text) for text in said if text.isdigit()] == mat


def test_the_picture_of_sheets_that_lie_on_their_sides_has_room_for_their_numbers() -> None:
    """A lying sheet of Legal in its shape was lower than its number in large type."""
    style = Style(designs.paper("legal"), WORDS, designs.look("bold"))
    sheets = with_joins(mat_set((Sum(634, 258),), None, MatWish(), style).sheets, style)
    shown = [i for i in sheets[0].items if isinstance(i.content, Line) and i.content.text.isdigit()]
    assert [item.content.text for item in shown if isinstance(item.content, Line)] == ["1", "2"]
    draw_sheet(sheets[0], 1, style)  # fails for words on top of each other


def test_every_arrangement_has_a_name_after_a_run_and_in_a_refusal() -> None:
    printed = BANDS.keys() - {"level"}
    assert mat_lines._NAMES.keys() == printed
    assert guide_pages._MATS.keys() == printed - {"add"}  # no lesson is shown on it
