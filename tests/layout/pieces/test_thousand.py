"""A thousand folded on paper, by its printed lines alone: ten layers, printed squares outside."""

from collections.abc import Sequence
from itertools import combinations

import pytest

from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.primitives import Strokes
from kitbuilder.errors import RefusedError
from kitbuilder.layout.cutting.cut_marks import CutMark
from kitbuilder.layout.feet import footed
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.pieces.thousand import Segment, Thousands, flat, thousand_sheets
from kitbuilder.layout.pieces.thousand_unit import for_thousands
from kitbuilder.layout.printable import Page
from kitbuilder.number import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request

Layer = tuple[tuple[int, int], bool]
"""A hundred by column and row, and whether its printed side is up."""


def flipped(pile: Sequence[Layer]) -> list[Layer]:
    return [(where, not up) for where, up in reversed(pile)]


def runs_along(lines: Sequence[Segment], x1: float, y1: float, x2: float, y2: float) -> bool:
    """Say whether one of ``lines`` runs along all of a line across or down."""
    return any(
        min(a, c) <= x1 + 0.01
        and max(a, c) >= x2 - 0.01
        and min(b, d) <= y1 + 0.01
        and max(b, d) >= y2 - 0.01
        for a, b, c, d in lines
    )


def folded(content: Thousands, rect: Rect) -> list[Layer]:
    """Return the layers of a standing thousand, the lowest first, folded along its own lines.

    The end without a slit is held; the rest is folded onto it line by line, both columns alike,
    then the right stack onto the left. A line "to" turns printed sides to each other.
    """
    side = rect.width / 2
    columns = []
    for column in range(2):
        x = rect.x + column * side
        pile: list[Layer] = [((column, 0), True)]
        for row in range(1, 5):
            line = (x, rect.y + row * side, x + side, rect.y + row * side)
            to, away = runs_along(content.to, *line), runs_along(content.away, *line)
            assert to != away, f"row {row} has one kind of fold"
            below: list[Layer] = [((column, row), True)]
            pile = [*below, *flipped(pile)] if to else [*flipped(pile), *below]
        columns.append(pile)
    middle = rect.x + side
    open_ = [(middle, rect.y + r * side, middle, rect.y + (r + 1) * side) for r in range(5)]
    slit = [runs_along(content.slits, *line) for line in open_]
    assert slit == [True] * 4 + [False], "only the last two hundreds are joined"
    assert runs_along(content.away, *open_[4]) != runs_along(content.to, *open_[4])
    left, right = columns
    is_to = runs_along(content.to, *open_[4])
    return [*left, *flipped(right)] if is_to else [*flipped(right), *left]


def standing(unit: float = 5.0) -> tuple[Thousands, Rect]:
    rect = Rect(5, 12, 20 * unit, 50 * unit)
    return flat([rect], unit), rect


def test_it_folds_into_ten_layers_with_the_printed_squares_outside() -> None:
    content, rect = standing()
    layers = folded(content, rect)
    assert len({where for where, _ in layers}) == 10
    assert layers[0][1] is False, "the lowest shows its squares downwards"
    assert layers[-1][1] is True, "the highest shows its squares upwards"
    joined = sorted(k for k, (where, _) in enumerate(layers) if where[1] == 4)
    assert joined == [4, 5], "what joins the stacks bends round nothing"


def test_each_neighbour_lies_next_to_its_neighbour() -> None:
    content, rect = standing()
    at = {where: k for k, (where, _) in enumerate(folded(content, rect))}
    for column in range(2):
        for row in range(4):
            assert abs(at[column, row] - at[column, row + 1]) == 1


def test_a_line_that_is_folded_the_wrong_way_shows() -> None:
    content, rect = standing()
    wrong = Thousands(5.0, content.outlines, content.to[::-1], content.away, content.slits)
    assert folded(wrong, rect) == folded(content, rect)
    last = content.away[-1]
    wrong = Thousands(5.0, content.outlines, (*content.to, last), content.away[:-1], content.slits)
    assert folded(wrong, rect)[0][1], "then the blank side lies outside"


def test_all_layers_lie_on_one_hundred() -> None:
    # Folding mirrors at lines ten units apart: every hundred lands on the same 10 × 10 units.
    content, rect = standing()
    for lines in (content.to, content.away, content.slits):
        for x1, y1, x2, y2 in lines:
            for at, start in ((x1, rect.x), (x2, rect.x), (y1, rect.y), (y2, rect.y)):
                assert (at - start) % 50 == pytest.approx(0)


