"""The strip below the pieces: labels and a bar where there is room, never on a piece or a line."""

from dataclasses import replace

import pytest
from grids import each, pairs

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, SmallPieces
from kitbuilder.layout.picture.heaps import LEAST, heaps
from kitbuilder.layout.pieces.making import Making
from kitbuilder.number import Pieces, Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, Sturdy, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Part, Request


def sheets(pieces: Pieces, unit: float = 10, paper: str = "a4", look: str = "plain") -> list[Sheet]:
    style = Style(replace(designs.paper(paper), unit_mm=unit), look=designs.look(look))
    plan = Making().plan(pieces, style.paper, CutWish())
    return list(Making().sheets(plan, pieces, style, CutWish()))


def extras(sheet: Sheet) -> list[Item]:
    return [item for item in sheet.items if item.content is not None]


def test_the_strip_bears_a_label_for_each_kind() -> None:
    (sheet,) = sheets(Pieces(15, 10, 3))
    said = [item.content.text for item in extras(sheet) if isinstance(item.content, Line)]
    assert {"3 hundreds", "10 tens", "15 ones"} <= set(said)


def test_only_one_sheet_has_labels() -> None:
    labelled = [
        any(item.what == "label" for item in sheet.items) for sheet in sheets(Pieces(18, 19, 9))
    ]
    assert sum(labelled) == 1


SHEETS = (("a4", 10), ("letter", 8), ("a5", 9), ("a3", 13))


def test_a_full_sheet_has_none() -> None:
    # 56 strips of ten fill the 28 rows of two columns.
    (sheet,) = sheets(Pieces(0, 56, 0))
    assert {item.what for item in sheet.items} == {"tens", "cut_mark"}


@pytest.mark.parametrize(
    ("paper", "unit", "look"),
    [(*sheet, look) for sheet, look in each(SHEETS, designs.names("looks"))],
)
def test_nothing_lies_on_a_piece_or_on_a_line_to_cut(paper: str, unit: float, look: str) -> None:
    for pieces in (Pieces(15, 10, 3), Pieces(10, 0, 0), Pieces(19, 19, 9)):
        for sheet in sheets(pieces, unit, paper, look):
            placed = [item.rect for item in sheet.items if item.content is None]
            for item in extras(sheet):
                assert not any(item.rect.overlaps(rect) for rect in placed), item
                for cut in sheet.cuts:
                    across = cut.y1 == cut.y2 and cut.x1 < item.rect.right - 0.01
                    if across and cut.x2 > item.rect.x + 0.01:
                        assert not item.rect.y < cut.y1 < item.rect.bottom, (item, cut)
            draw_sheet(sheet, 1, Style(replace(designs.paper(paper), unit_mm=unit)))


@pytest.mark.parametrize("what", ["hundreds", "tens", "ones"])
@pytest.mark.parametrize("count", [1, 5, 9, 19])
def test_a_heap_fits_its_room_and_shows_every_piece(what: str, count: int) -> None:
    (block,) = heaps([(what, count)], [(40, 20)])
    (pieces,) = (i.content for i in block.items if isinstance(i.content, SmallPieces))
    assert len(pieces.rects) == min(count, 9 if what == "hundreds" else count)
    assert block.width <= 40 and block.height <= 20
    assert pieces.unit >= LEAST
    assert all(rect.right <= block.width + 1e-6 for rect in pieces.rects)


def test_heaps_beside_each_other_are_of_one_scale() -> None:
    # 15 ones would fit their room at 3 mm; the tens leave 40 / 15.1 of one, the hundreds 20 / 11.
    kinds = [("hundreds", 3), ("tens", 10), ("ones", 15)]
    blocks = heaps(kinds, [(40, 20)] * 3)
    found = [i.content for block in blocks for i in block.items]
    units = {content.unit for content in found if isinstance(content, SmallPieces)}
    assert units == {20 / 11}
    hundred, ten, one = (b.rects[0] for b in found if isinstance(b, SmallPieces))
    assert hundred.width == hundred.height == ten.height == pytest.approx(10 * one.width)


