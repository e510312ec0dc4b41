"""Turns sheets and their cuts into panels of a cutting map: one small picture for each part.

A panel is a part in the hand and all the parallel lines that cut it from edge to edge. Parts
that look alike share a panel.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.sheet.records import Cut, Rect

_EDGE = 0.005


@dataclass(frozen=True, slots=True)
class CutSheet:
    """A sheet to cut: its size in mm, its copies, its items, and its cuts with their numbers.

    ``name`` is the letter the sheet is called by, ``title`` its key in the words file.
    """

    name: str
    title: str
    width: float
    height: float
    copies: int
    items: tuple[Rect, ...]
    cuts: tuple[Cut, ...]
    numbers: tuple[int, ...]

    def __post_init__(self) -> None:
        if len(self.cuts) != len(self.numbers):
            raise ValueError(f"CutSheet has {len(self.cuts)} cuts, {len(self.numbers)} numbers")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a panel, running down or across: ``at`` mm from the part's left or top.

    It runs from ``start`` to ``end`` mm, counted along it from the part's top or left.
    """

    at: float
    down: bool
    number: int
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Panel:
    """A part ``width`` by ``height`` mm with the lines to cut, in the order they are cut.

    First come trims, after each of which something falls off; all other lines run one way.
    ``inside`` are the items the part still holds and ``falls`` what falls off, from its top
    left. ``parts`` is how many such parts there are in all, and ``sheets`` the names of the
    sheets they come from; ``whole`` is the title of whole sheets, else None.
    """

    width: float
    height: float
    lines: tuple[Line, ...]
    inside: tuple[Rect, ...]
    falls: tuple[Rect, ...]
    parts: int
    sheets: tuple[str, ...]
    whole: str | None


@dataclass(slots=True)
class _Node:
    """A part in the hand, and the cut that halves it, if any."""

    rect: Rect
    item: bool = False
    cut: Cut | None = None
    number: int = 0
    halves: tuple["_Node", ...] = ()

    @property
    def down(self) -> bool:
        return self.cut is not None and self.cut.x1 == self.cut.x2

    @property
    def trims(self) -> bool:
        """Whether one half falls off."""
        return any(not half.halves and not half.item for half in self.halves)


def panels(sheets: Sequence[CutSheet]) -> tuple[Panel, ...]:
    """Return the panels of ``sheets``, in the order of their numbers.

    Raises ``ValueError`` for a cut that does not run from edge to edge of one part.
    """
    parts: dict[Panel, int] = {}
    names: dict[Panel, dict[str, None]] = {}
    for sheet in sheets:
        for stage in _stages(_replayed(sheet)):
            panel = _panel(stage, sheet)
            parts[panel] = parts.get(panel, 0) + sheet.copies
            names.setdefault(panel, {})[sheet.name] = None
    found = [replace(panel, parts=parts[panel], sheets=tuple(names[panel])) for panel in parts]
    return tuple(sorted(found, key=lambda p: min(line.number for line in p.lines)))


def in_hand_order(sheets: Sequence[CutSheet]) -> tuple[CutSheet, ...]:
    """Return ``sheets`` with their cuts in the order and numbers that suit one pair of scissors.

    Large parts come before small ones; the lines of a part are numbered from one end to the
    other; parts that look alike have the same numbers.
    """
    stages = [
        (stage, index) for index, sheet in enumerate(sheets) for stage in _stages(_replayed(sheet))
    ]
    stages.sort(key=lambda s: (-s[0].rect.width * s[0].rect.height, s[1]))
    numbers: dict[Panel, int] = {}
    used = 0
    numbered: list[list[tuple[int, Cut]]] = [[] for _ in sheets]
    for stage, index in stages:
        panel = _panel(stage, sheets[index])
        plain = replace(panel, lines=tuple(replace(line, number=0) for line in panel.lines))
        if plain not in numbers:
            numbers[plain] = used
            used += len(panel.lines)
        cuts = (cut for cut, _ in stage.cuts)
        numbered[index] += enumerate(cuts, numbers[plain] + 1)
    return tuple(
        replace(sheet, cuts=tuple(cut for _, cut in found), numbers=tuple(n for n, _ in found))
        for sheet, found in zip(
            sheets, (sorted(f, key=lambda cut: cut[0]) for f in numbered), strict=True
        )
    )


