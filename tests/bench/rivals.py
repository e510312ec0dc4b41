"""Other ways to pack the same pieces, measured by the same rules."""

import time
from collections.abc import Sequence
from dataclasses import astuple, dataclass
from itertools import pairwise
from statistics import median

import rectpack

from kitbuilder.layout.cutting.pack import pack_pieces
from kitbuilder.layout.packing.grid import KINDS, OUTLINE, Grid, Page
from kitbuilder.layout.packing.guillotine import (
    OFFCUT,
    Axis,
    Part,
    cut_types,
    leaf,
    line_up,
    strokes_needed,
    trimmed,
)
from kitbuilder.number.sums import Pieces

ALGORITHMS = ("GuillotineBssfSas", "GuillotineBafLas", "MaxRectsBssf", "MaxRectsBaf", "SkylineMwf")
ORDERS = ("SORT_AREA", "SORT_LSIDE", "SORT_SSIDE", "SORT_NONE")

Placed = tuple[int, int, int, int]
"""x, y, width, height in units."""


@dataclass(frozen=True, slots=True)
class Figures:
    """What is compared; strokes at one and at five layers. NaN where it cannot be cut."""

    sheets: float
    different: float
    strokes: float
    strokes_of_five: float
    length_mm: float
    seconds: float


def ratios(theirs: Sequence[Figures], ours: Sequence[Figures]) -> list[str]:
    """Return the median of theirs over ours (and the largest) for each figure."""
    columns = []
    for their, our in zip(
        zip(*map(astuple, theirs), strict=True), zip(*map(astuple, ours), strict=True), strict=True
    ):
        found = [a / b for a, b in zip(their, our, strict=True) if a == a]
        columns.append(f"{median(found):.2f} ({max(found):.2f})" if found else "-")
    uncut = sum(one.strokes != one.strokes for one in theirs)
    return [*columns, str(uncut)]


def plain_way(total: tuple[int, int, int], page: Page, unit: float) -> Figures:
    """Return the figures of one kind of piece a sheet, each packed as well as it can be."""
    start = time.process_time()
    one, five = [], []
    for index, count in enumerate(total):
        if count:
            demand = Pieces.by_place((0,) * (2 - index) + (count,))
            one.append(pack_pieces(demand, page, unit))
            five.append(pack_pieces(demand, page, unit, layers=5))
    return Figures(
        sum(plan.sheets for plan in one),
        sum(len(plan.layouts) for plan in five),
        sum(plan.strokes for plan in one),
        sum(plan.strokes for plan in five),
        sum(plan.cut_length_mm for plan in five),
        time.process_time() - start,
    )


def rectpack_best(total: tuple[int, int, int], grid: Grid) -> Figures:
    """Return the figures of rectpack's best: fewest sheets, then fewest strokes of five."""
    start = time.process_time()
    runs = [_packed(total, grid, algo, order) for algo in ALGORITHMS for order in ORDERS]
    seconds = (time.process_time() - start) / len(runs)
    least = min(len(run) for run in runs)
    figures = [_figures(run, grid, seconds) for run in runs if len(run) == least]
    return min(figures, key=lambda one: (one.strokes != one.strokes, one.strokes_of_five))


def _packed(
    total: tuple[int, int, int], grid: Grid, algorithm: str, order: str
) -> list[list[Placed]]:
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.BFF,
        pack_algo=getattr(rectpack, algorithm),
        sort_algo=getattr(rectpack, order),
        rotation=True,
    )
    for kind, count in zip(KINDS, total, strict=True):
        for _ in range(count):
            packer.add_rect(*OUTLINE[kind])
    packer.add_bin(grid.across, grid.down, count=float("inf"))
    packer.pack()
    return [[(r.x, r.y, r.width, r.height) for r in sheet] for sheet in packer]


def _figures(sheets: list[list[Placed]], grid: Grid, seconds: float) -> Figures:
    different: dict[tuple[Placed, ...], int] = {}
    for sheet in sheets:
        key = tuple(sorted(sheet))
        different[key] = different.get(key, 0) + 1
    trees = []
    for key, copies in different.items():
        tree = _cut(list(key), (0, 0, grid.across, grid.down), grid.unit)
        if tree is None:
            nan = float("nan")
            return Figures(len(sheets), len(different), nan, nan, nan, seconds)
        while (halves := tree.halves) and halves[1].what == OFFCUT:
            tree = halves[0]  # the trims take along what falls off at the right or below
        trees.append((copies, trimmed(tree, grid.width, grid.height, grid.x, grid.y)))
    types = cut_types(trees)
    return Figures(
        len(sheets),
        len(different),
        strokes_needed(types, 1),
        strokes_needed(types, 5),
        sum(-(-count // 5) * type_[0] / 100 for type_, count in types.items()),
        seconds,
    )


def _cut(pieces: list[Placed], box: Placed, unit: int) -> Part | None:
    """Return a tree of cuts from edge to edge, or None if there is none."""
    x, y, width, height = box
    if not pieces:
        return leaf(OFFCUT, width * unit, height * unit)
    if pieces == [box]:
        what = next(kind for kind, size in OUTLINE.items() if sorted(size) == sorted(box[2:]))
        return leaf(what, width * unit, height * unit)
    axes: tuple[tuple[Axis, int], ...] = (("x", 0), ("y", 1))
    for axis, i in axes:
        end = box[i] + box[i + 2]
        at = [box[i], *_gaps(sorted((p[i], p[i] + p[i + 2]) for p in pieces), box[i], end), end]
        if len(at) > 2:
            parts = []
            for low, high in pairwise(at):
                inside = [p for p in pieces if low <= p[i] < high]
                small = (low, y, high - low, height) if i == 0 else (x, low, width, high - low)
                part = _cut(inside, small, unit)
                if part is None:
                    return None
                parts.append(part)
            return line_up(axis, parts)
    return None


def _gaps(spans: list[tuple[int, int]], start: int, end: int) -> list[int]:
    """Return the places strictly inside that no span crosses and where one begins or ends."""
    cuts, reach = [], start
    for low, high in spans:
        if low >= reach:
            cuts += [place for place in (reach, low) if start < place < end]
        reach = max(reach, high)
    if reach < end:
        cuts.append(reach)
    return sorted(set(cuts))