def exchange(paper: str, words: str = "en-GB", look: str = "plain", kits: int = 1) -> list[Sheet]:
    press = Press(words=designs.words(words), look=designs.look(look))
    sums = (Sum(431, 257), Sum(43, 17))
    cutting = CutWish(kits)
    parts: tuple[Part, ...] = ("pieces", "mats", "cards")
    request = Request(sums, fitted_paper(paper), press=press, parts=parts, cutting=cutting)
    sheets = laid_out(held(request), request).sheets
    labelled = [s for s in sheets if any(i.what == "label" and i.content for i in s.items)]
    return [s for s in labelled if s.kind in ("pieces", "exchange_cards")]


@pytest.mark.parametrize(
    ("paper", "words", "look"), pairs(("a4", "letter", "a3"), ("en-GB", "es"), ("plain", "bold"))
)
def test_envelopes_have_labels_on_one_sheet_of_card(paper: str, words: str, look: str) -> None:
    (sheet,) = exchange(paper, words, look)
    labels = [i.rect for i in sheet.items if i.what == "label"]
    assert len(labels) == 3
    heaps_ = [
        i.rect for i in sheet.items if isinstance(i.content, SmallPieces) and i.what == "pieces"
    ]
    shown = [heap for heap in heaps_ if any(label.overlaps(heap) for label in labels)]
    assert len(shown) == 3  # clear of the frame: a pile lay on it in large type
    assert all(any(label.inset(2.9).holds(heap) for label in labels) for heap in shown)
    cut = [i.rect for i in sheet.items if i.content is None or i.what == "exchange_card"]
    assert not [label for label in labels for rect in cut if label.overlaps(rect)]
    for line in sheet.cuts:
        x, y = min(line.x1, line.x2), min(line.y1, line.y2)
        long = Rect(x, y, abs(line.x2 - line.x1) + 0.01, abs(line.y2 - line.y1) + 0.01)
        assert not [label for label in labels if label.overlaps(long)]


def test_full_sheets_of_pieces_leave_the_labels_to_the_exchange_cards() -> None:
    assert [sheet.kind for sheet in exchange("a5")] == ["exchange_cards"]


def test_a_class_set_has_labels_for_its_bags_alone() -> None:
    assert exchange("a4", kits=5) == []


@pytest.mark.parametrize("words", designs.names("words"))
def test_a_card_beside_labels_is_told_of_there_and_where_cutting_is_shown(words: str) -> None:
    style = Style(fitted_paper("a4"), designs.words(words))
    request = Request(first_wishes().sums, style.paper, press=Press(words=style.words))
    made = laid_out(held(request), request).sheets
    by_kind = {sheet.kind: [i.content.text for i in sheet.items if isinstance(i.content, Line)]
               for sheet in made if sheet.kind in ("exchange_cards", "cutting")}  # fmt: skip
    assert style.words("scissors.rest_card") in by_kind[SheetKind.EXCHANGE_CARDS]
    assert style.words("scissors.kept.both_one") in by_kind[SheetKind.CUTTING]


@pytest.mark.parametrize("sturdy", ["fold", None])
def test_a_fold_is_told_at_the_foot_of_its_sheet(sturdy: Sturdy | None) -> None:
    # Among the grey lines of a grid it was the hardest to find, and nothing named it.
    request = Request(first_wishes().sums, fitted_paper("a4"), press=Press(sturdy=sturdy))
    made = [s for s in laid_out(held(request), request).sheets if s.kind == SheetKind.PIECES]
    said = {i.content.text for s in made for i in s.items if isinstance(i.content, Line)}
    assert (request.press.words("scissors.dashed") in said) == (sturdy == "fold")


def test_what_runs_to_the_sheets_edge_is_not_hatched_as_a_ten() -> None:
    # a margin as wide as a ten, with no line at its outer side
    letter = replace(designs.paper("letter"), unit_mm=5.0, margins_mm=Margins(5, 5, 5, 5))
    pieces, style = Pieces(0, 9, 20), Style(letter)
    plan = Making().plan(pieces, letter, CutWish())
    for sheet in Making().sheets(plan, pieces, style, CutWish()):
        assert not any(item.what == "hatch" for item in sheet.items)
