"""Lessons on pages: every guard, on every paper, in every look and language."""

from dataclasses import replace
from itertools import pairwise, product

import guards
import pytest
from grids import each, some, typed

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.guide import guide
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.script import Beside, LessonStep, Taught, script, taught
from kitbuilder.kit.lesson.strips import Strips, strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import ZONES, Arrangement
from kitbuilder.layout.course.week_page import pointing
from kitbuilder.layout.lesson import strip_pages
from kitbuilder.layout.lesson.guide_pages import guide_sheets
from kitbuilder.layout.lesson.lesson_pages import lesson_sheets
from kitbuilder.layout.lesson.lesson_plan import LEAST_ONE, SMALLEST_ONE
from kitbuilder.layout.lesson.strip_pages import strip_sheets
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import HEAD_LONG, Arrow, Disc, Line, PagesOf, SmallPieces
from kitbuilder.layout.parts.furniture import step_heading
from kitbuilder.layout.parts.settings import growth
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.number import Sum
from kitbuilder.press.printing import fitted_paper

ONE, TWO, ZERO = Sum(43, 17), Sum(824, 357), Sum(305, 148)
GRID = [*typed(("a4", "letter", "a5")), ("legal", "en-GB", "bold")]
WIDE = (Sum(72, 39), Sum(98, 49))  # with as many tens as they have, and a struck number beside
STRIPS = (Sum(638, 254), Sum(254, 38), Sum(431, 257))
KINDS = (ONE, Sum(472, 138), Sum(638, 254), TWO, ZERO, Sum(1003, 17))


def laid(sum_: Sum, style: Style, arrangement: Arrangement = "two") -> tuple[Sheet, ...]:
    words = style.words
    title = words("guide_pages.first", sum=sum_)
    return lesson_sheets(taught(sum_, title, words, arrangement), 1, style)


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_a_lesson_can_be_read_on_every_paper(paper: str, words: str, look: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    for sum_ in (ONE, ZERO):
        assert guards.unreadable(laid(sum_, style), style, SMALLEST_ONE) == []


@pytest.mark.parametrize(("sum_", "arrangement"), some(product(KINDS, ZONES), 2))
def test_every_kind_of_sum_has_a_lesson_on_every_mat(sum_: Sum, arrangement: Arrangement) -> None:
    style = Style(fitted_paper("a4"))
    for page, sheet in enumerate(laid(sum_, style, arrangement), 1):
        drawing = draw_sheet(sheet, page, style)
        assert guards.words_apart(drawing) == []
        assert guards.blank_bands(drawing) == []


@pytest.mark.parametrize("sum_", [TWO, ZERO], ids=str)
def test_a_lesson_on_three_zones_fills_its_pages(sum_: Sum) -> None:
    # Two small steps a page left four tenths of it blank; so did one alone on the last.
    style = Style(fitted_paper("a4"), look=designs.look("spare"))
    sheets = laid(sum_, style, "three")
    assert len(sheets) == (4 if sum_ == TWO else 3)  # of nine steps, and of eight
    if sum_ == TWO:  # the step alone is the last: what ends the lesson is below it, large
        steps = [sum(i.what == "step_number" for i in sheet.items) for sheet in sheets]
        assert steps == [4, 2, 2, 1]
        sizes = [i.content.size for i in sheets[-1].items if isinstance(i.content, Line)]
        assert max(sizes) >= 14
    for sheet in sheets:
        below = max(
            item.rect.bottom
            for item in sheet.items
            if item.what in ("zone", "line") and item.rect.bottom < 275
        )
        assert below > 230
        assert guards.small_ones(sheet.items, SMALLEST_ONE) == []


def test_ones_are_as_wide_as_promised_and_pages_as_light() -> None:
    # 2.7 mm in lessons of two digits, 2.2 in those of three, two exchanges included.
    style = Style(fitted_paper("a4"))
    for sum_ in (ONE, ZERO, Sum(431, 257)):
        sheets = laid(sum_, style)
        assert len(sheets) == 2
        for page, sheet in enumerate(sheets, 1):
            drawing = draw_sheet(sheet, page, style)
            assert guards.small_ones(sheet.items, LEAST_ONE[sum_.places]) == []
            assert guards.is_light(drawing, guards.MOST_INK), page


def test_two_exchanges_on_small_paper_are_as_light() -> None:
    style = Style(fitted_paper("a5"))
    sheet = laid(ZERO, style)[1]
    assert sum(item.what == "step_number" for item in sheet.items) == 2
    assert guards.ink(draw_sheet(sheet, 2, style), 300) < guards.MOST_INK
    assert guards.small_ones(sheet.items, LEAST_ONE[3]) == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_first_lesson_in_large_type_is_as_light(paper: str) -> None:
    style = Style(fitted_paper(paper), look=designs.look("bold"))
    for page, sheet in enumerate(laid(ONE, style), 1):
        assert guards.is_light(draw_sheet(sheet, page, style), guards.MOST_INK), page


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("letter", "es")])
def test_a_first_lesson_in_large_type_has_larger_pictures(paper: str, words: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look("bold"))
    lesson = guide((ONE,), style.words, beside=Beside(cards=True, mat=True, week=True))[0]
    assert isinstance(lesson, Taught)
    for sheet in lesson_sheets(lesson, 1, style):
        zones = [i.rect for i in sheet.items if i.what == "zone"]
        told = [i for i in sheet.items if any(i.rect.overlaps(zone) for zone in zones)]
        assert guards.small_ones(told, 5.0) == []


