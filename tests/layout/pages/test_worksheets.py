"""Worksheets and keys: nothing runs together, and a key's sums stand where the child's do."""

from datetime import date

import pytest
from grids import each
from guards import (
    MOST_INK,
    blank_bands,
    faint_words,
    is_light,
    small_ones,
    small_type,
    words_apart,
    words_in_boxes,
    words_inside,
)
from peek import photocopied, picture

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.kit.course.course_pages import worksheets
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.layout.parts.contents import Line, Panel, Pictogram, Rule
from kitbuilder.layout.worksheets.sum_grid import grid
from kitbuilder.layout.worksheets.worksheet_pages import worksheet_sheets
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.schedule import PlanWish, Task, plan
from kitbuilder.number.sums import Sum
from kitbuilder.press.printing import fitted_paper

TASKS = plan(PlanWish()).tasks


def both(
    paper: str, words: str, look: str, *, daily: bool
) -> tuple[Style, list[Sheet], list[Sheet]]:
    said = designs.words(words)
    style = Style(fitted_paper(paper), said, designs.look(look))
    asked, keys = worksheets(TASKS[:80], said, daily=daily)
    return style, list(worksheet_sheets(asked, style)), list(worksheet_sheets(keys, style))


@pytest.mark.parametrize(
    ("paper", "words", "look", "daily"),
    [
        ("a4", "en-GB", "plain", False),
        ("a4", "en-GB", "plain", True),
        ("a5", "es", "plain", False),
        ("letter", "es", "bold", True),
        ("a5", "es", "bold", False),
        ("letter", "en-US", "outline", False),
        ("a3", "en-GB", "spare", True),
    ],
)
def test_a_worksheet_and_its_key(paper: str, words: str, look: str, daily: bool) -> None:
    style, asked, keys = both(paper, words, look, daily=daily)
    light = (*range(4), *range(len(asked), len(asked) + 4))  # as far as they are alike
    for number, sheet in enumerate((*asked, *keys)):
        drawing = draw_sheet(sheet, number + 1, style)
        assert number not in light or is_light(drawing, MOST_INK)
        assert words_apart(drawing) == [] and words_inside(drawing) == []
        assert words_in_boxes(sheet) == [] and small_type(drawing) == []
        assert faint_words(drawing) == [] and blank_bands(drawing) == []
        assert small_ones(sheet.items, 1.8) == []


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_a_frame_and_an_empty_place_say_what_goes_in(paper: str) -> None:
    # a frame stood blank below "drawing", the last columns without a word
    _, asked, _ = both(paper, "en-GB", "plain", daily=False)
    for sheet in asked:
        said = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
        frames = sum(item.what == "draw_place" for item in sheet.items)
        assert said.count("draw in the") == frames
    first = [i.content.text for i in asked[0].items if isinstance(i.content, Line)]
    assert ("a sum of your own" in first) is (paper == "a4")  # seven sums in four rows


@pytest.mark.parametrize("words", designs.names("words"))
def test_a_name_has_a_line_to_write_on_under_a_long_day_in_large_type(words: str) -> None:
    # beside "Semana 1 – lun 11 ene 2027" on A5 the date's line left the page
    said = designs.words(words)
    tasks = plan(PlanWish(Span(start=date(2027, 1, 11)))).tasks[:80]
    asked, _ = worksheets(tasks, said, daily=True)
    style = Style(fitted_paper("a5"), said, designs.look("bold"))
    for sheet in worksheet_sheets(asked, style):
        top = min(item.rect.y for item in sheet.items if item.what == "panel")
        rules = [i.rect for i in sheet.items if i.what == "rule" and i.rect.y < top]
        assert len(rules) == 3 and min(rect.width for rect in rules) >= 8
        assert max(rect.right for rect in rules) <= style.paper.width_mm - 12 + 1e-6


@pytest.mark.parametrize("look", ["plain", "bold", "outline"])
def test_what_a_child_writes_stays_framed_on_a_poor_copy(look: str) -> None:
    style, _, keys = both("a4", "en-GB", look, daily=False)
    boxes = [item.rect for item in keys[0].items if item.what == "digit_box"]
    copy, dots = photocopied(picture(draw_sheet(keys[0], 1, style), 300)), 300 / 25.4
    assert boxes
    for box in boxes:
        x, y = box.x * dots, (box.y + box.height / 2) * dots
        side = copy.crop((round(x - 5), round(y - 3), round(x + 6), round(y + 3)))
        assert side.getextrema()[0] == 0, box


@pytest.mark.parametrize("daily", [False, True])
def test_a_keys_sums_stand_where_the_childs_do(daily: bool) -> None:
    _, asked, keys = both("a4", "en-GB", "plain", daily=daily)
    assert len(asked) == len(keys)
    for child, adult in zip(asked, keys, strict=True):
        frames = [[i.rect for i in s.items if i.what == "panel"] for s in (child, adult)]
        assert frames[0] == frames[1]
        assert _digits(child) <= _digits(adult)


