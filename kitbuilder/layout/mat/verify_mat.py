"""The checker of mats: it lays the pieces of every step of every sum, and looks at the sheets."""

from collections.abc import Iterable, Sequence
from itertools import combinations

from kitbuilder.kit.mat_needs import Role, layings, roles
from kitbuilder.layout.mat.lying import FRAME_ACROSS, FRAME_DOWN, PILE_STEP
from kitbuilder.layout.mat.mat_records import FINGER, Mat, MatTile, Zone
from kitbuilder.layout.mat.tiling import GLUE
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import PLACES, Sum

_EPS = 1e-4


def check_mat(mat: Mat, sums: Iterable[Sum]) -> None:
    """Lay the pieces of every step of every sum, in every column order, into the mat.

    Raises ``ValueError`` naming the zone if a piece has no room or sticks out of its zone or
    into the room for fingers; if tens do not stand, or ones do not fill standing ten-frames;
    if one piece hides another, but for hundreds, which must each lie half a unit to the right
    of and below the one under it, so that no strip in sight looks like a ten; if zones, words
    or boxes lie over each other; or if a word or box lies across a join.
    """
    _check_ground(mat)
    counts: set[tuple[int, int, int]] = set()
    for sum_ in sums:
        for laying in layings(sum_, mat.arrangement):
            for row, pieces in enumerate(laying.pieces):
                counts |= {(row, place, n) for place, n in enumerate(pieces.counts) if n}
    for row, place, count in sorted(counts):
        _check_laid(mat, roles(mat.arrangement)[row], place, count)


def check_sheets(mat: Mat, page: Page, sheets: tuple[Sheet, ...]) -> None:
    """Check that the sheets print the whole mat at true size, and are cut and glued as they join.

    Raises ``ValueError`` if a tile is missing or does not print, an edge under which another
    sheet is glued is not cut off from edge to edge of what is left in the hand, another edge
    is cut, or there is too little paper to glue.
    """
    if len(sheets) != len(mat.tiles):
        raise ValueError(f"check_sheets: {len(sheets)} sheets for {len(mat.tiles)} tiles")
    for index, (sheet, tile) in enumerate(zip(sheets, mat.tiles, strict=True)):
        content, rect = sheet.items[0].content, sheet.items[0].rect
        if not isinstance(content, MatTile):
            raise ValueError(f"check_sheets: sheet {sheet.number} holds no tile of a mat")
        if abs(rect.width - tile.width) + abs(rect.height - tile.height) > _EPS:
            raise ValueError(f"check_sheets: sheet {sheet.number} is not of its tile's size")
        if not page.inside.holds(rect, _EPS):
            raise ValueError(f"check_sheets: sheet {sheet.number} leaves the printable area")
        if content.area != tile:
            raise ValueError(f"check_sheets: sheet {sheet.number} shows another part of the mat")
        _check_joined(mat, index, sheet, rect)


def _check_joined(mat: Mat, index: int, sheet: Sheet, rect: Rect) -> None:
    row, column = divmod(index, mat.across)
    right = (index + 1) % mat.across > 0
    below = index + mat.across < len(mat.tiles)
    wide = rect.right if right else sheet.width
    due = [(rect.right, 0.0, rect.right, sheet.height)] if right else []
    due += [(0.0, rect.bottom, wide, rect.bottom)] if below else []
    cuts = [(cut.x1, cut.y1, cut.x2, cut.y2) for cut in sheet.cuts]
    if cuts != due:
        raise ValueError(f"check_sheets: sheet {sheet.number} is cut at {cuts}, not at {due}")
    if (column and rect.x < GLUE - _EPS) or (row and rect.y < GLUE - _EPS):
        raise ValueError(f"check_sheets: sheet {sheet.number} has too little paper to glue")


def _check_ground(mat: Mat) -> None:
    words = mat.marked
    boxes = [zone.box for zone in mat.zones]
    for a, b in combinations([*(z.rect for z in mat.zones), *mat.strips], 2):
        if a.overlaps(b, _EPS):
            raise ValueError(f"check_mat: {a} and {b} lie over each other")
    pieces = [slot for zone in mat.zones for slot in (*zone.slots, *zone.frames)]
    for k, a in enumerate((*boxes, *words)):
        for b in (*(*boxes, *words)[:k], *pieces):
            if a.overlaps(b, _EPS):
                raise ValueError(f"check_mat: {a} and {b} lie over each other")
        if not any(tile.holds(a, _EPS) for tile in mat.tiles):
            raise ValueError(f"check_mat: {a} lies across a join")
    for a, b in combinations(mat.tiles, 2):
        if a.overlaps(b, _EPS):
            raise ValueError(f"check_mat: tiles {a} and {b} lie over each other")
    seen = sum(tile.width * tile.height for tile in mat.tiles)
    if abs(seen - mat.width * mat.height) > 0.01:
        raise ValueError("check_mat: the mat is not wholly on the tiles")


def _check_laid(mat: Mat, role: Role, place: int, count: int) -> None:
    zone = mat.zone(role, place)
    name = f"the zone of the {PLACES[place]} of the {role}"
    if count > zone.capacity:
        raise ValueError(f"check_mat: {name} has room for {zone.capacity}; {count} lie there")
    pieces = zone.slots[:count]
    wide, high = ((1, 1), (1, 10), (10, 10), (10, 10))[place]
    inner = zone.rect.inset(FINGER)
    for piece in pieces:
        if abs(piece.width - wide * mat.unit) + abs(piece.height - high * mat.unit) > _EPS:
            raise ValueError(f"check_mat: a slot in {name} is {piece}; it is not of piece size")
        if not inner.holds(piece, _EPS):
            raise ValueError(f"check_mat: a piece sticks out of {name}, or into its finger room")
    if place == 0:
        _check_frames(zone, mat.unit, pieces, name)
    for a, b in combinations(range(count), 2):
        if pieces[a].overlaps(pieces[b], _EPS) and not _piled(pieces, a, b, mat.unit, place):
            raise ValueError(f"check_mat: piece {a + 1} of {count} in {name} is hidden")


def _piled(pieces: Sequence[Rect], a: int, b: int, unit: float, place: int) -> bool:
    """Say whether two lie as in a pile: each half a unit to the right of and below the last."""
    step = (b - a) * PILE_STEP * unit
    aside, down = pieces[b].x - pieces[a].x, pieces[b].y - pieces[a].y
    return place > 1 and abs(aside - step) + abs(down - step) < _EPS


def _check_frames(zone: Zone, unit: float, pieces: Sequence[Rect], name: str) -> None:
    """Check that ones fill the frames one after the other, five down, then five down."""
    ten = FRAME_ACROSS * FRAME_DOWN
    for k, piece in enumerate(pieces):
        frame = zone.frames[k // ten]
        across, down = divmod(k % ten, FRAME_DOWN)
        aside = abs(piece.x - frame.x - across * unit)
        if aside + abs(piece.y - frame.y - down * unit) > _EPS:
            raise ValueError(f"check_mat: the ones in {name} do not fill standing ten-frames")
