"""Every page has its foot, clear of what is cut out of it."""

from dataclasses import replace

import pytest
from grids import pairs
from guards import number_apart

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.primitives import Strokes, Words
from kitbuilder.kit.card_records import BACKS, STAGES, Backs, CardWishes
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.feet import footed
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, PageNumber, Ruler
from kitbuilder.layout.parts.furniture import Foot, foot
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.number import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum

SUMS = first_wishes().sums
CUT = ("pieces", "mats", "cards")
CARDS = CardWishes(
    kinds=("exchange", "tasks", "stories", "additions", "facts", "arrows", "digits", "record")
)


def kit(paper: str = "a4", words: str = "en-GB", look: str = "plain", **wishes: object) -> Request:
    press = Press(look=designs.look(look), words=designs.words(words))
    request = Request(SUMS, fitted_paper(paper), press=press)
    return replace(request, **wishes)  # type: ignore[arg-type]


def without_foot(sheets: tuple[Sheet, ...]) -> list[str]:
    """Return the sheets that lack a page's number or a whole ten, or cut into them.

    Sheets that are cut may have no room for a ten of 100 mm; they have none of another length.
    """
    found = []
    for sheet in sheets:
        bars = [i.rect for i in sheet.items if isinstance(i.content, Ruler)]
        numbers = [i.rect for i in sheet.items if isinstance(i.content, PageNumber)]
        tens = [max(bar.width, bar.height) for bar in bars]
        if not numbers or not (tens or sheet.cuts) or any(abs(ten - 100) > 1e-9 for ten in tens):
            found.append(f"{sheet.kind} {sheet.number}")
        for part in (*bars, *numbers):
            for c in sheet.cuts:
                across = min(c.x1, c.x2) < part.right and max(c.x1, c.x2) > part.x
                down = min(c.y1, c.y2) < part.bottom and max(c.y1, c.y2) > part.y
                if across and down:
                    found.append(f"{sheet.kind} {sheet.number} is cut through its foot")
    return found


KITS = {
    "ready": kit(),
    "letter": kit("letter", "en-US"),
    "letter bold": kit("letter", "en-US", "bold", sums=(Sum(71, 48),)),
    "a5": kit("a5", "es", sums=(Sum(71, 48),)),
    "a5 bold spanish": kit("a5", "es", "bold"),
    "a5 alone": kit("a5", parts=("pieces",)),
    "a3": kit("a3"),
    "class": kit(cutting=CutWish(kits=6, layers=3, home=True)),
    "class by hand": kit("letter", cutting=CutWish(kits=5)),
    "cards": kit(cards=CARDS, parts=("cards",)),
    "demonstration": kit(parts=("demonstration",)),
    "mats": kit(mats=MatWish(kinds=("subtract", "add", "exchange")), parts=("mats",)),
}

DRAWN = [*KITS][1:5]
"""Kits of a large page and a small one, of many sums and one, in large type and small."""


@pytest.mark.parametrize("name", KITS)
def test_every_page_has_its_foot_and_its_number_clear_of_everything(name: str) -> None:
    request = KITS[name]
    sheets = laid_out(held(request), request).sheets
    assert without_foot(sheets) == []
    drawings = draw_pages(sheets, request.paper, request.press) if name in DRAWN else ()
    for page, drawing in enumerate(drawings, 1):
        assert number_apart(drawing, page) == []


@pytest.mark.parametrize(
    ("stage", "backs", "made"), pairs(STAGES, BACKS, (("a4", "en-GB"), ("letter", "es")))
)
def test_every_sheet_of_cards_has_its_foot(stage: str, backs: str, made: tuple[str, str]) -> None:
    cards = CardWishes(kinds=("tasks",), stage=stage, backs=backs)  # type: ignore[arg-type]
    request = kit(*made, cards=cards, parts=("cards",))
    assert without_foot(laid_out(held(request), request).sheets) == []


def test_a_page_that_lost_its_foot_is_found() -> None:
    request = KITS["mats"]
    sheets = laid_out(held(request), request).sheets
    bare = [i for i in sheets[-1].items if not isinstance(i.content, PageNumber)]
    broken = (*sheets[:-1], replace(sheets[-1], items=tuple(bare)))
    assert without_foot(broken) == [f"{sheets[-1].kind} {sheets[-1].number}"]


