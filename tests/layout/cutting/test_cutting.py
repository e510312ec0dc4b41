"""The cutting map: parts that share pictures and numbers, an order that can be followed."""

import json
from collections import Counter
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise, product
from math import hypot
from pathlib import Path

import pytest
from grids import each, some
from map_follower import LostError, follow

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting import stack_page
from kitbuilder.layout.cutting.cut_map import CutMap, cut_map, lettered
from kitbuilder.layout.cutting.cut_tree import cut_sheet, strokes
from kitbuilder.layout.cutting.stack_corners import corners
from kitbuilder.layout.cutting.stack_order import Panel, number_stops, stack_stops
from kitbuilder.layout.cutting.stack_page import stack_pages
from kitbuilder.layout.cutting.verify_cuts import replay
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Disc, Line, Pictogram
from kitbuilder.layout.pieces.piece_sheets import piece_plan
from kitbuilder.number import Pieces
from kitbuilder.pipeline import build, held, laid_out
from kitbuilder.press.printing import Press
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Part, Request, fitted_paper, read_sum

TENS = tuple(Item("tens", Rect(10 * i, 0, 10, 100)) for i in range(3))
CUTS = tuple(Cut(x, 0, x, 100) for x in (30, 20, 10))
STRIP = Sheet(SheetKind.PIECES, 1, "card", 40, 100, TENS, CUTS, 2)


CUT: tuple[Part, ...] = ("pieces", "mats", "cards")
"""The parts of a kit that are cut, with labels: what is read is left out."""


@lru_cache
def laid(paper: str, kits: int, layers: int) -> CutMap:
    wish = CutWish(kits, layers)
    request = Request(first_wishes().sums, fitted_paper(paper), parts=CUT, cutting=wish)
    found = laid_out(held(request), request).cut
    assert found
    return found


def test_a_cut_that_is_not_edge_to_edge_is_refused() -> None:
    with pytest.raises(ValueError, match="edge to edge"):
        cut_sheet(replace(STRIP, cuts=(Cut(30, 0, 30, 50),)))


def test_stacked_parts_are_turned_until_their_lines_meet() -> None:
    # B is A turned by half: its trim is at the other end, and both lie in one stack of three.
    # The last cut leaves 10 mm at either side: by hand, of two and then of one.
    turned = tuple(Item("tens", Rect(10 + 10 * i, 0, 10, 100)) for i in range(3))
    cuts = tuple(Cut(x, 0, x, 100) for x in (10, 20, 30))
    other = replace(STRIP, items=turned, cuts=cuts, copies=1)
    both = [replace(cut_sheet(sheet), name=name) for sheet, name in ((STRIP, "A"), (other, "B"))]
    assert number_stops([one.root for one in both]) == 3
    stops = stack_stops(both, 3)
    assert [stop.numbers for stop in stops] == [(1, 2), (3,)]
    told = [(panel.parts, panel.sheets, panel.turned) for panel in stops[0].panels]
    assert told == [(3, ("A", "B"), 1)]
    assert [stop.strokes for stop in stops] == [1, 2]
    assert strokes((one.printed for one in both), 3) == 2 * 1 + 2


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
@pytest.mark.parametrize("layers", [1, 5])
def test_the_order_of_a_whole_kit_can_be_cut(paper: str, layers: int) -> None:
    plan = piece_plan(Pieces(18, 19, 9), fitted_paper(paper), CutWish(6, layers))
    assert plan is not None
    for one in cut_map(plan, (), layers).sheets:
        sheet = one.printed
        parts = {tuple(round(v, 2) for v in part) for part in replay(plan.page, sheet.cuts)}
        for rect in (item.rect for item in sheet.items):
            box = (rect.x, rect.y, rect.right, rect.bottom)
            assert tuple(round(100 * v) for v in box) in parts
        assert list(sheet.stops) == sorted(sheet.stops)


