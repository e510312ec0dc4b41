"""Turns a frame into a mat: the pieces' slots and the words' boxes laid into it."""

from dataclasses import dataclass

from kitbuilder.kit.mat_needs import MatNeeds, roles
from kitbuilder.layout.mat.arrangements import Lying, Tens, spread
from kitbuilder.layout.mat.blocks import PAD, Block, ways
from kitbuilder.layout.mat.frames import Box, Frame
from kitbuilder.layout.mat.mat_records import FINGER, Label, Mat, MatText, Zone
from kitbuilder.layout.mat.tiling import clear_spans
from kitbuilder.layout.model import Rect

_EPS = 1e-6


@dataclass(frozen=True, slots=True)
class Filled:
    """A mat, how many groups of pieces lie across a join, and how untidily they lie."""

    mat: Mat
    crossed: int
    untidy: int


def fill(found: Frame, needs: MatNeeds, unit: float, text: MatText) -> Filled | None:
    """Return the frame with its zones and labels, or None if a label would cross a join."""
    labels = _labels(found, needs, text)
    if labels is None:
        return None
    zones, crossed, untidy = [], 0, 0
    for cell in found.cells:
        zone, across, look = _zone(cell, found, needs, unit)
        zones.append(zone)
        crossed += across
        untidy += look
    mat = Mat(
        arrangement=needs.arrangement,
        unit=unit,
        width=found.width,
        height=found.height,
        zones=tuple(zones),
        labels=labels,
        outlines=_outlines(found),
        tiles=found.tiles,
        turned=found.turned,
    )
    return Filled(mat, crossed, untidy)


def _zone(cell: Box, found: Frame, needs: MatNeeds, unit: float) -> tuple[Zone, bool, int]:
    tens: Tens = found.blocks[0].tens
    place = cell.place or 0
    spans = clear_spans(cell.rect, found.tiles)
    best: tuple[tuple[bool, int, int], Lying, Rect] | None = None
    for index, way in enumerate(ways(needs, cell.role, place, unit, tens)):
        for span in (*spans, cell.rect):
            if way.width + 2 * FINGER <= span.width + _EPS and (
                way.height + 2 * FINGER <= span.height + _EPS
            ):
                rank = (span not in spans, way.untidy, index)
                if best is None or rank < best[0]:
                    best = (rank, way, span)
    if best is None:
        raise ValueError(f"fill: no way to lay place {place} of {cell.role} in {cell.rect}")
    (across, untidy, _), way, span = best
    way = spread(way, unit, span.width - 2 * FINGER, span.height - 2 * FINGER)
    dx, dy = span.x + FINGER, span.y + FINGER
    slots = tuple(s.moved(dx, dy) for s in way.slots)
    moment = needs.holding(cell.role, place).moment
    return Zone(place, cell.role, cell.rect, way.way, slots, moment), across, untidy


def _labels(found: Frame, needs: MatNeeds, text: MatText) -> tuple[Label, ...] | None:
    labels: list[Label] = []
    for head in found.heads:
        place = head.place or 0
        box = _in_span(head.rect, text.heading_widths[place], text.heading_height, found, "middle")
        if box is None:
            return None
        labels.append(Label("heading", head.role, place, box, text.headings[place]))
    for strip in found.strips:
        index = roles(needs.arrangement).index(strip.role)
        pair = _strip(strip, found, text.role_widths[index], text)
        if pair is None:
            return None
        said = (text.roles[index], text.hints[index])
        labels.append(Label("role", strip.role, None, pair[0], *said))
        labels.append(Label("number", strip.role, None, pair[1], hint=text.number_hint))
    return tuple(labels)


def _strip(strip: Box, found: Frame, label: float, text: MatText) -> tuple[Rect, Rect] | None:
    area, block = strip.rect, _block(strip, found)
    high = block.number
    if block.lines == 2:
        top = Rect(area.x, area.y, area.width, text.role_height)
        under = Rect(area.x, top.bottom, area.width, high)
        first = _in_span(top, label, text.role_height, found, "left")
        second = _in_span(under, text.number, high, found, "left")
    else:
        first = _in_span(area, label, text.role_height, found, "left")
        second = _in_span(area, text.number, high, found, "right")
    if first is None or second is None or first.overlaps(second):
        return None
    return first, second


def _in_span(area: Rect, width: float, height: float, found: Frame, side: str) -> Rect | None:
    spans = [s for s in clear_spans(area, found.tiles) if s.width >= width + 2 * PAD - _EPS]
    spans = [s for s in spans if s.height >= min(height, area.height) - _EPS]
    if not spans:
        return None
    if side == "left":
        span = min(spans, key=lambda s: s.x)
        x = span.x + PAD
    elif side == "right":
        span = max(spans, key=lambda s: s.x)
        x = span.right - PAD - width
    else:
        span = max(spans, key=lambda s: (s.width, -s.x))
        x = span.x + (span.width - width) / 2
    return Rect(x, span.y + (span.height - height) / 2, width, height)


def _block(box: Box, found: Frame) -> Block:
    for block in found.blocks:
        if any(box.role in row for row in block.rows):
            return block
    raise ValueError(f"fill: {box.role} is in no block")


def _outlines(found: Frame) -> tuple[Rect, ...]:
    outlines = []
    for strip in found.strips:
        bottom = max(c.rect.bottom for c in found.cells if c.role == strip.role)
        area = strip.rect
        outlines.append(Rect(area.x, area.y, area.width, bottom - area.y))
    return tuple(outlines)
