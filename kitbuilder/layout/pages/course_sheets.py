"""The pages of a course as sheets, each in as many copies as it has readers."""

from collections.abc import Iterator
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_records import CoursePages, Reader
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pages.guide_pages import guide_sheets
from kitbuilder.layout.pages.week_sheets import slip_sheet, week_sheets
from kitbuilder.layout.worksheets.worksheet_pages import worksheet_sheets


def course_sheets(course: CoursePages, cutting: CutWish, style: Style) -> Iterator[Sheet]:
    """Yield weeks and worksheets, a copy for each child, then the keys, one for the adult."""
    for sheet in (*week_sheets(course.weeks, style), *worksheet_sheets(course.worksheets, style)):
        yield replace(sheet, copies=copies(cutting, "child"))
    for sheet in worksheet_sheets(course.keys, style):
        yield replace(sheet, copies=copies(cutting, "kit" if cutting.home else "adult"))
    if course.slip:
        sheet, each = slip_sheet(course.slip, style)
        yield replace(sheet, copies=-(-cutting.readers // each))


def advice_sheets(course: CoursePages, cutting: CutWish, style: Style) -> Iterator[Sheet]:
    """Yield the pages of advice, in copies for their readers."""
    for advice in course.advice:
        for sheet in guide_sheets(SheetKind(advice.kind), [advice.blocks], style):
            yield replace(sheet, copies=copies(cutting, advice.reader))


def copies(cutting: CutWish, reader: Reader) -> int:
    """Return how many copies a page for ``reader`` takes."""
    return {"child": cutting.readers, "kit": cutting.kits, "adult": 1}[reader]
