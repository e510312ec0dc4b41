"""Turns blocks and a tiling into a frame: where every zone, heading, label line and join lies."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from kitbuilder.design.load import Paper
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.mat.blocks import Block
from kitbuilder.layout.mat.tiling import Division, Segment, Tiling, cover, divide, printable
from kitbuilder.layout.model import Rect


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle of the mat for one role, and one place where ``place`` is not None."""

    role: Role
    place: int | None
    rect: Rect


@dataclass(frozen=True, slots=True)
class Frame:
    """A mat without its pieces: ``strips`` hold each role's label and number.

    ``cost`` is what its joins cost; ``turned`` follows ``tiles``.
    """

    blocks: tuple[Block, ...]
    cells: tuple[Box, ...]
    heads: tuple[Box, ...]
    strips: tuple[Box, ...]
    tiles: tuple[Rect, ...]
    turned: tuple[bool, ...]
    cost: int

    @property
    def width(self) -> float:
        """Width of the mat, mm."""
        return max(t.right for t in self.tiles)

    @property
    def height(self) -> float:
        """Height of the mat, mm."""
        return max(t.bottom for t in self.tiles)


@lru_cache(maxsize=256)
def frame(block: Block, tiling: Tiling, paper: Paper) -> Frame | None:
    """Return ``block`` grown to fill the sheets of ``tiling``, or None if it does not fit."""
    band = _bands(tiling, paper)
    main = divide(block.down if tiling.rows else block.across, band, grow=True)
    if main is None:
        return None
    cross = _crosswise(block.across if tiling.rows else block.down, tiling, paper)
    if cross is None:
        return None
    tiles: list[Rect] = []
    turned: list[bool] = []
    stops = (0.0, *main.joins, main.length)
    for (low, high), (side, count) in zip(pairwise(stops), tiling.bands, strict=True):
        other = cross[side]
        edges = (0.0, *other.joins, other.length)
        tiles += cover(edges, (low, high)) if tiling.rows else cover((low, high), edges)
        turned += [side] * count
    lengthwise = cross[tiling.bands[0][0]]
    x, y = (lengthwise, main) if tiling.rows else (main, lengthwise)
    cost = main.cost + sum(cross[side].cost for side, _ in tiling.bands)
    return _placed(block, x.edges, y.edges, tuple(tiles), tuple(turned), cost)


def frame_pair(upper: Block, lower: Block, tiling: Tiling, paper: Paper) -> Frame | None:
    """Return the two blocks of ``beside`` on one grid of sheets, or None if they do not fit."""
    if tiling.mixed:
        return None
    turned, across = tiling.bands[0]
    area = printable(paper, turned)
    bands = len(tiling.bands)
    down = divide(upper.down + lower.down, (area.height,) * bands, grow=True)
    above = divide(upper.across, (area.width,) * across, grow=True)
    below = divide(lower.across, (area.width,) * across, grow=True)
    if down is None or above is None or below is None:
        return None
    tiles = cover((0.0, *below.joins, below.length), (0.0, *down.joins, down.length))
    split = len(upper.down)
    sides = (turned,) * len(tiles)
    cost = down.cost + above.cost + below.cost
    top = _placed(upper, above.edges, down.edges[: split + 1], tiles, sides, cost)
    bottom = _placed(lower, below.edges, down.edges[split:], tiles, sides, cost)
    return Frame(
        (upper, lower),
        top.cells + bottom.cells,
        top.heads + bottom.heads,
        top.strips + bottom.strips,
        tiles,
        sides,
        cost,
    )


def stacked(upper: Frame | None, lower: Frame | None) -> Frame | None:
    """Return two frames of sheets of their own, the narrower one centred, or None."""
    if upper is None or lower is None:
        return None
    width = max(upper.width, lower.width)
    top = _moved(upper, (width - upper.width) / 2, 0)
    bottom = _moved(lower, (width - lower.width) / 2, upper.height)
    return Frame(
        upper.blocks + lower.blocks,
        top.cells + bottom.cells,
        top.heads + bottom.heads,
        top.strips + bottom.strips,
        top.tiles + bottom.tiles,
        top.turned + bottom.turned,
        top.cost + bottom.cost,
    )


def _bands(tiling: Tiling, paper: Paper) -> tuple[float, ...]:
    areas = [printable(paper, turned) for turned, _ in tiling.bands]
    return tuple(area.height if tiling.rows else area.width for area in areas)


def _crosswise(
    segments: tuple[Segment, ...], tiling: Tiling, paper: Paper
) -> dict[bool, Division] | None:
    """Return how each kind of band is divided the other way: alike in size, not in joins."""
    caps = {}
    for turned, count in tiling.bands:
        area = printable(paper, turned)
        caps[turned] = (area.width if tiling.rows else area.height,) * count
    tight = min(caps, key=lambda turned: sum(caps[turned]))
    first = divide(segments, caps[tight], grow=True)
    if first is None:
        return None
    found = {tight: first}
    fixed = tuple(
        Segment(size, s.splits, False, s.before)
        for size, s in zip(first.sizes, segments, strict=True)
    )
    for turned in caps.keys() - {tight}:
        other = divide(fixed, caps[turned], grow=False)
        if other is None:
            return None
        found[turned] = other
    return found


def _placed(
    block: Block,
    xs: tuple[float, ...],
    ys: tuple[float, ...],
    tiles: tuple[Rect, ...],
    turned: tuple[bool, ...],
    cost: int,
) -> Frame:
    n = block.places
    cells, heads, strips = [], [], []
    lines = iter(pairwise(ys))
    for every, headed in zip(block.rows, block.heads, strict=True):
        head = next(lines) if headed else None
        strip, cell = next(lines), next(lines)
        for group, role in enumerate(every):
            edges = xs[group * n : group * n + n + 1]
            strips.append(Box(role, None, _rect(edges[0], edges[-1], strip)))
            for place, (left, right) in zip(range(n - 1, -1, -1), pairwise(edges), strict=True):
                cells.append(Box(role, place, _rect(left, right, cell)))
                if head:
                    heads.append(Box(role, place, _rect(left, right, head)))
    return Frame((block,), tuple(cells), tuple(heads), tuple(strips), tiles, turned, cost)


def _rect(left: float, right: float, line: tuple[float, float]) -> Rect:
    return Rect(left, line[0], right - left, line[1] - line[0])


def _moved(found: Frame, dx: float, dy: float) -> Frame:
    def boxes(every: tuple[Box, ...]) -> tuple[Box, ...]:
        return tuple(Box(b.role, b.place, b.rect.moved(dx, dy)) for b in every)

    return Frame(
        found.blocks,
        boxes(found.cells),
        boxes(found.heads),
        boxes(found.strips),
        tuple(t.moved(dx, dy) for t in found.tiles),
        found.turned,
        found.cost,
    )
