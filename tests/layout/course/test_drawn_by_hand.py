"""Squares, strokes and dots: as many as the sum has, marked as a child marks them."""

from collections import Counter
from itertools import pairwise

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_pages import worksheets
from kitbuilder.kit.lesson.drawn_by_hand import drawn
from kitbuilder.kit.lesson.writing import FOUR_PLACES, writing
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.worksheets.drawn import HIGH, drawn_block, drawn_width, drawn_within
from kitbuilder.layout.worksheets.worksheet_pages import worksheet_sheets
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.course.schedule import PlanWish, plan

STYLE = Style(designs.paper("a4"), designs.words(), designs.look("plain"))
TASKS = plan(PlanWish()).tasks


def held(sum_: Sum, stage: int) -> Counter[tuple[int, str]]:
    found: Counter[tuple[int, str]] = Counter()
    for cluster in drawn(sum_)[stage]:
        if not cluster.blank:
            found[cluster.place, "struck"] += cluster.struck
            found[cluster.place, "ring"] += cluster.ringed
            found[cluster.place, "plain"] += cluster.count - cluster.struck - cluster.ringed
    return +found


@pytest.mark.parametrize("sum_", [Sum(43, 17), Sum(431, 257), Sum(305, 148), Sum(320, 147)])
def test_what_is_drawn_stays_where_it_is(sum_: Sum) -> None:
    # on paper nothing moves: each picture is the one before, and more
    stages = [drawn_block(stage, 1.0).items for stage in drawn(sum_)]
    for before, after in pairwise(stages):
        assert {(i.what, i.rect) for i in before} <= {(i.what, i.rect) for i in after}


@pytest.mark.parametrize("sum_", [Sum(43, 17), Sum(254, 38), Sum(431, 257), Sum(305, 148)])
def test_a_drawing_keeps_the_whole_and_rings_the_part(sum_: Sum) -> None:
    for stage in range(3):
        found = held(sum_, stage)
        lying = sum(n * 10**place for (place, mark), n in found.items() if mark != "struck")
        assert lying == sum_.whole
    ringed = sum(n * 10**place for (place, mark), n in found.items() if mark == "ring")
    assert ringed == sum_.part


def test_a_ten_is_struck_and_ten_dots_come() -> None:
    assert held(Sum(43, 17), 1) == {(1, "plain"): 3, (1, "struck"): 1, (0, "plain"): 13}
    assert len(drawn(Sum(48, 15))) == 2  # nothing is exchanged


def test_one_stroke_is_struck_and_all_stand_as_far_apart() -> None:
    items = drawn_block(drawn(Sum(43, 17))[1], 1.0).items
    strokes = [i.rect.x for i in items if i.what == "stroke"]
    apart = [b - a for a, b in pairwise(strokes)]
    assert len(strokes) == 4 and max(apart) - min(apart) < 0.01
    (strike,) = (i.rect for i in items if i.what == "strike")
    assert strike.x - strokes[2] > 0.5 and strike.x < strokes[3] < strike.right


@pytest.mark.parametrize("sum_", [Sum(43, 17), Sum(952, 378), Sum(305, 148)])
def test_a_drawing_stands_in_its_room(sum_: Sum) -> None:
    for stage in drawn(sum_):
        block = drawn_block(stage, 1.5)
        assert block.width <= 1.5 * drawn_width(stage) + 1e-6
        for item in block.items:
            assert item.rect.x >= -1e-6 and item.rect.right <= block.width + 1e-6
            assert item.rect.y >= -1e-6 and item.rect.bottom <= 1.5 * HIGH + 1e-6


def test_a_drawing_fills_a_narrow_room_place_by_place() -> None:
    drawing = drawn(Sum(433, 365))[-1]
    narrow, wide = Rect(0, 0, 24, 32), Rect(0, 0, 80, 12)
    block, unit = drawn_within(drawing, narrow, 2.0)
    assert unit > 1.4 * narrow.width / drawn_width(drawing)
    assert block.width <= narrow.width + 1e-6 and block.height <= narrow.height + 1e-6
    assert sum(item.what == "dot" for item in block.items) == 13
    block, unit = drawn_within(drawing, wide, 2.0)  # in one line
    assert block.height == pytest.approx(HIGH * unit) and block.width <= wide.width + 1e-6


