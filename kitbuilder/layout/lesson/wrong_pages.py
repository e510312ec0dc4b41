"""When the answer is wrong, on pages: one row a mistake, written sum, picture and question."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from itertools import product, takewhile
from typing import NamedTuple

from kitbuilder.design.style import Style
from kitbuilder.kit.advice import Mistake, WrongAnswers
from kitbuilder.layout.lesson.lesson_steps import NoPictureError
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, split, spread, stack
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.contents import SmallPieces
from kitbuilder.layout.parts.furniture import (
    Heading,
    header,
    paper_sheets,
    pictogram,
    rule,
)
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.number import PLACES

LEAST_ONE = 1.9
"""The least width in mm of a one in the pictures."""

_GAP, _CLOSE = 1.6, 0.8
_SIGN, _DIGITS = 7.0, 1.75
# Side of a mistake's pictogram in mm; size of the written digits in sizes of the text.

_USUAL, _LOWEST, _HIGHEST, _PARTS = 5.0, 45, 120, (1.0, 0.9, 0.8)
# Type in mm that is no larger than usual; how low in mm rows of mistakes in large type are tried,
# and with which parts of what their ones should be.

_CLEAR = 2.0
# What larger pictures leave clear above the foot, in mm.

_PICTURES = (70.0, 78.0, 0.0)
# How wide a picture is beside words, in mm: usually, and where columns have long names; or the
# words stand below it.


def wrong_sheets(page: WrongAnswers, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``page``, on one if they fit, numbered from ``first`` on.

    In large type, which takes more pages, small sums come first: their rows are alike, and no
    page has all the large pictures.
    """
    area, sets = SheetArea.upright(style.paper), settings(style.look)
    if large := sets.text.size > _USUAL:
        page = replace(page, mistakes=tuple(sorted(page.mistakes, key=lambda m: m.sum.places)))
    heading = Heading("left", page.title, ("adult",), style.words("answers.note"))
    items, top = header(heading, area, style)
    body = area.body(top)
    page = replace(page, mistakes=tuple(_headed(one, body.width, style) for one in page.mistakes))
    lead = lines(page.lead, sets.text, body.width)
    other = _other(page, body.width, style)
    room = (body.height, lead.height + _GAP, other.height + 2 * _GAP)
    rows = _rows(page, room, body.width, style)
    if large:
        ones = [part * growth(style.look) * LEAST_ONE for part in _PARTS]
        tried = (rows, *(_lower(page, one, rows, style) for one in ones))
        rows = min(tried, key=lambda some: len(split(_between(lead, some, body), body, _GAP)))
    pages = _pages(lead, rows, other, body)
    if large:
        rows = _fuller(page, rows, pages, body, style)
        pages = _pages(lead, rows, other, body)
    shown = (spread(some, body, _GAP) for some in pages)
    return paper_sheets(SheetKind.GUIDE, items, shown, area, style, first)


def _headed(mistake: Mistake, width: float, style: Style) -> Mistake:
    """Return ``mistake``, letters over its columns where their names are wider than a page."""
    scene, words = mistake.scene, style.counting(mistake.sum.scale).words
    if mat_frame([scene], width, style, least=LEAST_ONE):
        return mistake
    places = PLACES[: len(scene.columns)]
    heads = tuple(words(f"mat.headings.letters.{place}") for place in places)
    return replace(mistake, scene=replace(scene, columns=heads))


def _pages(lead: Block, rows: Sequence[Block], other: Block, body: Rect) -> list[list[Block]]:
    """Return what stands on each page.

    The answers end with the ``other`` too: it is worth no page of its own.
    """
    blocks = _between(lead, rows, body)
    usual = split(blocks, body, _GAP)
    ended = split([*blocks, rule(body.width), other], body, _GAP)
    return ended if len(ended) == len(usual) else usual


def _between(lead: Block, rows: Sequence[Block], body: Rect) -> list[Block]:
    """Return ``rows`` below what leads to them, a line above each."""
    blocks = [lead]
    for block in rows:
        blocks += [rule(body.width), block]
    # A lead is worth no page of its own.
    return blocks[2:] if lead.height + 2 * _GAP + rows[0].height > body.height else blocks


def _lower(page: WrongAnswers, one: float, rows: Sequence[Block], style: Style) -> list[Block]:
    """Return each of ``rows`` as low as ones ``one`` mm wide let it be."""
    width, heights = SheetArea.upright(style.paper).body(0).width, range(_LOWEST, _HIGHEST, 3)

    def lowest(mistake: Mistake) -> Block | None:
        def at(high: float, drawn: bool = False) -> Block | None:
            sizes = (_Sizes(width, high, across, one, drawn) for across in _PICTURES)
            return next((fits for some in sizes if (fits := _row(mistake, some, style))), None)

        fits = heights[bisect_left(heights, 1, key=lambda high: at(high) is not None) :]
        return at(fits[0], drawn=True) if fits else None

    return [lowest(some) or usual for some, usual in zip(page.mistakes, rows, strict=True)]


