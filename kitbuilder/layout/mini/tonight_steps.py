"""The steps of a lesson in little: number, picture of the mat, what is asked and said."""

from collections.abc import Callable, Sequence

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, level, stack
from kitbuilder.layout.parts.furniture import step_heading
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import lines
from kitbuilder.layout.picture.frame_records import Manner, MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

LEAST_ONE = 1.9
"""The least width in mm of a one in a picture."""

MOST_ONE = {"bare": 2.5, "full": 3.4}
"""The width in mm of a one beyond which spare height goes between the steps."""

_USUAL = 190.0
# Width in mm of the steps on a usual page; on a wider one their pictures may be larger.

_GROWS = 1.3
# How much larger pictures are at most where words are large.

_UNDER_HEADING, _UNDER_PICTURE, _ROW, _LARGE_ROW = 0.4, 0.6, 1.2, 2.0
# Below a heading, below a picture, and between rows of steps at least, where words are large too.


@frozen
class Way:
    """How steps stand: how many across and down a page, and the frame of their pictures."""

    across: int
    down: int
    frame: MatFrame


Form = tuple[Manner, int, int]
"""How zones are drawn, and how many steps stand across and down."""


def least_one(style: Style) -> float:
    """Return the least width in mm of a one where pictures grow with the words."""
    return LEAST_ONE * min(_GROWS, growth(style.look))


def way(
    steps: Sequence[LessonStep],
    every: Sequence[LessonStep],
    room: Rect,
    form: Form,
    least: float,
    style: Style,
) -> Way | None:
    """Return how ``steps`` stand on pages like ``room``; None if a one is under ``least`` mm.

    Their frame is that of ``every`` step of the lesson.
    """
    manner, across, down = form
    width = (room.width - GUTTER * (across - 1)) / across
    down = min(down, -(-len(steps) // across))
    try:
        around = [_around(step, width, style) for step in steps]
    except RefusedError:  # a word is wider than a step
        return None
    some = (around[k : k + across] for k in range(0, len(around), across))
    rows = [max(heads) + max(words) for heads, words in (zip(*row, strict=True) for row in some)]
    high = (room.height - _row(style) * (down - 1) - _fullest(rows, down)) / down
    if high <= 0:
        return None
    scenes = [step.scene for step in every]

    def framed(high: float, least: float) -> MatFrame | None:
        return mat_frame(scenes, width, style, high=high, least=least, little=manner)

    frame = framed(high, least)
    most = MOST_ONE[manner] * min(_GROWS, growth(style.look)) * max(1.0, room.width / _USUAL)
    if frame is not None and frame.unit > most:
        frame = _lowered(frame, most, least, framed)
    return Way(across, down, frame) if frame else None


def _lowered(
    frame: MatFrame,
    most: float,
    least: float,
    framed: Callable[[float, float], MatFrame | None],
) -> MatFrame:
    """Return ``frame`` so much lower that a one is about ``most`` mm wide, and at least ``least``.

    One of some height and least one is ``framed``.
    """
    low = framed(0.9 * frame.height, 0.5)
    if low is None:
        return frame
    if low.unit >= frame.unit:  # with less air alone
        return _lowered(low, most, least, framed)
    slope = (frame.height - low.height) / (frame.unit - low.unit)
    return framed(frame.height - slope * (frame.unit - most), least) or frame


def _row(style: Style) -> float:
    """Return the least room in mm between rows of steps."""
    return _LARGE_ROW if growth(style.look) > 1 else _ROW


def _fullest(rows: Sequence[float], down: int) -> float:
    """Return how much ``down`` rows on a page take without their pictures, at most."""
    pages = -(-len(rows) // down)
    each = -(-len(rows) // pages)
    return max(sum(rows[k : k + each]) for k in range(0, len(rows), each)) * down / each


def placed_steps(
    steps: Sequence[LessonStep], first: int, room: Rect, how: Way, style: Style
) -> tuple[Item, ...]:
    """Return one page of ``steps``, the first of them numbered ``first``, in ``room``."""
    width = (room.width - GUTTER * (how.across - 1)) / how.across
    heads = [step_heading(first + k, step.title, width, style) for k, step in enumerate(steps)]
    rows = []
    for k in range(0, len(steps), how.across):
        beside = zip(level(heads[k : k + how.across]), steps[k : k + how.across], strict=True)
        rows.append([_cell(head, step, how, width, style) for head, step in beside])
    highs = [max(cell.height for cell in some) for some in rows]
    spare = room.height - sum(highs)
    gap, between = spare / len(rows), len(rows) - 1
    if between:
        gap = max(gap, min(_row(style), spare / between))
    items: list[Item] = []
    y = room.y + (min(spare - gap * between, 3.0) / 2 if between else 0.4 * gap)
    for some, high in zip(rows, highs, strict=True):
        for k, cell in enumerate(some):
            items += cell.at(room.x + k * (width + GUTTER), y)
        y += high + gap
    return tuple(items)


def _around(step: LessonStep, width: float, style: Style) -> tuple[float, float]:
    """Return how high what stands above a step's picture is, and what stands below, in mm."""
    heading = step_heading(1, step.title, width, style)
    words = _words(step, width, style)
    return heading.height + _UNDER_HEADING, _UNDER_PICTURE + words.height


def _cell(head: Block, step: LessonStep, how: Way, width: float, style: Style) -> Block:
    top = stack((head, mat_picture(step.scene, how.frame, style)), _UNDER_HEADING)
    return stack((top, _words(step, width, style)), _UNDER_PICTURE)


def _words(step: LessonStep, width: float, style: Style) -> Block:
    told = lines(step.told, settings(style.look).text, width) if step.told else EMPTY
    said = (exchange_of_words(asked.asks, asked.says, width, style) for asked in step.asked)
    return stack((told, *said), 0.8)
