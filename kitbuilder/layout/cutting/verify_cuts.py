"""The checker of a cut plan: replays every cut and every stop, and counts the pieces.

It shares no code with what makes the plan: it reads the printed sheets alone.
"""

import sys
from collections import Counter
from collections.abc import Iterable, Sequence

from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.model import Cut, Item, Rect, Sheet
from kitbuilder.layout.packing.grid import OUTLINE, Kind, hundredths
from kitbuilder.layout.printable import Page

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


def check_sheet(page: Page, sheet: Sheet, unit_mm: float = 0) -> None:
    """Raise CutError unless the cuts of ``sheet`` leave each of its pieces as a part.

    With a unit, each piece must be of its true size and clear of the margins.
    """
    left = set(replay(page, sheet.cuts))
    told = Counter(boxed(item.rect) for item in sheet.items)
    wrong = sorted(box for box, count in told.items() if box not in left or count > 1)
    if wrong:
        raise CutError(f"the cuts do not leave the pieces told: {wrong[0]}")
    if unit_mm:
        for item in sheet.items:
            _check_piece(page, item, hundredths(unit_mm))


def check_stops(page: Page, sheets: Sequence[Sheet], layers: int) -> int:
    """Return the strokes that cut ``sheets`` stop by stop, up to ``layers`` parts at a time.

    Raises CutError where a part is not in hand when its stop comes, or where the parts of a
    stop cannot lie in one stack.
    """
    shapes: dict[int, set[tuple[int, int, int]]] = {}
    parts = Counter[int]()
    for sheet in sheets:
        if list(sheet.stops) != sorted(sheet.stops):
            raise CutError(f"the stops of sheet {sheet.number} are out of order")
        made: dict[Box, int] = {}
        steps = zip(sheet.stops, _parts_before(page, sheet.cuts)[0], strict=True)
        for stop, (box, halves) in steps:
            if layers > 1 and made.get(box) == stop:
                raise CutError(f"stop {stop} cuts a part that it leaves itself: {box}")
            made.update(dict.fromkeys(halves, stop))
            shapes.setdefault(stop, set()).add(_shape(box, halves))
            parts[stop] += sheet.copies
    for stop, alike in shapes.items():
        if layers > 1 and len(alike) > 1:
            raise CutError(f"stop {stop}: its parts are not alike: {sorted(alike)}")
    held = {stop: min(layers, _most(alike)) for stop, alike in shapes.items()}
    return sum(-(-count // held[stop]) for stop, count in parts.items())


def _most(alike: Iterable[tuple[int, int, int]]) -> int:
    """Return how many parts of these shapes are cut at once: two if under 20 mm each side."""
    return 2 if any(span - near < 2000 for _, span, near in alike) else sys.maxsize


def check_plan(plan: CutPlan) -> None:
    """Raise CutError unless all of ``plan`` holds: sheets, stops, pieces and totals.

    Thousands are on none of its sheets.
    """
    made = Counter[str]()
    sheets = plan.printed
    for sheet in sheets:
        check_sheet(plan.page, sheet, plan.unit_mm)
        for item, spare in zip(sheet.items, sheet.spare, strict=True):
            made[item.what] += sheet.copies - spare
    for wanted in plan.bag:
        if wanted.what == "thousands":  # they have sheets of their own
            continue
        if made.pop(wanted.what, 0) != wanted.count * plan.kits:
            raise CutError(f"the {wanted.what} do not fill the bags exactly")
    if made.total():
        raise CutError(f"pieces nobody asked for are not told as spares: {made}")
    strokes = check_stops(plan.page, sheets, plan.layers)
    if strokes != plan.strokes:
        raise CutError(f"{strokes} strokes are needed, {plan.strokes} counted")


def _h(mm: float) -> int:
    return round(mm * 100)


def _parts_before(
    page: Page, cuts: Iterable[Cut]
) -> tuple[list[tuple[Box, tuple[Box, Box]]], dict[Box, None]]:
    """Return the box each cut divides with its halves, and the boxes left in the end."""
    start = (0, 0, hundredths(page.width), hundredths(page.height))
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
    inside = boxed(page.inside)
    if left < inside[0] or top < inside[1] or right > inside[2] or bottom > inside[3]:
        raise CutError(f"{item.what} at {item.rect} lies in the margin")
