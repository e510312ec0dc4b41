"""Files for cutters: every line once, inner before outer, sizes as in the record, true kerfs."""

import json
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from io import StringIO
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_lines import Line, covered
from svgelements import SVG, Group
from svgelements import Path as SvgPath

from kitbuilder.design import load as designs
from kitbuilder.design.metrics import digit_height, width
from kitbuilder.draw.canvas import Canvas
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import KINDS, CardWishes
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.line_segments import Segment, check_once, merged, outline
from kitbuilder.layout.cutting.machine_order import cutting_order
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pieces.kerf import check_kerf, kerf_lines, kerf_sheets, reach, spread_out
from kitbuilder.number import Pieces, Sum
from kitbuilder.output.cutter import dxf, svg
from kitbuilder.output.letter_outlines import outlined
from kitbuilder.pipeline import build
from kitbuilder.press.printing import fitted_paper, press_for
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Part, Request

MM = 96 / 25.4
"""svgelements reads lengths in pixels of 1/96 inch."""


def cut_paths(path: Path) -> list[SvgPath]:
    """Read the paths of the group that is cut, as an independent parser sees them."""
    tree = ET.parse(path)
    for group in [g for g in tree.getroot() if g.get("id") in ("print", "fold")]:
        tree.getroot().remove(group)  # of outlined letters, which take it long
    (cut,) = (
        element
        for element in SVG.parse(StringIO(ET.tostring(tree.getroot(), "unicode"))).elements()
        if isinstance(element, Group) and element.id == "cut"
    )
    return [SvgPath(e) for e in cut.select() if isinstance(e, SvgPath)]


def box(path: SvgPath) -> Line:
    x1, y1, x2, y2 = (round(edge / MM, 4) for edge in path.bbox())
    return x1, y1, x2, y2


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[float, tuple[dict[str, Any], Path]]:
    """Build the first kit for cutters: its pieces without a kerf, its cards too with one."""
    kits = {}
    every: dict[float, tuple[Part, ...]] = {0.0: ("pieces",), 0.15: ("pieces", "cards")}
    for kerf, parts in every.items():
        folder = tmp_path_factory.mktemp("cutter")
        press = press_for({"cutter": f"svg,dxf,{kerf:g}"})
        build(Request(first_wishes().sums, fitted_paper("a4"), parts=parts, press=press), folder)
        kits[kerf] = (json.loads((folder / "kit.json").read_text()), folder)
    return kits


def pieces(record: dict[str, Any], folder: Path) -> list[tuple[dict[str, Any], Path]]:
    return [
        (sheet, folder / f"sheet-{sheet['page']:02}.svg")
        for sheet in record["sheets"]
        if sheet["kind"] == "pieces"
    ]


@pytest.mark.parametrize("kerf", [0.0, 0.15])
def test_pieces_are_as_large_as_the_record_says(
    made: dict[float, tuple[dict[str, Any], Path]], kerf: float
) -> None:
    # The tool runs half a kerf outside each piece.
    count = 0
    for sheet, path in pieces(*made[kerf]):
        lines = [box(p) for p in cut_paths(path)]
        rects = [
            (i["x_mm"], i["y_mm"], i["x_mm"] + i["width_mm"], i["y_mm"] + i["height_mm"])
            for i in sheet["items"]
        ]
        around = (
            min(r[0] for r in rects) - kerf / 2,
            min(r[1] for r in rects) - kerf / 2,
            max(r[2] for r in rects) + kerf / 2,
            max(r[3] for r in rects) + kerf / 2,
        )
        assert (
            min(a for a, _, _, _ in lines),
            min(b for _, b, _, _ in lines),
            max(c for _, _, c, _ in lines),
            max(d for _, _, _, d in lines),
        ) == pytest.approx(around, abs=0.001)
        whole = list(merged(lines))
        for x, y, right, bottom in rects:
            for side in outline(x - kerf / 2, y - kerf / 2, right + kerf / 2, bottom + kerf / 2):
                assert covered(side, whole, 0.001), (side, kerf)
            count += 1
    assert count == 4 + 13 + 15  # the ready-made kit's hundreds, tens and ones


