"""Which steps of a lesson stand on which page, how, and how large their pictures are."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.layout.lesson.lesson_steps import ROW_GAP, Stand, around, high_beside
from kitbuilder.layout.parts.settings import growth
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame, ones_frame

LEAST_ONE = {1: 2.7, 2: 2.7, 3: 2.2, 4: 1.6}
"""The least width in mm of a one in a lesson's pictures, by the places of its sum."""

SMALLEST_ONE = 1.9
"""The same where a page cannot hold more."""

MOST_STEPS = 4
"""How many steps stand on a page at most."""

_CLEAR = 0.4
# The least gap in units between tens in large type, where smaller pieces leave more.

_NARROW, _LIGHT_ONE = 140.0, 2.25
# On paper so narrow in mm a page of low zones holds much: where it has hundreds they are no larger,
# or it is too dark.

_FOUR = Stand(2, 2)
_BELOW, _WIDER = (Stand(1, 2), Stand(1, 2, 0.68)), (Stand(1, 2, 0.72), Stand(1, 2, 0.76))
_IN_ROW = (Stand(2, 1),)
_ONE = (Stand(1, 1),)
# Four steps on a page; two below one another, which fills it, the pictures wider beside words
# that are not large, or in a row; one.

Numbered = tuple[int, LessonStep]


@frozen
class Planned:
    """The steps of one page, how they stand, and the frame of their pictures."""

    steps: tuple[Numbered, ...]
    stand: Stand
    frame: MatFrame


@frozen
class Room:
    """Room on a lesson's pages in mm, and what its ``opening`` and its ``end`` take of it.

    Its first picture has the number ``first``. The ``end`` may be left out unless there ``must``
    be one.
    """

    width: float
    height: float
    opening: float
    end: float
    first: int = 1
    must: bool = False


def planned(
    steps: Sequence[LessonStep], places: int, room: Room, style: Style
) -> tuple[Planned, ...]:
    """Return the pages of ``steps`` in a sum of ``places``, none where one cannot be drawn.

    Four steps a page in pictures of one size, where those are large enough; else each page has
    the most steps that it can show, in the largest pictures. So has a last page of two; rather
    than one on the last page, there are three on that before.
    """
    numbered = tuple(enumerate(steps, room.first))
    least = growth(style.look) * LEAST_ONE[places]
    ends = (room.end,) if room.must else (room.end, 0.0)
    for end in ends:  # what is next is worth no smaller pictures
        frame = _frame(numbered, _FOUR, room, end, least, style)
        if frame is None:
            continue
        if room.must and places > 2:  # told steps fill the page: larger pictures make it too dark
            width = _FOUR.picture((room.width - GUTTER) / 2)
            frame = ones_frame([step.scene for step in steps], width, least, style) or frame
        fours = [numbered[k : k + 4] for k in range(0, len(numbered), 4)]
        last = fours.pop() if len(fours[-1]) < 3 else ()
        if len(last) == 1 and fours:  # no step alone on a page
            fours[-1], last = fours[-1][:-1], (fours[-1][-1], *last)
        pages = [Planned(four, _FOUR, frame) for four in fours]
        return (*pages, *_paged(last, least, room, style))
    return _paged(numbered, least, room, style)


def _paged(
    left: tuple[Numbered, ...], least: float, room: Room, style: Style
) -> tuple[Planned, ...]:
    """Return the fewest pages, none if one cannot be drawn.

    As few as can be hold one step alone, best the last, which has room for what ends a lesson;
    then their smallest pictures are the largest.
    """
    best: dict[int, tuple[Planned, ...]] = {len(left): ()}  # of the steps from each on
    for at in range(len(left) - 1, -1, -1):
        ways: dict[int, Planned] = {}
        for page in _ways(left[at:], least, room, style):
            ways.setdefault(at + len(page.steps), page)
        found = [(page, *best[end]) for end, page in ways.items() if end in best]
        if found:
            best[at] = min(found, key=_worth)
    return best.get(0, ())


