"""Turns worked answers into boxes for the adult: columns, pictures of the split, wrong answers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder import measure
from kitbuilder.designs import Look
from kitbuilder.kit.card_records import Answer, FactAnswer
from kitbuilder.number import Pieces
from kitbuilder.sheet.faces import Line, Worked, worked_size
from kitbuilder.sheet.flow import LEADING, Figure, Group, TextBlock
from kitbuilder.sheet.pictures import pictures
from kitbuilder.sheet.records import Item, Rect

PAD = 2.5
"""Space in mm between an answer's frame and what stands in it."""

GAP = 4.0
"""Space in mm between answers."""

DIGITS = 5.5
"""Size in mm of the digits of written columns."""

SMALL = 0.86
"""Size of the notes in an answer, as a part of the adult's type (10 pt or more)."""

PICTURE = 8.5
"""Height in mm of one picture of pieces at most."""


@dataclass(frozen=True, slots=True)
class AnswerBox:
    """One answer to draw in a thin frame."""

    answer: Answer

    def parts(self, width: float, look: Look) -> tuple[Item, ...]:
        """Return what stands in the frame, ``width`` mm wide, from its top left."""
        across, down = worked_size(len(self.answer.columns), DIGITS)
        items = [Item("worked", Rect(PAD, PAD, across, down), Worked(self.answer.columns, DIGITS))]
        left = 2 * PAD + across
        items += _beside(self.answer, Rect(left, PAD, width - PAD - left, 1), look)
        for part in (_split, _wrong):
            y = max(item.rect.bottom for item in items) + 1.5
            items += part(self.answer, Rect(PAD, y, width - 2 * PAD, 1), look)
        return tuple(items)


def answer_figures(answers: Sequence[Answer], across: float, look: Look) -> Iterator[Figure]:
    """Yield one figure for each of ``answers``, two beside each other in ``across`` mm.

    All are as high as the highest, so that they stand in rows.
    """
    width = (across - GAP) / 2
    boxes = [AnswerBox(answer) for answer in answers]
    height = max(i.rect.bottom for box in boxes for i in box.parts(width, look)) + PAD
    for box in boxes:
        yield Figure("answer", width, height, box, GAP)


def _beside(answer: Answer, room: Rect, look: Look) -> list[Item]:
    """The sum, what is left and the exchanges, from the top of ``room`` down."""
    heading = look.type_mm.heading
    items = [_text((str(answer.sum),), heading, room.x, room.y, room.width)]
    for said in answer.lines:
        lines = measure.wrap(said, look.type_mm.adult, room.width)
        y = items[-1].rect.bottom
        items.append(_text(lines, look.type_mm.adult, room.x, y, room.width))
    return items


def _split(answer: Answer, room: Rect, look: Look) -> list[Item]:
    """Both parts as small pieces, one below the other, each beside its number."""
    sum_, size = answer.sum, look.type_mm.adult
    high = PICTURE if sum_.places < 4 else 2 * PICTURE
    label = measure.width("0" * sum_.places, size) + 2
    tops = [room.y + i * (high + 1.2) for i in range(2)]
    areas = [Rect(room.x + label, y, room.width - label, high) for y in tops]
    drawn = pictures((Pieces.of(sum_.part), Pieces.of(sum_.rest)), areas, most=0.8, least=0.3)
    if drawn is None:
        raise ValueError(f"no room for pictures of {sum_} in {room}")
    above = measure.digit_height(size)
    names = [
        Item("line", Rect(room.x, y, label - 2, above), Line(str(number), size))
        for number, y in zip((sum_.part, sum_.rest), tops, strict=True)
    ]
    return [*names, *drawn]


def _wrong(answer: Answer, room: Rect, look: Look) -> list[Item]:
    """Each foreseen wrong answer, and beside it what to say."""
    size = SMALL * look.type_mm.adult
    longest = max((len(str(wrong.answer)) for wrong in answer.wrong), default=0)
    label = measure.width("0" * max(3, longest), size) + 2.5
    items: list[Item] = []
    y = room.y
    for wrong in answer.wrong:
        lines = measure.wrap(wrong.text, size, room.width - label)
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
    fact = max(measure.width(a.text, size) for a in answers) + 4
    if fact + max(measure.width(a.steps, size) for a in answers) > width:
        width = across
    for a in answers:
        items = (
            _text((a.text,), size, 0, 0, fact),
            _text((a.steps,), size, fact, 0, width - fact),
        )
        yield Figure("fact_answer", width, high, Group(items), GAP / 4)
