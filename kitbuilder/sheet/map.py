"""Turns the sheets to cut into the cutting map: what to cut in which order, and what falls off."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kitbuilder import measure
from kitbuilder.designs import Look, Words
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Say
from kitbuilder.number import PLACES
from kitbuilder.sheet.cutting import CutSheet, Line, Panel, in_hand_order, panels
from kitbuilder.sheet.flow import LEADING, Figure, flow
from kitbuilder.sheet.plan import Count, CutPlan
from kitbuilder.sheet.records import Rect, Sheet

SCALES = (0.3, 0.25, 0.22)
"""Sizes of the pictures, as parts of the true size: the largest that saves no page is taken."""

ARROW = 2.2
"""Length in mm of the arrows at the ends of a line."""


GAP = 4.0
"""Space in mm between two pictures."""


@dataclass(frozen=True, slots=True)
class PanelFigure:
    """A panel to draw at ``scale``: the lines whose numbers are written, and words below.

    ``side``, ``head`` and ``foot`` are the room in mm at its left, above it and below it.
    """

    panel: Panel
    scale: float
    named: frozenset[Line]
    side: float
    head: float
    foot: float
    caption: tuple[str, ...]


def cut_sheets(plan: CutPlan | None, others: Sequence[Sheet]) -> tuple[CutSheet, ...]:
    """Return the sheets to cut, lettered: those of the pieces' plan, then the others.

    Cut one by one, equal parts share their numbers; in a stack, a cut has the number of the
    plan's step that it belongs to, and the other sheets' numbers go on from there.
    """
    pieces: list[CutSheet] = []
    title = "pieces"
    if plan:
        for layout in plan.layouts:
            rects = tuple(item.rect for item in layout.items)
            size = (plan.page.width, plan.page.height)
            pieces.append(
                CutSheet("", title, *size, layout.copies, rects, layout.cuts, layout.steps)
            )
    if plan and plan.layers == 1:
        pieces = list(in_hand_order(pieces))
    used = max((number for sheet in pieces for number in sheet.numbers), default=0)
    rest = in_hand_order([_cut_sheet(sheet) for sheet in others])
    moved = [replace(sheet, numbers=tuple(used + n for n in sheet.numbers)) for sheet in rest]
    return tuple(
        replace(sheet, name=lettered(index)) for index, sheet in enumerate((*pieces, *moved))
    )


def _cut_sheet(sheet: Sheet) -> CutSheet:
    rects = tuple(item.rect for item in sheet.items)
    numbers = tuple(range(1, len(sheet.cuts) + 1))
    title = sheet.title
    return CutSheet("", title, sheet.width, sheet.height, sheet.copies, rects, sheet.cuts, numbers)


def map_blocks(
    sheets: Sequence[CutSheet], plan: CutPlan | None, words: Words, look: Look, area: Rect
) -> tuple[Say | Figure, ...]:
    """Return the cutting map of ``sheets`` as paragraphs and figures for ``area``."""
    ways = [_blocks(sheets, plan, words, look, area, scale) for scale in SCALES if sheets]
    return min(ways, key=lambda blocks: len(flow(blocks, area, look)), default=())


def _blocks(
    sheets: Sequence[CutSheet],
    plan: CutPlan | None,
    words: Words,
    look: Look,
    area: Rect,
    scale: float,
) -> tuple[Say | Figure, ...]:
    said = words.lines("cutting.steps")
    size = look.type_mm.adult
    return (
        Say("title", words("title.cutting")),
        *(Say("step", line, "–") for line in said),
        *(Say("step", line, "–") for line in (_totals(plan, words) if plan else ())),
        *(_figure(panel, words, size, area, scale) for panel in panels(sheets)),
        Say("heading", words("cover.care")),
        *(Say("step", line, "–") for line in words.lines("cutting.cautions")),
    )


def _totals(plan: CutPlan, words: Words) -> list[str]:
    said = [words("cutting.totals", strokes=plan.strokes, bound=plan.stroke_bound)]
    if plan.layers > 1:
        said.append(words("cutting.stack", layers=plan.layers))
    if plan.any_cut_sheets < plan.sheets:
        said.append(
            words("cutting.any_cut", sheets=words.count("count.sheet", plan.any_cut_sheets))
        )
    if plan.kits > 1:
        said.append(words("cutting.bag", pieces=counted(plan.bag, words)))
    if any(count.count for count in plan.spares):
        said.append(words("cutting.spares", pieces=counted(plan.spares, words)))
    return said


def counted(counts: Sequence[Count], words: Words) -> str:
    """Return pieces counted as words: "2 tens and 3 ones"."""
    places = (c.what.removeprefix("folded_") for c in counts)
    held = [
        phrases.count(words, PLACES.index(place), c.count)
        for place, c in zip(places, counts, strict=True)
        if c.count
    ]
    return phrases.joined(words, held)


def _figure(panel: Panel, words: Words, size: float, area: Rect, most: float) -> Figure:
    across = any(not line.down for line in panel.lines)
    down = any(line.down for line in panel.lines)
    side = (measure.width("000", size) + ARROW + 1.5) if across else 3.0
    head = (size + ARROW + 1.5) if down else 1.0
    foot = head + 0.5
    scale = min(
        most,
        ((area.width - GAP) / 2 - 2 * side) / panel.width,
        (area.height - head - foot - 3 * LEADING * size) / panel.height,
    )
    names = _named_sheets(panel.sheets, words)
    if panel.whole:
        caption = [words("cutting.sheet", name=names, what=words(f"title.{panel.whole}"))]
        if panel.parts > 1:
            caption.append(words("cutting.sheets", count=panel.parts))
    else:
        caption = [words("cutting.of", name=names)]
        if panel.parts > 1:
            caption.insert(0, words("cutting.parts", count=panel.parts))
    widest = max(measure.width(line, size) for line in caption)
    return Figure(
        "panel",
        side + max(panel.width * scale + side, widest),
        head + panel.height * scale + foot + len(caption) * LEADING * size,
        PanelFigure(panel, scale, _named(panel, scale, size), side, head, foot, tuple(caption)),
        GAP,
    )


def _named(panel: Panel, scale: float, size: float) -> frozenset[Line]:
    """Return the lines whose numbers have room beside them; those of each way's ends first."""
    chosen: list[Line] = []
    for down in (True, False):
        lines = [line for line in panel.lines if line.down == down]
        first: list[Line] = lines[:1]
        for line in (*lines[-1:], *lines[1:-1]):
            room = measure.width(f"{line.number} ", size) if down else 1.1 * size
            if all(abs(line.at - other.at) * scale >= room for other in first):
                first.append(line)
        chosen += first
    return frozenset(chosen)


def _named_sheets(names: Sequence[str], words: Words) -> str:
    """Return "A", "A and B", or "A – F"."""
    return phrases.joined(words, names) if len(names) < 4 else f"{names[0]} – {names[-1]}"


def lettered(index: int) -> str:
    """Return A to Z, then AA, AB and so on."""
    return (lettered(index // 26 - 1) if index >= 26 else "") + chr(ord("A") + index % 26)