def test_what_is_cut_out_of_a_sheet_of_cards_holds_no_foot() -> None:
    request = kit(parts=("cards",))
    for sheet in laid_out(held(request), request).sheets:
        cards = [i.rect for i in sheet.items if i.what in ("task_card", "exchange_card")]
        feet = [i.rect for i in sheet.items if i.what in ("ruler", "page_number")]
        assert not [f for f in feet for card in cards if card.overlaps(f)]


def test_a_foot_tells_the_stock_which_sheet_it_is_and_whom_it_is_for() -> None:
    style = Style(fitted_paper("a4"), designs.words("en-GB"), designs.look("plain"))
    sheets = [Sheet(SheetKind.PIECES, n, "card", 210, 297, ()) for n in (1, 2)]
    for some, layers, name in (
        (sheets, 1, "sheet 2 of 2 · print on card"),
        (sheets, 5, "sheet B · print on card · for the child"),
        (sheets[:1], 1, "print on card · for the child"),
    ):
        sheet = footed(some, style, layers)[-1]
        said = [item.content.text for item in sheet.items if isinstance(item.content, Line)]
        assert said == ["100 mm", name]


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_every_sheet_cut_in_a_stack_bears_the_letter_that_the_cutting_pages_call_it_by(
    paper: str,
) -> None:
    request = kit(paper, cutting=CutWish(kits=6, layers=3))
    laid = laid_out(held(request), request)
    assert laid.cut
    letters = {(one.sheet.kind, frozenset(one.sheet.cuts)): one.name for one in laid.cut.sheets}
    assert len({kind for kind, _ in letters}) == 5
    for sheet in laid.sheets:
        if sheet.cuts and sheet.kind != SheetKind.PIECES:
            said = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
            name = f"sheet {letters[sheet.kind, frozenset(sheet.cuts)]}"
            assert [text.split(" · ")[0] for text in said if "sheet" in text] == [name]


def test_a_small_sheet_of_pieces_says_which_it_is_above_its_columns() -> None:
    request = kit("a5", parts=("pieces",))
    for sheet in laid_out(held(request), request).sheets:
        if sheet.kind == SheetKind.PIECES:
            said = [item.content.text for item in sheet.items if isinstance(item.content, Line)]
            assert any(f"sheet {sheet.number} of " in text for text in said), said


def test_the_foot_of_a_thousandth_page_has_room_for_its_number() -> None:
    # A school's packs have up to twelve thousand pages in one PDF.
    for words in designs.names("words"):
        style = Style(fitted_paper("a5"), designs.words(words), designs.look("bold"))
        sheet = Sheet(SheetKind.TASK_CARDS, 1, "card", 148, 210, ())
        for section in ("", "Ada"):
            (ended,) = footed((replace(sheet, section=section),), style)
            assert draw_sheet(ended, 12_000, style)  # the words on it are clear of each other


def test_a_large_number_of_a_foot_that_stands_stays_inside_the_margin() -> None:
    # two sheets of pieces on A5: a foot stands beside the second one's column
    sums = (Sum(43, 17), Sum(305, 148), Sum(634, 258))
    request = kit("a5", look="bold", parts=("pieces",), sums=sums)
    standing = 0
    for page, sheet in enumerate(laid_out(held(request), request).sheets, 1):
        standing += any(isinstance(i.content, Ruler) and i.rect.height > 20 for i in sheet.items)
        assert draw_sheet(sheet, page, request.press.style(request.paper))
    assert standing


@pytest.mark.parametrize(("sum_", "kits"), [(Sum(71, 48), 10), (Sum(634, 258), 4)])
def test_a_bold_class_set_is_drawn(sum_: Sum, kits: int) -> None:
    # At the top of a page the number's large type reaches above its foot; words beside a low
    # column of the cutting page reach below its picture.
    press = Press(look=designs.look("bold"))
    request = kit(sums=(sum_,), press=press, cutting=CutWish(kits), parts=CUT)
    for page, sheet in enumerate(laid_out(held(request), request).sheets, 1):
        draw_sheet(sheet, page, press.style(request.paper))


def test_no_sheet_but_those_of_pieces_is_called_one_of_several() -> None:
    request = kit("letter", "en-US", cutting=CutWish(kits=5))
    for sheet in laid_out(held(request), request).sheets:
        said = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
        stock = [text for text in said if "print on cardstock" in text]
        assert len(stock) <= 1, said
        assert sheet.kind in (SheetKind.PIECES, SheetKind.CUTTING) or not any(
            text.startswith("sheet ") for text in said
        )


