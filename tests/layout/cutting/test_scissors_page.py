"""The page on cutting with scissors: its letters and counts are those of the sheets."""

from collections import Counter
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner
from grids import typed
from ready_made import ready_made

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.primitives import Strokes
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import cut_map
from kitbuilder.layout.cutting.cut_tree import CutNode
from kitbuilder.layout.cutting.exploded import PictureScale, Run, column_picture, runs
from kitbuilder.layout.cutting.scissors_page import scissors_pages
from kitbuilder.layout.cutting.scissors_steps import lengths_of_strips
from kitbuilder.layout.cutting.sheet_steps import keeping, sheet_steps
from kitbuilder.layout.mat.mat_set import mat_set
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.contents import Disc, Line, NumberSquare
from kitbuilder.layout.pieces.making import Making
from kitbuilder.number import Pieces
from kitbuilder.number.sums import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum

KIT = Pieces(15, 10, 3)
GRID = typed(("a4", "letter", "a5", "a3"))


def style(paper: str = "a4", look: str = "plain", words: str = "en-GB") -> Style:
    return Style(designs.paper(paper), designs.words(words), designs.look(look))


def pages(pieces: Pieces, of: Style, kits: int = 1, making: Making | None = None) -> list[Sheet]:
    plan = (making or Making()).plan(pieces, of.paper, CutWish(kits))
    cards = Sheet(SheetKind.TASK_CARDS, 1, "card", 210, 297, (), (Cut(0, 148.5, 210, 148.5),))
    return list(scissors_pages(cut_map(plan, [cards], 1), Bag(("ones",) * (kits > 1)), of))


def said(sheets: list[Sheet]) -> list[str]:
    contents = [item.content for sheet in sheets for item in sheet.items]
    return [content.text for content in contents if isinstance(content, Line)]


def test_a_first_kit_is_cut_in_five_steps_on_one_page() -> None:
    (page,) = pages(KIT, style())
    contents = [item.content for item in page.items]
    assert sum(isinstance(content, NumberSquare) for content in contents) == 5
    assert sum(isinstance(content, Disc) for content in contents) == 4
    words = said([page])
    assert [word for word in words if word in "ABCD"] == ["A", "B", "C", "D"]
    # the left column gives two hundreds and a strip, the right one the others
    counted = [word for word in words if word in ("2 hundreds", "1 hundred", "10 tens", "1 strip")]
    assert counted == ["2 hundreds", "1 strip", "1 hundred", "10 tens", "1 strip", "10 tens"]
    assert {"3 hundreds", "15 ones", "Task cards", "1 sheet, 1 line to cut"} <= set(words)


@pytest.mark.parametrize(
    ("pieces", "unit"), [(KIT, 10), (Pieces(18, 19, 9), 9.5), (Pieces(40, 60, 0), 9), (KIT, 15)]
)
def test_the_runs_of_its_columns_are_all_pieces_of_a_sheet(pieces: Pieces, unit: float) -> None:
    paper = replace(designs.paper("a4"), unit_mm=unit)
    plan = Making().plan(pieces, paper, CutWish())
    assert plan
    for one in plan.cut_sheets:
        made = Counter[str]()
        root = one.root.halves[0] if one.root.number == Step.FOOT else one.root
        for column in root.after(Step.LENGTHWAYS):
            for run in runs(column):
                made[run.what] += run.count
            for part in column.after(Step.ACROSS):
                held = Counter(leaf.what for leaf in part.ends() if leaf.what and part.halves)
                made.update(held)
        items = Counter(item.what for item in one.printed.items)
        assert {what: made[what] for what in items} == items


def test_columns_of_tens_are_told_as_a_run() -> None:
    plan = Making().plan(Pieces(0, 12, 0), designs.paper("a4"), CutWish())
    assert plan
    columns = [n for n in plan.cut_sheets[0].root.halves[0].after(Step.LENGTHWAYS) if not n.falls]
    assert [runs(column) for column in columns] == [(Run("falls", 1), Run("tens", 12))]