@pytest.mark.parametrize(
    ("paper", "kits", "layers"),
    [
        (paper, kits, layers)
        for paper, (kits, layers) in some(
            product(("a4", "letter", "a3"), ((15, 5), (6, 5), (30, 3), (1, 5), (30, 2))), 3
        )
    ],
)
def test_who_follows_the_pictures_has_all_the_pieces(paper: str, kits: int, layers: int) -> None:
    cut = laid(paper, kits, layers)
    sheets = [one.printed for one in cut.sheets]
    made, followed = follow(sheets, cut.stops)
    due = Counter[tuple[float, ...]]()
    for sheet in sheets:
        for item in sheet.items:
            sides = sorted((round(item.rect.width, 2), round(item.rect.height, 2)))
            due[0.0, 0.0, sides[0], sides[1]] += sheet.copies
    assert made == due
    assert cut.plan
    kinds = dict.fromkeys(sheet.kind for sheet in sheets)
    each = {k: strokes([s for s in sheets if s.kind == k], cut.layers) for k in kinds}
    assert each[SheetKind.PIECES] == cut.plan.strokes
    assert followed == sum(each.values())


def test_who_follows_a_map_with_a_step_missing_or_too_soon_is_lost() -> None:
    cut = laid("a4", 6, 5)
    sheets = [one.printed for one in cut.sheets]
    with pytest.raises(LostError, match="come"):
        follow(sheets, cut.stops[1:])
    with pytest.raises(LostError, match="left uncut"):
        follow(sheets, cut.stops[:-1])
    place, stop = next((i, s) for i, s in enumerate(cut.stops) if s.panels[0].done)
    panel = stop.panels[0]
    through = tuple(replace(line, at=line.at + 1) for line in panel.lines)
    more = panel.parts + 1
    wrong = {"through a piece": replace(panel, lines=through), "shown": replace(panel, parts=more)}
    for says, bad in wrong.items():
        stops = list(cut.stops)
        stops[place] = replace(stop, panels=(bad, *stop.panels[1:]))
        with pytest.raises(LostError, match=says):
            follow(sheets, stops)


@pytest.mark.parametrize(
    ("look", "words", "stack"),
    each(("plain", "bold"), ("en-GB", "es"), (("a4", 15, 5), ("letter", 30, 3))),
)
def test_every_cut_has_its_number_on_the_map(
    look: str, words: str, stack: tuple[str, int, int]
) -> None:
    style = Style(fitted_paper(stack[0]), designs.words(words), designs.look(look))
    cut = laid(*stack)
    pages = stack_pages(cut, Bag(("ones",)), style)
    list(draw_pages(pages, style.paper, Press(look=style.look, words=style.words)))
    seen = {
        int(after.content.text)
        for page in pages
        for disc, after in pairwise(page.items)
        if isinstance(disc.content, Disc) and isinstance(after.content, Line)
    }
    cuts = {number for one in cut.sheets for number in one.printed.stops}
    assert seen == cuts == set(range(1, max(cuts) + 1))


def test_a_stack_of_many_narrow_strips_is_drawn_in_pictures_that_can_be_read() -> None:
    """Fourteen lines in one picture, ten ones apart: their numbers ran into the lengths."""
    style = Style(fitted_paper("letter"))
    cut = laid("letter", 30, 2)
    panels = [panel for stop in cut.stops for panel in stop.panels]
    assert max(len(panel.lines) for panel in panels) == 8
    pages = stack_pages(cut, Bag(("ones",)), style)
    list(draw_pages(pages, style.paper, Press(look=style.look, words=style.words)))


def test_who_knocks_a_stack_square_at_the_corners_shown_cuts_along_its_lines() -> None:
    style, seen = Style(fitted_paper("a4"), designs.words(), designs.look("plain")), Counter[str]()
    for stop in (*laid("a4", 30, 3).stops, *laid("letter", 6, 5).stops):
        for panel in stop.panels:
            items = corners(panel, 0.4, style).items
            squares = [item.rect for item in items if item.what == "corner"]
            told = {
                int(item.content.text): rect
                for (_, rect, _), item in pairwise(items)
                if isinstance(item.content, Line)
            }
            assert not [n for n in panel.lines if n.number in told and 0 < abs(n.corner) < 0.1]
            for line in panel.lines:
                if line.by_hand or (line.number not in told and line.corner):
                    seen["by hand" if line.by_hand else "too small for a number"] += 1
                    continue
                rect = told.get(line.number) or squares[0]
                edge = (
                    (rect.right if line.far else rect.x)
                    if line.down
                    else (rect.bottom if line.far else rect.y)
                )
                cut = edge / 0.4 + (-line.kept if line.far else line.kept)
                assert cut == pytest.approx(line.at, abs=0.01), (panel, line)
                seen["far" if line.far else "near"] += 1
    assert seen["far"] and seen["near"] and seen["by hand"]
    assert seen["too small for a number"] < seen["far"]


