"""What a person has in the end who does only what the pictures of a cutting map show."""

from collections import Counter
from collections.abc import Iterable, Sequence

from kitbuilder.layout.cutting.stack_order import Line, Panel, Stop
from kitbuilder.layout.model import Rect, Sheet

Sides = tuple[float, float, float, float]
"""Left, top, width and height, mm."""

Part = tuple[float, float, tuple[Sides, ...]]
"""Width and height of a part in the hand, and the outlines printed on it, turned in one way."""


class LostError(Exception):
    """The map shows what is not in the hand, or cuts where it cannot be cut."""


def follow(sheets: Sequence[Sheet], stops: Iterable[Stop]) -> tuple[Counter[Sides], int]:
    """Return the finished pieces (0, 0, short side, long side), and how many strokes it took.

    Only the pile of ``sheets`` is known at first. A stop's parts are looked for by outline and
    by what is printed on them, turned at will; its lines are cut in the order of their numbers.
    Raises ``LostError``; nothing but finished pieces may be in the hand in the end.
    """
    hand = Counter[Part]()
    for sheet in sheets:
        hand[_turned(sheet.width, sheet.height, (_sides(item.rect) for item in sheet.items))] += (
            sheet.copies
        )
    done = Counter[Sides]()
    strokes = 0
    last = 0
    for stop in stops:
        if stop.numbers[0] != last + 1 or len(stop.numbers) != stop.numbers[-1] - last:
            raise LostError(f"after {last} come {stop.numbers}")
        last = stop.numbers[-1]
        strokes += stop.strokes * len(stop.numbers)
        for panel in stop.panels:
            part = _turned(panel.width, panel.height, map(_sides, panel.inside))
            if hand[part] < panel.parts:
                raise LostError(f"{stop.numbers}: {panel.parts} parts {part} are shown")
            hand[part] -= panel.parts
            for box, held in _cut(panel):
                if not held:
                    continue
                if held == [box]:
                    done[_outline(box)] += panel.parts
                    continue
                x, y, width, height = box
                inner = ((i[0] - x, i[1] - y, i[2], i[3]) for i in held)
                hand[_turned(width, height, inner)] += panel.parts
    if hand.total():
        raise LostError(f"these are left uncut: {+hand}")
    return done, strokes


def _cut(panel: Panel) -> list[tuple[Sides, list[Sides]]]:
    """Return the parts that the lines leave, each with what is printed on it."""
    boxes: list[Sides] = [(0.0, 0.0, _r(panel.width), _r(panel.height))]
    for line in sorted(panel.lines, key=lambda line: line.number):
        boxes = [half for box in boxes for half in _halved(box, line)]
        if len(boxes) != len(set(boxes)):
            raise LostError("a part is empty")
    if len(boxes) != len(panel.lines) + 1:
        raise LostError(f"a line is not from edge to edge: {panel.lines}")
    items = [_sides(item) for item in panel.inside]
    found = [(box, [item for item in items if _holds(box, item)]) for box in boxes]
    if sum(len(held) for _, held in found) != len(items):
        raise LostError("a line goes through a piece")
    return found


def _halved(box: Sides, line: Line) -> list[Sides]:
    x, y, width, height = box
    ends = (_r(line.start), _r(line.end))
    at = _r(line.at)
    if line.down and ends == (y, _r(y + height)) and x < at < x + width:
        return [(x, y, _r(at - x), height), (at, y, _r(x + width - at), height)]
    if not line.down and ends == (x, _r(x + width)) and y < at < y + height:
        return [(x, y, width, _r(at - y)), (x, at, width, _r(y + height - at))]
    return [box]


def _turned(width: float, height: float, items: Iterable[Sides]) -> Part:
    """Return a part in the one of its four turns that sorts first."""
    turns: list[Part] = []
    held = [(_r(x), _r(y), _r(w), _r(h)) for x, y, w, h in items]
    for _ in range(4):
        turns.append((_r(width), _r(height), tuple(sorted(held))))
        held = [(_r(height - y - h), x, h, w) for x, y, w, h in held]
        width, height = height, width
    return min(turns)


def _holds(box: Sides, item: Sides) -> bool:
    return all(
        box[k] - 0.02 <= item[k] and item[k] + item[k + 2] <= box[k] + box[k + 2] + 0.02
        for k in (0, 1)
    )


def _outline(box: Sides) -> Sides:
    return (0.0, 0.0, min(box[2:]), max(box[2:]))


def _sides(rect: Rect) -> Sides:
    return (_r(rect.x), _r(rect.y), _r(rect.width), _r(rect.height))


def _r(mm: float) -> float:
    return round(mm, 2) + 0.0
