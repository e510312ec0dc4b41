"""The adult's answers, laid out: a box a sum with its columns, both parts, and what to ask."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import Answer, FactAnswer, Wrong
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.columns import worked
from kitbuilder.layout.parts.contents import Bubble, Panel, Rule
from kitbuilder.layout.parts.furniture import labelled, pictogram
from kitbuilder.layout.parts.settings import Setting, Settings, settings
from kitbuilder.layout.parts.speech import FACE
from kitbuilder.layout.parts.split import split, split_unit
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.number import Pieces

PAD = 3.6
"""Space in mm between an answer's frame and what stands in it."""

GUTTER = 5.0
"""Space in mm between answers, and between the columns of one."""


@dataclass(frozen=True, slots=True)
class Size:
    """How large an answer is drawn.

    ``digits`` is the size in mm of its columns, ``unit`` the most that a one in its pictures
    is wide, ``left`` the part of its width that the columns take; ``beside`` says whether the
    questions stand beside the columns or under them.
    """

    digits: float
    unit: float
    left: float
    beside: bool


LARGE = Size(9.0, 1.8, 0.25, beside=True)
MIDDLE = tuple(
    Size(digits, 0.18 * digits, 0.4, beside=False) for digits in (9.0, 8.2, 7.4, 6.8, 6.4)
)
SMALL = Size(6.4, 1.15, 0.4, beside=False)

_IN, _APART, _CLOSE_SPEECH = 2.0, 2.6, 0.89
# In mm: inside a bubble, and between a wrong answer and its question; and the size of what is
# said where two answers stand beside each other, as a part of the usual.


def answer_boxes(
    answers: Sequence[Answer], width: float, style: Style, size: Size
) -> tuple[Block, ...]:
    """Return a box for each of ``answers``, ``width`` mm wide."""
    return tuple(_box(answer, width, style, size) for answer in answers)


def _box(answer: Answer, width: float, style: Style, size: Size) -> Block:
    room = width - 2 * PAD
    columns = _columns(answer, size.left * room, style, size)
    beside = room - columns.width - GUTTER
    parts = _parts(answer, beside, style, size)
    asks = _asks(answer, beside if size.beside else room, style, headed=size.beside)
    if size.beside:
        right = stack((parts, _ruled(beside) if asks.height else EMPTY, asks), 2.4)
        inner = row((columns, right), GUTTER)
    else:
        line = _ruled(room) if asks.height else EMPTY
        said = stack(_exchanged(answer, room, style))
        inner = stack((row((columns, parts), GUTTER), said, line, asks), 1.8)
    frame = Item(
        "answer", Rect(0, 0, width, inner.height + 2 * PAD), Panel(line="zone", radius=3.0)
    )
    return Block((frame, *inner.at(PAD, PAD)), width, inner.height + 2 * PAD)


def stretched(box: Block, height: float) -> Block:
    """Return an answer's box with its frame ``height`` mm high, as those beside it."""
    frame = Item("answer", Rect(0, 0, box.width, height), box.items[0].content)
    return Block((frame, *box.items[1:]), box.width, height)


def _ruled(width: float) -> Block:
    return Block((Item("rule", Rect(0, 0, width, 0.01), Rule("divider")),), width, 0.01)


def _columns(answer: Answer, least: float, style: Style, size: Size) -> Block:
    """The sum and its worked columns, with its exchanges below where its questions are beside."""
    digits = max(size.digits, 1.3 * style.look.type_mm.least)
    title = line(str(answer.sum), Setting(0.8 * digits, 1.05 * digits))
    columns = worked(answer.columns, digits, style)
    across = max(least, title.width, columns.width)
    said = _exchanged(answer, across, style) if size.beside else ()
    found = stack((title, columns, stack(said)), 2.2)
    return Block(found.items, across, found.height)


def _exchanged(answer: Answer, width: float, style: Style) -> tuple[Block, ...]:
    """Return the exchanges of a sum, a line each, and what is noted of it."""
    text = settings(style.look).text
    return tuple(lines(said, text, width) for said in (*answer.exchanges, answer.note) if said)


def _parts(answer: Answer, width: float, style: Style, size: Size) -> Block:
    """What is left and what came out, each with its number and its pieces."""
    sum_ = answer.sum
    shown = (Pieces.of(sum_.rest), Pieces.of(sum_.part))
    heads = [
        _named(text, str(pieces.value), style, size, right=not k)
        for k, (text, pieces) in enumerate(zip((answer.left, answer.out), shown, strict=True))
    ]
    half = (width - GUTTER) / 2
    if sum_.places > 3:
        return _two(heads[0], heads[1], half)
    high = 10 * size.unit + 0.1
    unit = min(split_unit(pieces, half, high, size.unit) for pieces in shown)
    pictures = [split(pieces, half, high, unit) for pieces in shown]
    tall = max(picture.height for picture in pictures)
    drawn = [
        stack((head, Block(picture.items, half, tall)), 1.4)
        for head, picture in zip(heads, pictures, strict=True)
    ]
    return _two(drawn[0], drawn[1], half)