def test_a_sheet_without_room_for_letters_is_told_by_its_long_lines() -> None:
    # 30 rows of 9.5 mm fill the 287 mm that print: no letter has room beside its line.
    of = Style(replace(designs.paper("a4"), unit_mm=9.5))
    words = said(pages(Pieces(0, 60, 0), of))
    assert "Cut along the long lines." in words
    assert not {"A", "B"} & set(words)


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_no_word_runs_into_another(paper: str, words: str, look: str) -> None:
    of = style(paper, look, words)
    for pieces, kits, making in (
        (KIT, 1, Making()),
        (Pieces(18, 19, 9), 12, Making()),
        (Pieces(15, 13, 2), 1, Making("fold")),
    ):
        found = pages(pieces, of, kits, making)
        plan = making.plan(pieces, of.paper, CutWish(kits))
        assert plan
        rows = len(plan.cut_sheets)  # two to a page, half a page of A5 or more each
        assert len(found) <= (3 + rows if paper == "a5" else 1 + (rows + 1) // 2)
        list(draw_pages(found, of.paper, Press(look=of.look, words=of.words)))


def test_what_is_not_cut_has_no_page() -> None:
    assert scissors_pages(cut_map(None, [], 1), Bag(), style()) == ()


def test_a_picture_shows_a_part_of_its_sheet() -> None:
    (page,) = pages(KIT, style())
    inside = Rect(0, 0, page.width, page.height)
    assert all(inside.holds(Item("x", item.rect).rect, 0.01) for item in page.items)


def test_words_too_large_for_a_small_page_are_refused_in_a_sentence() -> None:
    small = replace(designs.paper("a5"), height_mm=80.0, unit_mm=5.0)
    of = Style(small, designs.words("es"), designs.look("bold"))
    with pytest.raises(RefusedError) as refused:
        pages(Pieces(12, 0, 0), of)
    assert refused.value.code == "page.too-low"


def test_what_a_long_bag_takes_has_the_width_of_a_small_page() -> None:
    # beside the step before it, it was higher than the page
    of = style("a5", "bold")
    plan = Making().plan(Pieces(15, 8, 0), of.paper, CutWish(29))
    bag = Bag(("tens", "ones"), ("Mat", "Exchange cards: 1"), pages="Worksheets; Key; " * 14)
    found = scissors_pages(cut_map(plan, [], 1), bag, of)
    assert any("Key" in text for text in said([*found]))


def test_large_words_on_a_small_page_take_more_pages(tmp_path: Path) -> None:
    args = ("kit", "--only", "pieces,mats", "--paper", "a5", "--words", "es", "--look", "bold")
    done = CliRunner().invoke(main, [*args, "--out", str(tmp_path / "out")])
    assert done.exit_code == 0, done.stderr


@pytest.mark.parametrize(
    ("paper", "letters"), [("letter", ["ABCD", "ABC"]), ("a5", ["ABCD", "ABCD"])]
)
def test_each_of_several_sheets_has_its_row(paper: str, letters: list[str]) -> None:
    # 4 hundreds, 13 tens and 15 ones take two sheets of both papers
    of, bag = style(paper), Pieces(15, 13, 4)
    plan = Making().plan(bag, of.paper, CutWish())
    assert plan and len(plan.cut_sheets) == 2
    found = pages(bag, of)
    discs = [i.content for page in found for i in page.items if isinstance(i.content, Disc)]
    assert len(discs) == len("".join(letters))
    words = said(found)
    rows = [words.index(f"Sheet {number} of 2") for number in (1, 2)]
    first, second = (
        words[rows[0] : rows[1]],
        words[rows[1] : words.index("Snip the strips into ones.")],
    )
    for row, one, marks in zip((first, second), plan.cut_sheets, letters, strict=True):
        assert f"1 sheet and {len(one.printed.cuts)} cuts" in row
        assert [word for word in row if len(word) == 1 and word in "ABCD"] == list(marks)
        items = Counter(item.what for item in one.printed.items)
        told = Counter[str]()
        times = 2 if "2 parts like this" in row else 1
        for word in row:
            count, _, what = word.removeprefix("snip into ").partition(" ")
            if what in ("hundreds", "ten", "tens"):
                told[what.removesuffix("s")] += times * int(count)
        assert told["hundred"] == items["hundreds"]
        assert told["ten"] == items["tens"]  # those of a block that is snipped among them


def test_two_sheets_and_all_the_rest_stand_on_a_page_of_letter() -> None:
    found = pages(Pieces(15, 13, 4), style("letter", words="en-US"))
    assert len(found) == 1
    assert {"Sheet 1 of 2", "Sheet 2 of 2", "Count. Then pack."} <= set(said(found))


def strips_beside(part: CutNode) -> int:
    """Return how many strips of ones lie beside each other, by where the ones lie alone."""
    ones = [leaf.rect for leaf in part.ends() if leaf.what == "ones"]
    return min(len({round(r.x, 1) for r in ones}), len({round(r.y, 1) for r in ones}))


@pytest.mark.parametrize(
    ("paper", "words", "look"),
    GRID,
)
def test_every_cut_that_frees_strips_is_told(paper: str, words: str, look: str) -> None:
    of = style(paper, look, words)
    beside = 0
    for pieces in (Pieces(15, 13, 4), Pieces(15, 10, 3), Pieces(11, 7, 0), Pieces(38, 25, 5)):
        plan = Making().plan(pieces, of.paper, CutWish())
        assert plan
        told = " ".join(said(pages(pieces, of)))
        for one in plan.cut_sheets:
            root = one.root.halves[0] if one.root.number == Step.FOOT else one.root
            for column in root.after(Step.LENGTHWAYS):
                parts = [p for p in column.after(Step.ACROSS) if p.halves]
                alone = [p for p in parts if {leaf.what for leaf in p.ends()} <= {"ones", ""}]
                lying = sum(run.count for run in runs(column) if run.what in ("strip", "strips"))
                assert lying == sum(map(strips_beside, alone))
                for part in alone:
                    if (count := strips_beside(part)) > 1:
                        beside += 1
                        strips = of.words.count("scissors.strip", count)
                        assert of.words("scissors.block", pieces=strips) in told
    assert beside or paper != "a5"


@pytest.mark.parametrize(
    ("paper", "says"),
    [
        ("letter", "The rest falls off. Cut out labels and card."),
        ("a5", "The rest falls off."),
    ],
)
def test_labels_and_a_card_on_what_falls_off_are_drawn(paper: str, says: str) -> None:
    sheets = ready_made(paper)
    kinds = (SheetKind.PIECES, SheetKind.EXCHANGE_CARDS)
    pieces = [i.what for s in sheets if s.kind in kinds for i in s.items]
    cutting = [s for s in sheets if s.kind == SheetKind.CUTTING]
    drawn = sum(item.what == "kept" for sheet in cutting for item in sheet.items)
    assert drawn == pieces.count("label") + pieces.count("card_frame")
    assert any(item.what == "hatch" for sheet in cutting for item in sheet.items)
    assert drawn
    assert says in said(cutting)


def test_an_only_first_step_has_the_next_beside_it_and_large_pictures() -> None:
    (page,) = [s for s in ready_made("a4") if s.kind == SheetKind.CUTTING]
    steps = [i.rect for i in page.items if i.what == "step_number"]
    assert steps[0].y == steps[1].y
    assert max(i.rect.height for i in page.items if i.what == "pieces") > 60


def test_pictures_of_the_pieces_grow_where_their_page_of_large_type_has_room() -> None:
    # the words of the next page kept them 107 mm high with their heading
    first, _ = [s for s in ready_made("a4", look="bold") if s.kind == SheetKind.CUTTING]
    ends = [i.rect.bottom for i in first.items if i.what == "pieces"]
    assert max(ends) > 265


def test_a_doubled_piece_is_drawn_as_one_and_folding_is_a_step() -> None:
    request = Request((read_sum("305-148"),), fitted_paper("a4"), press=Press(sturdy="fold"))
    pages = [s for s in laid_out(held(request), request).sheets if s.kind == "cutting"]
    items = [item for page in pages for item in page.items]
    doubled = [item.rect for item in items if item.what == "doubled"]
    folds = [item for item in items if item.what == "fold"]
    assert len(doubled) == len(folds) > 2
    said = [item.content.text for item in items if isinstance(item.content, Line)]
    assert request.press.words("scissors.fold") in said


@pytest.mark.parametrize(
    ("pieces", "lengths"), [(Pieces(15, 13, 4), [10, 5]), (Pieces(14, 9, 0), [10, 4])]
)
def test_the_picture_of_snipping_has_strips_as_long_as_those_that_are_cut(
    pieces: Pieces, lengths: list[int]
) -> None:
    plan = Making().plan(pieces, fitted_paper("a4"), CutWish())
    assert plan is not None
    assert lengths_of_strips(plan) == lengths


def test_pictured_cuts_are_dark_as_on_the_sheets_and_never_grey() -> None:
    cards = Sheet(
        SheetKind.EXCHANGE_CARDS,
        1,
        "card",
        210,
        297,
        (),
        cuts=tuple(Cut(0, 20.0 * k, 210, 20.0 * k) for k in range(1, 10)),
    )
    for name in designs.names("looks"):
        of = style(look=name)
        plan = Making().plan(KIT, of.paper, CutWish())
        found = scissors_pages(cut_map(plan, [cards], 1), Bag(), of)
        drawn = draw_pages(found, of.paper, Press(look=of.look))
        marks = [mark for page in drawn for mark in page.marks if isinstance(mark, Strokes)]
        inked = {(segment, mark.colour) for mark in marks for segment in mark.lines}
        blades = [i.rect for sheet in found for i in sheet.items if i.what == "blade"]
        ends = [
            (r.x, r.y, r.right, r.y) if r.width >= r.height else (r.x, r.y, r.x, r.bottom)
            for r in blades
        ]
        assert len(ends) > 20
        assert inked >= {(end, of.look.ink.cut) for end in ends}


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sums", [("634-258", "71-48", "305-148"), ("604-167", "52-18")])
def test_no_sheets_pictures_are_torn_apart_by_the_end_of_a_page(
    sums: tuple[str, ...], paper: str
) -> None:
    # In Spanish the second sheet's columns stood on a page of their own, half of the first blank.
    press = Press(words=designs.words("es"))
    of = Request(tuple(map(read_sum, sums)), fitted_paper(paper), parts=("pieces",), press=press)
    sheets = laid_out(held(of), of).sheets
    words = said([s for s in sheets if s.kind is SheetKind.CUTTING])
    named = [word for word in words if word.startswith("Hoja ")]
    assert named == ["Hoja 1 de 2", "Hoja 2 de 2"]


def test_every_sheet_of_a_mat_is_pictured_with_the_cuts_of_its_own() -> None:
    # Two rows of two: two cuts, one below, one at the right, and none.
    of = style("letter", words="es")
    mats = mat_set((Sum(634, 258),), None, MatWish(), of).sheets
    cards = Sheet(SheetKind.RECORD, 1, "card", 216, 279, (), (Cut(0, 100, 216, 100),))
    (page,) = scissors_pages(cut_map(None, [cards], 1, mats), Bag(), of)
    _, *sheets = [item.rect for item in page.items if item.what == "sheet"]
    _, *blades = [item.rect for item in page.items if item.what == "blade"]
    near = [sum(sheet.overlaps(blade, -0.1) for blade in blades) for sheet in sheets]
    assert near == [2, 1, 1, 0]
    assert "4 hojas, 4 líneas que cortar" in " ".join(said([page]))  # lines wrap


def test_other_sheets_have_as_many_cuts_told_as_lines_are_seen_and_those_to_begin_with() -> None:
    # Task cards: one line below, one across, one down, though the blade comes down four times.
    request = Request(first_wishes().sums, fitted_paper("a4"))
    (page,) = [s for s in laid_out(held(request), request).sheets if s.kind == SheetKind.CUTTING]
    words, first = said([page]), request.press.words("scissors.edges_first")
    at = words.index("Task cards (later)")
    assert words[at + 1 : at + 4] == ["1 sheet, 3 lines to cut", "4 cuts in all", first]
    at = words.index("Exchange cards")
    assert words[at + 1 : at + 3] == ["1 sheet, 5 lines to cut", first]


@pytest.mark.parametrize(
    ("held", "named"),
    [
        (("label",), "label"),
        (("card_frame",), "card"),
        (("label", "card_frame"), "both_one"),
        (("label", "card_frame", "card_frame"), "both"),
    ],
)
def test_only_what_stands_on_card_that_falls_off_is_told_to_be_kept(
    held: tuple[str, ...], named: str
) -> None:
    assert keeping(Item(what, Rect(0, 0, 1, 1)) for what in held) == named


def test_words_beside_a_column_are_broken_before_they_run_off_a_small_page_of_large_type() -> None:
    # "cortar en 5 decenas y 14 unidades" in two lines was too wide: no kit was made.
    press = Press(look=designs.look("bold"), words=designs.words("es"))
    request = Request((Sum(254, 38),), fitted_paper("a5"), press=press)
    sheets = [s for s in laid_out(held(request), request).sheets if s.kind == SheetKind.CUTTING]
    assert max(item.rect.right for sheet in sheets for item in sheet.items) < 148


def test_words_of_two_runs_of_a_column_stand_apart_beside_a_small_picture() -> None:
    of = style("a5", "bold", "es")
    plan = Making().plan(Pieces(15, 13, 4), of.paper, CutWish())
    assert plan
    for sheet in plan.cut_sheets:
        for column, *_ in sheet_steps(sheet, of).columns():
            shown = column_picture(column, PictureScale(0.12, 1.0), 60.0, of)
            said = [item.rect for item in shown.items if isinstance(item.content, Line)]
            assert not [1 for a, b in combinations(said, 2) if a.overlaps(b)]