def test_words_beside_a_picture_are_no_higher_than_it_may_be() -> None:
    # Two steps below one another, their words at the right, ran 36 mm off the page.
    style = Style(fitted_paper("a4"), designs.words("es"), designs.look("bold"))
    assert laid(Sum(3000, 1275), style)


@pytest.mark.parametrize("paper", ["letter", "a5"])
def test_a_lesson_with_hundreds_in_large_type_has_clear_pieces(paper: str) -> None:
    # Two in a row, tens stood a hair apart, which a poor copy closed.
    style = Style(fitted_paper(paper), designs.words("es"), designs.look("bold"))
    for sheet in laid(Sum(634, 258), style):
        zones = [i.rect for i in sheet.items if i.what == "zone"]
        shown = [i for i in sheet.items if any(i.rect.overlaps(zone) for zone in zones)]
        assert guards.small_ones(shown, (1.5 if paper == "letter" else 1.0) * LEAST_ONE[3]) == []
        for item in shown:
            if isinstance(item.content, SmallPieces):
                tens = [r for r in item.content.rects if r.height > 5 * r.width]
                gaps = [b.x - a.right for a, b in pairwise(tens)]
                assert min(gaps, default=9.0) > 1.1


@pytest.mark.parametrize(
    ("paper", "words"), [("a4", "en-GB"), ("a4", "es"), ("letter", "en-US"), ("letter", "es")]
)
def test_a_kits_lesson_is_two_pages_of_large_ones(paper: str, words: str) -> None:
    # With all that lies beside it: 2.7 mm in sums of two digits, 2.2 in those of three.
    style = Style(fitted_paper(paper), designs.words(words))
    beside = Beside(cards=True, mat=True, week=True)
    for sum_ in (*WIDE, ONE, Sum(254, 138), Sum(327, 154), Sum(634, 278), ZERO):
        lesson = guide((sum_,), style.words, beside=beside)[0]
        assert isinstance(lesson, Taught)
        sheets = lesson_sheets(lesson, 1, style)
        assert len(sheets) == 2
        found = [guards.small_ones(sheet.items, LEAST_ONE[sum_.places]) for sheet in sheets]
        assert found == [[], []], sum_


