"""Guillotine trees on a sheet: each part in the hand, and the cut that halves it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Cut, Item, Rect, Sheet
from kitbuilder.layout.packing.guillotine import OFFCUT, Part
from kitbuilder.layout.packing.narrow_strips import HAND, in_a_stack

_EDGE = 0.005

CutKind = tuple[int, int, int]
"""Length of a cut, size across it, distance to the nearer edge; hundredths of a mm.

Parts can lie in one stack exactly when the kinds of their cuts are equal.
"""


@dataclass(slots=True, eq=False)
class CutNode:
    """A part of a sheet, and the cut that halves it, if any.

    ``what`` names a finished thing. ``number`` is the cut's stop on the cutting map, or the step
    in which scissors make it; many cuts may share it.
    """

    rect: Rect
    what: str = ""
    parent: "CutNode | None" = None
    cut: Cut | None = None
    number: int = 0
    halves: tuple["CutNode", ...] = ()

    @property
    def down(self) -> bool:
        """Whether its cut runs down."""
        return self.cut is not None and self.cut.x1 == self.cut.x2

    @property
    def falls(self) -> bool:
        """Whether it falls off: no finished thing, and cut no further."""
        return not self.halves and not self.what

    @property
    def trims(self) -> bool:
        """Whether one half falls off."""
        return any(half.falls for half in self.halves)

    @property
    def kind(self) -> CutKind:
        """What must be equal for its cut to share a stroke with another."""
        width, height = _whole(self.rect.width), _whole(self.rect.height)
        first = self.halves[0].rect
        if self.down:
            at = _whole(first.width)
            return height, width, min(at, width - at)
        at = _whole(first.height)
        return width, height, min(at, height - at)

    def all(self) -> Iterator["CutNode"]:
        """Yield this part and everything cut from it, each part before its halves."""
        waiting = [self]
        while waiting:
            node = waiting.pop()
            yield node
            waiting.extend(reversed(node.halves))

    def divided(self) -> Iterator["CutNode"]:
        """Yield this part and those cut from it that are cut, each before its halves."""
        return (node for node in self.all() if node.cut is not None)

    def ends(self) -> Iterator["CutNode"]:
        """Yield what is left in the end: finished things, and what falls off."""
        return (node for node in self.all() if node.cut is None)

    def after(self, step: int) -> Iterator["CutNode"]:
        """Yield the parts left once every cut numbered up to ``step`` is made."""
        if self.cut is None or self.number > step:
            yield self
        else:
            for half in self.halves:
                yield from half.after(step)


@frozen
class CutSheet:
    """A sheet to cut and its tree; ``name`` is the letter the sheet is called by, if any.

    ``kept`` is what stands on that which falls off and is of use: labels, and cards.
    """

    sheet: Sheet
    root: CutNode
    name: str = ""
    kept: tuple[Item, ...] = ()

    @property
    def printed(self) -> Sheet:
        """The sheet with its name and its cuts in the order of their numbers, and those numbers."""
        nodes = sorted(self.root.divided(), key=lambda node: node.number)
        cuts = tuple(node.cut for node in nodes if node.cut)
        stops = tuple(node.number for node in nodes)
        return replace(self.sheet, cuts=cuts, stops=stops, name=self.name)


def placed(part: Part) -> CutNode:
    """Return the tree of ``part``, a whole sheet, with every part where it lies."""
    root = CutNode(Rect(0, 0, part.width / 100, part.height / 100))
    waiting = [(root, part, 0, 0)]
    while waiting:
        node, part, x, y = waiting.pop()
        node.what = "" if part.what == OFFCUT else part.what
        if part.halves is None:
            continue
        spots = (x, y), ((x + part.at, y) if part.axis == "x" else (x, y + part.at))
        node.number = part.step
        for half, (left, top) in zip(part.halves, spots, strict=True):
            rect = Rect(left / 100, top / 100, half.width / 100, half.height / 100)
            node.halves += (CutNode(rect, parent=node),)
            waiting.append((node.halves[-1], half, left, top))
        node.cut = _between(*node.halves)
    return root


def _between(first: CutNode, second: CutNode) -> Cut:
    a, b = first.rect, second.rect
    if a.y == b.y:
        return Cut(b.x, b.y, b.x, b.bottom)
    return Cut(b.x, b.y, b.right, b.y)


def cut_sheet(sheet: Sheet) -> CutSheet:
    """Return ``sheet`` with the tree that its cuts make, one after the other.

    Raises ``ValueError`` for a cut that does not run from edge to edge of one part.
    """
    names = {_key(item.rect): item.what for item in sheet.items}
    root = CutNode(Rect(0, 0, sheet.width, sheet.height))
    for cut in sheet.cuts:
        leaf = _at(root, (cut.x1 + cut.x2) / 2, (cut.y1 + cut.y2) / 2)
        if not _divides(cut, leaf.rect):
            raise ValueError(f"{cut} does not run from edge to edge of a part of {sheet.kind}")
        leaf.cut, leaf.what = cut, ""
        leaf.halves = tuple(
            CutNode(rect, names.get(_key(rect), ""), leaf) for rect in _halves(cut, leaf.rect)
        )
    return CutSheet(sheet, root)


def useful(items: Iterable[Item]) -> tuple[Item, ...]:
    """Return what of ``items`` on that which falls off is of use: labels, and cards."""
    return tuple(item for item in items if item.what in ("label", "card_frame"))


def items_of(root: CutNode) -> tuple[Item, ...]:
    """Return the finished things of a tree, from its top left."""
    return tuple(Item(node.what, node.rect) for node in root.ends() if node.what)


def _at(node: CutNode, x: float, y: float) -> CutNode:
    """Return the part of ``node`` not yet cut that holds the point, in mm."""
    while node.halves:
        first, second = node.halves
        node = second if (x > second.rect.x if node.down else y > second.rect.y) else first
    return node


def _key(rect: Rect) -> tuple[int, ...]:
    return tuple(_whole(side) for side in (rect.x, rect.y, rect.right, rect.bottom))


def _divides(cut: Cut, rect: Rect) -> bool:
    if cut.x1 == cut.x2:
        low, high = sorted((cut.y1, cut.y2))
        whole = abs(low - rect.y) < _EDGE and abs(high - rect.bottom) < _EDGE
        return whole and rect.x + _EDGE < cut.x1 < rect.right - _EDGE
    low, high = sorted((cut.x1, cut.x2))
    whole = abs(low - rect.x) < _EDGE and abs(high - rect.right) < _EDGE
    return whole and rect.y + _EDGE < cut.y1 < rect.bottom - _EDGE


def _halves(cut: Cut, rect: Rect) -> tuple[Rect, Rect]:
    if cut.x1 == cut.x2:
        left = round(cut.x1 - rect.x, 3)
        right = Rect(cut.x1, rect.y, round(rect.width - left, 3), rect.height)
        return Rect(rect.x, rect.y, left, rect.height), right
    top = round(cut.y1 - rect.y, 3)
    below = Rect(rect.x, cut.y1, rect.width, round(rect.height - top, 3))
    return Rect(rect.x, rect.y, rect.width, top), below


def _whole(mm: float) -> int:
    """Return hundredths of a mm; halves of a hundredth go up, however ``mm`` was reckoned."""
    return round(100 * mm + 0.01)


def strokes_by_stop(sheets: Iterable[Sheet], layers: int) -> dict[int, tuple[int, int]]:
    """Return for each stop of ``sheets`` the parts cut there, and the strokes that takes."""
    parts: dict[int, int] = {}
    most: dict[int, int] = {}
    for sheet in (sheet for sheet in sheets if sheet.stops):
        for stop in sheet.stops:
            parts[stop] = parts.get(stop, 0) + sheet.copies
        if layers > HAND:
            kinds = {node.cut: node.kind for node in cut_sheet(sheet).root.divided()}
            for stop, cut in zip(sheet.stops, sheet.cuts, strict=True):
                most[stop] = in_a_stack(kinds[cut], layers)
    return {stop: (n, -(-n // most.get(stop, layers))) for stop, n in sorted(parts.items())}


def strokes(sheets: Iterable[Sheet], layers: int) -> int:
    """Return how many strokes cut ``sheets`` by hand, up to ``layers`` parts at a time.

    All parts at one stop may lie in one stack, ``HAND`` of those that no clamp holds; of a
    sheet whose cuts have no stops only the copies do; snips are made one by one. What a
    machine cuts, kerf by kerf, counts nothing.
    """
    by_hand = [sheet for sheet in sheets if sheet.flip is None and not sheet.kerf]
    alone = sum(len(s.cuts) * -(-s.copies // layers) for s in by_hand if not s.stops)
    alone += sum(sheet.snips * sheet.copies for sheet in by_hand)
    return alone + sum(count for _, count in strokes_by_stop(by_hand, layers).values())
