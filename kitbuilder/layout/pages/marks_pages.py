"""The pages of a class's answers: the class, then each child with a wrong answer."""

from kitbuilder.design.style import Style
from kitbuilder.kit.child_words import child_words
from kitbuilder.kit.class_marks import ClassMarks
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pages.child_page import child_sheets
from kitbuilder.layout.pages.class_page import class_sheets
from kitbuilder.layout.small_paper import on_small_paper


def marks_sheets(marks: ClassMarks, style: Style) -> tuple[Sheet, ...]:
    """Return the class's pages, where there is more than one child, and a page or two a child.

    Raises ``RefusedError`` where the paper is too small for them.
    """
    with on_small_paper(SheetKind.MARKS, style):
        return _sheets(marks, style)


def _sheets(marks: ClassMarks, style: Style) -> tuple[Sheet, ...]:
    sheets = list(class_sheets(marks, 1, style)) if len(marks.children) > 1 else []
    for child in marks.children:
        said = child_words(child, style.words, marks.coded)
        if said is not None:
            sheets += child_sheets(child, said, len(sheets) + 1, style)
    return tuple(sheets) or class_sheets(marks, 1, style)
