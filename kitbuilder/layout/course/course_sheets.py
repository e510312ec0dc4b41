"""The pages of a course as sheets, each in as many copies as it has readers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_records import CoursePages
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.course.class_lesson_page import outline_sheets
from kitbuilder.layout.course.differently_page import differently_sheets
from kitbuilder.layout.course.evening_page import evening_sheets
from kitbuilder.layout.course.road_page import road_sheets
from kitbuilder.layout.course.slip import slip_sheet
from kitbuilder.layout.course.week_page import week_sheets
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.worksheets.worksheet_pages import worksheet_sheets

PAIR = 2
"""Children of a pair."""


def course_sheets(
    course: CoursePages, cutting: CutWish, style: Style, guide: Sequence[Sheet]
) -> Iterator[Sheet]:
    """Yield weeks and worksheets, a copy for each child, then the keys, one for each adult.

    What the first week does not need is for later. For bags and in one kit each week's pages lie
    together. Weeks point to the ``guide`` where it is read with them.
    """
    child, adult = cutting.readers, adults(cutting)
    found, lessons = [SheetKind.WORKSHEET], set[bool]()
    if cutting.home or cutting.kits == 1:
        found += [SheetKind.WORKSHEET_KEY, *([SheetKind.GUIDE] if guide else ())]
        lessons = {sheet.later for sheet in guide if sheet.kind is SheetKind.LESSON}
    weeks = week_sheets(course.weeks, style, found, tuple(lessons))
    sheets = [replace(sheet, copies=child) for sheet in weeks]
    for asked, each in ((course.worksheets, child), (course.keys, adult)):
        sheets += [replace(sheet, copies=each) for sheet in worksheet_sheets(asked, style)]
    names = [week.name for week in course.weeks]
    sheets = [replace(sheet, later=sheet.week != names[0]) for sheet in sheets]
    if cutting.home or cutting.kits == 1:
        yield from sorted(sheets, key=lambda sheet: names.index(sheet.week))
    else:
        yield from sheets
    yield from _slip_sheets(course, cutting, style)


def _slip_sheets(course: CoursePages, cutting: CutWish, style: Style) -> Iterator[Sheet]:
    """Yield the slips for the teacher: whole pages for each child, or cut apart for all.

    They are cut apart where a page holds those of two children. A kit alone needs its slip only
    after its first week.
    """
    if not course.slips:
        return
    sheet, each = slip_sheet(style)
    sheet = replace(sheet, later=bool(course.weeks) and cutting.kits == 1)
    if cutting.readers > 1 and 2 * course.slips <= each:
        yield replace(sheet, copies=-(-cutting.readers * course.slips // each))
        return
    for number in range(1, -(-course.slips // each) + 1):
        yield replace(sheet, number=number, copies=cutting.readers)


def adult_sheets(course: CoursePages, cutting: CutWish, style: Style) -> Iterator[Sheet]:
    """Yield how far each child is, and the pages that only adults read."""
    if course.road:
        for sheet in road_sheets(course.road, style):
            yield replace(sheet, copies=cutting.readers)
    if course.differently:
        for sheet in differently_sheets(style):
            yield replace(sheet, copies=adults(cutting))
    if course.evening:
        yield from evening_sheets(course.evening, style)
    if course.outline:
        who = "groups" if cutting.sharing > PAIR else "pairs"
        yield from outline_sheets(course.outline, style, who)


def adults(cutting: CutWish) -> int:
    """Return how many adults read along: one in each child's home, else whoever teaches."""
    return cutting.readers if cutting.home else 1