def test_the_number_of_tens_stands_beside_them_clear_of_their_loop() -> None:
    # So it stands on the mat of two digits; below hundreds there is no room beside.
    style = Style(fitted_paper("letter"), designs.words("es"))
    for sum_ in (ONE, *WIDE):
        for sheet in laid(sum_, style):
            tens = [
                rect.moved(item.rect.x, item.rect.y)
                for item in sheet.items
                if isinstance(item.content, SmallPieces)
                for rect in item.content.rects
                if rect.height > 20
            ]
            numbers = [i.rect for i in sheet.items if i.what == "digit_box" or _said_digits(i)]
            loops = [item.rect for item in sheet.items if item.what == "loop"]
            assert tens and not [n for n in numbers for box in tens if n.overlaps(box)]
            assert not [n for n in numbers for loop in loops if n.overlaps(loop)]


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_an_arrow_is_clear_of_the_slash_of_a_number(look: str) -> None:
    style = Style(fitted_paper("a4"), look=designs.look(look))
    taken = script(ONE, style.words)[3].scene
    frame = mat_frame([taken], 120.0, style)
    assert frame
    items = mat_picture(taken, frame, style).items
    (arrow,) = (i for i in items if isinstance(i.content, Arrow))
    (old,) = (i for i in items if isinstance(i.content, Line) and i.content.struck)
    assert isinstance(arrow.content, Arrow) and isinstance(old.content, Line)
    right = arrow.rect.x + max(x for x, _ in arrow.content.points)
    slash = old.rect.x - 0.1 * old.content.size - style.look.lines_mm.frame / 2
    assert slash - right - style.look.lines_mm.arrow / 2 > 0.5


def test_a_note_stays_in_its_column() -> None:
    # In the bold look three Spanish words are wider than a column between hundreds and ones.
    style = Style(fitted_paper("a4"), designs.words("es"), designs.look("bold"))
    scene = next(s.scene for s in taught(ZERO, "", style.words).steps if s.scene.zones[0].note)
    frame = mat_frame([scene], 87.5, style)
    assert frame
    column = frame.zone("whole").columns[1]
    items = mat_picture(scene, frame, style).items
    said = [i for i in items if isinstance(i.content, Line) and i.content.text in "no hay decenas"]
    note = [i.rect for i in said if i.rect.y > 12]
    assert len(note) >= 2
    assert all(r.x > column.x and r.right < column.x + column.width for r in note)


def _said_digits(item: Item) -> bool:
    return isinstance(item.content, Line) and item.content.text.isdigit() and item.rect.height > 5


@pytest.mark.parametrize("arrangement", ZONES)
def test_a_short_strip_fills_its_page(arrangement: Arrangement) -> None:
    # Three pictures left a quarter of it blank, and those of the part were numbers alone: the
    # check is pictured too, or what is left as it moves to its own zone.
    style = Style(fitted_paper("a4"))
    found = strips([(Sum(71, 48), "71")], style.words, arrangement)
    assert isinstance(found, Strips)
    (sheet,) = strip_sheets(found, 1, style)
    assert sum(item.what == "step_number" for item in sheet.items) == 4
    assert not [item for item in sheet.items if item.what == "zone" and item.rect.height < 20]


