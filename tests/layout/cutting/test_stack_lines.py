"""Lines in the pictures of a stack: none runs on through what is in the hand no more."""

import re
from collections.abc import Iterator
from itertools import pairwise

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import CutMap
from kitbuilder.layout.cutting.stack_order import Line, Panel
from kitbuilder.layout.cutting.stack_page import stack_pages
from kitbuilder.layout.model import Item, Rect, SheetKind
from kitbuilder.layout.parts.contents import Line as Said
from kitbuilder.layout.printable import Page
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press
from kitbuilder.request.request import Part, Request, fitted_paper, read_sum

CUT: tuple[Part, ...] = ("pieces", "mats", "cards")


def mapped(sums: tuple[str, ...], cutting: CutWish, style: Style) -> CutMap:
    within = None if sums else 1000
    chosen = tuple(map(read_sum, sums))
    request = Request(chosen, style.paper, within=within, parts=CUT, cutting=cutting)
    found = laid_out(held(request), request).cut
    assert found
    return found


def pictures(cut: CutMap, style: Style) -> list[list[Item]]:
    """Return the items of each picture of a part, the part first, in the order of the stops."""
    items = [item for page in stack_pages(cut, Bag(), style) for item in page.items]
    starts = [k for k, item in enumerate(items) if item.what == "part"]
    return [items[a:b] for a, b in pairwise([*starts, len(items)])]


def parted(panel: Panel) -> Iterator[tuple[Line, list[Rect]]]:
    """Yield each line of ``panel`` and the parts that earlier lines have left beside its own."""
    parts = [Rect(0, 0, panel.width, panel.height)]
    for line in sorted(panel.lines, key=lambda line: line.number):
        middle = (line.start + line.end) / 2
        x, y = (line.at, middle) if line.down else (middle, line.at)
        own = next(p for p in parts if p.x < x < p.right and p.y < y < p.bottom)
        parts.remove(own)
        yield line, [*parts]
        if line.down:
            parts.append(Rect(own.x, own.y, line.at - own.x, own.height))
            parts.append(Rect(line.at, own.y, own.right - line.at, own.height))
        else:
            parts.append(Rect(own.x, own.y, own.width, line.at - own.y))
            parts.append(Rect(own.x, line.at, own.width, own.bottom - line.at))


@pytest.mark.parametrize(
    ("sums", "cutting", "paper"),
    [
        (("634-258", "71-48", "305-148"), CutWish(15, 3), "a4"),
        ((), CutWish(6, 5), "letter"),
    ],
)
def test_no_line_runs_through_a_part_that_was_parted_before(
    sums: tuple[str, ...], cutting: CutWish, paper: str
) -> None:
    style = Style(fitted_paper(paper))
    cut = mapped(sums, cutting, style)
    panels = [panel for stop in cut.stops for panel in stop.panels]
    for panel, (whole, *items) in zip(panels, pictures(cut, style), strict=True):
        x, y, scale = whole.rect.x, whole.rect.y, whole.rect.width / panel.width
        blades = [item.rect for item in items if item.what == "blade"]
        for line, others in parted(panel):
            at = line.at * scale + (x if line.down else y)
            (blade,) = (
                rect
                for rect in blades
                if line.down is (rect.height > rect.width)
                and abs((rect.x if line.down else rect.y) - at) < 0.02
            )
            gone = [rect.scaled(scale).moved(x, y).inset(0.02) for rect in others]
            assert not any(rect.overlaps(blade) for rect in gone), (panel.sheets, line.number)
        leads = [item.rect for item in items if item.what in ("blade", "lead")]
        kept = [rect.scaled(scale).moved(x, y) for rect in panel.kept]
        assert not any(rect.overlaps(lead) for rect in kept for lead in leads)


@pytest.mark.parametrize("words", ["en-GB", "es"])
def test_a_strip_to_keep_says_so_and_is_whole_before_the_rest_is_cut(words: str) -> None:
    style = Style(fitted_paper("a4"), designs.words(words))
    cut = mapped(("634-258",), CutWish(15, 3), style)
    (panel,) = (panel for stop in cut.stops for panel in stop.panels if panel.kept)
    assert panel.whole is SheetKind.EXCHANGE_CARDS and not any(n.down for n in panel.lines)
    said = [
        item.content.text
        for picture in pictures(cut, style)
        for item in picture
        if isinstance(item.content, Said)
    ]
    assert said.count(style.words("stacks.keep")) == 2


def test_a_stop_has_the_decimal_point_of_its_language() -> None:
    style = Style(fitted_paper("letter"), designs.words("es"))
    pages = stack_pages(mapped(("634-258",), CutWish(12, 4), style), Bag(), style)
    said = [i.content.text for page in pages for i in page.items if isinstance(i.content, Said)]
    assert any(re.fullmatch(r"\d+,\d", text) for text in said)
    assert not any(re.search(r"\d\.\d", text) for text in said)


def test_parts_that_all_came_otherwise_from_the_last_cut_are_to_be_turned() -> None:
    cut = mapped(("634-258", "71-48"), CutWish(15, 4), Style(fitted_paper("a4")))
    found = [(p.parts, p.turned) for stop in cut.stops for p in stop.panels if p.turned]
    assert (4, 4) in found and (44, 4) in found  # all of a picture, some of one


@pytest.mark.parametrize(
    ("paper", "margin", "words", "sum_"),
    [("letter", 12.7, "es", "305-148"), ("a5", None, "es", "43-17")],
)
def test_lengths_of_large_type_stand_on_the_page_and_on_no_corner(
    paper: str, margin: float | None, words: str, sum_: str
) -> None:
    # a length at the left left the page; a corner beside a small part lay on one
    style = Style(fitted_paper(paper, margin), designs.words(words), designs.look("bold"))
    press = Press(words=style.words, look=style.look)
    asked = (read_sum(sum_),)
    request = Request(asked, style.paper, parts=CUT, cutting=CutWish(6, 5), press=press)
    sheets = laid_out(held(request), request).sheets
    for page in (sheet for sheet in sheets if sheet.kind == SheetKind.CUTTING):
        inside = Page.upright(style.paper).inside
        said = [item.rect for item in page.items if isinstance(item.content, Said)]
        corners = [item.rect for item in page.items if item.what in ("corner", "step_number")]
        assert all(inside.holds(rect, 0.05) for rect in said)
        numbers = [r for r in said if not any(c.holds(r, 2.0) for c in corners)]
        assert not [1 for a in numbers for b in corners if a.overlaps(b, 0.5)]
