"""The adult's answers, laid out: a box a sum with its columns, both parts, and what to ask."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import Answer, FactAnswer, Wrong
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Bubble, Panel
from kitbuilder.layout.parts.furniture import labelled, pictogram, rule
from kitbuilder.layout.parts.settings import Setting, Settings, settings
from kitbuilder.layout.parts.speech import FACE
from kitbuilder.layout.parts.words import ZEROS, line, lines, wide
from kitbuilder.layout.parts.written_columns import added, worked
from kitbuilder.layout.picture.split import split, split_high, split_unit
from kitbuilder.number import Pieces

PAD = 3.6
"""Space in mm between an answer's frame and what stands in it."""

GUTTER = 5.0
"""Space in mm between answers, and between the columns of one."""


@frozen
class Size:
    """How large an answer is drawn.

    ``digits`` is the size in mm of its columns, ``unit`` the most that a one in its pictures
    is wide, ``left`` the part of its width that the columns take; ``beside`` says whether the
    questions stand beside the columns or under them. With ``stacked`` what is left stands above
    what is taken out, as on the mat.
    """

    digits: float
    unit: float
    left: float
    beside: bool
    stacked: bool = False


GREAT = (
    *(Size(d, d / 4, 0.34, beside=True, stacked=True) for d in (28.0, 24.0, 20.0, 17.0, 14.0)),
    Size(11.0, 2.8, 0.27, beside=True),
)
LARGE = Size(9.0, 1.9, 0.25, beside=True)
CLOSE = Size(8.0, 1.5, 0.1, beside=True)
ROOMY = tuple(Size(d, d / 3.5, 0.3, beside=False, stacked=True) for d in (14.0, 12.0, 10.0, 8.6))
MIDDLE = tuple(
    Size(digits, 1.9, 0.3, beside=False, stacked=True) for digits in (7.4, 6.8, 6.4, 6.0, 5.4)
)
TWO_IN_A_ROW = Size(7.8, 2.6, 0.3, beside=False, stacked=True)
SMALL = Size(6.4, 1.15, 0.4, beside=False)
GROWN = tuple(replace(SMALL, unit=unit) for unit in (2.4, 2.0, 1.7, 1.4))

_MOST_LEFT, _MOST_ALONE = 0.4, 0.54
"""The most of an answer's width that digits larger than ``_USUAL`` take; without pictures."""

_USUAL = 14.0

LEAST_ONE = 0.9
"""Pieces in which a one would be narrower, in mm, are not drawn."""

_MOST_LINES = 5
# Of a note under an answer's columns; one of more lines stands across the answer's width.

_IN, _APART, _CLOSE_SPEECH = 2.0, 2.6, 0.89
# In mm: inside a bubble, and between a wrong answer and its question; and the size of what is
# said where two answers stand beside each other, as a part of the usual.


@frozen
class AnswerBox:
    """One answer's box, in mm: what stands in it is laid out when it is asked for."""

    answer: Answer
    width: float
    height: float
    style: Style
    size: Size

    @property
    def face(self) -> tuple[Item, ...]:
        """What stands in it, from its top left."""
        room = self.width - 2 * PAD
        worded = _worded(self.answer, room, self.style, self.size)
        pictures = _pictures(self.answer, worded.half, self.size, drawn=True)
        inner = _inner(worded, pictures, self.size)
        frame = Rect(0, 0, self.width, self.height)
        return (Item("frame", frame, Panel(line="zone", radius=3.0)), *inner.at(PAD, PAD))


def answer_boxes(
    answers: Sequence[Answer], width: float, style: Style, size: Size
) -> tuple[Block, ...]:
    """Return a box for each of ``answers``, ``width`` mm wide, as high as it needs to be.

    Of those that differ in digits alone one is laid out; of the others the pieces are measured.
    """
    found = []
    for answer, worded in zip(answers, _rooms(answers, width, style, size), strict=True):
        pictures = _pictures(answer, worded.half, size, drawn=False)
        high = _inner(worded, pictures, size).height + 2 * PAD
        found.append(_placed(AnswerBox(answer, width, high, style, size)))
    return tuple(found)


def _rooms(
    answers: Sequence[Answer], width: float, style: Style, size: Size
) -> Iterator["_Worded"]:
    """Yield what each of ``answers`` takes room for: as much where they differ in digits alone."""
    known: dict[str, _Worded] = {}
    for answer in answers:
        shape = repr(answer).translate(ZEROS)
        if shape not in known:
            known[shape] = _worded(answer, width - 2 * PAD, style, size).hollow()
        yield known[shape]