@pytest.mark.parametrize(
    ("paper", "kits", "layers"),
    [("a4", 6, 5), ("a4", 30, 3), ("letter", 6, 5), ("letter", 30, 3), ("a3", 30, 3)],
)
def test_no_stop_is_shorter_than_a_clamp_can_hold(paper: str, kits: int, layers: int) -> None:
    cut = laid(paper, kits, layers)
    lines = [n for stop in cut.stops for panel in stop.panels for n in panel.lines]
    hand = [line for line in lines if line.by_hand]
    assert hand and all(line.kept >= 20 for line in lines if line not in hand)
    if (paper, kits) in (("a4", 6), ("letter", 30)):
        style = Style(fitted_paper(paper), designs.words(), designs.look("plain"))
        items = [item for page in stack_pages(cut, Bag(("ones",)), style) for item in page.items]
        said = " ".join(i.content.text for i in items if isinstance(i.content, Line))
        assert style.words("stacks.by_hand") in said


@pytest.mark.usefixtures("anew")
def test_what_stacked_parts_hold_is_drawn_in_one_size_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    cut, drawn, part = laid("a4", 6, 5), list[Panel](), stack_page._part

    def counting(panel: Panel, scale: float, black: Block, style: Style) -> Block:
        drawn.append(panel)
        return part(panel, scale, black, style)

    monkeypatch.setattr(stack_page, "_part", counting)
    stack_pages(cut, Bag(), Style(fitted_paper("a4")))
    assert drawn == [panel for stop in cut.stops for panel in stop.panels]


def test_no_tick_is_hidden_behind_a_corner() -> None:
    # A strip of ones is cut apart: the first of them lies in the corner itself.
    wish = CutWish(kits=6, layers=5)
    request = Request((read_sum("43-17"),), fitted_paper("a4"), parts=CUT, cutting=wish)
    ticks = 0
    for page in laid_out(held(request), request).sheets:
        if page.kind is SheetKind.CUTTING:
            shown = [i.rect for i in page.items if i.content == Pictogram("right")]
            black = [i.rect for i in page.items if i.what == "corner"]
            assert not [one for one in shown if any(map(one.overlaps, black))]
            ticks += len(shown)
    assert ticks > 5


def test_the_corner_to_knock_square_lies_over_the_lines_and_no_discs_overlap() -> None:
    style = Style(fitted_paper("a4"), designs.words(), designs.look("plain"))
    for page in stack_pages(laid("a4", 24, 10), Bag(("ones",)), style):
        corners = [k for k, item in enumerate(page.items) if item.what == "corner"]
        assert corners
        for at in corners:
            after = page.items[at + 1 :]
            own = page.items[at].rect
            assert page.items[at - 1].what == "ground", "lines show through a bare square"
            assert not any(i.what == "blade" and i.rect.overlaps(own) for i in after)
        discs = [item.rect for item in page.items if isinstance(item.content, Disc)]
        for a, b in combinations(discs, 2):
            apart = hypot(a.x - b.x, a.y - b.y)  # all are of one size
            assert apart >= a.width - 0.01


STACKS = ((12, "a4", 2), (29, "letter", 4), (29, "letter", 2), (30, "a4", 3))
SUMS = (("634-258", "plain"), ("43-17 71-48", "bold"))


@pytest.mark.parametrize(("stack", "asked"), some(product(STACKS, SUMS), 3))
def test_numbers_of_a_stack_stand_at_their_own_line(
    stack: tuple[int, str, int], asked: tuple[str, str]
) -> None:
    (kits, paper, layers), (sums, look) = stack, asked
    wish, paper_ = CutWish(kits, layers), fitted_paper(paper)
    press = Press(look=designs.look(look))
    of = Request(tuple(map(read_sum, sums.split())), paper_, parts=CUT, cutting=wish, press=press)
    pages = [s for s in laid_out(held(of), of).sheets if s.kind is SheetKind.CUTTING]
    assert pages
    for page in pages:
        discs = [i.rect for i in page.items if isinstance(i.content, Disc)]
        lines = [i.rect for i in page.items if i.what in ("blade", "lead")]
        near = [
            (a, b) for a, b in combinations(discs, 2) if hypot(a.x - b.x, a.y - b.y) < a.width + 0.5
        ]
        assert near == [], page.number
        through = [d for d in discs for n in lines if d.inset(0.1).overlaps(n)]
        assert through == [], page.number


