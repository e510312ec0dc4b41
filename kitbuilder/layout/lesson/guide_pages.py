"""The guide as sheets: lessons, when to write, what to ask about a wrong answer."""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.advice import WrongAnswers
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.lesson.strips import Strips
from kitbuilder.kit.lesson.writing import Writing
from kitbuilder.kit.records import Lesson
from kitbuilder.layout.lesson.lesson_pages import lesson_sheets
from kitbuilder.layout.lesson.lesson_steps import NoPictureError
from kitbuilder.layout.lesson.strip_pages import strip_sheets
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.settings import growth

_MATS = {"two": Said("mat.two"), "three": Said("mat.three"), "beside": Said("mat.beside")}


def guide_sheets(guide: Sequence[Lesson], style: Style) -> tuple[Sheet, ...]:
    """Return ``guide``, each part on pages of its own; lessons stand at the end.

    The first lesson is for now, those for further kinds of sums for when they are ready. Raises
    ``RefusedError`` where pictures of the mat have no room, naming what would help.
    """
    try:
        return _laid(guide, style)
    except NoPictureError as error:
        raise _refused(error.scene, guide, style) from None


def _refused(scene: MatScene, guide: Sequence[Lesson], style: Style) -> RefusedError:
    """Return the refusal of a mat as in ``scene``, which has no room in pictures."""
    ways = [Said("way.larger-paper")]
    plain = replace(style, look=designs.look())
    if growth(style.look) > 1 and _works(guide, plain):
        ways.insert(0, Said("option.with", option="look", value=plain.look.name))
    if scene.arrangement != "two":
        ways.insert(0, Said("option.with", option="mat", value="two"))
    return RefusedError(
        "page.no-picture",
        field="paper",
        mat=_MATS[scene.arrangement],
        columns=len(scene.columns),
        paper=style.paper.name,
        look=style.look.name,
        ways=ways,
    )


def _works(guide: Sequence[Lesson], style: Style) -> bool:
    try:
        return bool(_laid(guide, style))
    except (NoPictureError, RefusedError):
        return False


def _laid(guide: Sequence[Lesson], style: Style) -> tuple[Sheet, ...]:
    found: list[Sheet] = []
    for part in guide:
        own = [sheet.kind for sheet in found]
        lesson, other = own.count(SheetKind.LESSON) + 1, own.count(SheetKind.GUIDE) + 1
        match part:
            case Taught():
                pages = lesson_sheets(part, lesson, style)
                found += (replace(sheet, later=lesson > 1) for sheet in pages)
            case Strips():
                pages = strip_sheets(part, lesson, style)
                found += (replace(sheet, later=True) for sheet in pages)
            case Writing():
                found += writing_sheets(part, other, style)
            case WrongAnswers():
                found += wrong_sheets(part, other, style)
    return tuple(sorted(found, key=lambda sheet: sheet.kind is SheetKind.LESSON))
