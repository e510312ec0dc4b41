"""One step of a lesson: number and heading, picture, what to know, what is said."""

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.layout.model import Item, Rect, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, level, row, stack
from kitbuilder.layout.parts.contents import Line, PagesOf
from kitbuilder.layout.parts.furniture import step_heading
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import lines, placed_line, wide

ROW_GAP = 2.0
"""The least space in mm above and below a line between rows of steps."""

_UNDER_HEADING, _UNDER_PICTURE, _VOICES, _BESIDE = 0.4, 0.8, 0.5, 4.0
_PAGES = "888–888."
# Room for the numbers of pages.


class NoPictureError(Exception):
    """A page has no room for pictures as ``scene``."""

    def __init__(self, scene: MatScene) -> None:
        super().__init__(scene.arrangement)
        self.scene = scene


@frozen
class Stand:
    """How steps stand: ``rows`` of so many ``across``, words below pictures or at their right.

    There pictures take the part ``beside`` words of a step's width.
    """

    across: int
    rows: int
    beside: float = 0.0

    def picture(self, width: float) -> float:
        """Return how wide the picture of a step is, in mm."""
        return self.beside * width if self.beside else width

    def words(self, width: float) -> float:
        """Return how wide the words of a step may be, in mm."""
        return width - self.picture(width) - GUTTER if self.beside else width


def around(step: LessonStep, stand: Stand, width: float, style: Style) -> tuple[float, float]:
    """Return how high what stands above a step's picture is, and what stands below, in mm.

    Raises ``RefusedError`` where a word is wider than its place.
    """
    heading = step_heading(1, step.title, width, style)
    words = _words(step, stand, width, style)
    below = 0.0 if stand.beside else _UNDER_PICTURE + words.height
    return heading.height + _UNDER_HEADING, below


def high_beside(step: LessonStep, stand: Stand, width: float, style: Style) -> float:
    """Return how high the words at the right of a step's picture are, in mm, 0 where below it."""
    return _words(step, stand, width, style).height + _BESIDE if stand.beside else 0.0


def cell(
    head: Block, picture: Block, step: LessonStep, stand: Stand, width: float, style: Style
) -> Block:
    """Return ``picture`` and words of ``step`` below its heading, ``width`` mm wide."""
    words = _words(step, stand, width, style)
    if stand.beside:
        right = words.at(width - stand.words(width), _BESIDE)
        high = max(picture.height, high_beside(step, stand, width, style))
        shown = Block((*picture.items, *right), width, high)
    else:
        shown = stack((picture, words), _UNDER_PICTURE)
    return stack((head, shown), _UNDER_HEADING).as_wide(width)


def told_step(step: LessonStep, number: int, width: float, style: Style) -> Block:
    """Return ``step`` without a picture: its number and heading, its words beside them."""
    half = (width - GUTTER) / 2
    words = _words(step, Stand(1, 1), half, style)
    if words.height < 2 * settings(style.look).text.lead:
        heads = level((step_heading(number, step.title, half, style), words))
    else:
        heads = (step_heading(number, step.title, half, style), words)
    return row(heads, GUTTER)


def _words(step: LessonStep, stand: Stand, width: float, style: Style) -> Block:
    room = stand.words(width)
    told = _told(step, room, style) if step.told else EMPTY
    asked = (exchange_of_words(a.asks, a.says, room, style) for a in step.asked)
    return stack((told, *asked), _VOICES)


def _told(step: LessonStep, room: float, style: Style) -> Block:
    """Return what is told of ``step``, ended by the page of the steps that picture it, if any."""
    text = settings(style.look).text
    if not step.seen:
        return lines(step.told, text, room)
    told = lines(f"{step.told}\xa0{_PAGES}", text, room)
    *above, last = told.items
    assert isinstance(last.content, Line)
    words = last.content.text.removesuffix(_PAGES)
    size, rect = text.size, last.rect
    said = placed_line(words.rstrip(), text, rect.x, rect.y + rect.height / 2)
    at = Rect(rect.x + wide(words, text), rect.y, wide(_PAGES, text), rect.height)
    pages = PagesOf(SheetKind.LESSON, size, titled=(step.seen.title,), steps=step.seen.steps)
    return told._replace(items=(*above, said, Item("pages_of", at, pages)))
