"""The JSON record of a kit."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from itertools import repeat
from typing import Any

from kitbuilder import __version__
from kitbuilder.counting import thousandth
from kitbuilder.design.load import Paper, Words
from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import TaskCard
from kitbuilder.kit.records import Kit
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.cut_tree import strokes_by_stop
from kitbuilder.layout.estimate import Estimate
from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.model import Cut, Rect, Sheet, SheetKind
from kitbuilder.number import PLACES
from kitbuilder.output.files import Bound

SCHEMA_VERSION = 1
"""Raised when the record's form changes; keys are only ever added."""


def record(
    kit: Kit,
    laid: LaidOut,
    style: Style,
    marks: Mapping[str, str],
    bound: Bound,
    takes: Estimate,
) -> str:
    """Return the kit as JSON text: millimetres from each page's top left, y down.

    ``marks`` are the SHA-256 of the other files by name, ``bound`` tells the ink on the pages
    and ``takes`` what printing and cutting them takes.
    """
    sheets, paper, words = laid.sheets, style.paper, style.words
    counts = dict(zip(PLACES, kit.pieces.counts, strict=True))
    table = {
        "schema_version": SCHEMA_VERSION,
        "kitbuilder_version": __version__,
        "language": words.language,
        "sums": [{"whole": s.whole, "part": s.part, "rest": s.rest} for s in kit.sums],
        "within": kit.limit,
        **({"decimals": words.scale.decimals} if words.scale.decimals else {}),
        "paper": _paper(paper),
        "unit_mm": paper.unit_mm,
        "pieces": {p: counts[p] for p in PLACES[::-1] if p != "thousands" or counts[p]},
        "sheets": [
            {**_sheet(sheet, page, words), "ink_mm2": ink}
            for page, (sheet, ink) in enumerate(zip(sheets, bound.inks, strict=True), 1)
        ],
        "estimate": _estimate(takes),
        "inked_percent": bound.inked,
        "cutting": _cutting(laid.cutting),
        "stops": list(_stops(sheets, laid.cut.layers if laid.cut else 1)),
        "mats": list(_mats(sheets)),
        "mat_sheets": list(_mat_sheets(sheets)),
        "cards": list(_cards(sheets)),
        "files": _files(marks),
    }
    return _text(table)


def pack_record(words: Words, marks: Mapping[str, str]) -> str:
    """Return the record of pupils' packs: their files alone, so that no name gets into it."""
    table = {
        "schema_version": SCHEMA_VERSION,
        "kitbuilder_version": __version__,
        "language": words.language,
        "files": _files(marks),
    }
    return _text(table)