@pytest.mark.parametrize(
    ("paper", "unit", "held"), [("a4", 5.0, 2), ("letter", 5.0, 2), ("a3", 7.0, 2), ("a3", 5.0, 3)]
)
def test_sheets_hold_true_thousands_inside_the_margins(paper: str, unit: float, held: int) -> None:
    sheets = made(9, paper, unit)
    counts = []
    for sheet in sheets:
        content = sheet.items[0].content
        assert isinstance(content, Thousands)
        counts += [len(content.outlines)] * sheet.copies
        for rect in content.outlines:
            assert sorted((rect.width, rect.height)) == [20 * unit, 50 * unit]
        inside = Page.upright(designs.paper(paper)).inside
        assert all(inside.holds(item.rect, 0.01) for item in sheet.items)
    assert (max(counts), sum(counts), len(counts)) == (held, 9, -(-9 // held))


def made(count: int, paper: str, unit: float) -> tuple[Sheet, ...]:
    return thousand_sheets(count, Press().style(fitted_paper(paper, unit=unit)))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_each_thousand_has_a_band_off_the_foot(paper: str) -> None:
    style = Press().style(fitted_paper(paper, unit=5))
    (sheet,) = footed(thousand_sheets(2, style), style)
    bands = [item.rect for item in sheet.items if item.what == "band"]
    foot = [item.rect for item in sheet.items if item.what in ("ruler", "page_number")]
    assert len(bands) == 2 and not bands[0].overlaps(bands[1])
    assert foot and not any(band.overlaps(rect) for band in bands for rect in foot)


def test_a_machine_cuts_half_a_kerf_outside_the_outline() -> None:
    style = Press().style(fitted_paper("a4", unit=5))
    sheets = thousand_sheets(2, style, 0.2)
    (drawing,) = draw_pages(sheets, style.paper, Press(kerf_mm=0.2))
    assert sheets[0].copies == 2, "each stands alone"
    cut = [s for m in drawing.marks if isinstance(m, Strokes) and m.layer == "cut" for s in m.lines]
    longest = max(abs(x2 - x1) + abs(y2 - y1) for x1, y1, x2, y2 in cut)
    assert longest == pytest.approx(250.2)


def test_a_unit_that_is_too_large_is_refused_with_the_largest() -> None:
    with pytest.raises(RefusedError, match=r"5\.52"):
        made(1, "a4", 6.0)


@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize(("paper", "unit"), [("letter", 5), ("letter", 5.11), ("a4", 5), ("a3", 5)])
def test_each_sheet_has_its_letters_and_bands(paper: str, unit: float, look: str) -> None:
    """Letters that are too high beside the thousands take more sheets."""
    style = Press(look=designs.look(look)).style(fitted_paper(paper, unit=unit))
    for sheet in thousand_sheets(5, style):
        whats = [item.what for item in sheet.items]
        assert whats.count("cut_mark") == len(sheet.cuts)
        assert whats.count("band") == whats.count("thousand")
        marks = [item.rect for item in sheet.items if item.what == "cut_mark"]
        assert not any(a.overlaps(b) for a, b in combinations(marks, 2))
        inside = Page.upright(style.paper).inside
        assert all(inside.holds(mark, 0.01) for mark in marks)


@pytest.mark.parametrize(
    ("paper", "look", "held"), [("letter", "plain", 2), ("letter", "bold", 1), ("a4", "bold", 2)]
)
def test_only_letters_that_fit_nowhere_take_more_sheets(paper: str, look: str, held: int) -> None:
    style = Press(look=designs.look(look)).style(fitted_paper(paper, unit=5))
    items = thousand_sheets(2, style)[0].items
    assert sum(item.what == "thousand" for item in items) == held


@pytest.mark.parametrize("paper", ["a4", "legal", "a3", "letter"])
def test_each_line_to_cut_has_its_letter(paper: str) -> None:
    """Below, above, left, right, between: they stand off thousands, bands, words, each other."""
    found = for_thousands(fitted_paper(paper))
    sheet = thousand_sheets(2, Press().style(found))[0]
    marks = [item for item in sheet.items if isinstance(item.content, CutMark)]
    assert "".join(m.content.letter for m in marks if isinstance(m.content, CutMark)) == "ABCDE"
    others = [item for item in sheet.items if item.what != "thousands"]
    for mark in marks:
        assert not any(mark.rect.overlaps(o.rect) for o in others if o is not mark)


def test_the_cutting_page_pictures_the_lines_of_thousands_with_their_letters() -> None:
    request = Request((Sum(4003, 1758),), fitted_paper("a4"), parts=("pieces",))
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.CUTTING]
    said = [i.content.text for s in pages for i in s.items if isinstance(i.content, Line)]
    assert any("in the order of the letters" in text for text in said)
    assert {*"ABCDE"} <= {*said}


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize("words", ["en-GB", "es"])
def test_a_band_says_where_it_is_glued(words: str, look: str, paper: str) -> None:
    press = Press(look=designs.look(look), words=designs.words(words))
    style = press.style(for_thousands(fitted_paper(paper)))
    for sheet in thousand_sheets(2, style):
        bands = sum(item.what == "band" for item in sheet.items)
        said = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
        assert bands and said.count(press.words("thousand.glue")) == bands


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_grid_runs_along_a_fold(paper: str) -> None:
    """Between dashes a line of the grid would make both kinds of folds look alike."""
    style = Press().style(fitted_paper(paper, unit=5))
    sheets = thousand_sheets(2, style)
    (drawing,) = draw_pages(sheets, style.paper, Press())
    strokes = [mark for mark in drawing.marks if isinstance(mark, Strokes)]
    gridded = [
        s for m in strokes if m.layer not in ("fold", "cut") for s in m.lines if s[1] == s[3]
    ]
    folds = {round(c.y1, 1) for c in sheets[0].folds if c.y1 == c.y2}
    assert gridded and len(folds) == 4
    long = [s for s in gridded if abs(s[2] - s[0]) > 50]  # not the signs of the legend
    assert not [s for s in long if round(s[1], 1) in folds]
