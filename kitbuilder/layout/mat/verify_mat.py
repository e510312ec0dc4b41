"""Turns a mat and its sums into a proof that every piece has room, or into the fault found."""

from collections.abc import Iterable
from itertools import combinations

from kitbuilder.design.load import Paper
from kitbuilder.kit.mat_needs import Role, layings, roles
from kitbuilder.layout.mat.mat_records import FINGER, Mat, MatTile, Zone
from kitbuilder.layout.mat.tiling import clear_spans, printable
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.number.sums import PLACES, Sum

_EPS = 1e-4


def check_mat(mat: Mat, sums: Iterable[Sum]) -> None:
    """Lay the pieces of every step of every sum, in every column order, into the mat.

    Raises ``ValueError`` naming the zone if a piece has no room, sticks out of its zone or
    into the 5 mm for fingers, or hides another (less than one unit row of it in sight); if
    tens do not lie one way, ones not in rows of five; if zones or labels lie over each other;
    or if a label lies across a join.
    """
    _check_ground(mat)
    counts: set[tuple[int, int, int]] = set()
    for sum_ in sums:
        for laying in layings(sum_, mat.arrangement):
            for row, pieces in enumerate(laying.pieces):
                counts |= {(row, place, n) for place, n in enumerate(pieces.counts) if n}
    for row, place, count in sorted(counts):
        _check_laid(mat, roles(mat.arrangement)[row], place, count)


def check_sheets(mat: Mat, paper: Paper, sheets: tuple[Sheet, ...]) -> None:
    """Check that the sheets print the whole mat at true size and are cut where they butt.

    Raises ``ValueError`` if a tile is missing or does not print, or an edge that butts against
    another sheet is not cut off from edge to edge of what is left in the hand.
    """
    if len(sheets) != len(mat.tiles):
        raise ValueError(f"check_sheets: {len(sheets)} sheets for {len(mat.tiles)} tiles")
    for sheet, tile, turned in zip(sheets, mat.tiles, mat.turned, strict=True):
        content, rect = sheet.items[0].content, sheet.items[0].rect
        if not isinstance(content, MatTile):
            raise ValueError(f"check_sheets: sheet {sheet.number} holds no tile of a mat")
        if abs(rect.width - tile.width) + abs(rect.height - tile.height) > _EPS:
            raise ValueError(f"check_sheets: sheet {sheet.number} is not of its tile's size")
        if not printable(paper, turned).holds(rect, _EPS):
            raise ValueError(f"check_sheets: sheet {sheet.number} leaves the printable area")
        if content.area != tile:
            raise ValueError(f"check_sheets: sheet {sheet.number} shows another part of the mat")
        _check_cuts(sheet, rect, content, mat)


def _check_cuts(sheet: Sheet, rect: Rect, content: MatTile, mat: Mat) -> None:
    left, top, right, bottom = 0.0, 0.0, sheet.width, sheet.height
    for cut in sheet.cuts:
        if cut.x1 == cut.x2:
            through = abs(cut.y1 - top) + abs(cut.y2 - bottom) < _EPS
            left, right = (cut.x1, right) if cut.x1 <= rect.x + _EPS else (left, cut.x1)
        else:
            through = abs(cut.x1 - left) + abs(cut.x2 - right) < _EPS
            top, bottom = (cut.y1, bottom) if cut.y1 <= rect.y + _EPS else (top, cut.y1)
        if not through:
            raise ValueError(f"check_sheets: {cut} does not run from edge to edge")
    if left > rect.x + _EPS or top > rect.y + _EPS:
        raise ValueError(f"check_sheets: sheet {sheet.number} is cut into")
    if right < rect.right - _EPS or bottom < rect.bottom - _EPS:
        raise ValueError(f"check_sheets: sheet {sheet.number} is cut into")
    tile = content.area
    for other in mat.tiles:
        wide = min(tile.right, other.right) - max(tile.x, other.x) > _EPS
        tall = min(tile.bottom, other.bottom) - max(tile.y, other.y) > _EPS
        uncut = (
            (tall and abs(other.right - tile.x) < _EPS and abs(left - rect.x) > _EPS)
            or (tall and abs(other.x - tile.right) < _EPS and abs(right - rect.right) > _EPS)
            or (wide and abs(other.bottom - tile.y) < _EPS and abs(top - rect.y) > _EPS)
            or (wide and abs(other.y - tile.bottom) < _EPS and abs(bottom - rect.bottom) > _EPS)
        )
        if uncut:
            raise ValueError(f"check_sheets: sheet {sheet.number} is not cut where it butts")