def test_a_stop_is_the_length_that_stays_under_the_clamp() -> None:
    # Three tens and a rim of 10 mm: the rim goes at 30, then what is left is cut at 20 and 10.
    one = replace(cut_sheet(STRIP), name="A")
    number_stops([one.root])
    (stop,) = stack_stops([one], 2)
    lines = sorted(stop.panels[0].lines, key=lambda line: line.number)
    assert [(line.at, line.kept) for line in lines] == [(30, 30), (20, 20), (10, 10)]
    assert [line.by_hand for line in lines] == [False, False, True]
    # From the other end 10 mm at the left are too few to be held: what is beyond the cut is.
    cuts = tuple(Cut(x, 0, x, 100) for x in (10, 20, 30))
    items = tuple(Item("tens", Rect(10 + 10 * i, 0, 10, 100)) for i in range(3))
    other = replace(cut_sheet(replace(STRIP, items=items, cuts=cuts)), name="B")
    number_stops([other.root])
    (stop,) = stack_stops([other], 2)
    lines = sorted(stop.panels[0].lines, key=lambda line: line.number)
    assert [(line.at, line.kept) for line in lines] == [(10, 30), (20, 20), (30, 10)]
    assert [line.far for line in lines] == [True, True, False] and lines[2].by_hand


@pytest.mark.parametrize("layers", [3, 5])
@pytest.mark.parametrize("kits", [1, 15])
def test_large_type_fits_a_small_page(kits: int, layers: int) -> None:
    paper, look = fitted_paper("a5", unit=12), designs.look("bold")
    plan = piece_plan(Pieces(18, 17, 0), paper, CutWish(kits, layers))
    pages = stack_pages(cut_map(plan, (), layers), Bag(), Style(paper, look=look))
    list(draw_pages(pages, paper, Press(look=look)))  # fails where words run together
    assert pages


def test_after_z_sheets_are_named_with_two_letters_and_then_three() -> None:
    # 26 names of one letter and 26 * 26 of two.
    names = [lettered(index) for index in (0, 25, 26, 51, 52, 701, 702)]
    assert names == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


def test_sheets_of_one_kind_share_a_stack_and_kinds_do_not() -> None:
    def halved(kind: SheetKind, number: int) -> Sheet:
        return Sheet(kind, number, "card", 100, 60, (), (Cut(50, 0, 50, 60),))

    cut = cut_map(
        None,
        [halved(SheetKind.LABELS, 1), halved(SheetKind.FACT_CARDS, 1), halved(SheetKind.LABELS, 2)],
        5,
    )
    assert [(one.sheet.kind, one.sheet.copies) for one in cut.sheets] == [
        ("labels", 2),
        ("fact_cards", 1),
    ]
    assert [stop.numbers for stop in cut.stops] == [(1,), (2,)]
    assert [stop.strokes for stop in cut.stops] == [1, 1]