@dataclass(slots=True)
class _Stage:
    """A part, its cuts (with numbers) up to where the direction turns, and what is left."""

    rect: Rect
    cuts: list[tuple[Cut, int]]
    left: list[_Node]
    whole: bool


def _stages(root: _Node) -> Iterator[_Stage]:
    waiting = [root]
    while waiting:
        node = waiting.pop(0)
        if node.cut is None:
            continue
        stage = _Stage(node.rect, [], [], node is root)
        parallel: list[tuple[Cut, int]] = []
        _gather(node, None, stage, parallel)
        if parallel:
            way = parallel[0][0].x1 == parallel[0][0].x2
            while stage.cuts and (stage.cuts[-1][0].x1 == stage.cuts[-1][0].x2) == way:
                parallel.append(stage.cuts.pop())
        stage.cuts += sorted(parallel, key=lambda c: (c[0].x1, c[0].y1))
        waiting.extend(stage.left)
        yield stage


def _gather(node: _Node, down: bool | None, stage: _Stage, parallel: list[tuple[Cut, int]]) -> None:
    """Collect trims into the stage, then the parallel cuts, then what they leave."""
    if node.cut is None or (down is not None and node.down != down):
        stage.left.append(node)
        return
    if down is None and node.trims:
        stage.cuts.append((node.cut, node.number))
    else:
        down = node.down
        parallel.append((node.cut, node.number))
    for half in node.halves:
        _gather(half, down, stage, parallel)


def _panel(stage: _Stage, sheet: CutSheet) -> Panel:
    here = stage.rect
    lines = [_line(cut, number, here) for cut, number in stage.cuts]
    falls = [node.rect for node in stage.left if node.cut is None and not node.item]
    return Panel(
        width=here.width,
        height=here.height,
        lines=tuple(lines),
        inside=_relative((item for item in sheet.items if here.holds(item, _EDGE)), here),
        falls=_relative(falls, here),
        parts=1,
        sheets=(),
        whole=sheet.title if stage.whole else None,
    )


def _line(cut: Cut, number: int, here: Rect) -> Line:
    across = sorted(round(x - here.x, 3) for x in (cut.x1, cut.x2))
    down = sorted(round(y - here.y, 3) for y in (cut.y1, cut.y2))
    if cut.x1 == cut.x2:
        return Line(across[0], True, number, down[0], down[1])
    return Line(down[0], False, number, across[0], across[1])


def _replayed(sheet: CutSheet) -> _Node:
    items = {_key(rect) for rect in sheet.items}
    root = _Node(Rect(0, 0, sheet.width, sheet.height))
    leaves = [root]
    for cut, number in zip(sheet.cuts, sheet.numbers, strict=True):
        leaf = next((node for node in leaves if _divides(cut, node.rect)), None)
        if leaf is None:
            raise ValueError(f"{cut} does not run from edge to edge of a part of {sheet.name}")
        leaf.cut, leaf.number = cut, number
        leaf.halves = tuple(_Node(rect, _key(rect) in items) for rect in _halves(cut, leaf.rect))
        leaves.remove(leaf)
        leaves.extend(leaf.halves)
    return root


def _key(rect: Rect) -> tuple[int, ...]:
    return tuple(round(100 * side) for side in (rect.x, rect.y, rect.right, rect.bottom))


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


def _relative(rects: Iterable[Rect], whole: Rect) -> tuple[Rect, ...]:
    return tuple(
        Rect(round(r.x - whole.x, 3), round(r.y - whole.y, 3), r.width, r.height) for r in rects
    )