def _two(one: Block, other: Block, half: float) -> Block:
    """Two blocks beside each other, or the second under the first where they are too wide."""
    if max(one.width, other.width) > half + 1e-6:
        return stack((one, other), 1.0)
    return row((Block(one.items, half, one.height), Block(other.items, half, other.height)), GUTTER)


def _named(text: str, number: str, style: Style, size: Size, *, right: bool) -> Block:
    sets = settings(style.look)
    large = max(0.85 * size.digits, sets.text.size)
    value = Setting(large, 1.1 * large)
    name = line(text, sets.least)
    said = line(number, value)
    x = name.width + 1.6
    items = [*name.at(0, (said.height - name.height) / 2 + 0.08 * large), *said.at(x, 0)]
    across = x + said.width
    if right:
        side = 0.8 * large
        items += pictogram("right", side).at(across + 1.6, (said.height - side) / 2)
        across += 1.6 + side
    return Block(tuple(items), across, said.height)


def _asks(answer: Answer, width: float, style: Style, *, headed: bool) -> Block:
    """Each foreseen wrong answer in the child's tint, and what the adult asks then."""
    if not answer.wrong:
        return EMPTY
    sets = settings(style.look)
    speech = sets.speech if headed else sets.speech.sized(_CLOSE_SPEECH * sets.speech.size)
    number = Setting(1.35 * speech.size, 1.5 * speech.size)
    across = max(wide(str(wrong.answer), number) for wrong in answer.wrong) + 2 * _IN
    rows = [EMPTY]
    if headed:
        across = max(across, FACE + 1.6 + wide(answer.says, sets.least))
        rows = [_heads(answer, across, sets)]
    rows += [_wrong(wrong, number, speech, (across, width), style) for wrong in answer.wrong]
    return stack(rows, 1.6 if headed else 1.2)


def _heads(answer: Answer, across: float, sets: Settings) -> Block:
    """The two faces over what a child says and what the adult asks."""
    return row(
        (
            _padded(labelled(pictogram("child", FACE), answer.says, sets.least), across),
            labelled(pictogram("adult", FACE), answer.asks, sets.least),
        ),
        _APART,
    )


def _padded(block: Block, width: float) -> Block:
    return Block(block.items, width, block.height)


def _wrong(
    wrong: Wrong, number: Setting, speech: Setting, room: tuple[float, float], style: Style
) -> Block:
    """One wrong answer in a column and its question in the rest of ``room``, in mm."""
    sets = settings(style.look)
    across, width = room
    value = line(str(wrong.answer), number)
    box = Rect(0, 0, value.width + 2 * _IN, number.lead)
    said = (
        Item("wrong", box, Panel("tint", "bubble", 1.8)),
        *value.at(_IN, 0),
    )
    beside = width - across - _APART
    name = lines(wrong.name, sets.least, beside)
    asked = lines(style.words("speech.quoted", said=wrong.asks), speech, beside - 2 * _IN)
    used = max(item.rect.right for item in asked.items)
    bubble = Rect(0, name.height + 0.4, used + 2 * _IN, asked.height + 1.4)
    right = Block(
        (
            *name.items,
            Item("bubble", bubble, Bubble("adult")),
            *asked.at(_IN, bubble.y + 0.7),
        ),
        beside,
        bubble.bottom,
    )
    top = bubble.y + (bubble.height - number.lead) / 2
    return row((Block(said, across, number.lead).moved(0, max(0.0, top)), right), _APART)


def fact_rows(answers: Sequence[FactAnswer], width: float, style: Style) -> Iterator[Block]:
    """Yield rows of small facts with their steps, two beside each other if they fit."""
    setting = settings(style.look).text
    half = (width - GUTTER) / 2
    fact = max(wide(a.text, setting) for a in answers) + 4
    two = fact + max(wide(a.steps, setting) for a in answers) <= half
    across = half if two else width
    cells = [
        Block(
            (*line(a.text, setting).items, *lines(a.steps, setting, across - fact).at(fact, 0)),
            across,
            lines(a.steps, setting, across - fact).height,
        )
        for a in answers
    ]
    step = 2 if two else 1
    for start in range(0, len(cells), step):
        yield row(cells[start : start + step], GUTTER)