def _text(table: dict[str, Any]) -> str:
    """Return ``table`` as JSON, a line for each key and for each entry of a list."""
    say = json.JSONEncoder(ensure_ascii=False).encode
    lines = []
    for key, value in table.items():
        if isinstance(value, list) and value:
            held = "[\n  " + ",\n  ".join(map(say, value)) + "\n ]"
        else:
            held = say(value)
        lines.append(f" {say(key)}: {held}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _files(marks: Mapping[str, str]) -> dict[str, Any]:
    return {name: {"sha256": mark} for name, mark in marks.items()}


def _paper(paper: Paper) -> dict[str, Any]:
    return {
        "name": paper.name,
        "width_mm": paper.width_mm,
        "height_mm": paper.height_mm,
        "margins_mm": asdict(paper.margins_mm),
    }


def _cards(sheets: Sequence[Sheet]) -> Iterator[dict[str, Any]]:
    """Yield each task card's sum and where its front stands."""
    for page, sheet in enumerate(sheets, 1):
        for item in sheet.items:
            face = item.content
            if isinstance(face, CardFace) and not face.is_back and isinstance(face.card, TaskCard):
                sum_ = face.card.sum
                yield {
                    "sum": {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest},
                    "page": page,
                    **_rect(item.rect),
                }


def _sheet(sheet: Sheet, page: int, words: Words) -> dict[str, Any]:
    return {
        "page": page,
        "title": words(f"title.{sheet.kind}"),
        "kind": sheet.kind,
        "stock": sheet.stock,
        "copies": sheet.copies,
        "width_mm": thousandth(sheet.width),
        "height_mm": thousandth(sheet.height),
        "items": list(_items(sheet)),
        "cuts": [
            {**_cut(cut), "stop": stop}
            for cut, stop in zip(sheet.cuts, sheet.stops or repeat(None), strict=False)
        ],
        "folds": [_cut(fold) for fold in sheet.folds],
        "turned_over_on": sheet.flip,
        "kerf_mm": sheet.kerf,
    }


def _items(sheet: Sheet) -> Iterator[dict[str, Any]]:
    """Yield what is cut out of a sheet; on pages to be read nothing is."""
    if sheet.stock == "card" or sheet.cuts:
        for item, spare in zip(sheet.items, sheet.spare or repeat(0), strict=False):
            if sheet.kind is not SheetKind.PIECES or item.content is None:
                yield {"what": item.what, **_rect(item.rect), "spare": spare}


def _estimate(takes: Estimate) -> dict[str, Any]:
    return {
        "card_sheets": takes.card,
        "paper_sheets": takes.paper,
        "straight_cuts": takes.cuts,
        "cuts_per_minute": takes.wish.cuts_per_minute,
        "minutes": round(takes.minutes, 1),
        **({"fold_minutes": takes.fold_minutes} if takes.folded else {}),
        "ink_mm2": takes.ink_mm2,
        "ink_per_cent": takes.ink_per_cent,
        "grammage_gsm": takes.wish.grammage,
        "card_grams": takes.card_grams,
        "per_sheet": takes.wish.per_sheet,
        "cost": takes.cost,
    }


def _cutting(plan: CutPlan | None) -> dict[str, Any] | None:
    if plan is None:
        return None
    return {
        "kits": plan.kits,
        "layers": plan.layers,
        "sheets": plan.sheets,
        "different_sheets": len(plan.cut_sheets),
        "strokes": plan.strokes,
        "bag": {count.what: count.count for count in plan.bag},
        "spares": {count.what: count.count for count in plan.spares},
    }


def _stops(sheets: Sequence[Sheet], layers: int) -> Iterator[dict[str, Any]]:
    """Yield each number of the cutting map: the parts cut there, and the strokes that takes."""
    kinds = {stop: sheet.kind for sheet in sheets for stop in sheet.stops}
    for stop, (parts, strokes) in strokes_by_stop(sheets, layers).items():
        yield {"stop": stop, "kind": kinds[stop], "parts": parts, "strokes": strokes}


def _mats(sheets: Sequence[Sheet]) -> Iterator[dict[str, Any]]:
    """Yield, for each zone and each page it lies on, its place, role and rectangle there."""
    for page, sheet in enumerate(sheets, 1):
        for item in sheet.items:
            if isinstance(item.content, MatTile):
                area = item.content.area
                for zone in item.content.mat.zones:
                    seen = zone.rect.common(area)
                    if seen is not None and min(seen.width, seen.height) > 0.01:
                        here = seen.moved(item.rect.x - area.x, item.rect.y - area.y)
                        yield {
                            "mat": sheet.kind,
                            "place": PLACES[zone.place],
                            "role": zone.role,
                            "page": page,
                            **_rect(here),
                        }


def _mat_sheets(sheets: Sequence[Sheet]) -> Iterator[dict[str, Any]]:
    """Yield, for each page of a mat, where on the mat it lies and which pages it joins.

    ``x_mm`` to ``height_mm`` are the page's part of the whole mat, from the mat's top left. The
    page is cut along an edge where ``cut`` is true, and the other glued under it.
    """
    for page, sheet in enumerate(sheets, 1):
        for item in sheet.items:
            tile = item.content
            if isinstance(tile, MatTile):
                row, column = divmod(tile.number - 1, tile.mat.across)
                yield {
                    "mat": sheet.kind,
                    "page": page,
                    "row": row + 1,
                    "column": column + 1,
                    **_rect(tile.area),
                    "joins": [
                        {"edge": j.edge, "page": page + j.other - tile.number, "cut": j.cut}
                        for j in tile.joins
                    ],
                }


def _rect(rect: Rect) -> dict[str, float]:
    return {
        "x_mm": thousandth(rect.x),
        "y_mm": thousandth(rect.y),
        "width_mm": thousandth(rect.width),
        "height_mm": thousandth(rect.height),
    }


def _cut(cut: Cut) -> dict[str, float]:
    ends = {"x1": cut.x1, "y1": cut.y1, "x2": cut.x2, "y2": cut.y2}
    return {f"{name}_mm": thousandth(value) for name, value in ends.items()}
