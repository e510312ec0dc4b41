"""Whom of a class to teach together, and what the others need: in frames, or close in rows."""

from collections.abc import Iterator, Sequence
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.kit.class_words import others_said
from kitbuilder.kit.phrases import capital
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import pictogram, rule, set_tick, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.words import fitted, line, lines, parted, wide
from kitbuilder.number.mistakes.groups import HabitGroup

_FRAMED, _NAMED_AT_ONCE = 20, 60
# Children in one frame, and in one sentence: a small page holds either.

_NAMED, _ASKED = (0.3, 0.27, 0.24, 0.33), (0.3, 0.33, 0.36, 0.27)
# Shares of a close row for the mistake and for the question; the children have what is left.

_NEAR, _FEW = 1.0, 40.0
# From one sentence to the next, in mm, where all together are less high than the other.

_NOTE, _BEFORE_NOTES = 8.0, 3.0
# From one line for notes to the next, and from what is printed to the first, in mm.


def framed_groups(
    marks: ClassMarks, width: float, style: Style, grown: float = 0.0, *, built: bool = False
) -> Iterator[Block]:
    """Yield whom to teach together, up to three frames to a row, and what the others need.

    Frames are ``grown`` mm higher than their words, as room to write what the pieces showed.
    ``built`` says whether they name the sum to build.
    """
    sets, words, found = settings(style.look), style.words, marks.groups
    together = [
        HabitGroup(group.key, group.children[at : at + _FRAMED])
        for group in found.together
        for at in range(0, len(group.children), _FRAMED)
    ]
    count = len(together)
    across = min(3 if width > 150 and count != 4 else 2, max(1, count))
    each = (width - GUTTER * (across - 1)) / across
    for start in range(0, len(together), across):
        some = together[start : start + across]
        cells = [_group(group, marks, each, style, built=built) for group in some]
        high = max(cell.height for cell in cells) + grown
        framed = row([_framed(cell, each, high, style) for cell in cells], GUTTER)
        title = line(words("marks.together"), sets.heading)
        yield stack((title, framed), 1.6) if not start else framed
    others = [lines(parted(t, sets.text, width), sets.text, width) for t in _others(marks, style)]
    near = stack(others, _NEAR)
    yield from [near] if 0 < near.height < _FEW else others


def close_groups(
    marks: ClassMarks, width: float, text: Setting, style: Style, *, built: bool = False
) -> Iterator[Block]:
    """Yield the same in rows, set in ``text``: the mistake, its children, the question.

    ``built`` says whether that names the sum to build. In frames after all where a word is too
    wide for a row's columns.
    """
    asks = [_asks(group, marks, style, built=built) for group in marks.groups.together]
    tried = [
        rows
        for shares in product(_NAMED, _ASKED)
        if (rows := _close_rows(marks, asks, width, shares, text, style)) is not None
    ]
    if not tried:
        yield from framed_groups(marks, width, style, built=built)
        return
    rows = min(tried, key=lambda rows: round(sum(found.height for found in rows), 3))
    if rows:
        title = line(style.words("marks.together"), settings(style.look).heading)
        ruled = [block for found in rows for block in (rule(width), found)]
        yield stack((title, *ruled, rule(width)), 0.4)
    others = [
        line(said, text)
        if wide(said, text) <= width
        else lines(parted(said, text, width), text, width)
        for said in _others(marks, style)
    ]
    if others:
        yield wrapped(others, width, 6, 0.3)


def _close_rows(
    marks: ClassMarks,
    asks: Sequence[str],
    width: float,
    shares: tuple[float, float],
    text: Setting,
    style: Style,
) -> list[Block] | None:
    """Return a row a group that ``asks``, ``shares`` of its width for the mistake and the question.

    None where a word is wider than its column.
    """
    named, asked = shares
    each = (named * width, (1 - named - asked) * width, asked * width)
    try:
        return [
            _close(group, marks, one, each, text, style)
            for group, one in zip(marks.groups.together, asks, strict=True)
        ]
    except RefusedError:
        return None