@pytest.mark.parametrize(
    ("paper", "look", "words"),
    [
        (*made, words)
        for made, words in each(
            (("a4", "plain"), ("a5", "bold"), ("letter", "plain")), designs.names("words")
        )
    ],
)
def test_an_estimate_is_clear_of_its_stage_and_about_its_word(
    paper: str, look: str, words: str
) -> None:
    said = designs.words(words)
    style = Style(fitted_paper(paper), said, designs.look(look))
    _, keys = worksheets(TASKS, said, daily=False)
    sheets = worksheet_sheets(keys, style)
    assert sheets
    for sheet in sheets:
        lines = [(i.rect, i.content.text) for i in sheet.items if isinstance(i.content, Line)]
        abouts = [rect for rect, text in lines if text == said("worksheet.about")]
        boxes = [i.rect for i in sheet.items if i.what == "digit_box"]
        stages = [i.rect for i in sheet.items if isinstance(i.content, Pictogram)]
        assert not any(box.overlaps(stage) for box in boxes for stage in stages)
        for rect in abouts:  # as on the child's page, with a number that is framed
            assert any(0 < box.x - rect.right < 5 and abs(box.y - rect.y) < 5 for box in boxes)


def _digits(sheet: Sheet) -> set[tuple[str, int, int]]:
    """Return the large digits of a page with their places, in mm."""
    lines = [(i.rect, i.content) for i in sheet.items if isinstance(i.content, Line)]
    return {
        (line.text, round(rect.x), round(rect.y))
        for rect, line in lines
        if line.text.isdigit() and line.size > 7
    }


def test_pages_are_filled_alike() -> None:
    room = Rect(0, 0, 184, 204)
    # 9 sums where 8 fit a page: 5 on the first, three rows of two
    assert len(grid(9, room, 2, 4).places) == 6
    # 7 on one page fill four rows; each is (204 − 3 · 4) / 4 = 48 mm high and 90 wide
    places = grid(7, room, 2, 4).places
    assert len(places) == 8
    assert (places[-1].width, places[-1].height) == (90, 48)
    assert (places[-1].right, places[-1].bottom) == (184, 204)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_day_of_two_sums_fills_its_page(paper: str) -> None:
    _, asked, _ = both(paper, "en-GB", "plain", daily=True)
    for sheet in asked[:5]:
        frames = [
            item
            for item in sheet.items
            if isinstance(item.content, Panel) and item.content.line == "frame"
        ]
        assert len(frames) == 2
        for frame in frames:
            held = [
                item.rect.bottom
                for item in sheet.items
                if item is not frame and frame.rect.holds(item.rect)
            ]
            assert max(held) - frame.rect.y > 0.8 * frame.rect.height


def test_lines_to_write_on_are_long_in_large_type() -> None:
    # An estimate had 14 mm, the check under a drawing 8.
    _, sheets, _ = both("letter", "es", "bold", daily=False)
    for sheet in sheets[:2]:
        rules = [i.rect.width for i in sheet.items if i.what == "rule" and i.rect.height < 0.1]
        assert sum(20 < width < 23 for width in rules) == 3 * 4
        assert min(width for width in rules if width > 1) > 20


def test_the_adding_check_has_room_for_what_a_child_writes() -> None:
    # Two digits of a seven-year-old take about 10 mm (ours).
    _, asked, _ = both("letter", "es", "plain", daily=False)
    written = [i.rect for i in asked[0].items if i.content == Rule("write")]
    assert min(rect.width for rect in written if rect.width > rect.height) > 10.5


def test_two_worksheets_of_a_week_go_on_lettering_and_check_alike() -> None:
    style = Style(fitted_paper("a4"), designs.words("en-GB"), designs.look("plain"))
    tasks = plan(PlanWish(Span(3))).tasks
    asked = worksheets(tasks, style.words, daily=False)[0]
    week = [sheet for sheet in worksheet_sheets(asked, style) if sheet.week == asked[-1].week]
    lines = [(s, i.rect, i.content) for s in week for i in s.items if isinstance(i.content, Line)]
    letters = [c.text for _, _, c in lines if len(c.text) == 1 and c.text.isalpha()]
    assert len(week) == 2 and letters == list("abcdefghijklmnop"[: len(letters)])
    panels = [(s, i.rect) for s in week for i in s.items if i.what == "panel"]
    checks = [(s, rect) for s, rect, c in lines if c.text == style.words("worksheet.check")]
    below = {
        round(p.bottom - c.bottom, 1)
        for s, c in checks
        for t, p in panels
        if s is t and c.overlaps(p)
    }
    assert len(checks) >= len(letters) > 8 and len(below) == 1


@pytest.mark.parametrize(("paper", "look"), [("a4", "plain"), ("letter", "bold"), ("a5", "bold")])
def test_two_marks_over_a_digit_touch_neither_each_other_nor_a_line(paper: str, look: str) -> None:
    # 534 − 257: the 3 becomes 2, then 12. Their frames ran into the columns' and each other's.
    said = designs.words("es")
    style = Style(fitted_paper(paper), said, designs.look(look))
    _, keys = worksheets([Task(None, 1, 1, "practice", "both", Sum(534, 257))], said, daily=False)
    (sheet,) = worksheet_sheets(keys, style)
    columns = next(i.rect for i in sheet.items if i.what == "columns")
    dashed = next(i.rect.y for i in sheet.items if i.content == Rule("dashed"))
    boxes = [i.rect for i in sheet.items if i.what == "digit_box" and columns.holds(i.rect)]
    marks = [box for box in boxes if box.y < dashed]
    assert len(marks) == 4
    assert all(columns.y + 0.4 < box.y and box.bottom < dashed - 0.3 for box in marks)
    ends = sorted((box.y, box.bottom) for box in marks)
    assert ends[1][0] > ends[0][1] + 0.6