def hold(answers: Sequence[Answer], width: float, style: Style, size: Size) -> bool:
    """Return whether boxes ``width`` mm wide hold the names of both parts beside the columns."""
    most = _MOST_LEFT if any(a.sum.with_pieces for a in answers) else _MOST_ALONE
    try:
        return all(
            one.beside >= max(head.width for head in one.heads)
            and (size.digits <= _USUAL or one.columns.width <= most * one.room)
            for one in _rooms(answers, width, style, size)
        )
    except RefusedError:  # a word is wider than its column
        return False


def hold_two(answers: Sequence[Answer], width: float, style: Style, size: Size) -> bool:
    """Return whether boxes ``width`` mm wide hold all names, and large pieces."""
    if any(answer.sum.places > 3 for answer in answers):
        return False
    return hold(answers, width, style, size)


def _placed(box: AnswerBox) -> Block:
    item = Item("answer", Rect(0, 0, box.width, box.height), box)
    return Block((item,), box.width, box.height)


def larger(box: Block, width: float, most: float) -> Block:
    """Return an answer's box ``width`` mm wide, as large as one ``most`` mm high can be."""
    content = box.items[0].content
    assert isinstance(content, AnswerBox)
    own, style = (content.answer,), content.style
    greater = [size for size in (*GREAT, *ROOMY) if size.digits > content.size.digits]
    for size in (*greater, *GROWN) if content.size == SMALL else greater:
        if hold(own, width, style, size):
            found = answer_boxes(own, width, style, size)[0]
            if found.height <= most:
                return found
    return box


def stretched(box: Block, height: float) -> Block:
    """Return an answer's box with its frame ``height`` mm high, as those beside it."""
    content = box.items[0].content
    assert isinstance(content, AnswerBox)
    return _placed(replace(content, height=height))


@frozen
class _Worded:
    """An answer in ``room`` mm but for its pieces: columns, names of both parts, what is said."""

    room: float
    columns: Block
    heads: tuple[Block, ...]
    said: Block
    asks: Block
    stacked: bool

    @property
    def beside(self) -> float:
        """What is beside the columns, in mm."""
        return self.room - self.columns.width - GUTTER

    @property
    def half(self) -> float:
        """What there is for one part, in mm."""
        return self.beside if self.below else (self.beside - GUTTER) / 2

    @property
    def below(self) -> bool:
        """Whether one part stands below the other: so it was asked for, or names are too wide."""
        return self.stacked or 2 * max(head.width for head in self.heads) + GUTTER > self.beside

    def hollow(self) -> "_Worded":
        """Return the same room with nothing in it."""
        columns, said, asks = map(_hollow, (self.columns, self.said, self.asks))
        return _Worded(
            self.room, columns, tuple(map(_hollow, self.heads)), said, asks, self.stacked
        )


def _hollow(block: Block) -> Block:
    """Return the room of ``block`` as one item, which stands for all of it."""
    wide, high = block.width, block.height
    return Block((Item("room", Rect(0, 0, wide, high)),), wide, high) if wide and high else block


def _worded(answer: Answer, room: float, style: Style, size: Size) -> _Worded:
    columns, below = _columns(answer, size.left * room, style, size)
    heads = tuple(
        _named(text, str(number), style, size, right=answer.asked and not k)
        for k, (text, number) in enumerate(answer.parts)
    )
    apart = not (size.beside or size.stacked)
    told = below if not apart else (*answer.exchanges, answer.note)
    said = stack(_told(told, room, style))
    beside = room - columns.width - GUTTER
    asks = _asks(answer, beside if size.beside else room, style, headed=size.beside)
    return _Worded(room, columns, heads, said, asks, size.stacked)


def _inner(worded: _Worded, pictures: Sequence[Block], size: Size) -> Block:
    """Return what stands inside the frame of an answer."""
    columns, room, asks = worded.columns, worded.room, worded.asks
    told = (worded.said,) if worded.said.height else ()
    drawn = [stack(pair, 1.4) for pair in zip(worded.heads, pictures, strict=True)]
    sides = (part.as_wide(worded.half) for part in drawn)
    parts = stack(drawn, 1.0) if worded.below else row([*sides], GUTTER)
    if size.beside:
        line = rule(worded.beside) if asks.height else EMPTY
        return stack((row((columns, stack((parts, line, asks), 2.4)), GUTTER), *told), 2.4)
    line = rule(room) if asks.height else EMPTY
    return stack((row((columns, parts), GUTTER), *told, line, asks), 1.6)


def _columns(
    answer: Answer, least: float, style: Style, size: Size
) -> tuple[Block, tuple[str, ...]]:
    """The sum and its worked columns, with its exchanges below where its questions are beside.

    Also what is told across the whole answer: a note that runs down many short lines there.
    """
    digits = max(size.digits, 1.3 * style.look.type_mm.least)
    title = _title(answer, Setting(0.8 * digits, 1.05 * digits), style)
    short = answer.sum.short()
    own = style.counting(short.scale)
    columns = added(short, digits, own) if answer.added else worked(answer.columns, digits, own)
    text = settings(style.look).text
    under: tuple[str, ...] = (*answer.exchanges, answer.note)
    below: tuple[str, ...] = ()
    across = max(least, title.width, columns.width, _longest_word(under, text))
    if answer.note and lines(answer.note, text, across).height > _MOST_LINES * text.lead:
        under, below = answer.exchanges, (answer.note,)
        across = max(least, title.width, columns.width, _longest_word(under, text))
    said = _told(under, across, style) if size.beside or size.stacked else ()
    return stack((title, columns, stack(said)), max(2.2, 0.16 * digits)).as_wide(across), below


