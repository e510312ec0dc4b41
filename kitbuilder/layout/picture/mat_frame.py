"""The mat in a picture: its zones and columns, as wide and high as the scenes of a page need."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.layout.parts.contents import ARROW, HEAD_LONG
from kitbuilder.layout.parts.settings import growth
from kitbuilder.layout.picture.frame_needs import Most
from kitbuilder.layout.picture.frame_records import ASKED, PAD, Air, Manner, MatFrame
from kitbuilder.layout.picture.piles import TEN_GAPS

MOST_UNIT = 3.8
"""The widest a one is drawn in a picture, in mm."""

_SHAFTS = (3.0, 1.0, 0.4)
# How much of an exchange's shaft is to be seen, in mm: the most that there is room for.

_TEN, _FIVE_ONES = 10.0, 5.0
# How high in units a zone is at least: as a ten, or as the ones where pictures grow by that.

_PARTS, _HARDLY = (0.85, 0.6), 0.009
# Of a frame's height, at which widths of a one are compared: as high as it can be it may differ;
# and how much wider ones may be than asked for, in mm.

AIRS = (
    *(Air(gap, PAD) for gap in TEN_GAPS),
    Air(0.3, 0.8),
    Air(TEN_GAPS[-1], 1.2),
    Air(0.16, 0.8),
)
"""Ways to stand in a column, the widest that there is room for."""


def mat_frame(
    scenes: Sequence[MatScene],
    width: float,
    style: Style,
    *,
    high: float = 1e9,
    least: float = 0.9,
    little: Manner | None = None,
) -> MatFrame | None:
    """Return the frame in which all ``scenes`` can be drawn ``width`` mm wide.

    It is no higher than ``high`` mm and its unit as large as that allows, at most
    ``MOST_UNIT``. Tens stand closer where a unit of ``least`` mm needs it. None where even that
    does not fit. Where tens are the largest, their number stands beside them as on the mat if
    pieces become no smaller; so does the name of a zone without any above it in large type. There,
    and where zones stand side by side, a zone of ones alone is lower if pieces become larger.
    In a lesson in ``little``, drawn in that manner, the number of hundreds may stand beside them
    too in large type.
    """
    return _framed(tuple(scenes), (width, high), least, little, style)


def ones_frame(
    scenes: Sequence[MatScene], width: float, one: float, style: Style
) -> MatFrame | None:
    """Return the frame in which all ``scenes`` have ones ``one`` mm wide, or hardly wider."""
    frame = mat_frame(scenes, width, style, least=one)
    if frame is None or frame.unit < one + _HARDLY:
        return frame
    more, less = (mat_frame(scenes, width, style, high=h * frame.height, least=0.5) for h in _PARTS)
    if more is None or less is None or less.unit >= more.unit:
        return frame
    slope = (more.height - less.height) / (more.unit - less.unit)
    high = more.height - slope * (more.unit - one - _HARDLY / 2)
    return mat_frame(scenes, width, style, high=high, least=one) or frame


@lru_cache(512)
def _framed(
    scenes: tuple[MatScene, ...],
    room: tuple[float, float],
    least: float,
    little: Manner | None,
    style: Style,
) -> MatFrame | None:
    """Return the frame in ``room``: a page that is tried in many ways asks again and again."""
    most = Most.of(scenes, little or "full", style)
    large, full = growth(style.look) > 1, most.manner == "full"
    beside = (2, 3) if large and little else (2,)  # columns
    aside = (True, False) if full and len(most.columns) in beside else (False,)
    lower = full and (large or any(len(row) > 1 for row in most.rows))
    tall = (_TEN, _FIVE_ONES) if lower else (_TEN,)
    over = (True, False) if large and most.named else (False,)
    ways = (
        replace(most, over=above, aside=some, tall=units)
        for above, units, some in product(over, tall, aside)
    )
    found = [frame for way in ways if (frame := _roomy(way, room, least))]
    return max(found, key=lambda frame: frame.unit, default=None)


def _roomy(most: Most, room: tuple[float, float], least: float) -> MatFrame | None:
    """Return the frame with the most air between its pieces of ``least`` mm or more."""
    width, high = room
    look = most.style.look
    arrow = HEAD_LONG * look.lines_mm.arrow / ARROW
    arrow += ASKED * look.type_mm.adult if most.asked else 0.0
    if not most.holds(least, room, AIRS[-1]):
        return None  # nothing needs less
    opens = (*_SHAFTS, None) if most.exchanged else (None,)
    for shaft, closed in product(opens, AIRS):
        opened = 0.0 if shaft is None else max(0.0, arrow + shaft + 0.95 - 2 * closed.pad)
        air = replace(closed, opened=opened)
        if not most.holds(least, room, air):
            continue
        unit = min(MOST_UNIT * growth(look), most.unit(width, air))
        if most.height(unit, air) > high:
            unit = most.lower(unit, high, air)
        if unit >= least:
            return most.frame(unit, air, width)
    return None