def _close(
    group: HabitGroup,
    marks: ClassMarks,
    asked: str,
    each: tuple[float, ...],
    text: Setting,
    style: Style,
) -> Block:
    """Return a group in a row whose three columns are ``each`` so wide."""
    least, side = style.look.type_mm.least, 1.2 * text.size
    called = capital(style.words(f"mistake.{group.key}.name"))
    name = fitted(called, text, each[0] - side - 4, least)
    picture = pictogram(pictogram_of(group.key), side).at(0, (text.lead - side) / 2)
    children = wrapped(_ticks(group, marks, each[1] - 3, text), each[1] - 3, 3, 0.2, 4.0)
    asks = lines(asked, text, each[2])
    items = (
        *picture,
        *name.at(side + 2, 0),
        *children.at(each[0], 0),
        *asks.at(each[0] + each[1], 0),
    )
    return Block(items, sum(each), max(text.lead, name.height, children.height, asks.height))


def _ticks(group: HabitGroup, marks: ClassMarks, width: float, text: Setting) -> list[Block]:
    return [set_tick(_who(marks.children[at], marks), width, text) for at in group.children]


def _others(marks: ClassMarks, style: Style) -> Iterator[str]:
    names = [_who(child, marks) for child in marks.children]
    return others_said(marks.groups, names, style.words, _NAMED_AT_ONCE)


def _who(child: ChildMarks, marks: ClassMarks) -> str:
    return child.code if marks.coded else child.name


def _asks(group: HabitGroup, marks: ClassMarks, style: Style, *, built: bool) -> str:
    """Return the one question of a group, after the sum that is ``built``.

    Where there is no room for that, a whole stands in it only where all have the same.
    """
    shown = [one.sum for at in group.children if (one := marks.children[at].shown_sum())]
    sum_ = (marks.built(group) if built else None) or shown[0]
    alike = built or len({one.whole for one in shown}) == 1
    whole = sum_.whole if alike else style.words("marks.any_whole")
    asks = style.words(f"mistake.{group.key}.asks", whole=whole)
    if not sum_.with_pieces:
        asks = style.words("child_page.show_written")
    said = style.words("speech.quoted", said=asks)
    return style.words("marks.built", sum=sum_, asks=said) if built else said


def _group(
    group: HabitGroup, marks: ClassMarks, width: float, style: Style, *, built: bool
) -> Block:
    """Return one group: the mistake, its children with boxes to tick, and the one question."""
    sets = settings(style.look)
    inner = width - 6
    name = capital(style.words(f"mistake.{group.key}.name"))
    title = fitted(name, sets.heading, inner - 9, 0.8 * sets.heading.size)
    high = max(7.0, title.height)
    head = Block(
        (*pictogram(pictogram_of(group.key), 7).at(0, 0), *title.at(9, (high - title.height) / 2)),
        inner,
        high,
    )
    names = wrapped(_ticks(group, marks, inner, sets.text), inner, 4, 0.8)
    asks = lines(_asks(group, marks, style, built=built), sets.text, inner)
    return stack((head, names, asks), 2.0)


def _framed(block: Block, width: float, high: float, style: Style) -> Block:
    """Return ``block`` in a frame; where that is much higher, with lines for notes below it."""
    panel = Item("panel", Rect(0, 0, width, high + 6), Panel("none", "zone", 2.2))
    notes = _notes(width - 6, high - block.height - _BEFORE_NOTES, style)
    below = notes.at(3, 3 + high - notes.height)
    return Block((panel, *block.at(3, 3), *below), width, high + 6)


def _notes(width: float, high: float, style: Style) -> Block:
    """Return lines to write on, as many as ``high`` mm hold, named; none without room for two."""
    name = lines(style.words("class_page.notes"), settings(style.look).least, width)
    count = int((high - name.height) / _NOTE)
    if count < 2:
        return EMPTY
    ruled = [
        Item("rule", Rect(0, name.height + k * _NOTE, width, 0.01), Rule("divider"))
        for k in range(1, count + 1)
    ]
    return Block((*name.items, *ruled), width, name.height + count * _NOTE)
