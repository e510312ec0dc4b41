"""Turns worked answers into boxes for the adult: columns, pictures of the split, wrong answers."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.kit.card_records import Answer, FactAnswer
from kitbuilder.layout.cards.card_pictures import pictures
from kitbuilder.layout.cards.fronts import Line, Worked, worked_size, written_digits
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.text.flow import LEADING, Figure, Group, TextBlock
from kitbuilder.number import Pieces

PAD = 2.5
"""Space in mm between an answer's frame and what stands in it."""

GAP = 4.0
"""Space in mm between answers."""

DIGITS = 5.5
"""Size in mm of the digits of written columns."""

SMALL = 0.86
"""Size of an answer's notes, as a part of the adult's type; never below the look's least."""

PICTURES = (17.0, 14.0, 11.0, 8.5)
"""Heights in mm of one picture of pieces at most: the first that costs no page is taken."""

UNIT = 0.8 / PICTURES[-1]
"""The most that a one in a picture may be wide, as a part of the picture's height."""


@dataclass(frozen=True, slots=True)
class AnswerBox:
    """One answer to draw in a thin frame; a picture in it is at most ``picture`` mm high."""

    answer: Answer
    picture: float = PICTURES[-1]

    def parts(self, width: float, look: Look) -> tuple[Item, ...]:
        """Return what stands in the frame, ``width`` mm wide, from its top left."""
        size = written_digits(DIGITS, look)
        across, down = worked_size(len(self.answer.columns), size)
        items = [Item("worked", Rect(PAD, PAD, across, down), Worked(self.answer.columns, size))]
        left = 2 * PAD + across
        items += _beside(self.answer, Rect(left, PAD, width - PAD - left, 1), look)
        y = max(item.rect.bottom for item in items) + 1.5
        items += _split(self, Rect(PAD, y, width - 2 * PAD, 1), look)
        y = max(item.rect.bottom for item in items) + 1.5
        items += _wrong(self.answer, Rect(PAD, y, width - 2 * PAD, 1), look)
        return tuple(items)


def answer_figures(
    answers: Sequence[Answer], across: float, down: float, look: Look, picture: float = PICTURES[-1]
) -> Iterator[Figure]:
    """Yield one figure for each of ``answers``, all as high as the highest: they stand in rows.

    Pictures of pieces are at most ``picture`` mm high.

    Two stand beside each other in ``across`` mm, or one where two narrow ones would be higher
    than a page's ``down`` mm or take more room.
    """
    boxes = [AnswerBox(answer, picture) for answer in answers]
    wide, narrow = across, (across - GAP) / 2
    high = {width: _height(boxes, width, look) for width in (wide, narrow)}
    fewest = high[narrow] <= down and high[narrow] * -(-len(boxes) // 2) <= high[wide] * len(boxes)
    width = narrow if fewest else wide
    for box in boxes:
        yield Figure("answer", width, high[width], box, GAP)


def _height(boxes: Sequence[AnswerBox], width: float, look: Look) -> float:
    """Return the height in mm of the highest box, endless where a box is too narrow."""
    return max(
        _least_height(box.answer, width, look) + 2 * (_high(box) - _high(AnswerBox(box.answer)))
        for box in boxes
    )


@lru_cache(4096)
def _least_height(answer: Answer, width: float, look: Look) -> float:
    """Return the height in mm of a box with the smallest pictures, of which there are two."""
    try:
        parts = AnswerBox(answer).parts(width, look)
    except ValueError:
        return math.inf
    texts = [(part.content, part.rect.width) for part in parts]
    if any(
        metrics.width(line, text.size) > room + 1e-6
        for text, room in texts
        if isinstance(text, TextBlock)
        for line in text.lines
    ):
        return math.inf
    return max(part.rect.bottom for part in parts) + PAD


def _high(box: AnswerBox) -> float:
    """Return the height in mm of one picture in ``box``."""
    return box.picture if box.answer.sum.places < 4 else 2 * box.picture


def _beside(answer: Answer, room: Rect, look: Look) -> list[Item]:
    """The sum, what is left and the exchanges, from the top of ``room`` down."""
    heading = look.type_mm.heading
    items = [_text((str(answer.sum),), heading, room.x, room.y, room.width)]
    for said in answer.lines:
        lines = metrics.wrap(said, look.type_mm.adult, room.width)
        y = items[-1].rect.bottom
        items.append(_text(lines, look.type_mm.adult, room.x, y, room.width))
    return items


def _split(box: AnswerBox, room: Rect, look: Look) -> list[Item]:
    """Both parts as small pieces, one below the other, each beside its number."""
    sum_, size, high = box.answer.sum, look.type_mm.adult, _high(box)
    label = metrics.width("0" * sum_.places, size) + 2
    tops = [room.y + i * (high + 1.2) for i in range(2)]
    areas = [Rect(room.x + label, y, room.width - label, high) for y in tops]
    drawn = pictures((Pieces.of(sum_.part), Pieces.of(sum_.rest)), areas, UNIT * box.picture, 0.3)
    if drawn is None:
        raise ValueError(f"no room for pictures of {sum_} in {room}")
    above = metrics.digit_height(size)
    names = [
        Item("line", Rect(room.x, y, label - 2, above), Line(str(number), size))
        for number, y in zip((sum_.part, sum_.rest), tops, strict=True)
    ]
    return [*names, *drawn]


def _wrong(answer: Answer, room: Rect, look: Look) -> list[Item]:
    """Each foreseen wrong answer, and beside it what to say."""
    size = max(SMALL * look.type_mm.adult, look.type_mm.least)
    longest = max((len(str(wrong.answer)) for wrong in answer.wrong), default=0)
    label = metrics.width("0" * max(3, longest), size) + 2.5
    items: list[Item] = []
    y = room.y
    for wrong in answer.wrong:
        lines = metrics.wrap(wrong.text, size, room.width - label)
        items.append(_text((str(wrong.answer),), size, room.x, y, label))
        items.append(_text(lines, size, room.x + label, y, room.width - label))
        y = items[-1].rect.bottom + 0.6
    return items


def _text(lines: tuple[str, ...], size: float, x: float, y: float, width: float) -> Item:
    return Item("text", Rect(x, y, width, len(lines) * LEADING * size), TextBlock(lines, size))


def fact_figures(answers: Sequence[FactAnswer], across: float, look: Look) -> Iterator[Figure]:
    """Yield one line for each small fact and its steps, two beside each other if they fit."""
    size = look.type_mm.adult
    width, high = (across - GAP) / 2, LEADING * size
    fact = max(metrics.width(a.text, size) for a in answers) + 4
    if fact + max(metrics.width(a.steps, size) for a in answers) > width:
        width = across
    for a in answers:
        items = (
            _text((a.text,), size, 0, 0, fact),
            _text((a.steps,), size, fact, 0, width - fact),
        )
        yield Figure("fact_answer", width, high, Group(items), GAP / 4)
