"""Pages of the course: every guard on every paper, what a slip asks, one order everywhere."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import guards
import pytest
from click.testing import CliRunner
from grids import typed

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.course.adult_pages import evening, outline_page
from kitbuilder.kit.course.course_pages import week_pages
from kitbuilder.kit.course.course_records import Asked, CoursePages, WeekDay
from kitbuilder.kit.course.road import road
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.course.class_lesson_page import outline_sheets
from kitbuilder.layout.course.course_sheets import adult_sheets
from kitbuilder.layout.course.differently_page import differently_sheets
from kitbuilder.layout.course.evening_page import evening_sheets
from kitbuilder.layout.course.road_page import road_sheets
from kitbuilder.layout.course.slip import SLIPS, slip_sheet
from kitbuilder.layout.course.week_day import day_block
from kitbuilder.layout.course.week_page import pointing, week_sheets
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, PagesOf, Panel, Pictogram
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.schedule import LESSONS, READY_PIECES, READY_WEEK, PlanWish, plan
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.sums import Sum
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum

GRID = typed(("a4", "letter", "a5", "legal"))
WEEK = plan(PlanWish(Span(1))).tasks
MONTH = plan(PlanWish()).tasks
FOUND = SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY, SheetKind.GUIDE


def style_of(paper: str, words: str, look: str = "plain") -> Style:
    return Style(fitted_paper(paper), designs.words(words), designs.look(look))


def press(words: str, look: str) -> Press:
    return Press(words=designs.words(words), look=designs.look(look))


def every(style: Style) -> Iterator[Sheet]:
    """Yield each page of the course: of one week, of a month, and slips."""
    words = style.words
    yield from week_sheets(week_pages(WEEK, words), style, FOUND)
    yield from week_sheets(week_pages(MONTH, words), style, FOUND)
    yield from road_sheets(road(LESSONS, READY_WEEK, READY_PIECES, words), style)
    yield slip_sheet(style)[0]
    yield from differently_sheets(style)
    yield from evening_sheets(evening(LESSONS[1:2], words), style)
    yield from outline_sheets(outline_page(Sum(634, 258)), style)


def said(sheet: Sheet) -> list[str]:
    return [item.content.text for item in sheet.items if isinstance(item.content, Line)]


@pytest.mark.parametrize(("words", "who"), [("en-GB", "groups"), ("es", "groups"), ("es", "pairs")])
def test_a_lesson_with_a_class_is_for_those_who_share_a_bag(words: str, who: str) -> None:
    course = CoursePages(outline=outline_page(Sum(634, 258)))
    kits = {"pairs": 15, "groups": 10}[who]
    for look in ("plain", "bold"):
        style = style_of("a4", words, look)
        pages = [*adult_sheets(course, CutWish(kits=kits, children=29), style)]
        assert guards.unreadable(pages, style) == []
        titles = {style.words(f"outline.{name}"): name for name in ("pairs", "groups")}
        assert [titles[one] for page in pages for one in said(page) if one in titles] == [who]


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_pages_of_the_course_can_be_read_on_every_paper(paper: str, words: str, look: str) -> None:
    style = style_of(paper, words, look)
    assert guards.unreadable([*every(style)], style) == []


@pytest.mark.parametrize("words", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_every_week_says_when_to_go_on_and_when_to_go_back(paper: str, words: str) -> None:
    style = style_of(paper, words)
    on, back = (style.words(key) for key in ("week.on", "road.back_told"))
    weeks = week_pages(MONTH, style.words)
    every_sheet = tuple(week_sheets(weeks, style, FOUND))
    for week in weeks:
        sheets = [sheet for sheet in every_sheet if sheet.week == week.name]
        told = " ".join(text for sheet in sheets for text in said(sheet))
        assert (on in told) is bool(week.on)
        assert (back in told) is not week.later
        assert len(sheets) <= (3 if paper == "a5" else 1)


@pytest.mark.parametrize("words", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_when_to_go_on_is_told_stage_by_stage_with_its_picture(paper: str, words: str) -> None:
    style = style_of(paper, words)
    for week in week_pages(MONTH, style.words)[:4]:
        sheet = next(iter(week_sheets([week], style, FOUND)))
        heading = next(
            item.rect
            for item in sheet.items
            if isinstance(item.content, Line) and item.content.text == style.words("week.on")
        )
        shown = [
            item.content.name
            for item in sheet.items
            if isinstance(item.content, Pictogram) and item.rect.bottom > heading.y
        ]
        assert shown == [f"stage-{stage}" for stage, _ in week.on]


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_boxes_to_tick_of_two_sums_are_clear_of_each_other(
    paper: str, words: str, look: str
) -> None:
    style = style_of(paper, words, look)
    for sheet in week_sheets(week_pages(MONTH, style.words), style, FOUND):
        boxes = [item.rect for item in sheet.items if item.what == "tick_box"]
        said = [item.rect for item in sheet.items if isinstance(item.content, Line)]
        for box in boxes:
            before = [r.right for r in said if r.y < box.y + 1 < r.bottom and r.x < box.x]
            assert all(right <= box.x - 1.0 for right in before)


def test_a_sum_is_nearer_to_its_own_stage_than_to_the_next_ones() -> None:
    asked = tuple(Asked(Sum(*pair), "pieces", "", "") for pair in ((4002, 1768), (2001, 412)))
    day = day_block(WeekDay("Day 1", asked, ""), 180.0, 2.0, style_of("a4", "en-GB"))
    one, other = (item.rect for item in day.items if isinstance(item.content, Pictogram))
    found = (
        i.rect
        for i in day.items
        if isinstance(i.content, Line) and i.content.text == str(asked[0].sum)
    )
    said = next(found)
    assert said.x - one.right < 2.1 and other.x - said.right > 3.9


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_a_first_week_says_when_to_go_back(paper: str, words: str, look: str) -> None:
    style = style_of(paper, words, look)
    back = style.words("road.back_told")
    sheets = week_sheets(week_pages(WEEK, style.words), style, FOUND)
    assert back in " ".join(text for sheet in sheets for text in said(sheet))


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("a5", "es")])
def test_a_first_week_in_large_type_tells_all_of_it(paper: str, words: str) -> None:
    # what did not fit one page was left out: the minutes of a day, and when to go on
    style = style_of(paper, words, "bold")
    sheets = tuple(week_sheets(week_pages(WEEK, style.words), style, FOUND))
    told = " ".join(text for sheet in sheets for text in said(sheet))
    for key in ("week.daily_facts", "week.facts_how", "week.on", "road.back_told"):
        assert style.words(key) in told


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_week_in_large_type_takes_three_pages(paper: str) -> None:
    style = style_of(paper, "es", "bold")
    sheets = week_sheets(week_pages(MONTH, style.words), style, FOUND)
    assert max(Counter(sheet.week for sheet in sheets).values()) <= 2


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_a_days_large_sum_is_clear_of_the_boxes_below_it(paper: str) -> None:
    # the sums of a first kit of 43 - 17 are printed in a child's full size, higher than a pictogram
    request = Request(
        (Sum(43, 17),), fitted_paper(paper), press=press("es", "bold"), parts=("pieces", "week")
    )
    weeks = [sheet for sheet in laid_out(held(request), request).sheets if sheet.kind == "week"]
    assert weeks
    for sheet in weeks:
        assert draw_sheet(sheet, 1, request.press.style(request.paper))


@pytest.mark.parametrize("words", designs.names("words"))
def test_a_week_tells_of_writing_and_of_wrong_answers_in_large_type(words: str) -> None:
    style = style_of("letter", words, "bold")
    sums = (Sum(71, 48),)
    written = writing_sheets(writing(sums, style.words), 1, style)
    asked = wrong_sheets(wrong_page(sums, style.words), 1, style)
    week = next(week_sheets(week_pages(WEEK, style.words), style, FOUND))
    week, *_ = pointing([week, *written, *asked])
    *_, first, then = (i.content for i in week.items if isinstance(i.content, PagesOf))
    last = len(written)
    assert (first.first, first.last) == (1, last)
    assert (then.first, then.last) == (last + 1, last + len(asked))


@pytest.mark.parametrize("words", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_each_is_one_page(paper: str, words: str) -> None:
    kinds = [sheet.kind.value for sheet in every(style_of(paper, words))]
    assert kinds.count("week") == 1 + 5  # a week; four weeks, and those that come back
    for kind in ("progress", "slip", "differently", "evening", "outline"):
        assert kinds.count(kind) == 1, kind


@pytest.mark.parametrize("words", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_how_far_we_are_is_one_page_with_all_that_stands_on_it(paper: str, words: str) -> None:
    style = style_of(paper, words)
    way = road(LESSONS, READY_WEEK, READY_PIECES, style.words)
    (sheet,) = road_sheets(replace(way, taught=True, checked=True), style)
    told = " ".join(said(sheet))
    for key in ("road.own", "road.check", "road.back_told", "road.skip_told", "road.return_told"):
        assert all(word in told for word in style.words(key).split())


@pytest.mark.parametrize("words", designs.names("words"))
def test_large_type_on_small_paper_names_every_stage_over_boxes_of_one_size(words: str) -> None:
    style = style_of("a5", words, "bold")
    sheets = list(road_sheets(road(LESSONS, READY_WEEK, READY_PIECES, style.words), style))
    told = " ".join(said(sheets[0]))
    assert all(style.words(f"stages.{stage}") in told for stage in STAGES)
    sides = {
        round(item.rect.width, 2)
        for sheet in sheets
        for item in sheet.items
        if item.what == "tick_box" and isinstance(item.content, Panel) and item.content.radius == 1
    }
    assert len(sides) == 1


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("letter", "es")])
def test_each_is_light(paper: str, words: str) -> None:
    style = style_of(paper, words)
    for page, sheet in enumerate(every(style), 1):
        assert guards.is_light(draw_sheet(sheet, page, style), guards.MOST_INK), sheet.kind


@pytest.mark.parametrize("language", designs.names("words"))
def test_a_slip_asks_all_that_a_teacher_needs(language: str) -> None:
    # Name or code, date, sum, stage, three ticks unasked, minutes, a face, one line.
    style = style_of("a4", language)
    words = style.words
    sheet, each = slip_sheet(style)
    assert each == SLIPS == 4
    lines = said(sheet)
    wanted = [words(f"slip.{key}") for key in ("title", "name", "date", "sum", "minutes")]
    wanted += [words("slip.noticed"), *words.lines("slip.ticks")]
    wanted += [words(f"stages.{stage}") for stage in STAGES]
    assert len(words.lines("slip.ticks")) == 3
    for text in wanted:
        assert lines.count(text) >= each, text
    faces = [i.content.name for i in sheet.items if isinstance(i.content, Pictogram)]
    for face in ("face-good", "face-middling", "face-hard"):
        assert faces.count(face) == each
    ticks = sum(item.what == "tick_box" for item in sheet.items)
    assert ticks == each * (len(STAGES) + 3)


@pytest.mark.parametrize("language", designs.names("words"))
def test_week_road_and_slip_show_the_stages_in_one_order(language: str) -> None:
    style = style_of("a4", language)
    names = {f"stage-{stage}": n for n, stage in enumerate(STAGES)}
    week = next(iter(week_sheets(week_pages(WEEK, style.words), style, FOUND)))
    way = next(iter(road_sheets(road(LESSONS, READY_WEEK, READY_PIECES, style.words), style)))
    for sheet in (week, way, slip_sheet(style)[0]):
        shown = [
            names[item.content.name]
            for item in sheet.items
            if isinstance(item.content, Pictogram) and item.content.name in names
        ]
        assert shown[: len(STAGES)] == [0, 1, 2, 3]
    days = [asked.stage for day in week_pages(WEEK, style.words)[0].days for asked in day.sums]
    order = [STAGES.index(stage) for stage in days]
    assert order[0] == 0 and order[-1] == 3
    # A stage is left for good once the one after the next has come.
    assert all(b >= a - 1 for a, b in pairwise(order))


@pytest.mark.parametrize(("look", "most"), [("plain", 1), ("bold", 4)])
def test_nine_thousands_have_a_page_for_the_evening_too(look: str, most: int) -> None:
    # where they are too small beside each other, the pictures stand below each other
    style = Press(words=designs.words("es"), look=designs.look(look)).style(fitted_paper("a4"))
    sheets = list(evening_sheets(evening([Sum(9998, 9)], style.words), style))
    assert 1 <= len(sheets) <= most


@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_the_page_for_the_evening_begins_at_the_top(paper: str) -> None:
    # in large type its first picture, alone on a page, began a third down
    style = style_of(paper, "es", "bold")
    page, *_ = evening_sheets(evening(LESSONS[1:2], style.words), style)
    lead = style.words("evening.lead").split()[0]
    (first,) = (i.rect for i in page.items if getattr(i.content, "text", "").startswith(lead))
    rules = [i.rect.bottom for i in page.items if i.what == "rule"]
    assert min(first.y - bottom for bottom in rules if bottom < first.y) < 5
    drawn = draw_sheet(page, 1, style)
    assert guards.blank_bands(drawn, 0.25) == []


@pytest.mark.parametrize("words", designs.names("words"))
@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_a_slip_says_on_every_paper_what_becomes_of_it(paper: str, look: str, words: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    sheet, _ = slip_sheet(style)
    drawn = draw_sheet(sheet, 1, style)
    assert guards.words_apart(drawn) == []
    said = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
    assert style.words("slip.note") in said
    lines = [i.rect.width for i in sheet.items if i.what == "rule" and i.rect.height < 0.1]
    assert min(lines) >= 10, "too short to write on"


def test_small_facts_have_a_sign_of_their_own() -> None:
    # they had that of a slip, plus or minus one
    request = Request((read_sum("43-17"),), fitted_paper("a4"))
    week = next(s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.WEEK)
    signs = [item.content.name for item in week.items if isinstance(item.content, Pictogram)]
    assert "slip" not in signs and signs.count("facts") > 2


def test_amounts_solved_for_a_teacher_stay_in_their_frame(tmp_path: Path) -> None:
    # "£6.40 − £2.75 = £3.65" left a usual page: no class set was made
    asked = ("kit", "6.40-2.75", "--money", "GBP", "--children", "6", "--only", "outline")
    for look in ("plain", "outline"):
        made = ("--look", look, "--paper", "letter", "--out", str(tmp_path))
        assert CliRunner().invoke(main, [*asked, *made]).exit_code == 0
