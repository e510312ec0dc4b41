"""Turns a cut plan into a verdict: replays every cut and every stroke, and counts the pieces."""

from collections import Counter
from collections.abc import Iterable

from kitbuilder.layout.cutting.cut_plan import CutPlan, SheetLayout, Stroke, StrokePart, page_size
from kitbuilder.layout.model import Cut, Item, Rect
from kitbuilder.layout.packing.grid import OUTLINE, Kind, Page, hundredths

Box = tuple[int, int, int, int]
"""Left, top, right, bottom in hundredths of a mm."""


class CutError(ValueError):
    """A plan that cannot be cut, or that does not give what it promises."""


def boxed(rect: Rect) -> Box:
    """Return ``rect`` in whole hundredths of a mm."""
    return (_h(rect.x), _h(rect.y), _h(rect.right), _h(rect.bottom))


def divide(box: Box, cut: Cut) -> tuple[Box, Box] | None:
    """Return the two boxes ``cut`` makes of ``box``, or None if it is not edge to edge in it."""
    left, top, right, bottom = box
    x1, x2 = sorted((_h(cut.x1), _h(cut.x2)))
    y1, y2 = sorted((_h(cut.y1), _h(cut.y2)))
    if x1 == x2 and (y1, y2) == (top, bottom) and left < x1 < right:
        return (left, top, x1, bottom), (x1, top, right, bottom)
    if y1 == y2 and (x1, x2) == (left, right) and top < y1 < bottom:
        return (left, top, right, y1), (left, y1, right, bottom)
    return None


def replay(page: Page, cuts: Iterable[Cut]) -> list[Box]:
    """Return the parts a sheet falls into; raise CutError at a cut not edge to edge of a part."""
    return list(_parts_before(page, cuts)[1])


def check_layout(page: Page, layout: SheetLayout, unit_mm: float = 0) -> None:
    """Raise CutError unless the cuts leave exactly the layout's pieces and offcuts.

    With a unit, each piece must be of its true size and clear of the margins.
    """
    left = Counter(replay(page, layout.cuts))
    told = Counter(boxed(item.rect) for item in layout.items)
    told.update(boxed(rect) for rect in layout.offcuts)
    if left != told:
        wrong = sorted((left - told) + (told - left))[0]
        raise CutError(f"the cuts do not leave the pieces and offcuts told: {wrong}")
    if unit_mm:
        for item in layout.items:
            _check_piece(page, item, hundredths(unit_mm))


def check_strokes(plan: CutPlan, strokes: Iterable[Stroke]) -> None:
    """Raise CutError unless the strokes cut every sheet of ``plan`` wholly, stack by stack."""
    boxes = [_parts_before(plan.page, layout.cuts)[0] for layout in plan.layouts]
    hands = [
        {copy: {(0, 0, *page_size(plan.page))} for copy in range(1, layout.copies + 1)}
        for layout in plan.layouts
    ]
    done = 0
    for stroke in strokes:
        if not 1 <= len(stroke.parts) <= plan.layers:
            raise CutError(f"stroke {stroke.number} goes through {len(stroke.parts)} parts")
        shapes = set()
        for part in stroke.parts:
            box, halves = boxes[part.layout][part.cut]
            hand = hands[part.layout].get(part.copy, set())
            if box not in hand:
                raise CutError(f"stroke {stroke.number}: {part} is not in hand")
            hand.remove(box)
            hand.update(halves)
            shapes.add(_shape(box, halves))
            done += 1
        if len(shapes) > 1:
            raise CutError(f"stroke {stroke.number}: its parts are not alike: {sorted(shapes)}")
    cuts = sum(layout.copies * len(layout.cuts) for layout in plan.layouts)
    if done != cuts:
        raise CutError(f"the strokes make {done} of {cuts} cuts")


def check_plan(plan: CutPlan) -> None:
    """Raise CutError unless all of ``plan`` holds: sheets, strokes, pieces and totals."""
    made = Counter[str]()
    for layout in plan.layouts:
        check_layout(plan.page, layout, plan.unit_mm)
        for item, spare in zip(layout.items, layout.spare, strict=True):
            made[item.what] += layout.copies - spare
    for wanted in plan.bag:
        if made.pop(wanted.what, 0) != wanted.count * plan.kits:
            raise CutError(f"the {wanted.what} do not fill the bags exactly")
    if made.total():
        raise CutError(f"pieces nobody asked for are not told as spares: {made}")
    strokes = plan.stroke_list()
    check_strokes(plan, strokes)
    if len(strokes) != plan.strokes:
        raise CutError(f"{len(strokes)} strokes are listed, {plan.strokes} counted")


def _h(mm: float) -> int:
    return round(mm * 100)


def _parts_before(
    page: Page, cuts: Iterable[Cut]
) -> tuple[list[tuple[Box, tuple[Box, Box]]], dict[Box, None]]:
    """Return the box each cut divides with its halves, and the boxes left in the end."""
    start = (0, 0, *page_size(page))
    boxes = {start: None}
    rows: dict[tuple[str, int, int], list[Box]] = {}
    _file(rows, start)
    steps = []
    for cut in cuts:
        down = cut.x1 == cut.x2
        low, high = sorted((_h(cut.y1), _h(cut.y2)) if down else (_h(cut.x1), _h(cut.x2)))
        for box in rows.get(("down" if down else "across", low, high), []):
            halves = divide(box, cut) if box in boxes else None
            if halves:
                break
        else:
            raise CutError(f"{cut} does not run from edge to edge of a part in hand")
        del boxes[box]
        for half in halves:
            boxes[half] = None
            _file(rows, half)
        steps.append((box, halves))
    return steps, boxes


def _file(rows: dict[tuple[str, int, int], list[Box]], box: Box) -> None:
    left, top, right, bottom = box
    rows.setdefault(("down", top, bottom), []).append(box)
    rows.setdefault(("across", left, right), []).append(box)


def _shape(box: Box, halves: tuple[Box, Box]) -> tuple[int, int, int]:
    """Return what must be equal in a stack: length of the cut, span, nearer distance."""
    across, down = box[2] - box[0], box[3] - box[1]
    first = halves[0]
    if first[3] == box[3]:
        return down, across, min(first[2] - box[0], box[2] - first[2])
    return across, down, min(first[3] - box[1], box[3] - first[3])


def _check_piece(page: Page, item: Item, unit: int) -> None:
    kind: Kind | None = next((kind for kind in OUTLINE if kind == item.what), None)
    if kind is None:
        raise CutError(f"{item.what} is no piece")
    left, top, right, bottom = boxed(item.rect)
    sizes = sorted((right - left, bottom - top), reverse=True)
    if sizes != [side * unit for side in OUTLINE[kind]]:
        raise CutError(f"{item.what} at {item.rect} is not of its true size")
    width, height = page_size(page)
    if (
        left < hundredths(page.left)
        or top < hundredths(page.top)
        or right > width - hundredths(page.right)
        or bottom > height - hundredths(page.bottom)
    ):
        raise CutError(f"{item.what} at {item.rect} lies in the margin")


__all__ = [
    "CutError",
    "StrokePart",
    "boxed",
    "check_layout",
    "check_plan",
    "check_strokes",
    "divide",
    "replay",
]
