"""Turns the moves of a hand into sheets: trees of parts, what holds no piece falling off."""

from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.grid import KINDS, PIECES, Counts, Grid
from kitbuilder.layout.packing.guillotine import OFFCUT, Axis, Part, join, merged
from kitbuilder.layout.packing.hands import Followed, Move, Outline
from kitbuilder.layout.packing.panels import panelled

Sheets = list[tuple[int, Part]]


@dataclass(slots=True, eq=False)
class _Part:
    """A part in hand of so many units, and its halves once it is cut along ``axis``."""

    across: int
    down: int
    axis: Axis = "x"
    halves: "tuple[_Part, _Part] | None" = None
    kept: str = ""

    @property
    def outline(self) -> Outline:
        return min(self.across, self.down), max(self.across, self.down)

    def cut(self, side: int, at: int) -> "tuple[_Part, _Part]":
        """Cut ``side`` at ``at``."""
        if self.across == side:
            self.halves = _Part(at, self.down), _Part(side - at, self.down)
        else:
            self.axis = "y"
            self.halves = _Part(self.across, at), _Part(self.across, side - at)
        return self.halves


def hand_sheets(way: Followed, demand: Counts, grid: Grid, sheets: int, builder: Builder) -> Sheets:
    """Return the trees of ``way``; none at all if a sheet would hold no piece."""
    roots = [_Part(way.across, way.down) for _ in range(sheets * way.division.panels)]
    hand = _replayed(roots, way.moves)
    for outline, k in PIECES.items():
        for part in hand.get(outline, [])[: demand[k]]:
            part.kept = KINDS[k]
    panels = [_built(root, builder) for root in roots]
    cells = way.division.panels
    dealt = [panels[i * cells : (i + 1) * cells] for i in range(sheets)]
    if not all(map(any, dealt)):
        return []
    size = way.across, way.down
    return merged([(1, panelled(grid, way.division, *size, mine)) for mine in dealt])


def _replayed(roots: Sequence[_Part], moves: Sequence[Move]) -> dict[Outline, list[_Part]]:
    """Return the parts in hand, by outline, once ``roots`` are cut."""
    hand: dict[Outline, list[_Part]] = {}
    for root in roots:
        hand.setdefault(root.outline, []).append(root)
    for cut, count in moves:
        have = hand[cut.outline]
        hand[cut.outline] = have[count:]
        for part in have[:count]:
            for half in part.cut(cut.side, cut.at):
                hand.setdefault(half.outline, []).append(half)
    return hand


def _built(part: _Part, builder: Builder) -> Part | None:
    """Return the tree of a part, or None if nothing of it is kept."""
    if not part.halves:
        return builder.leaf(part.kept, part.across, part.down) if part.kept else None
    built = [_built(half, builder) for half in part.halves]
    if not any(built):
        return None
    first, second = (
        tree or builder.leaf(OFFCUT, half.across, half.down)
        for tree, half in zip(built, part.halves, strict=True)
    )
    return join(part.axis, first, second)