def test_on_every_kind_of_page_lines_are_cut_where_the_record_says(tmp_path: Path) -> None:
    # A guillotine's cut runs to the sheet's edge, a cutter's line as far as the things it frees.
    press = press_for({"cutter": "svg"})
    cards = CardWishes(kinds=KINDS)
    parts: tuple[Part, ...] = ("pieces", "mats", "cards")
    request = Request((Sum(634, 258),), fitted_paper("a4"), parts=parts, cards=cards, press=press)
    build(request, tmp_path)
    record = json.loads((tmp_path / "kit.json").read_text())
    seen = set()
    for sheet in (sheet for sheet in record["sheets"] if sheet["cuts"]):
        cuts = [(c["x1_mm"], c["y1_mm"], c["x2_mm"], c["y2_mm"]) for c in sheet["cuts"]]
        lines = [box(p) for p in cut_paths(tmp_path / f"sheet-{sheet['page']:02}.svg")]
        whole = list(merged(cuts))
        straight = [line for line in lines if line[0] == line[2] or line[1] == line[3]]
        assert len(straight) == len(lines) or sheet["kind"] == "arrow_cards"  # their points slant
        assert all(covered(line, whole, 0.001) for line in straight), sheet["title"]
        for x1, y1, x2, y2 in cuts:
            assert any(
                abs(a - x1) < 0.001 and abs(c - x2) < 0.001
                if x1 == x2
                else abs(b - y1) < 0.001 and abs(d - y2) < 0.001
                for a, b, c, d in lines
            ), sheet["title"]
        seen.add(sheet["kind"])
    kinds = {"pieces", "mat", "exchange_cards", "task_cards"}
    assert kinds | {"fact_cards", "arrow_cards", "digit_cards"} <= seen


@pytest.mark.parametrize("kerf", [0.0, 0.15])
def test_every_sheet_is_svg_1_1_in_three_groups_without_fonts(
    made: dict[float, tuple[dict[str, Any], Path]], kerf: float
) -> None:
    record, folder = made[kerf]
    for sheet in record["sheets"]:
        path = folder / f"sheet-{sheet['page']:02}.svg"
        root = ET.parse(path).getroot()
        assert root.get("version") == "1.1"
        assert root.get("width") == f"{sheet['width_mm']:g}mm"
        assert root.get("viewBox") == f"0 0 {sheet['width_mm']:g} {sheet['height_mm']:g}"
        names = [g.get("id") for g in root if g.tag.endswith("}g")]
        assert names == ["print", "fold", "cut"]
        assert b"<text" not in path.read_bytes()
        assert b"font" not in path.read_bytes()
        (cut,) = [g for g in root if g.get("id") == "cut"]
        check_once([SvgPath(p.get("d")).bbox() for p in cut])
        assert path.name in record["files"]


def test_the_lines_of_the_dxf_are_those_of_the_svg(
    made: dict[float, tuple[dict[str, Any], Path]],
) -> None:
    ezdxf = pytest.importorskip("ezdxf")
    for sheet, path in pieces(*made[0.15]):
        document = ezdxf.read(StringIO(path.with_suffix(".dxf").read_text()))
        assert document.units == ezdxf.units.MM
        height = sheet["height_mm"]
        found = [
            sorted([(e.dxf.start.x, height - e.dxf.start.y), (e.dxf.end.x, height - e.dxf.end.y)])
            for e in document.modelspace().query("LINE[layer=='CUT']")
        ]
        drawn = [box(p) for p in cut_paths(path)]
        assert len(found) == len(drawn)
        for ends, line in zip(found, drawn, strict=True):
            assert [*ends[0], *ends[1]] == pytest.approx(list(line), abs=0.001)


