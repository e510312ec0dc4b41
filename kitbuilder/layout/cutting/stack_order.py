"""Turns the cuts of stacked sheets into stops: what to stack and where to cut, one after the other.

Parts whose cuts are of one kind (``replay.Kind``) share a number and lie in
one stack, turned where need be, never flipped. A number comes when every part it needs is at hand;
of those, first the parts that the last stroke left, so that a stack stays in the hand.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from kitbuilder.layout.cutting.replay import CutSheet, Kind, Node, replayed
from kitbuilder.layout.cutting.scissors_order import Line, Panel, Stop, line_of, panel_of
from kitbuilder.layout.model import Rect

_HAIR = 0.02
"""What differs by less, in mm, is the same."""


def in_stack_order(sheets: Sequence[CutSheet]) -> tuple[CutSheet, ...]:
    """Return ``sheets`` with their cuts in the order of stops, numbered from 1."""
    roots = [replayed(sheet) for sheet in sheets]
    _number([node for root in roots for node in root.divided()])
    done = []
    for sheet, root in zip(sheets, roots, strict=True):
        nodes = sorted(root.divided(), key=lambda node: (node.number, node.rect.y, node.rect.x))
        cuts = tuple(node.cut for node in nodes if node.cut)
        done.append(replace(sheet, cuts=cuts, numbers=tuple(node.number for node in nodes)))
    return tuple(done)


def _number(nodes: Sequence[Node]) -> None:
    kinds: dict[Kind, list[Node]] = {}
    for node in nodes:
        node.number = 0
        kinds.setdefault(node.kind, []).append(node)
    for number in range(1, len(kinds) + 1):
        ready = [kind for kind, found in kinds.items() if all(map(_at_hand, found))]
        best = min(ready, key=lambda kind: _urgency(kind, kinds[kind]))
        for node in kinds.pop(best):
            node.number = number


def _at_hand(node: Node) -> bool:
    return node.parent is None or node.parent.number > 0


def _urgency(kind: Kind, nodes: Sequence[Node]) -> tuple[float, ...]:
    """Rank what the last stroke left first, then large parts, then long cuts."""
    last = max(node.parent.number if node.parent else 0 for node in nodes)
    return -last, -kind[0] * kind[1], -kind[0], kind[2]


def stack_stops(sheets: Sequence[CutSheet], layers: int) -> tuple[Stop, ...]:
    """Return the stops of ``sheets``, whose cuts are in stack order, up to ``layers`` in a stack.

    Lines that follow each other through the very same parts share a stop.
    """
    numbered: dict[int, list[_Held]] = {}
    for sheet in sheets:
        root = replayed(sheet)
        for node in root.divided():
            numbered.setdefault(node.number, []).append(_Held(node, sheet, node is root))
    runs: list[_Run] = []
    for number in sorted(numbered):
        nodes = [held.node for held in numbered[number]]
        if not (runs and runs[-1].goes_on(nodes)):
            runs.append(_Run(numbered[number]))
        runs[-1].add(nodes)
    return tuple(run.stop(layers) for run in runs)


@dataclass(slots=True)
class _Held:
    """A part of ``sheet`` in the hand, turned by ``turns`` quarters, and the cuts made in it."""

    node: Node
    sheet: CutSheet
    whole: bool
    turns: int = 0
    cuts: list[Node] = field(default_factory=list)

    def left(self) -> list[Node]:
        """Return what the cuts leave."""
        halves = [half for node in self.cuts for half in node.halves]
        return [half for half in halves if all(half is not node for node in self.cuts)]

    def line(self, node: Node, turns: int) -> Line:
        """Return the cut of ``node`` in this part, turned."""
        here = self.node.rect
        assert node.cut is not None
        line = line_of(node.cut, node.number, here)
        return _turned(line, here.width, here.height, turns)

    def panel(self) -> Panel:
        """Return its picture before it is cut."""
        lines = tuple(self.line(node, self.turns) for node in self.cuts)
        panel = panel_of(self.node.rect, lines, self.left(), self.sheet, self.whole)
        for _ in range(self.turns):
            high = panel.height
            panel = replace(
                panel,
                width=high,
                height=panel.width,
                inside=_quarter(panel.inside, high),
                done=_quarter(panel.done, high),
                falls=_quarter(panel.falls, high),
            )
        return replace(
            panel,
            inside=tuple(sorted(panel.inside, key=_place)),
            done=tuple(sorted(panel.done, key=_place)),
            falls=tuple(sorted(panel.falls, key=_place)),
        )


class _Run:
    """Parts that go through the same numbers together."""

    def __init__(self, held: Sequence[_Held]) -> None:
        self.held = held
        first = held[0].line(held[0].node, 0)
        for one in held:
            fit = (turns for turns in range(4) if _alike(one.line(one.node, turns), first))
            one.turns = next(fit)

    def goes_on(self, nodes: Sequence[Node]) -> bool:
        """Say whether ``nodes`` are one cut in each part, at the same place and readily drawn."""
        if len(nodes) != len(self.held):
            return False
        found = [[node for node in nodes if _within(node, one.node)] for one in self.held]
        if any(len(inner) != 1 for inner in found):
            return False
        lines = [one.line(n, one.turns) for one, (n,) in zip(self.held, found, strict=True)]
        return all(_alike(line, lines[0]) for line in lines) and all(
            one.line(cut, one.turns).down == lines[0].down or cut.trims
            for one in self.held
            for cut in one.cuts
        )

    def add(self, nodes: Sequence[Node]) -> None:
        """Take the cuts of ``nodes``."""
        for one in self.held:
            one.cuts += [node for node in nodes if _within(node, one.node)]

    def stop(self, layers: int) -> Stop:
        """Return the stop; parts that look alike share a picture."""
        panels: dict[Panel, list[_Held]] = {}
        for one in self.held:
            panels.setdefault(one.panel(), []).append(one)
        parts = {panel: sum(one.sheet.copies for one in same) for panel, same in panels.items()}
        return Stop(
            tuple(
                replace(
                    panel,
                    parts=parts[panel],
                    sheets=tuple(dict.fromkeys(one.sheet.name for one in same)),
                )
                for panel, same in panels.items()
            ),
            -(-sum(parts.values()) // layers),
        )


def _within(node: Node, part: Node) -> bool:
    at: Node | None = node
    while at is not None:
        if at is part:
            return True
        at = at.parent
    return False


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


def _place(rect: Rect) -> tuple[float, ...]:
    return rect.y, rect.x


def _quarter(rects: Sequence[Rect], height: float) -> tuple[Rect, ...]:
    return tuple(Rect(round(height - r.bottom, 3), r.x, r.height, r.width) for r in rects)