def test_the_check_of_a_short_strip_is_told_where_its_picture_has_no_room() -> None:
    style = Style(fitted_paper("a4"), look=designs.look("bold"))
    found = strips([(Sum(71, 48), "71")], style.words)
    assert isinstance(found, Strips)
    (sheet,) = strip_sheets(found, 1, style)
    assert sum(item.what == "step_number" for item in sheet.items) == 4
    assert sum(item.what == "zone" for item in sheet.items) == 3 * 2


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_strips_can_be_read_on_every_paper(paper: str, words: str, look: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    small, both = ([(s, f"{s}") for s in some] for some in (STRIPS[:2], STRIPS[1:]))
    sheets: tuple[Sheet, ...] = ()
    more = [*(small if words.startswith("es") else both), (ONE, "43")]
    for titled in (more,) if (words, look) == ("es", "bold") else (small, more):  # small with one
        found = strips(titled, style.words)
        assert isinstance(found, Strips)
        sheets += strip_sheets(found, 1, style)
        if paper != "a5" and look != "bold":
            assert titled != small or len(sheets) == 1
    assert guards.unreadable(sheets, style, 1.9) == []


@pytest.mark.usefixtures("anew")
def test_only_the_strips_that_are_chosen_are_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[str] = []

    def counting(scene: MatScene, frame: MatFrame, style: Style) -> Block:
        drawn.append(scene.outcome)
        return mat_picture(scene, frame, style)

    monkeypatch.setattr(strip_pages, "mat_picture", counting)
    found = strips([(STRIPS[1], "tens"), (STRIPS[0], "ones")], designs.words())
    assert isinstance(found, Strips)
    strip_sheets(found, 1, Style(fitted_paper("a4")))
    assert len(drawn) == sum(len(strip.steps) for strip in found.strips)


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_writing_and_wrong_answers_can_be_read_on_every_paper(
    paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    for sums in ((ONE, ZERO), (Sum(431, 257),)):
        written = writing_sheets(writing(sums, style.words), 1, style)
        asked = wrong_sheets(wrong_page(sums, style.words), 1, style)
        if paper != "a5" and look != "bold":
            assert len(asked) == 1
            assert len(written) == 1 or sums[0] != ONE
        assert guards.unreadable((*written, *asked), style, 1.9) == []


@pytest.mark.parametrize("words", designs.names("words"))
def test_columns_to_write_in_share_a_page_with_a_move_on_small_paper(words: str) -> None:
    style = Style(fitted_paper("a5"), designs.words(words), designs.look("bold"))
    sheets = writing_sheets(writing((Sum(71, 48),), style.words), 1, style)
    assert len(sheets) == 4
    said = [item.content.text for item in sheets[2].items if isinstance(item.content, Line)]
    assert any(item.what == "step_number" for item in sheets[2].items)
    assert writing((Sum(71, 48),), style.words).now in said


def test_a_page_of_moves_before_another_says_which_comes_next() -> None:
    style = Style(fitted_paper("a4"))
    first, last = writing_sheets(writing((Sum(634, 258),), style.words), 1, style)
    said = [[i.content.text for i in s.items if isinstance(i.content, Line)] for s in (first, last)]
    assert "Step 4: next page" in said[0] and "4" in said[1]
    assert not any("next page" in text for text in said[1])


def test_a_larger_ending_than_small_paper_holds_is_passed_over() -> None:
    style = Style(fitted_paper("a5"), designs.words("es"), designs.look("bold"))
    sheets = writing_sheets(writing((Sum(2000, 764),), style.words), 1, style)
    assert guards.unreadable([*sheets], style) == []


def test_a_last_page_with_room_has_the_drawing_as_wide_as_itself() -> None:
    # It was 70 mm wide on three pages, the last of them half empty.
    style = Style(fitted_paper("a4"))
    for arrangement in ("two", "beside"):
        sheets = writing_sheets(writing((Sum(634, 258),), style.words, arrangement), 1, style)
        assert len(sheets) == 2
        drawn = [i.rect for i in sheets[1].items if i.what in ("square", "stroke", "dot")]
        assert max(r.right for r in drawn) - min(r.x for r in drawn) > 150
        moves = [[i for i in sheet.items if i.what == "step_number"] for sheet in sheets]
        assert [len(some) for some in moves] == [3, 2]


@pytest.mark.parametrize(("arrangement", "look"), each(("three", "beside"), ("plain", "bold")))
def test_both_parts_lie_in_their_rows_before_they_are_pushed_together(
    arrangement: Arrangement, look: str
) -> None:
    style = Style(fitted_paper("a4"), look=designs.look(look))
    page = writing((Sum(634, 258),), style.words, arrangement)
    sheets = writing_sheets(page, 1, style)
    assert len(sheets) == 2 or look == "bold"
    assert guards.unreadable(sheets, style, 1.9) == []
    for sheet in sheets:
        lines = [(i.rect.y, i.content.text) for i in sheet.items if isinstance(i.content, Line)]
        at = {text: y for y, text in lines}
        if style.words("write.moved") in at:
            after, before = at[style.words("write.moved")], at[page.moves[-1].told]
            assert sorted(text for y, text in lines if after < y < before)[:6] == [*"235678"]
            break
    else:
        assert look == "bold"


@pytest.mark.parametrize(("paper", "least"), [("a4", 1.0), ("letter", 1.0), ("a5", 0.7)])
def test_the_drawing_grows_with_the_words_in_large_type(paper: str, least: float) -> None:
    # In one line three digits had dots of 1.1 mm beside words of 17 pt.
    style = Style(fitted_paper(paper), designs.words("es"), designs.look("bold"))
    sheets = writing_sheets(writing((Sum(634, 258),), style.words), 1, style)
    dots = [i.rect.width for i in sheets[-1].items if i.what == "dot"]
    assert min(dots) > least * 1.3 * growth(style.look)


def test_pages_beside_the_lesson_are_light() -> None:
    style = Style(fitted_paper("a4"))
    sums = (ONE, Sum(254, 38), Sum(431, 257), ZERO)
    small = strips([(s, f"{s}") for s in STRIPS[:2]], style.words)
    assert isinstance(small, Strips)
    pages = (
        *strip_sheets(small, 1, style),
        *writing_sheets(writing(sums, style.words), 1, style),
        *wrong_sheets(wrong_page(sums, style.words), 1, style),
    )
    for page, sheet in enumerate(pages, 1):
        assert guards.is_light(draw_sheet(sheet, page, style), guards.MOST_INK)
    assert guards.small_ones(pages[0].items, 2.2) == []
    said = " ".join(i.content.text for i in pages[0].items if isinstance(i.content, Line))
    assert "Build first" in said and "read both parts, push together" in said


def further(style: Style) -> tuple[Taught, Taught]:
    """Return the lessons with two exchanges and across a zero of the ready-made kit."""
    sums = (ONE, STRIPS[1], STRIPS[2], ZERO)
    lessons = guide(sums, style.words, "two", Beside(True, True, True))
    two, zero = (part for part in lessons[1:] if isinstance(part, Taught))
    return two, zero


@pytest.mark.parametrize("words", ["en-US", "es"])
def test_two_exchanges_have_two_pages_of_four_steps_and_across_a_zero_one(words: str) -> None:
    style = Style(fitted_paper("a4"), designs.words(words))
    two, zero = further(style)
    pages = [lesson_sheets(lesson, 1, style) for lesson in (two, zero)]
    assert [len(sheets) for sheets in pages] == [2, 1]
    for sheet in (*pages[0], *pages[1]):
        drawing = draw_sheet(sheet, 1, style)
        assert guards.words_apart(drawing) == [] and guards.words_in_boxes(sheet) == []
        assert guards.small_ones(sheet.items, LEAST_ONE[3]) == []
        assert len([i for i in sheet.items if i.what == "zone"]) == 8  # both parts, four times
        assert guards.is_light(drawing, guards.MOST_INK)
    step = next(
        n for n, s in enumerate(two.steps, 1) if s.scene.moves and s.scene.moves[0].source[1] == 2
    )
    assert "254 − 38" in two.lead and f" {step}" in two.lead  # it leaves out that step
    assert two.steps[-1].cues == ("back", "back")


def test_the_head_of_an_exchange_is_clear_of_the_loop_that_it_leaves() -> None:
    style = Style(fitted_paper("a4"))
    for sheet in lesson_sheets(further(style)[0], 1, style):
        loops = [i.rect for i in sheet.items if i.what == "loop"]
        for item in sheet.items:
            if isinstance(item.content, Arrow) and item.rect.height < 0.1:
                (x, _), (x2, _) = item.content.points
                left = item.rect.x + (x2 if x2 < x else x2 - HEAD_LONG)
                head = Rect(left, item.rect.y, HEAD_LONG, 0.01)
                assert not any(loop.inset(0.3).overlaps(head) for loop in loops)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_an_arrow_begins_by_the_pieces_that_move(paper: str) -> None:
    style = Style(fitted_paper(paper))
    for sheet in lesson_sheets(further(style)[0], 1, style):
        pieces = [i.rect for i in sheet.items if i.what == "small_pieces"]
        for item in sheet.items:
            if isinstance(item.content, Arrow):
                x, y = item.content.points[0]
                begin = Rect(item.rect.x + x, item.rect.y + y, 0.1, 0.1).inset(-4.0)
                assert any(begin.overlaps(box) for box in pieces), item.rect


@pytest.mark.parametrize("words", designs.names("words"))
def test_across_a_zero_draws_what_is_new_and_tells_what_is_known(words: str) -> None:
    style = Style(fitted_paper("a4"), designs.words(words))
    two, zero = further(style)
    assert zero.opens and zero.closes
    shown = (zero.opens, *zero.steps, zero.closes)
    cues = [cue for step in shown for cue in step.cues]
    assert cues == [c for s in script(ZERO, style.words) for c in s.cues if c != "guess"]
    assert zero.closes.seen and zero.closes.seen.title == two.title
    assert "7" in zero.closes.told and "305" in zero.closes.told
    assert zero.steps[1].told  # what is put back for what
    assert zero.steps[-1].scene.zones[0].name == style.words("scene.left")  # as where all is drawn
    (sheet,) = lesson_sheets(zero, 1, style)
    numbers = [i.rect.y for i in sheet.items if i.what == "step_number"]
    assert len(numbers) == 6
    said = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
    assert all(step.title in said for step in shown)
    alone = guide((ONE, ZERO), style.words)
    assert [p.opens for p in alone if isinstance(p, Taught)] == [None, None]


def test_across_a_zero_is_answered_and_names_the_pages_of_what_is_known() -> None:
    style = Style(fitted_paper("a4"))
    two, zero = further(style)
    assert [asked.says for asked in zero.steps[-1].asked] == ["157; 148."]
    before = lesson_sheets(two, 1, style)
    *_, last = pointing((*before, *lesson_sheets(zero, 1 + len(before), style)))
    (pages,) = [i.content for i in last.items if isinstance(i.content, PagesOf)]
    assert (pages.first, pages.last) == (-1, -1)  # steps 7 and 8 stand on the page before


@pytest.mark.parametrize(("paper", "words", "look"), GRID)
def test_lessons_that_follow_can_be_read_on_every_paper(paper: str, words: str, look: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    zero = further(style)[1]
    sheets = lesson_sheets(zero, 1, style)
    said = " ".join(i.content.text for i in sheets[0].items if isinstance(i.content, Line))
    assert zero.note in said or zero.lead in said  # nothing is written yet
    assert guards.unreadable(sheets, style, SMALLEST_ONE) == []


def test_ones_that_go_back_have_a_loop_of_their_own_clear_of_names() -> None:
    style = Style(fitted_paper("a4"))
    for sum_, loops in ((ONE, 1), (ZERO, 2)):
        scene = script(sum_, style.words)[-1].scene
        frame = mat_frame([scene], 90.0, style)
        assert frame is not None
        items = mat_picture(scene, frame, style).items
        looped = [i.rect for i in items if i.what == "loop"]
        assert len(looped) == loops
        names = [
            i for i in items if isinstance(i.content, Line) and i.content.text in scene.columns
        ]
        here = [
            p.moved(i.rect.x, i.rect.y)
            for i in items
            if isinstance(i.content, SmallPieces) and i.content.state != "gone"
            for p in i.content.rects
        ]
        letters = 0.55 * style.look.type_mm.least / 2
        for loop in looped:
            assert not any(loop.overlaps(piece) for piece in here)
            edge = loop.y - style.look.lines_mm.loop / 2
            assert all(edge > n.rect.y + n.rect.height / 2 + letters for n in names)


def test_a_short_arrow_has_its_question_beside_it() -> None:
    style = Style(fitted_paper("a4"))
    strip = strips([(Sum(431, 257), "431"), (ONE, "43")], style.words)
    assert isinstance(strip, Strips)
    items = strip_sheets(strip, 1, style)[0].items
    marks = [i.rect for i in items if isinstance(i.content, Line) and i.content.text == "?"]
    pieces = [i.rect for i in items if i.what == "small_pieces"]
    assert len(marks) == 1
    assert not any(mark.inset(0.5).overlaps(piece) for mark in marks for piece in pieces)


def test_columns_to_write_in_leave_large_type_room_for_pictures() -> None:
    style = Style(fitted_paper("letter"), designs.words("es"), designs.look("bold"))
    sheets = writing_sheets(writing((ONE,), style.words), 1, style)
    assert len(sheets) == 2
    assert [guards.small_ones(sheet.items, 3.3) for sheet in sheets] == [[], []]


def test_a_question_without_room_on_its_arrow_stands_below_what_came() -> None:
    style = Style(fitted_paper("a5"), designs.words("es"), designs.look("bold"))
    found = 0
    for sheet in wrong_sheets(wrong_page([Sum(71, 48)], style.words), 1, style):
        pieces = [i.rect for i in sheet.items if i.what in ("small_pieces", "loop")]
        for item in sheet.items:
            if isinstance(item.content, Line) and item.content.text == "?":
                found += 1
                assert not any(item.rect.inset(0.8).overlaps(piece) for piece in pieces)
    assert found


@pytest.mark.parametrize("sum_", [Sum(305, 148), Sum(402, 186)])
def test_a_question_stands_by_its_arrow(sum_: Sum) -> None:
    # Far off, under a loop, it was read with the count beside it: "3 ?".
    style = Style(fitted_paper("letter"), designs.words("es"))
    for sheet in wrong_sheets(wrong_page([sum_], style.words), 1, style):
        near = [i.rect.inset(-6) for i in sheet.items if i.what == "arrow"]
        for item in sheet.items:
            if isinstance(item.content, Line) and item.content.text == "?":
                assert any(box.overlaps(item.rect) for box in near)


def test_a_ten_that_is_pushed_up_takes_no_way_round() -> None:
    sheets = laid(ONE, Style(fitted_paper("a4"), look=designs.look("bold")))
    ways = [i.content.points for s in sheets for i in s.items if isinstance(i.content, Arrow)]
    corners = [len(way) - 2 for way in ways if way[-1][1] < way[0][1]]
    assert len(corners) > 1 and max(corners) == 1


def test_an_arrow_that_asks_has_its_question_where_there_is_no_room_beside_pieces() -> None:
    # Without it the mistake was read as a proper exchange.
    style = Style(fitted_paper("a5"), look=designs.look("bold"))
    sheets = wrong_sheets(wrong_page([ONE, ZERO], style.words), 1, style)
    items = [item for sheet in sheets for item in sheet.items]
    asked = [i for i in items if isinstance(i.content, Line) and i.content.text == "?"]
    assert len(asked) == sum(i.what == "arrow" for i in items) > 1


def test_the_first_lesson_says_what_is_next_in_every_language() -> None:
    for name in designs.names("words"):
        style = Style(fitted_paper("a4"), designs.words(name))
        said = " ".join(
            i.content.text
            for sheet in laid(ONE, style)
            for i in sheet.items
            if isinstance(i.content, Line)
        )
        assert style.words("guide_pages.end")[:30] in said


def test_an_arrow_has_its_number_in_a_disc_clear_of_the_digits() -> None:
    # 148 is taken out ones first: 1, 2, 3; back go ones, then tens: 1, 2. Each is white in a disc.
    sheets = laid(ZERO, Style(fitted_paper("a4")))
    marks = [item for sheet in sheets for item in sheet.items if item.what == "order"]
    discs = [item.rect for item in marks if isinstance(item.content, Disc)]
    numbers = [item.content for item in marks if isinstance(item.content, Line)]
    assert [number.text for number in numbers] == ["1", "2", "3", "1", "2"]
    assert {number.tone for number in numbers} == {"paper"}
    boxes = [item.rect for sheet in sheets for item in sheet.items if item.what == "digit_box"]
    assert not [disc for disc in discs for box in boxes if disc.inset(0.4).overlaps(box)]


def test_the_part_of_a_strip_lies_there_with_its_pieces_where_there_is_room() -> None:
    style = Style(fitted_paper("a4"))
    for sums, laid in (((Sum(71, 48),), True), ((Sum(254, 38), Sum(638, 254)), False)):
        found = strips([(s, f"{s}") for s in sums], style.words)
        assert isinstance(found, Strips)
        (sheet,) = strip_sheets(found, 1, style)
        parts = [i.rect for i in sheet.items if i.what == "zone"][1::2]
        pieces = [i.rect for i in sheet.items if i.what == "small_pieces"]
        assert any(part.overlaps(box) for part in parts for box in pieces) == laid


@pytest.mark.parametrize(("paper", "look", "least"), [("a5", "plain", 2.25), ("a4", "bold", 4.7)])
def test_steps_are_dealt_to_pages_so_that_no_picture_is_small(
    paper: str, look: str, least: float
) -> None:
    # In threes first, ones were 1.9 mm wide; in twos they are as wide as on pages of one, or as
    # wide as keeps a small page light.
    style = Style(fitted_paper(paper), look=designs.look(look))
    sheets = lesson_sheets(further(style)[1], 1, style)
    assert [sum(i.what == "step_number" for i in sheet.items) for sheet in sheets] == [2, 2, 2]
    for sheet in sheets:
        assert guards.small_ones(sheet.items, least) == []


def test_a_page_with_one_step_shows_the_sum_in_large_columns() -> None:
    style = Style(fitted_paper("a4"))
    for sum_, large in ((Sum(634, 258), True), (ONE, False)):
        items = laid(sum_, style, "beside" if large else "two")[-1].items
        said = [i.content for i in items if isinstance(i.content, Line) and i.content.text == "−"]
        assert all((line.size > 2.5 * style.look.type_mm.least) == large for line in said)
        assert said or not large


def small_steps(sum_: Sum, style: Style) -> tuple[LessonStep, ...]:
    found = strips([(sum_, "")], style.words)
    assert isinstance(found, Strips)
    return tuple(replace(s, scene=counted(s.scene)) for s in found.strips[0].steps)


def test_each_hundred_that_goes_can_be_counted_beside_those_that_stay() -> None:
    style = Style(fitted_paper("a4"))
    step = small_steps(Sum(432, 250), style)[1]
    frame = mat_frame([step.scene], 90, style)
    assert frame
    picture = mat_picture(step.scene, frame, style)
    hundreds = [
        (item.rect, item.content)
        for item in picture.items
        if isinstance(item.content, SmallPieces) and item.content.rects[0].width > 9 * frame.unit
    ]
    (gone_at, gone), (here_at, here) = hundreds  # what stays is drawn last, over what goes
    assert (gone.state, len(gone.rects), here.state, len(here.rects)) == ("gone", 2, "here", 1)
    struck = [box.moved(gone_at.x, gone_at.y) for box in gone.slashes]
    assert len(struck) == 2 and abs(struck[0].x - struck[1].x) > 0.4 * frame.unit
    middles = [box.x + box.width / 2 for box in struck]
    assert all(x > here_at.right for x in middles)
    assert not struck[0].overlaps(struck[1])  # across other strips, many are a scribble


def test_a_number_stands_apart_from_the_name_of_a_low_zone() -> None:
    style = Style(fitted_paper("a4"))
    step = small_steps(Sum(432, 250), style)[-1]
    frame = mat_frame([step.scene], 82, style)
    assert frame
    items = mat_picture(step.scene, frame, style).items
    zone = frame.zone("part")
    said = [i for i in items if i.what == "line" and zone.y < i.rect.y < zone.y + zone.height]
    name, count = sorted(said, key=lambda i: i.rect.x)[:2]
    assert count.rect.x - name.rect.right > 4.5


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("sum_", "heads"), [(ONE, ["T", "O"]), (ZERO, ["H", "T", "O"])])
def test_a_child_has_two_empty_columns_to_write_in(paper: str, sum_: Sum, heads: list[str]) -> None:
    style = Style(fitted_paper(paper), designs.words())
    sheets = writing_sheets(writing((sum_,), style.words), 1, style)
    texts = [i.content.text for s in sheets for i in s.items if isinstance(i.content, Line)]
    assert sorted(text for text in texts if text in "HTO") == sorted(2 * heads)


def test_each_sentence_of_a_title_begins_a_line_where_that_takes_no_more() -> None:
    # "6." stood alone in a line
    style = Style(fitted_paper("a4"), designs.words())
    said = step_heading(3, "Take 7 ones out. Write 6.", 50, style)
    texts = [i.content.text for i in said.items if isinstance(i.content, Line)]
    assert texts[1:] == ["Take 7 ones out.", "Write 6."]


@pytest.mark.parametrize(
    ("look", "zones", "ways"),
    [
        ("plain", "beside", "--mat two or larger paper"),
        ("bold", "three", "--mat two, --look plain or larger paper"),
    ],
)
def test_a_mat_without_room_in_pictures_is_refused_by_what_would_do(
    look: str, zones: Arrangement, ways: str
) -> None:
    # the sentence told of a page a millimetre higher
    style = Style(fitted_paper("a5"), designs.words(), designs.look(look))
    with pytest.raises(RefusedError) as refused:
        guide_sheets(guide((TWO,), style.words, zones), style)
    said = str(refused.value)
    assert f"no room for 3 columns in pictures on A5 in the look {look}" in said
    assert said.endswith(f"choose {ways}.")
    assert guide_sheets(guide((ONE,), style.words, zones), style)