def test_letters_are_as_large_as_the_typeface_says() -> None:
    shape = SvgPath(outlined("08", 10, 20, 5)).bbox()
    left, top, right, bottom = shape
    assert left >= 10 and right <= 10 + width("08", 5)
    # Digits stand on the baseline, as high as a capital; round ones reach a little further.
    assert bottom == pytest.approx(20, abs=0.1)
    assert bottom - top == pytest.approx(digit_height(5), abs=0.2)


def test_names_with_rare_letters_have_outlines_too() -> None:
    canvas = Canvas("t", 100, 60, designs.look())
    canvas.text(10, 20, "Živa Böö", 6)
    root = ET.fromstring(svg(canvas.drawing()))
    shapes = [SvgPath(e.get("d")).bbox() for e in root.iter() if e.tag.endswith("}path")]
    assert min(s[0] for s in shapes) >= 10
    # The ink of the words ends where their advances do, but for the last letter's space.
    assert max(s[2] for s in shapes) == pytest.approx(10 + width("Živa Böö", 6), abs=0.6)


def test_words_stay_what_they_are() -> None:
    canvas = Canvas("t", 100, 60, designs.look())
    canvas.text(10, 20, "a−1 & <b>", 6)
    root = ET.fromstring(svg(canvas.drawing()))
    titles = [e.text for e in root.iter() if e.tag.endswith("}title")]
    assert titles[0] == "t" and "".join(filter(None, titles[1:])) == "a−1 & <b>"


@pytest.mark.parametrize(
    "twice",
    [
        [(0, 0, 10, 0), (0, 0, 10, 0)],
        [(0, 0, 10, 0), (12, 0, 9, 0)],  # one runs back over the other
        [(5, 0, 5, 9), (5, 3, 5, 4)],
        [(0, 0, 3, 4), (3, 4, 0, 0)],  # slanting, from either end
    ],
)
def test_a_line_there_twice_is_found(twice: list[Segment]) -> None:
    with pytest.raises(ValueError, match="there twice"):
        check_once(twice)
    check_once(cutting_order(twice))


def test_lines_that_meet_or_cross_are_not_doubles() -> None:
    check_once([(0, 0, 10, 0), (10, 0, 20, 0), (5, -5, 5, 5), (0, 0, 3, 4)])


@pytest.mark.parametrize("join", [merged, lambda lines: cutting_order(lines, (210, 297))])
def test_a_hair_of_difference_moves_no_line(join: Callable[[list[Segment]], object]) -> None:
    """Python 3.11 sums to the first where 3.12 sums to the other."""
    at, other = 184.98450000000005, 184.9845
    assert join([(9, at, 30, at)]) == join([(9, other, 30, other)])


def test_inner_lines_come_before_outer_ones() -> None:
    # Two squares side by side: the line between them first, the six sides round them last; what
    # holds both squares to the sheet is cut at the very end.
    squares = [*outline(0, 0, 10, 10), *outline(10, 0, 20, 10)]
    order = cutting_order(squares)
    assert order[0] == (10, 0, 10, 10)
    assert sorted(order[1:]) == [(0, 0, 0, 10), (0, 0, 20, 0), (0, 10, 20, 10), (20, 0, 20, 10)]


def test_a_line_is_divided_where_it_turns_outer() -> None:
    # A square on top of a wider one: the line between is inner for the first 10 mm.
    stair = [*outline(0, 0, 10, 10), *outline(0, 10, 20, 20)]
    order = cutting_order(stair)
    assert order[0] == (0, 10, 10, 10)
    assert (10, 10, 20, 10) in order[1:]


def loose_too_soon(order: Sequence[Segment], width: int, height: int) -> list[Segment]:
    """Return the lines after which more than one part has a line in it that is still to be cut.

    Only one part of a sheet can be held. The sheet is looked at in squares of 1 mm.
    """
    walls: set[frozenset[tuple[int, int]]] = set()
    bad = []
    sides = [_sides_of(line) for line in order]
    for index, line in enumerate(order):
        walls |= set(sides[index])
        left = {side for later in sides[index + 1 :] for side in later}
        parts = _parts_of(width, height, walls)
        if sum(any(side <= part for side in left) for part in parts) > 1:
            bad.append(line)
    return bad


