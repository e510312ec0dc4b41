"""Turns what a mat must hold and a page into the mat on the fewest sheets.

The interface:

    needs = kit.mats.mat_needs(sums, "two")            # or mat_needs_within(1000, "two")
    page = MatPage(210, 297, 5, 5, 5, 5, unit=10)      # millimetres, plain
    text = MatText(headings=(21.2, 19.3, 42.6), roles=(106.4, 83.9))
    plan = plan_mat(needs, paper, text)                 # MatPlan(needs, paper, mat, sheets)

``plan.sheets`` are ``sheet.records.Sheet`` with title ``mat`` or ``addition_mat``, on paper,
one item each, its ``content`` a ``MatTile``; the cuts trim the edges that butt against
another sheet.
``sheet.mat_check.check_mat(plan.mat, sums)`` lays the pieces of every step into it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import product

from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import MatNeeds, roles
from kitbuilder.layout.mat.arrangements import Tens
from kitbuilder.layout.mat.blocks import PAD, Block, blocks
from kitbuilder.layout.mat.fill import Filled, fill
from kitbuilder.layout.mat.frames import Frame, frame, frame_pair, stacked
from kitbuilder.layout.mat.joins import joins, sketch
from kitbuilder.layout.mat.mat_records import FINGER, Edge, Label, Mat, MatText, MatTile
from kitbuilder.layout.mat.relabel import named_again
from kitbuilder.layout.mat.tiling import Tiling, printable, tilings
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind

MOST_SHEETS = 24
"""A mat of more sheets than this is refused: no table holds it."""

CARD_HEIGHT = 30.0
"""Height in mm of the clear space for a number where there is room to lay cards."""

_KEPT = 8
"""Frames of each block that are tried with those of the other."""

_CROSSED = 4
"""What a group of pieces lying across a join costs."""

__all__ = ["Mat", "MatPlan", "MatText", "MatTile", "plan_mat", "tile_sheets"]


@dataclass(frozen=True, slots=True)
class MatPlan:
    """What was needed, the paper, the mat that holds it, and the sheets it is printed on."""

    needs: MatNeeds
    paper: Paper
    mat: Mat
    sheets: tuple[Sheet, ...]


def plan_mat(needs: MatNeeds, paper: Paper, text: MatText) -> MatPlan:
    """Return the mat that holds ``needs`` on the fewest sheets of ``paper``.

    Of mats on as few sheets, first the one whose joins run between zones and not under
    pieces, then the one with fewest hundreds covered and rows of tens, then tens upright,
    then no sheet turned against the others. No label lies across a join. The mat fills its
    sheets. Raises ``RefusedError`` if a label is wider than the page or the mat would take
    more than ``MOST_SHEETS`` sheets.
    """
    _check_text(needs, paper, text)
    ways: tuple[Tens, ...] = ("upright", "flat")
    shapes = tuple(blocks(needs, paper.unit_mm, text, tens) for tens in ways)
    for sheets in range(1, MOST_SHEETS + 1):
        best: _Choice | None = None
        for shape, lay in _layouts(shapes, paper, sheets):
            found = lay(shape)
            if found is None or (best is not None and found.cost > best.rank[0]):
                continue
            filled = fill(found, needs, paper.unit_mm, text)
            if filled is not None:
                rank = _rank(found, filled)
                if best is None or rank < best.rank:
                    best = _Choice(rank, shape, lay, filled.mat)
        if best is not None:
            mat = named_again(_told(_roomier(best, needs, paper, text), text), text)
            return MatPlan(needs, paper, mat, tile_sheets(mat, paper, text))
    raise RefusedError(
        "mat.too-large", field="unit", unit=paper.unit_mm, most=MOST_SHEETS, paper=paper.name
    )


def _told(mat: Mat, text: MatText) -> Mat:
    """Return ``mat`` with words in the first hundred of each fan, where they fit on one tile."""
    labels = []
    for zone in mat.zones:
        if zone.way == "fan" and len(zone.slots) > 1:
            first = zone.slots[0]
            x, y = first.x + FINGER, first.bottom - FINGER - text.join_height
            box = Rect(x, y, max(text.fan_width, 1.0), text.join_height)
            if first.holds(box) and any(tile.holds(box) for tile in mat.tiles):
                labels.append(Label("fan", zone.role, None, box, hint=text.fan))
    return replace(mat, labels=(*mat.labels, *labels))


def tile_sheets(mat: Mat, paper: Paper, text: MatText) -> tuple[Sheet, ...]:
    """Return one sheet for each tile of ``mat``, with the cuts that trim its butting edges."""
    sheets = []
    meeting = joins(mat, text)
    drawn = sketch(mat, text, meeting)
    for index, (tile, turned) in enumerate(zip(mat.tiles, mat.turned, strict=True)):
        area = printable(paper, turned)
        upright = (paper.width_mm, paper.height_mm)
        width, height = upright[::-1] if turned else upright
        rect = Rect(area.x, area.y, tile.width, tile.height)
        edges = {join.edge for join in meeting[index]}
        here = drawn[1] if drawn and drawn[0] == index else None
        content = MatTile(mat, index + 1, tile, meeting[index], here, text.pages)
        sheets.append(
            Sheet(
                kind=SheetKind.ADDITION_MAT if mat.arrangement == "add" else SheetKind.MAT,
                number=index + 1,
                stock="paper",
                width=width,
                height=height,
                items=(Item("mat", rect, content),),
                cuts=_trims(rect, edges, width, height),
            )
        )
    return tuple(sheets)


_Shape = tuple[Block, ...]
_Lay = Callable[[_Shape], Frame | None]


@dataclass(frozen=True, slots=True)
class _Choice:
    rank: tuple[int, ...]
    shape: _Shape
    lay: _Lay
    mat: Mat


def _rank(found: Frame, filled: Filled) -> tuple[int, ...]:
    return (
        found.cost + _CROSSED * filled.crossed,
        filled.untidy,
        int(found.blocks[0].tens == "flat"),
        len(set(found.turned)),
        int(found.turned[0]),
        max(block.lines for block in found.blocks),
    )


def _roomier(best: _Choice, needs: MatNeeds, paper: Paper, text: MatText) -> Mat:
    """Return the chosen mat with what still finds room on its sheets and does no harm.

    Headings are repeated over rows of zones that begin a sheet, and the clear space for a
    number becomes high enough for cards.
    """
    starts = {round(tile.y, 6) for tile in best.mat.tiles}
    begins = {
        role
        for role, box in zip(roles(needs.arrangement), best.mat.outlines, strict=True)
        if round(box.y, 6) in starts
    }
    for repeat, number in ((True, CARD_HEIGHT), (True, 0.0), (False, CARD_HEIGHT)):
        shape = tuple(
            block.roomier(
                tuple(
                    head or (repeat and begins.issuperset(row))
                    for head, row in zip(block.heads, block.rows, strict=True)
                ),
                number,
            )
            for block in best.shape
        )
        found = best.lay(shape)
        filled = fill(found, needs, paper.unit_mm, text) if found is not None else None
        if found is not None and filled is not None and _rank(found, filled) <= best.rank:
            return filled.mat
    return best.mat


def _layouts(
    ways: tuple[tuple[tuple[Block, ...], ...], ...], paper: Paper, sheets: int
) -> Iterator[tuple[_Shape, _Lay]]:
    """Yield blocks, and what lays them out on so many sheets."""
    for shapes in ways:
        if len(shapes) == 1:
            for block, lay in _single(shapes[0], paper, sheets):
                yield (block,), partial(_alone, lay)
            continue
        for upper, lower in product(*shapes):
            width = max(upper.size[0], lower.size[0])
            for tiling in tilings(width, upper.size[1] + lower.size[1], paper, sheets):
                yield (upper, lower), partial(_on_one_grid, tiling, paper)
        for above in range(1, sheets):
            tops = _best(_single(shapes[0], paper, above))
            bottoms = _best(_single(shapes[1], paper, sheets - above))
            for (top, lay_top), (bottom, lay_bottom) in product(tops, bottoms):
                yield (top, bottom), partial(_stacked, lay_top, lay_bottom)


_LayOne = Callable[[Block], Frame | None]


def _alone(lay: _LayOne, shape: _Shape) -> Frame | None:
    return lay(shape[0])


def _on_one_grid(tiling: Tiling, paper: Paper, shape: _Shape) -> Frame | None:
    return frame_pair(shape[0], shape[1], tiling, paper)


def _stacked(above: _LayOne, below: _LayOne, shape: _Shape) -> Frame | None:
    return stacked(above(shape[0]), below(shape[1]))


def _single(
    shapes: tuple[Block, ...], paper: Paper, sheets: int
) -> Iterator[tuple[Block, _LayOne]]:
    for block in shapes:
        for tiling in tilings(*block.size, paper, sheets):
            yield block, partial(frame, tiling=tiling, paper=paper)


def _best(ways: Iterator[tuple[Block, _LayOne]]) -> list[tuple[Block, _LayOne]]:
    """Return the few ways whose joins cost least and whose pieces lie most tidily."""
    found = [(lay(block), block, lay) for block, lay in ways]
    fits = [(one.cost, block.untidy, block, lay) for one, block, lay in found if one is not None]
    fits.sort(key=lambda fit: fit[:2])
    return [(block, lay) for _, _, block, lay in fits[:_KEPT]]


def _trims(rect: Rect, edges: set[Edge], width: float, height: float) -> tuple[Cut, ...]:
    """Each cut runs from edge to edge of what the cuts before it left in the hand."""
    left, right, top, bottom = 0.0, width, 0.0, height
    cuts = []
    for edge in sorted(edges):
        if edge in ("left", "right"):
            x = rect.x if edge == "left" else rect.right
            cuts.append(Cut(x, top, x, bottom))
            left, right = (x, right) if edge == "left" else (left, x)
        else:
            y = rect.y if edge == "top" else rect.bottom
            cuts.append(Cut(left, y, right, y))
            top, bottom = (y, bottom) if edge == "top" else (top, y)
    return tuple(cuts)


def _check_text(needs: MatNeeds, paper: Paper, text: MatText) -> None:
    if len(text.headings) != needs.places or len(text.roles) != len(roles(needs.arrangement)):
        raise ValueError(
            f"plan_mat: text for {len(text.headings)} headings and {len(text.roles)} roles; the "
            f"mat has {needs.places} and {len(roles(needs.arrangement))}"
        )
    area = printable(paper, False)
    widest = max(*text.heading_widths, *text.role_widths, text.number)
    if widest + 2 * PAD > max(area.width, area.height):
        raise RefusedError("mat.wide-words", field="paper", paper=paper.name, wide=round(widest))