def test_a_drawing_of_four_places_stands_in_two_lines_of_a_key() -> None:
    # In one line it is 54 units wide, 0.73 mm each: under the 0.8 that can be seen.
    block, unit = drawn_within(drawn(Sum(2002, 1276))[-1], Rect(0, 0, 39.6, 17.6), 2.0)
    assert unit > 0.85 and 2 * HIGH * unit < block.height <= 17.6 + 1e-6
    assert block.width <= 39.6 + 1e-6


def test_rings_touch_neither_each_other_nor_the_lines_of_a_thousand() -> None:
    block, unit = drawn_within(drawn(Sum(4003, 2816))[-1], Rect(0, 0, 37.2, 21.6), 2.0)
    rings = [item.rect for item in block.items if item.what == "ring"]
    (first, *_), last = rings, max(rings, key=lambda ring: ring.y)
    layers = [item.rect for item in block.items if item.what == "layer"]
    assert first.bottom - max(layer.bottom for layer in layers) > 0.4 * unit
    assert last.y - first.bottom > unit


def test_a_drawing_that_shows_how_stands_beside_its_sum() -> None:
    for sum_, shown in ((Sum(43, 17), "43"), (Sum(4002, 1768), "1132")):
        sheets = writing_sheets(writing((sum_,), STYLE.words), 1, STYLE)
        items = (item.content for sheet in sheets for item in sheet.items)
        assert any(isinstance(i, Line) and i.text.startswith(f"{shown} \u2212 ") for i in items)


def test_a_key_shows_a_drawn_sum_as_it_is_drawn() -> None:
    _, keys = worksheets(TASKS, STYLE.words, daily=False)
    wanted = sum(task.kind == "drawn" for task in TASKS)
    items = [item.what for sheet in worksheet_sheets(keys, STYLE) for item in sheet.items]
    assert items.count("draw_place") == wanted > 4
    assert "small_pieces" not in items
    dots = sum(
        cluster.count
        for task in TASKS
        if task.kind == "drawn" and isinstance(task.item, Sum)
        for cluster in drawn(task.item)[-1]
        if cluster.place == 0
    )
    assert items.count("dot") == dots


@pytest.mark.parametrize("language", designs.names("words"))
def test_the_guide_shows_how_a_sum_is_drawn_and_says_what_comes_after(language: str) -> None:
    words = designs.words(language)
    page = writing((Sum(43, 17),), words)
    assert page.drawing == drawn(Sum(43, 17)) and page.draw_told
    style = Style(designs.paper("a4"), words, designs.look("plain"))
    items = [item.what for sheet in writing_sheets(page, 1, style) for item in sheet.items]
    assert items.count("dot") == 3 + 13 + 13 and items.count("ring") == 2


@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("coins", [False, True])
def test_what_is_drawn_of_decimals_has_their_places(language: str, coins: bool) -> None:
    words = designs.words(language)
    shown = words.money("EUR") if coins else words.decimal
    told = writing([Sum(300, 147, shown.scale)], shown).draw_told
    first = ".".join(told.split(".")[:2]).lower()
    ones, tenths, hundredths = (shown(f"single.{place}").lower() for place in PLACES[2::-1])
    assert first.find(ones) < first.find(tenths) < first.find(hundredths)
    assert writing([Sum(43, 17)], words).draw_told != told


def test_the_sum_drawn_for_four_places_is_short_by_five_in_no_column() -> None:
    # Two mistakes would then give one answer.
    whole, part = (digits(number, 4) for number in (FOUR_PLACES.whole, FOUR_PLACES.part))
    assert 5 not in [low - top for top, low in zip(whole, part, strict=True)]