def _worth(pages: tuple[Planned, ...]) -> tuple[int, int, bool, float]:
    alone = [len(page.steps) == 1 for page in pages]
    smallest = min(page.frame.unit for page in pages)
    return len(pages), sum(alone), any(alone[:-1]), -smallest


def _ways(left: tuple[Numbered, ...], least: float, room: Room, style: Style) -> Iterator[Planned]:
    """Yield pages that the first steps of ``left`` may have, the best of so many steps first."""
    large = growth(style.look) > 1  # a row leaves pictures more height beside large words
    many = large and len(left[0][1].scene.columns) > 2  # but too little width for so much
    small = min(least, growth(style.look) * (LEAST_ONE[3] if many else SMALLEST_ONE))
    tries: list[tuple[tuple[Stand, ...], float, int]] = []
    tries += [((_FOUR,), least, 4), ((_FOUR,), small, 4)] if len(left) > 2 else []
    tries += [((_FOUR,), least, 3), ((_FOUR,), small, 3)] if len(left) == 5 else []
    plain = [(*_BELOW, *_WIDER), _IN_ROW]
    twos = [_BELOW] if many else [(*_BELOW, *_IN_ROW)] if large else plain
    tries += [(stands, small, 2) for stands in twos] if len(left) > 1 else []
    tries += [(_ONE, one, 1) for one in (small, growth(style.look) * SMALLEST_ONE, SMALLEST_ONE)]
    for stands, wanted, count in tries:
        pages = []
        for stand in stands:
            steps = left[:count]
            end = room.end if steps == left else 0.0
            frame = _frame(steps, stand, room, end, wanted, style)
            if frame and (frame.gap >= _CLEAR or not large or wanted == SMALLEST_ONE):
                pages.append(Planned(steps, stand, frame))
        if pages:
            yield max(pages, key=lambda page: page.frame.unit)


def _frame(
    steps: Sequence[Numbered], stand: Stand, room: Room, end: float, least: float, style: Style
) -> MatFrame | None:
    """Return the frame of the pictures of ``steps``, a page or more, None without room for it."""
    width = (room.width - GUTTER * (stand.across - 1)) / stand.across
    high = _high(steps, stand, width, (room, end), style)
    if not high or high <= 0:
        return None
    scenes, width = [step.scene for _, step in steps], stand.picture(width)
    frame = mat_frame(scenes, width, style, high=high, least=least)
    dense = len(steps) > 1 and room.width < _NARROW and growth(style.look) == 1
    dense = dense and len(scenes[0].columns) > 2
    if frame and dense and frame.unit > _LIGHT_ONE and any(zone.low for zone in frame.zones):
        return ones_frame(scenes, width, _LIGHT_ONE, style)
    return frame


def _high(
    steps: Sequence[Numbered],
    stand: Stand,
    width: float,
    taken: tuple[Room, float],
    style: Style,
) -> float | None:
    """Return how high pictures may be where steps are ``width`` mm wide.

    None where a word is wider than a step, or words beside it are higher. ``taken`` is the
    room, and what the end takes of it.
    """
    room, end = taken
    try:
        beyond = [around(step, stand, width, style) for _, step in steps]
    except RefusedError:
        return None
    across, rows = stand.across, stand.rows
    runs = [beyond[k : k + across] for k in range(0, len(beyond), across)]
    beside = [max(above for above, _ in run) + max(below for _, below in run) for run in runs]
    pages = [beside[k : k + rows] for k in range(0, len(beside), rows)]
    heights = [room.height - 2 * ROW_GAP * (len(some) - 1) - sum(some) for some in pages]
    if steps[0][0] == room.first:
        heights[0] -= room.opening
    heights[-1] -= end
    high = min(h / len(some) for h, some in zip(heights, pages, strict=True))
    told = max(high_beside(step, stand, width, style) for _, step in steps)
    return high if told <= high else None
