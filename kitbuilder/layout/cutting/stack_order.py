"""The order of a guillotine's stops: what to stack and where to cut, one after the other.

Parts whose cuts are of one kind (``cut_tree.CutKind``) share a number and lie in one stack,
turned where need be, never flipped. A number comes when every part it needs is at hand; of
those, first the parts that the last stroke left, so that a stack stays in the hand.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from kitbuilder.frozen import frozen
from kitbuilder.layout.cutting.cut_tree import CutKind, CutNode, CutSheet
from kitbuilder.layout.model import Cut, Rect, SheetKind
from kitbuilder.layout.packing.narrow_strips import CLAMP, in_a_stack

_EDGE = 0.005

_HAIR = 0.02
"""What differs by less, in mm, is the same."""


_SEEN = 0.3
# The least part of a picture's width or height that what is cut in it takes.

_STRIP = 0.05
# The least part of it that a strip takes: numbers beside narrower ones stand far from their lines.

_LINES = 8
# The most lines in one picture: beside more, numbers stand far from their lines.


@frozen
class Line:
    """One line of a panel, running down or across: ``at`` mm from the part's left or top.

    It runs from ``start`` to ``end`` mm, counted along it from the part's top or left. When it
    is cut, ``kept`` mm of what is in hand lie under the clamp: those at its left or above it,
    or, where a clamp cannot hold so little, the ``far`` ones at its right or below it.
    """

    at: float
    down: bool
    number: int
    start: float
    end: float
    kept: float = 0.0
    far: bool = False

    @property
    def corner(self) -> float:
        """Where what lies under the clamp ends, counted as ``at``: it is knocked square there."""
        return round(self.at + self.kept if self.far else self.at - self.kept, 3)

    @property
    def stop(self) -> float:
        """What the stop is set to, in mm."""
        return round(self.kept, 1)

    @property
    def by_hand(self) -> bool:
        """Whether it is cut without a machine: no clamp holds what lies at either side of it."""
        return self.kept < CLAMP


@frozen
class Panel:
    """A part ``width`` by ``height`` mm with the lines to cut, in the order they are cut.

    First come trims, after each of which waste falls off; all other lines run one way, and so
    none runs through what an earlier one parted and is kept.
    ``inside`` are the items the part still holds, ``done`` those that come out finished and
    ``falls`` what falls off, from its top left; ``kept`` are cards on what falls off, which is
    then no part of ``falls``. ``parts`` is how many such parts there are in all, and ``sheets``
    the names of the sheets they come from; ``whole`` is the title of whole sheets, else None.
    ``turned`` of the parts have to be turned to lie so: they came otherwise from the last stop.
    """

    width: float
    height: float
    lines: tuple[Line, ...]
    inside: tuple[Rect, ...]
    done: tuple[Rect, ...]
    falls: tuple[Rect, ...]
    kept: tuple[Rect, ...]
    parts: int
    sheets: tuple[str, ...]
    whole: SheetKind | None
    turned: int = 0

    def each(self, change: Callable[[tuple[Rect, ...]], tuple[Rect, ...]]) -> "Panel":
        """Return it with what it holds and what comes of it changed."""
        inside, done = change(self.inside), change(self.done)
        falls, kept = change(self.falls), change(self.kept)
        return replace(self, inside=inside, done=done, falls=falls, kept=kept)


@frozen
class Stop:
    """Parts that are cut along the same lines, up to ``layers`` of them at a time.

    ``panels`` are how they look before.
    """

    panels: tuple[Panel, ...]
    layers: int

    @property
    def strokes(self) -> int:
        """How many strokes each line takes, of all parts together."""
        return -(-self.parts // self.layers)

    @property
    def parts(self) -> int:
        """How many parts are cut."""
        return sum(panel.parts for panel in self.panels)

    @property
    def numbers(self) -> tuple[int, ...]:
        """The numbers of the lines, in order."""
        return tuple(sorted({line.number for panel in self.panels for line in panel.lines}))


def number_stops(roots: Sequence[CutNode], used: int = 0) -> int:
    """Number the cuts of the trees ``roots`` as stops after ``used``; return the last number."""
    kinds: dict[CutKind, list[CutNode]] = {}
    for root in roots:
        for node in root.divided():
            node.number = 0
            kinds.setdefault(node.kind, []).append(node)
    for number in range(used + 1, used + len(kinds) + 1):
        ready = [kind for kind, found in kinds.items() if all(map(_at_hand, found))]
        best = min(ready, key=lambda kind: _urgency(kind, kinds[kind]))
        for node in kinds.pop(best):
            node.number = number
        used = number
    return used


def _at_hand(node: CutNode) -> bool:
    return node.parent is None or node.parent.number > 0


def _urgency(kind: CutKind, nodes: Sequence[CutNode]) -> tuple[float, ...]:
    """Rank what the last stroke left first, then large parts, then long cuts."""
    last = max(node.parent.number if node.parent else 0 for node in nodes)
    return -last, -kind[0] * kind[1], -kind[0], kind[2]


def stack_stops(sheets: Sequence[CutSheet], layers: int) -> tuple[Stop, ...]:
    """Return the stops of ``sheets``, whose cuts are numbered, up to ``layers`` in a stack.

    Lines that follow each other through the very same parts share a stop.
    """
    numbered: dict[int, list[_Held]] = {}
    for sheet in sheets:
        for node in sheet.root.divided():
            whole = node is sheet.root
            numbered.setdefault(node.number, []).append(_Held(node, sheet, whole))
    runs: list[_Run] = []
    for number in sorted(numbered):
        nodes = [held.node for held in numbered[number]]
        if not (runs and runs[-1].goes_on(nodes, layers)):
            runs.append(_Run(numbered[number]))
        runs[-1].add(nodes)
    lying = {id(n): one.turns for run in runs for one in run.held for n in one.left()}
    return tuple(run.stop(layers, lying) for run in runs)


@dataclass(slots=True)
class _Held:
    """A part of ``sheet`` in the hand, turned by ``turns`` quarters, and the cuts made in it."""

    node: CutNode
    sheet: CutSheet
    whole: bool
    turns: int = 0
    cuts: list[CutNode] = field(default_factory=list)

    def left(self) -> list[CutNode]:
        """Return what the cuts leave."""
        halves = [half for node in self.cuts for half in node.halves]
        return [half for half in halves if all(half is not node for node in self.cuts)]

    def trims(self, node: CutNode) -> bool:
        """Say whether waste falls off, which bears nothing to be kept."""
        kept = [item.rect for item in self.sheet.kept]
        falls = [half.rect for half in node.halves if half.falls]
        return any(not any(map(rect.holds, kept)) for rect in falls)

    def line(self, node: CutNode, turns: int) -> Line:
        """Return the cut of ``node`` in this part, turned."""
        here = self.node.rect
        assert node.cut is not None
        line = _turned(line_of(node.cut, node.number, here), here.width, here.height, turns)
        box: tuple[Rect, ...] = (node.rect.moved(-here.x, -here.y),)
        high = here.height
        for turn in range(turns):
            box = _quarter(box, high)
            high = here.width if turn % 2 == 0 else here.height
        (rect,) = box
        start, end = (rect.x, rect.right) if line.down else (rect.y, rect.bottom)
        near, beyond = round(line.at - start, 3), round(end - line.at, 3)
        far = near < CLAMP <= beyond
        return replace(line, kept=beyond if far else near, far=far)

    def panel(self) -> Panel:
        """Return its picture before it is cut."""
        lines = tuple(self.line(node, self.turns) for node in self.cuts)
        panel = panel_of(self.node.rect, lines, self.left(), self.sheet, self.whole)
        for _ in range(self.turns):
            turned = panel.each(partial(_quarter, height=panel.height))
            panel = replace(turned, width=panel.height, height=panel.width)
        return panel.each(lambda rects: tuple(sorted(rects, key=lambda r: (r.y, r.x))))


class _Run:
    """Parts that go through the same numbers together."""

    def __init__(self, held: Sequence[_Held]) -> None:
        self.held = held
        first = held[0].line(held[0].node, 0)
        for one in held:
            fit = (turns for turns in range(4) if _alike(one.line(one.node, turns), first))
            one.turns = next(fit)

    def goes_on(self, nodes: Sequence[CutNode], layers: int) -> bool:
        """Say whether ``nodes`` are one cut in each part, at the same place and readily drawn.

        As many parts lie in a stack as before.
        """
        if in_a_stack(nodes[0].kind, layers) != in_a_stack(self.held[0].node.kind, layers):
            return False
        if len(nodes) != len(self.held) or len(self.held[0].cuts) >= _LINES:
            return False
        found = [[node for node in nodes if _within(node, one.node)] for one in self.held]
        if any(len(inner) != 1 for inner in found):
            return False
        if any(_small(n, one.node) for one, (n,) in zip(self.held, found, strict=True)):
            return False
        lines = [one.line(n, one.turns) for one, (n,) in zip(self.held, found, strict=True)]
        return all(_alike(line, lines[0]) for line in lines) and all(
            one.line(cut, one.turns).down == lines[0].down or one.trims(cut)
            for one in self.held
            for cut in one.cuts
        )

    def add(self, nodes: Sequence[CutNode]) -> None:
        """Take the cuts of ``nodes``."""
        for one in self.held:
            one.cuts += [node for node in nodes if _within(node, one.node)]

    def stop(self, layers: int, lying: Mapping[int, int]) -> Stop:
        """Return the stop; parts that look alike share a picture.

        ``lying`` are the quarters by which each part is turned in the picture that it comes from.
        """
        panels: dict[Panel, list[_Held]] = {}
        for one in self.held:
            panels.setdefault(one.panel(), []).append(one)
        shown = []
        for panel, same in panels.items():
            parts = sum(one.sheet.sheet.copies for one in same)
            names = tuple(dict.fromkeys(one.sheet.name for one in same))
            turned = sum(
                one.sheet.sheet.copies
                for one in same
                if panel != replace(one, turns=lying.get(id(one.node), 0)).panel()
            )
            shown.append(replace(panel, parts=parts, sheets=names, turned=turned))
        return Stop(tuple(shown), in_a_stack(self.held[0].node.kind, layers))


def _within(node: CutNode, part: CutNode) -> bool:
    at: CutNode | None = node
    while at is not None:
        if at is part:
            return True
        at = at.parent
    return False


def _small(node: CutNode, part: CutNode) -> bool:
    """Say whether ``node`` or what its cut parts off is too little to be seen in its ``part``."""

    def size(rect: Rect) -> float:
        return rect.width if node.down else rect.height

    strip = 0.0 if node.trims else min(size(half.rect) for half in node.halves)
    whole = size(part.rect)
    return size(node.rect) < _SEEN * whole or 0 < strip < _STRIP * whole


def _turned(line: Line, width: float, height: float, turns: int) -> Line:
    """Return ``line`` of a part when the part is turned to the right by so many quarters."""
    for _ in range(turns):
        if line.down:
            ends = (round(height - line.end, 3), round(height - line.start, 3))
            line = Line(line.at, False, line.number, *ends)
        else:
            at = round(height - line.at, 3)
            line = Line(at, True, line.number, line.start, line.end)
        width, height = height, width
    return line


def _alike(a: Line, b: Line) -> bool:
    """Say whether two lines are at the same place, to a hair."""
    gaps = (a.at - b.at, a.start - b.start, a.end - b.end)
    return a.down == b.down and max(map(abs, gaps)) < _HAIR


def _quarter(rects: Sequence[Rect], height: float) -> tuple[Rect, ...]:
    return tuple(Rect(round(height - r.bottom, 3), r.x, r.height, r.width) for r in rects)


def panel_of(
    here: Rect, lines: tuple[Line, ...], left: Sequence[CutNode], sheet: CutSheet, whole: bool
) -> Panel:
    """Return the panel of one part ``here`` of ``sheet`` whose ``lines`` leave the nodes given."""
    kept = [item.rect for item in sheet.kept if here.holds(item.rect)]
    falls = (node.rect for node in left if node.falls)
    return Panel(
        width=here.width,
        height=here.height,
        lines=lines,
        inside=_relative((i.rect for i in sheet.sheet.items if here.holds(i.rect, _EDGE)), here),
        done=_relative((node.rect for node in left if node.what), here),
        falls=_relative((f for f in falls if not any(map(f.holds, kept))), here),
        kept=_relative(kept, here),
        parts=1,
        sheets=(),
        whole=sheet.sheet.kind if whole else None,
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
