"""What a cover says of the pages that are printed later."""

from dataclasses import replace

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, Pictogram
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum


def cover(words: str) -> Sheet:
    press = Press(words=designs.words(words))
    request = Request((read_sum("305-148"),), fitted_paper("a4"), press=press)
    return next(s for s in laid_out(held(request), request).sheets if s.kind == SheetKind.COVER)


@pytest.mark.parametrize(
    ("words", "later", "foot"),
    [("en-GB", "after week 1: Task cards", "100 mm"), ("es", "semana 2: ", "100 mm")],
)
def test_a_cover_says_what_is_printed_later_and_how_long_its_bar_is(
    words: str, later: str, foot: str
) -> None:
    said = [i.content.text for i in cover(words).items if isinstance(i.content, Line)]
    assert any(text.startswith(later) for text in said)
    assert foot in said


@pytest.mark.parametrize(("sum_", "glued"), [("305-148", True), ("43-17", False)])
def test_a_cover_asks_for_glue_where_the_mat_has_several_sheets(sum_: str, *, glued: bool) -> None:
    press = Press(words=designs.words("en-GB"))
    request = Request((read_sum(sum_),), fitted_paper("a4"), press=press)
    sheets = laid_out(held(request), request).sheets
    lines = (i.content for s in sheets if s.kind == SheetKind.COVER for i in s.items)
    said = " ".join(line.text for line in lines if isinstance(line, Line))
    assert ("glue or tape" in said) is glued


def test_the_cutting_page_tells_sheets_that_are_printed_later() -> None:
    sums = tuple(read_sum(text) for text in ("43-17", "305-148"))
    request = Request(sums, fitted_paper("a4"), press=Press(words=designs.words("en-GB")))
    pages = laid_out(held(request), request).sheets
    page = next(s for s in pages if s.kind == SheetKind.CUTTING)
    said = [i.content.text for i in page.items if isinstance(i.content, Line)]
    assert "Mat with hundreds (later)" in said and "Task cards (later)" in said
    assert "Exchange cards" in said


@pytest.mark.parametrize("mats", [False, True])
def test_where_a_machine_cuts_the_cover_shows_one_and_says_what_is_cut_by_hand(
    mats: bool,
) -> None:
    sums, press = (read_sum("305-148"),), Press(kerf_mm=0.2)
    request = Request(sums, fitted_paper("a4"), parts=("pieces",), press=press)
    request = replace(request, parts=("pieces", "mats")) if mats else request
    page = next(s for s in laid_out(held(request), request).sheets if s.kind == SheetKind.COVER)
    said = [i.content.text for i in page.items if isinstance(i.content, Line)]
    shown = [i.content.name for i in page.items if isinstance(i.content, Pictogram)]
    assert any(text.startswith("A machine cuts") for text in said) and "cutter" in shown
    assert any(text.startswith("The mat by hand") for text in said) is mats
    assert not any(text.startswith("Cards by hand") for text in said)
    assert not any(text.startswith("For the machine") for text in said)


def test_copies_of_a_sheet_stand_where_its_pages_are_typed_and_a_machines_file_is_named() -> None:
    sums = tuple(map(read_sum, ("634-258", "71-48", "305-148")))
    press = Press(kerf_mm=1.0, svg=True)
    request = Request(sums, fitted_paper("a4"), parts=("pieces", "mats"), press=press)
    pages = laid_out(held(request), request).sheets
    page = next(s for s in pages if s.kind == SheetKind.COVER)
    assert [s.copies for s in pages if s.kind == SheetKind.PIECES] == [1, 2]
    said = [i.content.text for i in page.items if isinstance(i.content, Line)]
    assert {"type 2", "type 3: 2 copies"} <= {*said}
    assert "For the machine: sheet-02.svg – sheet-03.svg. A file is" in " ".join(said)


def test_children_who_share_a_kit_have_a_copy_each_of_what_is_printed_later() -> None:
    cutting = CutWish(kits=1, children=5)
    request = Request((read_sum("3.2-1.47"),), fitted_paper("a4"), cutting=cutting)
    pages = laid_out(held(request), request).sheets
    later = {n: sheet.copies for n, sheet in enumerate(pages, 1) if sheet.later}
    assert sorted(later.values()) == [1, 1, 5]
    said = {i.content.text for i in pages[0].items if isinstance(i.content, Line)}
    typed = {f"type {n}" if copies == 1 else f"type {n}: 5 copies" for n, copies in later.items()}
    assert typed <= said


def test_mats_that_no_page_of_the_first_week_needs_are_printed_later() -> None:
    sums = (read_sum("634-258"),)
    wish = MatWish(("subtract", "add", "exchange"))
    request = Request(sums, fitted_paper("a4"), mats=wish)
    when = {sheet.kind: sheet.later for sheet in laid_out(held(request), request).sheets}
    assert when[SheetKind.ADDITION_MAT] and when[SheetKind.EXCHANGE_BOARD]
    assert not when[SheetKind.MAT]


def test_a_machines_files_are_those_of_thousands_too_and_their_folds_are_told() -> None:
    press = Press(kerf_mm=0.15, svg=True)
    request = Request((read_sum("4002-1768"),), fitted_paper("a4"), press=press)
    sheets = laid_out(held(request), request).sheets
    covers = [sheet for sheet in sheets if sheet.kind == SheetKind.COVER]
    pages = [
        n for n, s in enumerate(sheets, 1) if s.kind in (SheetKind.PIECES, SheetKind.THOUSANDS)
    ]
    said = " ".join(
        i.content.text for page in covers for i in page.items if isinstance(i.content, Line)
    )
    first, last = (f"sheet-{page:02}.svg" for page in (pages[0], pages[-1]))
    assert f"For the machine: {first} – {last}. Folds are in a layer of their own" in said


@pytest.mark.parametrize("card", [True, False])
def test_card_goes_first_only_where_there_is_card_and_paper(*, card: bool) -> None:
    press = Press(words=designs.words("en-GB"))
    request = Request((read_sum("43-17"),), fitted_paper("a4"), parts=("guide",), press=press)
    request = replace(request, parts=("pieces", "guide")) if card else request
    sheets = laid_out(held(request), request).sheets
    lines = [i.content for s in sheets if s.kind == SheetKind.COVER for i in s.items]
    assert any(isinstance(one, Line) and one.text.startswith("Card first") for one in lines) is card
