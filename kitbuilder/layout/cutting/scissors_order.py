"""Turns sheets and their cuts into panels of a cutting map: one small picture for each part.

A panel is a part in the hand and lines that cut it from edge to edge: trims, after each of which
something falls off, and then lines that all run one way. This module orders and numbers the cuts
for one pair of scissors, ``cutting.stack_order`` for stacks.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.layout.cutting.replay import CutSheet, Node, replayed
from kitbuilder.layout.model import Cut, Rect

_EDGE = 0.005


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
    ``inside`` are the items the part still holds, ``done`` those that come out finished and
    ``falls`` what falls off, from its top left. ``parts`` is how many such parts there are in
    all, and ``sheets`` the names of the sheets they come from; ``whole`` is the title of whole
    sheets, else None.
    """

    width: float
    height: float
    lines: tuple[Line, ...]
    inside: tuple[Rect, ...]
    done: tuple[Rect, ...]
    falls: tuple[Rect, ...]
    parts: int
    sheets: tuple[str, ...]
    whole: str | None


@dataclass(frozen=True, slots=True)
class Stop:
    """Parts that are cut along the same lines, stacked or one by one.

    ``panels`` are how they look before; each line takes ``strokes``, of all parts together.
    """

    panels: tuple[Panel, ...]
    strokes: int

    @property
    def parts(self) -> int:
        """How many parts are cut."""
        return sum(panel.parts for panel in self.panels)

    @property
    def numbers(self) -> tuple[int, ...]:
        """The numbers of the lines, in order."""
        return tuple(sorted({line.number for panel in self.panels for line in panel.lines}))


def hand_stops(sheets: Sequence[CutSheet]) -> tuple[Stop, ...]:
    """Return the stops of ``sheets`` cut one by one, in the order of their numbers.

    Parts that look alike share one. Raises ``ValueError`` for a cut that does not run from edge
    to edge of one part.
    """
    parts: dict[Panel, int] = {}
    names: dict[Panel, dict[str, None]] = {}
    for sheet in sheets:
        for stage in _stages(replayed(sheet)):
            panel = _panel(stage, sheet)
            parts[panel] = parts.get(panel, 0) + sheet.copies
            names.setdefault(panel, {})[sheet.name] = None
    found = [replace(panel, parts=parts[panel], sheets=tuple(names[panel])) for panel in parts]
    found.sort(key=lambda p: min(line.number for line in p.lines))
    return tuple(Stop((panel,), panel.parts) for panel in found)


def in_hand_order(sheets: Sequence[CutSheet]) -> tuple[CutSheet, ...]:
    """Return ``sheets`` with their cuts in the order and numbers that suit one pair of scissors.

    Large parts come before small ones; the lines of a part are numbered from one end to the
    other; parts that look alike have the same numbers.
    """
    stages = [
        (stage, index) for index, sheet in enumerate(sheets) for stage in _stages(replayed(sheet))
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
    left: list[Node]
    whole: bool


def _stages(root: Node) -> Iterator[_Stage]:
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


def _gather(node: Node, down: bool | None, stage: _Stage, parallel: list[tuple[Cut, int]]) -> None:
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
    lines = tuple(line_of(cut, number, stage.rect) for cut, number in stage.cuts)
    return panel_of(stage.rect, lines, stage.left, sheet, stage.whole)


def panel_of(
    here: Rect, lines: tuple[Line, ...], left: Sequence[Node], sheet: CutSheet, whole: bool
) -> Panel:
    """Return the panel of one part ``here`` of ``sheet`` whose ``lines`` leave the nodes given."""
    return Panel(
        width=here.width,
        height=here.height,
        lines=lines,
        inside=_relative((item for item in sheet.items if here.holds(item, _EDGE)), here),
        done=_relative((node.rect for node in left if node.item and not node.halves), here),
        falls=_relative((node.rect for node in left if node.falls), here),
        parts=1,
        sheets=(),
        whole=sheet.kind if whole else None,
    )


def line_of(cut: Cut, number: int, here: Rect) -> Line:
    """Return ``cut`` as a line of the part ``here``."""
    across = sorted(round(x - here.x, 3) for x in (cut.x1, cut.x2))
    down = sorted(round(y - here.y, 3) for y in (cut.y1, cut.y2))
    if cut.x1 == cut.x2:
        return Line(across[0], True, number, down[0], down[1])
    return Line(down[0], False, number, across[0], across[1])


def _relative(rects: Iterable[Rect], whole: Rect) -> tuple[Rect, ...]:
    return tuple(
        Rect(round(r.x - whole.x, 3), round(r.y - whole.y, 3), r.width, r.height) for r in rects
    )