def _check_ground(mat: Mat) -> None:
    under = ("fan", "again")  # words that lie under pieces
    labels = [x.rect for x in mat.labels if x.kind not in under]
    boxes = [z.rect for z in mat.zones] + labels
    for a, b in combinations(boxes, 2):
        if a.overlaps(b, _EPS):
            raise ValueError(f"check_mat: {a} and {b} lie over each other")
    for a, b in combinations(mat.tiles, 2):
        if a.overlaps(b, _EPS):
            raise ValueError(f"check_mat: tiles {a} and {b} lie over each other")
    for box in boxes:
        seen = sum(s.width * s.height for s in clear_spans(box, mat.tiles))
        if abs(seen - box.width * box.height) > 0.01:
            raise ValueError(f"check_mat: {box} is not wholly on the tiles")
    for label in mat.labels:
        if not any(tile.holds(label.rect, _EPS) for tile in mat.tiles):
            raise ValueError(f"check_mat: the {label.kind} of {label.role} lies across a join")


def _check_laid(mat: Mat, role: Role, place: int, count: int) -> None:
    zone = mat.zone(role, place)
    name = f"the zone of the {PLACES[place]} of the {role}"
    if count > zone.capacity:
        raise ValueError(f"check_mat: {name} has room for {zone.capacity}; {count} lie there")
    pieces = zone.slots[:count]
    size = _size(mat, zone)
    inner = zone.rect.inset(FINGER)
    for piece in pieces:
        if abs(piece.width - size[0]) + abs(piece.height - size[1]) > _EPS:
            raise ValueError(f"check_mat: a slot in {name} is {piece}; a piece is {size} mm")
        if not inner.holds(piece, _EPS):
            raise ValueError(f"check_mat: a piece sticks out of {name}, or into its finger room")
    for index, piece in enumerate(pieces):
        if not _in_sight(piece, pieces[index + 1 :], mat.unit, whole=place < 2):
            raise ValueError(f"check_mat: piece {index + 1} of {count} in {name} is hidden")
    if place == 0 and len({round(p.x / mat.unit, 3) for p in pieces}) > 5:
        raise ValueError(f"check_mat: the ones in {name} do not lie in rows of five")


def _size(mat: Mat, zone: Zone) -> tuple[float, float]:
    if zone.place == 0:
        return (mat.unit, mat.unit)
    if zone.place == 2:
        return (10 * mat.unit, 10 * mat.unit)
    flat = {z.slots[0].width > z.slots[0].height for z in mat.zones if z.place == 1 and z.slots}
    if len(flat) > 1:
        raise ValueError("check_mat: tens stand upright in one zone and lie flat in another")
    return (10 * mat.unit, mat.unit) if flat == {True} else (mat.unit, 10 * mat.unit)


def _in_sight(piece: Rect, above: tuple[Rect, ...], unit: float, *, whole: bool) -> bool:
    """Say whether all of a piece, or one unit row of a hundred, lies under none of ``above``."""
    over = [a for a in above if a.overlaps(piece, _EPS)]
    if whole or not over:
        return not over
    rows = [Rect(piece.x, piece.y + i * unit, piece.width, unit) for i in range(10)]
    rows += [Rect(piece.x + i * unit, piece.y, unit, piece.height) for i in range(10)]
    return any(not any(a.overlaps(row, _EPS) for a in over) for row in rows)