def _title(answer: Answer, setting: Setting, style: Style) -> Block:
    """The sum; one told in words under its kind, written with a box for what is asked."""
    if not answer.written:
        return line(str(answer.sum), setting)
    small = setting.sized(max(0.75 * setting.size, style.look.type_mm.least))
    parts = [line(said, small) for said in answer.written.split("□")]
    if len(parts) > 1:
        side = 0.8 * small.size
        box = Item(
            "digit_box",
            Rect(0, (small.lead - side) / 2, side, side),
            Panel(line="write", radius=0.3),
        )
        gap = 0.0 if answer.written.endswith("□") else 0.25 * small.size
        parts = [parts[0], Block((box,), side + gap, small.lead), *parts[1:]]
    written = row([b for b in parts if b.width], 0.25 * small.size)
    if not answer.told:
        return written
    return stack((line(answer.told, settings(style.look).text), written), 0.6)


def _told(told: Sequence[str], width: float, style: Style) -> tuple[Block, ...]:
    """Return the exchanges of a sum, a line each, or what is noted of it."""
    text = settings(style.look).text
    return tuple(lines(said, text, width) for said in told if said)


def _longest_word(told: Sequence[str], text: Setting) -> float:
    """Return how wide, in mm, the longest word of ``told`` is."""
    return max((wide(word, text) for word in " ".join(told).split()), default=0.0)


def _pictures(answer: Answer, half: float, size: Size, *, drawn: bool) -> tuple[Block, Block]:
    """Return the pieces of what is left and of what came out, or only their room."""
    sum_ = answer.sum
    if not sum_.with_pieces:
        return EMPTY, EMPTY
    left, out = (Pieces.of(int(number)) for _, number in answer.parts)
    high = 10 * size.unit + 0.1
    if sum_.places > 3:  # a pile of thousands is higher than a ten
        high *= 1.5
    unit = min(split_unit(pieces, half, high, size.unit) for pieces in (left, out))
    if unit < LEAST_ONE and sum_.places > 3:
        return EMPTY, EMPTY
    tall = max(split_high(pieces, half, unit) for pieces in (left, out))
    if not drawn:
        room = _hollow(Block((), half, tall))
        return room, room
    one, other = (split(pieces, half, high, unit).items for pieces in (left, out))
    return Block(one, half, tall), Block(other, half, tall)


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
    close = max(_CLOSE_SPEECH * sets.speech.size, style.look.type_mm.least)
    speech = sets.speech if headed else sets.speech.sized(close)
    number = Setting(1.35 * speech.size, 1.5 * speech.size)
    across = max(wide(str(wrong.answer), number) for wrong in answer.wrong) + 2 * _IN
    rows = [EMPTY]
    if headed:
        across = max(across, FACE + 1.6 + wide(answer.says, sets.least))
        rows = [_heads(answer, across, sets)]
    for wrong in answer.wrong:
        rows.append(_wrong(wrong, (number, speech), (across, width), style, headed=headed))
    return stack(rows, 1.6 if headed else 1.2)


def _heads(answer: Answer, across: float, sets: Settings) -> Block:
    """The two faces over what a child says and what the adult asks."""
    return row(
        (
            labelled(pictogram("child", FACE), answer.says, sets.least).as_wide(across),
            labelled(pictogram("adult", FACE), answer.asks, sets.least),
        ),
        _APART,
    )


def _wrong(
    wrong: Wrong,
    set_: tuple[Setting, Setting],
    room: tuple[float, float],
    style: Style,
    *,
    headed: bool,
) -> Block:
    """One wrong answer in a column and its question in the rest of ``room``, in mm.

    ``set_`` is how number and question are set. A second mistake that gives it is named where it
    takes no further line, or the box is ``headed``.
    """
    sets = settings(style.look)
    (number, speech), (across, width) = set_, room
    value = line(str(wrong.answer), number)
    box = Rect(0, 0, value.width + 2 * _IN, number.lead)
    said = (
        Item("wrong", box, Panel("tint", "bubble", 1.8)),
        *value.at(_IN, 0),
    )
    beside = width - across - _APART
    name, both = (lines(said, sets.least, beside) for said in (wrong.name, wrong.names))
    name = both if wrong.names and (headed or both.height == name.height) else name
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