def _sides_of(line: Segment) -> list[frozenset[tuple[int, int]]]:
    x1, y1, x2, y2 = map(round, line)
    if y1 == y2:
        return [frozenset([(x, y1 - 1), (x, y1)]) for x in range(x1, x2)]
    return [frozenset([(x1 - 1, y), (x1, y)]) for y in range(y1, y2)]


def _parts_of(
    width: int, height: int, walls: set[frozenset[tuple[int, int]]]
) -> list[set[tuple[int, int]]]:
    left = {(x, y) for x in range(width) for y in range(height)}
    parts = []
    while left:
        todo = [left.pop()]
        part = set(todo)
        while todo:
            x, y = todo.pop()
            for near in ((x - 1, y), (x + 1, y), (x, y - 1), (x, y + 1)):
                if near in left and frozenset([(x, y), near]) not in walls:
                    left.remove(near)
                    part.add(near)
                    todo.append(near)
        parts.append(part)
    return parts


@pytest.mark.parametrize(
    ("lines", "page"),
    [
        # labels: two columns and four rows, from edge to edge of the sheet
        ([(10, 0, 10, 24), *((0, y, 20, y) for y in (6, 12, 18))], (20, 24)),
        # digit cards: rows of different lengths, and a rim
        ([(0, 6, 20, 6), (0, 12, 20, 12), (5, 0, 5, 12), (9, 0, 9, 6), (14, 6, 14, 12)], (20, 24)),
        ([*outline(3, 3, 9, 9), *outline(9, 3, 15, 9), *outline(3, 9, 15, 21)], (20, 24)),
    ],
)
def test_nothing_comes_loose_before_its_inside_is_cut(
    lines: list[Segment], page: tuple[int, int]
) -> None:
    assert not loose_too_soon(cutting_order(lines, page), *page)
    assert sorted(merged(cutting_order(lines, page))) == sorted(merged(lines))


def test_a_strip_that_is_loose_too_soon_is_found() -> None:
    # The middle line first: both halves of the sheet still have a line to cut.
    assert loose_too_soon([(0, 12, 20, 12), (10, 0, 10, 12), (10, 12, 10, 24)], 20, 24)


def spread(rects: Sequence[Rect], kerf: float) -> list[Rect]:
    return [i.rect for i in spread_out([Item("ones", r) for r in rects], kerf, 0, 0)]


def test_neighbours_stand_one_kerf_apart() -> None:
    row = [Rect(10 * i, 0, 10, 10) for i in range(3)]
    moved = spread(row, 0.2)
    assert [r.x for r in moved] == pytest.approx([0.1, 10.3, 20.5])
    # Three ones, a kerf between and half a kerf round them: four lines down, one above and below.
    lines = kerf_lines(moved, 0.2)
    assert sorted({x for x, _, x2, _ in lines if x == x2}) == pytest.approx([0, 10.2, 20.4, 30.6])


def test_a_pinwheel_cannot_be_spread() -> None:
    wheel = [Rect(0, 0, 2, 1), Rect(2, 0, 1, 2), Rect(1, 2, 2, 1), Rect(0, 1, 1, 2)]
    with pytest.raises(ValueError, match="straight cut"):
        spread(wheel, 0.1)


def test_sheets_are_counted_again() -> None:
    # Two hundreds, a kerf of 0.15 mm between them and half a kerf at each side are 200.3 mm
    # wide: a kerf more at each side than the 200 mm between a4's margins holds them.
    paper = fitted_paper("a4")
    (sheet,) = kerf_sheets(Pieces(0, 0, 4), paper, CutWish(), 0.15)
    assert (len(sheet.items), sheet.copies) == (4, 1)
    # A wide tool's path of 1 mm: 202 mm are more than 200 and twice the half mm that a tool may
    # leave the margins by, so two hundreds a sheet instead of four.
    (sheet,) = kerf_sheets(Pieces(0, 0, 4), paper, CutWish(), 1.0)
    assert (len(sheet.items), sheet.copies) == (2, 2)
    # At 9.9 mm they are 198 + 2 × 1 = 200 mm wide and lie side by side again.
    small = replace(paper, unit_mm=9.9)
    (sheet,) = kerf_sheets(Pieces(0, 0, 4), small, CutWish(), 1.0)
    assert (len(sheet.items), sheet.copies) == (4, 1)


