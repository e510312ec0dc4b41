"""Turns a sheet and its cuts, in order, into the tree of parts that the cuts leave in the hand."""

from collections.abc import Iterator
from dataclasses import dataclass

from kitbuilder.layout.model import Cut, Rect, SheetKind

_EDGE = 0.005


@dataclass(frozen=True, slots=True)
class CutSheet:
    """A sheet to cut: its size in mm, its copies, its items, and its cuts with their numbers.

    ``name`` is the letter the sheet is called by, ``kind`` what it is.
    """

    name: str
    kind: SheetKind
    width: float
    height: float
    copies: int
    items: tuple[Rect, ...]
    cuts: tuple[Cut, ...]
    numbers: tuple[int, ...]

    def __post_init__(self) -> None:
        if len(self.cuts) != len(self.numbers):
            raise ValueError(f"CutSheet has {len(self.cuts)} cuts, {len(self.numbers)} numbers")


Kind = tuple[int, int, int]
"""Length of a cut, size across it, distance to the nearer edge; hundredths of a mm.

Parts can lie in one stack exactly when the kinds of their cuts are equal.
"""


@dataclass(slots=True, eq=False)
class Node:
    """A part in the hand, the part it was cut from, and the cut that halves it, if any."""

    rect: Rect
    parent: "Node | None" = None
    item: bool = False
    cut: Cut | None = None
    number: int = 0
    halves: tuple["Node", ...] = ()

    @property
    def down(self) -> bool:
        """Whether its cut runs down."""
        return self.cut is not None and self.cut.x1 == self.cut.x2

    @property
    def falls(self) -> bool:
        """Whether it falls off: no item, and cut no further."""
        return not self.halves and not self.item

    @property
    def trims(self) -> bool:
        """Whether one half falls off."""
        return any(half.falls for half in self.halves)

    @property
    def kind(self) -> Kind:
        """What must be equal for its cut to share a stroke with another."""
        width, height = _whole(self.rect.width), _whole(self.rect.height)
        first = self.halves[0].rect
        if self.down:
            at = _whole(first.width)
            return height, width, min(at, width - at)
        at = _whole(first.height)
        return width, height, min(at, height - at)

    def divided(self) -> Iterator["Node"]:
        """Yield this part and those cut from it that are cut, each before what it leaves."""
        waiting = [self]
        while waiting:
            node = waiting.pop()
            if node.cut is not None:
                yield node
                waiting.extend(reversed(node.halves))


def replayed(sheet: CutSheet) -> Node:
    """Return the whole ``sheet`` with all its cuts made.

    Raises ``ValueError`` for a cut that does not run from edge to edge of one part.
    """
    items = {_key(rect) for rect in sheet.items}
    root = Node(Rect(0, 0, sheet.width, sheet.height))
    for cut, number in zip(sheet.cuts, sheet.numbers, strict=True):
        leaf = _at(root, (cut.x1 + cut.x2) / 2, (cut.y1 + cut.y2) / 2)
        if not _divides(cut, leaf.rect):
            raise ValueError(f"{cut} does not run from edge to edge of a part of {sheet.name}")
        leaf.cut, leaf.number = cut, number
        leaf.halves = tuple(
            Node(rect, leaf, _key(rect) in items) for rect in _halves(cut, leaf.rect)
        )
    return root


def _at(node: Node, x: float, y: float) -> Node:
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