def _fuller(
    page: WrongAnswers,
    rows: Sequence[Block],
    pages: Sequence[Sequence[Block]],
    body: Rect,
    style: Style,
) -> list[Block]:
    """Return ``rows``, as high as each of ``pages`` leaves room for."""
    left, found = list(zip(page.mistakes, rows, strict=True)), []
    for some in pages:
        here, left = (left[: (count := sum(b in rows for b in some))], left[count:])
        spare = max(0.0, body.height - _CLEAR - sum(block.height + _GAP for block in some))
        for mistake, block in here:
            high = block.height + spare / count
            sizes = (_Sizes(body.width, high, across, LEAST_ONE) for across in _PICTURES)
            larger = [fits for one in sizes if (fits := _row(mistake, one, style))]
            found.append(max((block, *larger), key=_unit))
    return found


def _unit(row: Block) -> float:
    """Return how wide in mm a one is drawn in ``row``."""
    return max(i.content.unit for i in row.items if isinstance(i.content, SmallPieces))


def _other(page: WrongAnswers, width: float, style: Style) -> Block:
    """Return what to do about any other answer, in one line if it fits."""
    sets = settings(style.look)
    heading = line(page.other, sets.heading)
    beside = width - heading.width - 3.0
    if wide(page.other_told, sets.text) <= beside:
        said = lines(page.other_told, sets.text, beside)
        return row((heading, said.moved(0, 0.5 * (heading.height - said.height))), 3.0)
    return stack((heading, lines(page.other_told, sets.text, width)))


def _rows(
    page: WrongAnswers, room: tuple[float, float, float], width: float, style: Style
) -> list[Block]:
    """Return the mistakes' rows, as large as a page of all of them allows, or of fewer.

    ``room`` is the height of a page, and what is taken of the first and of the last, in mm.
    """
    height, before, after = room
    count = len(page.mistakes)
    fewer = [(height - before) / rows for rows in range(count, 0, -1)]
    ways = ((height - before - after) / count, *fewer, height)
    ones = (growth(style.look) * LEAST_ONE, LEAST_ONE)
    for across, least, high in product(_PICTURES, ones, ways):
        sizes = _Sizes(width, high - 2 * _GAP, across, least)
        tried = (_row(mistake, sizes, style) for mistake in page.mistakes)
        found = [block for block in takewhile(bool, tried) if block]
        if len(found) == count:
            return found
    raise NoPictureError(page.mistakes[0].scene)


class _Sizes(NamedTuple):
    """Room for one mistake in mm, the width of its picture there, its least one; is it drawn?"""

    width: float
    high: float
    picture: float
    least: float
    drawn: bool = True


def _row(mistake: Mistake, sizes: _Sizes, style: Style) -> Block | None:
    """Return one mistake in its room, None where its ones would be too small."""
    width, high, across, *_ = sizes
    sets = settings(style.look)
    size = _DIGITS * sets.text.size
    sum_ = written(mistake.sum, Setting(size, size), mistake.answer, mistake.key)
    sign = pictogram(pictogram_of(mistake.key), _SIGN)
    left = row((sign, sum_), 1.0)
    left = left.as_wide(max(left.width, 38.0))
    beside = width - left.width - across - 2 * GUTTER
    if across and beside > (40 if sets.text.size < _USUAL else 55) and mistake.sum.places < 4:
        words = _words(mistake, beside, style)
        picture = _picture(mistake, (across, high), sizes, style)
        if picture is None or max(left.height, words.height) > high:
            return None
        return row((left, picture, words), GUTTER)
    words = _words(mistake, width, style)
    above = high - words.height - _CLOSE
    picture = _picture(mistake, (width - left.width - GUTTER, above), sizes, style)
    if picture is not None and left.height <= above:
        return stack((row((left, picture), GUTTER), words), _CLOSE)
    picture = _picture(mistake, (width, above - left.height - _CLOSE), sizes, style)
    return stack((left, picture, words), _CLOSE) if picture else None


def _picture(
    mistake: Mistake, room: tuple[float, float], sizes: _Sizes, style: Style
) -> Block | None:
    """Return the picture of a mistake, or its room; None where its ones would be too small."""
    width, high = room
    if min(width, high) <= 0:
        return None
    frame = mat_frame([mistake.scene], width, style, high=high, least=sizes.least)
    if frame and not sizes.drawn:
        return Block((), frame.width, frame.height)
    return mat_picture(mistake.scene, frame, style) if frame else None


def _words(mistake: Mistake, width: float, style: Style) -> Block:
    """Return a mistake's name, what happened, and the question."""
    sets = settings(style.look)
    said = (
        lines(mistake.name, sets.heading, width),
        lines(mistake.told, sets.text, width),
        speech("adult", mistake.asks, width, style),
    )
    return stack(said, _CLOSE).as_wide(width)