def test_the_record_tells_the_stop_of_each_cut_and_its_strokes(tmp_path: Path) -> None:
    request = Request(
        first_wishes().sums, fitted_paper("a4"), cutting=CutWish(6, 5), parts=("pieces", "cards")
    )
    build(request, tmp_path)
    record = json.loads((tmp_path / "kit.json").read_text())
    numbers = [stop["stop"] for stop in record["stops"]]
    assert numbers == list(range(1, len(numbers) + 1))
    strokes = Counter[str]()
    for stop in record["stops"]:
        strokes[stop["kind"]] += stop["strokes"]
        parts = sum(
            sheet["copies"]
            for sheet in record["sheets"]
            for cut in sheet["cuts"]
            if cut["stop"] == stop["stop"]
        )
        assert stop["parts"] == parts
        assert stop["strokes"] in (-(-parts // 5), -(-parts // 2))  # two at a time by hand
    assert strokes["pieces"] == record["cutting"]["strokes"]
    assert strokes.total() == record["estimate"]["straight_cuts"]
    spare = Counter[str]()
    for sheet in record["sheets"]:
        for item in sheet["items"]:
            spare[item["what"]] += item["spare"]
    assert {k: spare[k] for k in record["cutting"]["spares"]} == record["cutting"]["spares"]


def test_cards_are_on_the_map_of_a_single_kit_too() -> None:
    titles = dict.fromkeys(one.sheet.kind for one in laid("a4", 1, 1).sheets)
    assert list(titles) == ["pieces", "exchange_cards", "task_cards"]


MATS = (
    MatWish(),
    MatWish(arrangement="beside"),
    MatWish(("subtract", "add", "exchange"), "three"),
)


@pytest.mark.parametrize(("mats", "layers"), some(product(MATS, (2, 3, 4)), 2))
def test_all_cuts_that_are_counted_are_shown(mats: MatWish, layers: int) -> None:
    request = Request(
        tuple(read_sum(text) for text in ("634-258", "71-48")),
        fitted_paper("a4"),
        parts=CUT,
        mats=mats,
        cutting=CutWish(6, layers),
    )
    found = laid_out(held(request), request)
    assert found.cut
    told = sum(stop.strokes * len(stop.numbers) for stop in found.cut.stops)
    assert told == strokes((s for s in found.sheets if s.flip is None), layers)
    kinds = {one.sheet.kind for one in found.cut.sheets}
    assert kinds == {sheet.kind for sheet in found.sheets if sheet.cuts and not sheet.flip}
    assert SheetKind.MAT in kinds
    mat = next(one for one in found.cut.sheets if one.sheet.kind is SheetKind.MAT)
    assert any(node.what for node in mat.root.ends())  # it does not fall off
    joined = [i for s in found.sheets if s.kind is SheetKind.CUTTING for i in s.items]
    tiles = sum(s.kind is SheetKind.MAT for s in found.sheets)
    assert sum(i.what == "sheet" for i in joined) >= tiles  # where each letter is glued


def test_strokes_of_sheets_without_a_picture_are_counted_by_stacks() -> None:
    # Seven sheets, five in a stack, are two stacks; two cuts through each are four strokes.
    cuts = (Cut(5, 0, 5, 297), Cut(205, 0, 205, 297))
    mat = Sheet(SheetKind.MAT, 1, "paper", 210, 297, (), cuts, copies=7)
    assert strokes([mat], 5) == 4


def test_pictures_of_stacks_are_as_large_as_their_pages_allow() -> None:
    # A sheet was less than a quarter of the page high, and a third below it blank.
    sums = tuple(map(read_sum, ("634-258", "71-48", "305-148")))
    wish, paper = CutWish(2, 3), fitted_paper("a4")
    request = Request(sums, paper, parts=("pieces",), cutting=wish)
    cut = laid_out(held(request), request).cut
    assert cut
    for page in stack_pages(cut, Bag(), Style(paper)):
        parts = [item.rect for item in page.items if item.what == "part"]
        assert max(rect.height for rect in parts) > 0.28 * page.height
        assert max(rect.bottom for rect in parts) > 0.78 * page.height


def test_few_strips_of_a_class_set_are_cut_by_hand_and_each_is_seen() -> None:
    # strokes through 12 stacks of strips and 9 of ones were; now through 5 and 3, five in each
    cutting = CutWish(6, layers=5)
    request = Request((), fitted_paper("a4"), within=1000, cutting=cutting, parts=("pieces",))
    cut = laid_out(held(request), request).cut
    assert cut and cut.plan and cut.plan.strokes == 80
    by_hand = [s for s in cut.stops if any(line.by_hand for p in s.panels for line in p.lines)]
    assert sum(stop.parts for stop in by_hand) <= 40
    for panel in (panel for stop in cut.stops for panel in stop.panels):
        across = sorted(line.at for line in panel.lines if not line.down)
        assert all(b - a > 0.03 * panel.height for a, b in pairwise(across))


def test_a_strip_with_blank_cards_is_not_shown_as_waste() -> None:
    cut, style = laid("a4", 15, 3), Style(fitted_paper("a4"))
    panels = [panel for stop in cut.stops for panel in stop.panels if panel.kept]
    assert {panel.whole for panel in panels} == {SheetKind.EXCHANGE_CARDS}
    assert not any(falls.overlaps(rect) for p in panels for falls in p.falls for rect in p.kept)
    items = [item for sheet in stack_pages(cut, Bag(), style) for item in sheet.items]
    said = [item.content.text for item in items if isinstance(item.content, Line)]
    assert style.words("stacks.blank") in said
