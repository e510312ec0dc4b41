"""Turns the sheets of mats into their part of the JSON record: where every zone is printed."""

from collections.abc import Sequence
from typing import Any

from kitbuilder.number import PLACES
from kitbuilder.sheet.mat_records import Mat, MatTile, Zone
from kitbuilder.sheet.mat_tiling import clear_spans
from kitbuilder.sheet.records import Rect, Sheet


def mats_record(sheets: Sequence[Sheet]) -> list[dict[str, Any]]:
    """Return each mat among ``sheets``: arrangement, size in mm, and its zones.

    A zone that lies across a join has a rectangle on each page it is printed on, in mm from
    that page's top left; pages count from 1 over ``sheets``.
    """
    mats: list[tuple[Mat, list[tuple[int, Rect, MatTile]]]] = []
    for page, sheet in enumerate(sheets, 1):
        for item in sheet.items:
            if isinstance(item.content, MatTile):
                if not mats or mats[-1][0] is not item.content.mat:
                    mats.append((item.content.mat, []))
                mats[-1][1].append((page, item.rect, item.content))
    return [
        {
            "arrangement": mat.arrangement,
            "width_mm": round(mat.width, 3),
            "height_mm": round(mat.height, 3),
            "pages": [page for page, _, _ in tiles],
            "zones": [_zone(zone, tiles) for zone in mat.zones],
        }
        for mat, tiles in mats
    ]


def _zone(zone: Zone, tiles: list[tuple[int, Rect, MatTile]]) -> dict[str, Any]:
    rectangles = []
    for page, rect, tile in tiles:
        for part in clear_spans(zone.rect, (tile.area,)):
            moved = part.moved(rect.x - tile.area.x, rect.y - tile.area.y)
            size = {"width_mm": round(moved.width, 3), "height_mm": round(moved.height, 3)}
            at = {"x_mm": round(moved.x, 3), "y_mm": round(moved.y, 3)}
            rectangles.append({"page": page, **at, **size})
    return {
        "place": PLACES[zone.place],
        "role": zone.role,
        "holds": zone.capacity,
        "pieces_lie": zone.way,
        "rectangles": rectangles,
    }