@pytest.mark.parametrize("margin", [0.0, 0.05, 0.4])
def test_without_margins_no_line_leaves_the_sheet(margin: float) -> None:
    paper = fitted_paper("a4", margin)
    for sheet in kerf_sheets(Pieces(15, 13, 9), paper, CutWish(), 0.3):
        ends = [end for cut in sheet.cuts for end in (cut.x1, cut.y1, cut.x2, cut.y2)]
        assert min(ends) >= 0


def test_spares_are_cut_by_a_machine_too() -> None:
    # A tenth of 3 × 12 ones is 3.6, so 4 more; of 3 × 10 tens 3 more; hundreds are seldom lost.
    sheets = kerf_sheets(Pieces(12, 10, 2), fitted_paper("a4"), CutWish(kits=3, spares=10), 0.2)
    held = Counter[str]()
    for sheet in sheets:
        for item in sheet.items:
            held[item.what] += sheet.copies
    assert held == {"ones": 40, "tens": 33, "hundreds": 6}


def test_a_kerf_too_wide_is_refused() -> None:
    paper = replace(fitted_paper("a5"), unit_mm=13.8)  # ten are 138 mm, all that prints
    # (138 − 0.15) / 10, rounded down to hundredths
    with pytest.raises(RefusedError, match=r"kerf of 0.15 mm; .* fits is --unit 13.78\.$"):
        kerf_sheets(Pieces(0, 0, 1), paper, CutWish(), 0.15)
    assert kerf_sheets(Pieces(0, 0, 1), replace(paper, unit_mm=13.78), CutWish(), 0.15)


@settings(max_examples=25, deadline=None)
@given(
    st.integers(0, 6),
    st.integers(0, 30),
    st.integers(0, 40),
    st.sampled_from([5.0, 7.5, 9.5, 10.0, 12.5]),
    st.sampled_from([0.05, 0.15, 0.5, 1.0]),
)
def test_any_stock_is_cut_true(h: int, t: int, o: int, unit: float, kerf: float) -> None:
    paper = replace(fitted_paper("a4"), unit_mm=unit)
    sheets = kerf_sheets(Pieces(o, t, h), paper, CutWish(), kerf)
    held = [item.what for sheet in sheets for _ in range(sheet.copies) for item in sheet.items]
    for what, count in (("hundreds", h), ("tens", t), ("ones", o)):
        assert held.count(what) >= count
    inside = reach(paper, kerf)
    for sheet in sheets:
        check_kerf(sheet, inside, unit)
        check_once([(c.x1, c.y1, c.x2, c.y2) for c in sheet.cuts])


def test_the_kerf_checker_finds_what_is_wrong() -> None:
    paper = fitted_paper("a4")
    (sheet,) = kerf_sheets(Pieces(4, 0, 1), paper, CutWish(), 0.2)
    inside = reach(paper, sheet.kerf)

    def with_rect(change: Rect) -> None:
        first, *rest = sheet.items
        check_kerf(replace(sheet, items=(first._replace(rect=change), *rest)), inside, 10)

    rect = sheet.items[0].rect
    with pytest.raises(ValueError, match="true size"):
        with_rect(Rect(rect.x, rect.y, rect.width - 0.1, rect.height))
    with pytest.raises(ValueError, match="leave"):
        with_rect(rect.moved(-0.1, 0))
    with pytest.raises(ValueError, match="closer than the kerf"):
        other = sheet.items[1].rect
        with_rect(Rect(other.x + 0.5, other.y + 0.5, rect.width, rect.height))


def test_without_the_library_dxf_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(RefusedError, match=r"pip install ezdxf$"):
        dxf(Canvas("t", 100, 60, designs.look()).drawing())