def test_a_foot_in_american_english_tells_inches_too() -> None:
    for words, long in (("en-US", "100 mm (3.94 in)"), ("en-GB", "100 mm"), ("es", "100 mm")):
        style = Style(fitted_paper("letter"), designs.words(words), designs.look("plain"))
        (sheet,) = footed([Sheet(SheetKind.TASK_CARDS, 1, "card", 215.9, 279.4, ())], style)
        assert long in [i.content.text for i in sheet.items if isinstance(i.content, Line)]


def test_a_line_at_a_page_number_is_found() -> None:
    request = KITS["mats"]
    sheets = laid_out(held(request), request).sheets
    drawing = next(draw_pages(sheets, request.paper, request.press))
    number = max((w for w in drawing.marks if isinstance(w, Words)), key=lambda w: w.y)
    line = Strokes(((number.x - 9, number.y - 4, number.x + 9, number.y - 4),), 0.5, "#000000")
    assert number_apart(replace(drawing, marks=(*drawing.marks, line)), 1)
    assert number_apart(replace(drawing, marks=(line,)), 1) == ["page 1 has no number"]


def test_a_large_number_between_numbered_lines_stays_inside_the_margin() -> None:
    sums = (read_sum("43-17"), read_sum("71-48"))
    press = Press(look=designs.look("bold"), words=designs.words("es"))
    request = Request(
        sums, fitted_paper("letter"), parts=("pieces",), press=press, cutting=CutWish(32, 4)
    )
    sheets = laid_out(held(request), request).sheets
    assert [*draw_pages(sheets, request.paper, press)]  # no number leaves its page
    assert without_foot(sheets) == []


def test_a_card_that_is_folded_back_on_itself_is_not_for_the_child_alone() -> None:
    folded, turned = (CardWishes(kinds=("tasks",), backs=b) for b in (BACKS[-1], BACKS[1]))
    for wishes, whose in ((folded, False), (turned, True)):
        request = kit(cards=wishes, parts=("cards",))
        sheets = laid_out(held(request), request).sheets
        page = next(s for s in sheets if s.kind is SheetKind.TASK_CARDS and not s.flip)
        said = " ".join(i.content.text for i in page.items if isinstance(i.content, Line))
        assert ("for the child" in said) is whose
        assert ("fold and glue" in said) is not whose


@pytest.mark.parametrize(
    ("paper", "words", "backs"), pairs(("a4", "letter"), designs.names("words"), BACKS)
)
def test_the_foot_of_the_first_cards_says_what_their_dots_tell(
    paper: str, words: str, backs: Backs
) -> None:
    cards = CardWishes(kinds=("tasks",), backs=backs)
    request = kit(paper, words, parts=("cards",), cards=cards)
    told = [
        sheet.number
        for sheet in laid_out(held(request), request).sheets
        for item in sheet.items
        if sheet.kind is SheetKind.TASK_CARDS
        and isinstance(item.content, Line)
        and designs.words(words)("foot.dots") in item.content.text
    ]
    assert told == [1]


@pytest.mark.parametrize(
    ("paper", "look"), [("a4", "bold"), ("letter", "bold"), ("a5", "plain"), ("a5", "bold")]
)
def test_the_foot_says_what_dots_tell_in_large_type_and_on_small_paper(
    paper: str, look: str
) -> None:
    request = kit(paper, "es", look, parts=("cards",), cards=CardWishes(kinds=("tasks",)))
    sheet = next(s for s in laid_out(held(request), request).sheets if s.kind == "task_cards")
    said = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
    assert any("puntos: dificultad" in text for text in said)
    assert "100 mm" in said or not any(i.what == "ruler" for i in sheet.items)


@pytest.mark.parametrize("words", designs.names("words"))
def test_the_foot_says_in_large_type_where_the_next_step_stands(words: str) -> None:
    # it was left out in Spanish, two millimetres too long
    style = Style(fitted_paper("letter"), designs.words(words), designs.look("bold"))
    said = style.words("guide_pages.goes_on", step=9)
    items = foot(Foot(said), SheetArea.upright(style.paper), style)
    assert said in [item.content.text for item in items if isinstance(item.content, Line)]
