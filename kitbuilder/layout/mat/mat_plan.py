"""The mat that holds what it must on the fewest sheets of a paper."""

from collections.abc import Iterator, Sequence
from itertools import product

from kitbuilder.design import metrics
from kitbuilder.design.load import Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import MatNeeds, Role, bands, roles
from kitbuilder.layout.mat.join_notes import note_height
from kitbuilder.layout.mat.joins import tile_sheets
from kitbuilder.layout.mat.lying import Manner
from kitbuilder.layout.mat.mat_columns import Columns, held, on_one
from kitbuilder.layout.mat.mat_records import Icon, Label, LabelKind, Mat, Zone
from kitbuilder.layout.mat.mat_text import MatText, centred, line
from kitbuilder.layout.mat.tiling import THROUGH, Grid, Stretch, Stretches, divide, page_of
from kitbuilder.layout.mat.zone_strips import ZoneStrip, strips
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.number.scale import HUNDREDTHS

MOST_SHEETS = 24
"""A mat of more sheets than this is refused: no table holds it."""

POINT = 2.4
"""Half the side in mm of the place for a decimal point."""

OFF_LINE = 2.5
"""Least space in mm between the line at a column's left and words below its pile."""

_AIRS = (7.0, 4.0, 2.0)
# What a column is wider than its heading, in mm: usually, and where it has less room.

_LARGE = (1.0, 0.5)
# How large headings are tried at on as many sheets, from the least size (0) to the most (1).

HEAD, UNDER = 1.12, 0.62
"""Least height of the row of headings, and from its end to the middle of its words, in ems."""


@frozen
class MatPlan:
    """What was needed, the paper, the mat that holds it, and the sheets it is printed on."""

    needs: MatNeeds
    paper: Paper
    mat: Mat
    sheets: tuple[Sheet, ...]


def plan_mat(needs: MatNeeds, text: MatText, style: Style) -> MatPlan:
    """Return the mat that holds ``needs`` on the fewest sheets of the style's paper.

    All sheets are of one size and lie in rows and columns. Of mats on as few sheets, first the
    one with fewest pieces on joins, then hundreds that lie free rather than in a pile, then
    the usual place of a second ten-frame, then upright sheets. Headings are smaller than they
    might be only where that saves a sheet. The mat fills its sheets; no
    word or box lies across a join. Raises ``RefusedError`` if the mat would take more than
    ``MOST_SHEETS`` sheets.
    """
    paper = style.paper
    grids = (tuple(_grids(sheets, style)) for sheets in range(1, MOST_SHEETS + 1))
    for some, large in ((some, large) for some in grids for large in _LARGE):
        best: tuple[tuple[int, int], Mat, Grid] | None = None
        for manner, grid in product(_manners(needs), some):
            found = _Layout(needs, grid, manner, text, large).mat()
            if found is not None and (best is None or _cost(found) < best[0]):
                best = (_cost(found), found, grid)
                if best[0] == (0, 0):
                    break  # no later one costs less
        if best is not None:
            return MatPlan(needs, paper, best[1], tile_sheets(best[1], best[2]))
    raise RefusedError(
        "mat.too-large", field="unit", unit=paper.unit_mm, most=MOST_SHEETS, paper=paper.name
    )


def _manners(needs: MatNeeds) -> Iterator[Manner]:
    """Yield how pieces may lie, the best first: hundreds free, in few rows; else in a pile.

    Several thousands lie in a pile, as their pictures do: four zones leave little room.
    """
    every = roles(needs.arrangement)
    most = max(held(needs, role, needs.places - 1) for role in every)
    rows = dict.fromkeys(-(-most // row) for row in range(most, 0, -1))
    lying = [-(-most // row) for row in rows] if needs.places > 2 else [1]
    if needs.places > 3 and most > 1:
        lying = []
    usual = needs.places < 3
    several = any(held(needs, role, 0) > 10 for role in every)
    for row in (*lying, *((0,) if needs.places > 2 and most > 1 else ())):
        for beside in (usual, not usual) if several else (usual,):
            yield Manner(row, beside)


def _grids(sheets: int, style: Style) -> Iterator[Grid]:
    for turned in (False, True):
        inside = page_of(style.paper, turned).inside
        for across in range(1, sheets + 1):
            if sheets % across == 0:
                note = note_height(across, inside.width, style) if sheets > 1 else 0.0
                grid = Grid(style.paper, turned, across, sheets // across, note)
                if min(*grid.widths, *grid.heights) > 0:  # a note may leave small paper no room
                    yield grid


def _cost(mat: Mat) -> tuple[int, int]:
    """Return how many groups of pieces lie across a join, and how many joins cut into a role."""
    across = sum(any(not on_one(s, mat.tiles) for s in zone.slots) for zone in mat.zones)
    parts = sum(tile.common(outline) is not None for tile in mat.tiles for outline in mat.outlines)
    return across, parts - len(mat.outlines)


@frozen
class _Layout:
    """One try: what is needed, on a grid of sheets, with pieces lying in one manner.

    Headings are so ``large``: 1 for the most that columns have room for, 0 for the least size.
    """

    needs: MatNeeds
    grid: Grid
    manner: Manner
    text: MatText
    large: float

    @property
    def columns(self) -> Columns:
        return Columns(self.needs, self.grid.paper.unit_mm, self.manner)

    def mat(self) -> Mat | None:
        """Return the mat, or None where something has no room."""
        across = self._across()
        if across is None:
            return None
        size = self._heading_size(across)
        through: Mat | None = None
        high = self._heights(across) if size else ()
        for strip in strips(self.text) if size else ():
            down = self._down(high, strip, size)
            if down and (through is None or down.cost < THROUGH):
                found = self._placed(across, down, strip, size)
                if found and down.cost < THROUGH:
                    return found
                through = through or found
        return through

    def _across(self) -> dict[int, Stretches] | None:
        """Return the columns of the rows that hold one zone, and of those that hold two."""
        found = {}
        for count in {len(band) for band in bands(self.needs.arrangement)}:
            alike = [band for band in bands(self.needs.arrangement) if len(band) == count]
            stretches = tuple(
                self.columns.stretch([band[k] for band in alike], place, self.text)
                for k in range(count)
                for place in range(self.needs.places - 1, -1, -1)
            )
            division = divide(stretches, self.grid.widths)
            if division is None:
                return None
            found[count] = division
        return found

    def _cells(self, across: dict[int, Stretches]) -> Iterator[tuple[Role, int, float, float]]:
        """Yield each zone's role, place, left and right, row by row."""
        for band in bands(self.needs.arrangement):
            edges = across[len(band)].edges
            for k, role in enumerate(band):
                for place in range(self.needs.places - 1, -1, -1):
                    at = k * self.needs.places + self.needs.places - 1 - place
                    yield role, place, edges[at], edges[at + 1]

    def _spans(self, left: float, right: float) -> list[tuple[float, float]]:
        """Return the parts of a stretch across that lie on one sheet each."""
        found = []
        for tile in self.grid.tiles[: self.grid.across]:
            low, high = max(left, tile.x), min(right, tile.right)
            if high - low > 1:
                found.append((low, high))
        return found

    def _heading_size(self, across: dict[int, Stretches]) -> float:
        """Return the size of the headings: the child's, or what all columns have room for."""
        rooms = [
            (
                max(high - low for low, high in self._spans(left, right)),
                metrics.width(self.text.headings[place], 1.0),
            )
            for _, place, left, right in self._cells(across)
        ]
        least = min(self.text.adult, self.text.child) - 1e-6
        sizes = (
            min(self.text.child, *((room - air) / wide for room, wide in rooms)) for air in _AIRS
        )
        most = next((size for size in sizes if size >= least), 0.0)
        return most and self.large * most + (1 - self.large) * least

    def _heights(self, across: dict[int, Stretches]) -> tuple[float, ...]:
        """Return the least height of each row's zones, mm."""
        high: dict[Role, float] = {}
        for role, place, left, right in self._cells(across):
            high[role] = max(high.get(role, 0.0), self.columns.height(role, place, right - left))
        return tuple(max(high[role] for role in band) for band in bands(self.needs.arrangement))

    def _down(self, high: Sequence[float], strip: ZoneStrip, size: float) -> Stretches | None:
        stretches = []
        for zones in high:
            head = strip.height + (HEAD + strip.air) * size
            stretches.append(Stretch(head, grows=False, cuttable=False))
            stretches.append(Stretch(zones, tied=True))
        return divide(tuple(stretches), self.grid.heights)

    def _placed(
        self, across: dict[int, Stretches], down: Stretches, strip: ZoneStrip, size: float
    ) -> Mat | None:
        """Return the mat with every zone and word in its place, or None if one has no room."""
        order, every = roles(self.needs.arrangement), bands(self.needs.arrangement)
        tops = {role: 2 * row for row, band in enumerate(every) for role in band}
        zones: list[Zone] = []
        headings: list[Label] = []
        outlines: dict[Role, Rect] = {}
        for role, place, left, right in self._cells(across):
            top, cell, bottom = down.edges[tops[role] : tops[role] + 3]
            rect = Rect(left, cell, right - left, bottom - cell)
            zone = self.columns.zone(role, place, rect, self.grid.tiles)
            if zone is None:
                return None
            zones.append(zone)
            middle = cell - (UNDER + strip.air / 2) * size
            headings.append(self._heading(zone, size, middle))
            x = outlines.get(role, rect).x
            outlines[role] = Rect(x, top, right - x, bottom - top)
        over = [outlines[role].as_high(strip.height) for role in order]
        marks = self._marks(order, over, strip)
        if marks is None:
            return None
        return Mat(
            arrangement=self.needs.arrangement,
            unit=self.grid.paper.unit_mm,
            manner=self.manner,
            zones=tuple(zones),
            labels=(*headings, *marks[0], *self._written(zones, headings)),
            icons=tuple(marks[1]),
            outlines=tuple(outlines[role] for role in order),
            strips=tuple(over),
            tiles=self.grid.tiles,
            across=self.grid.across,
            turned=self.grid.turned,
        )

    def _heading(self, zone: Zone, size: float, middle: float) -> Label:
        """Return the heading of a zone, across its column or the widest part on one sheet."""
        spans = self._spans(zone.rect.x, zone.rect.right)
        low, high = max(spans, key=lambda span: span[1] - span[0])
        if len(spans) == 1:
            low, high = zone.rect.x, zone.rect.right
        heading = self.text.headings[zone.place]
        return centred(LabelKind.HEADING, zone.role, heading, size, (low + high) / 2, middle)

    def _marks(
        self, order: Sequence[Role], over: Sequence[Rect], strip: ZoneStrip
    ) -> tuple[list[Label], list[Icon]] | None:
        """Return what stands in the strips ``over`` the zones, or None where it has no room."""
        labels, icons = list[Label](), list[Icon]()
        for index, (role, area) in enumerate(zip(order, over, strict=True)):
            spans = [
                Rect(low, area.y, high - low, area.height)
                for low, high in self._spans(area.x, area.right)
            ]
            marks = strip.marks(role, index, area, spans)
            if marks is None:
                return None
            labels += marks[0]
            icons += marks[1]
        return labels, icons

    def _written(self, zones: Sequence[Zone], headings: Sequence[Label]) -> Iterator[Label]:
        """Yield what stands in the columns, and the decimal point on the line after the ones.

        Where a join runs along that line, the point stands before it.
        """
        told = [label for zone in zones for label in self._told(zone)]
        yield from told
        solid = [label.rect for label in (*told, *headings)]
        solid += [rect for zone in zones for rect in (*zone.slots, *zone.frames, zone.box)]
        for zone, heading in zip(zones, headings, strict=True):
            if not self.text.point or zone.place != HUNDREDTHS.decimals:
                continue
            for y in (heading.rect.y + heading.rect.height / 2, zone.box.bottom - POINT):
                on_line = Rect(zone.rect.right - POINT, y - POINT, 2 * POINT, 2 * POINT)
                for spot in (on_line, on_line.moved(-POINT - 0.5, 0)):
                    if on_one(spot, self.grid.tiles) and not any(map(spot.overlaps, solid)):
                        size = 6 * POINT
                        yield Label(LabelKind.POINT, zone.role, spot, self.text.point, size)
                        break

    def _told(self, zone: Zone) -> Iterator[Label]:
        """Yield what is said in a column: how a pile grows, in the first what the box is for.

        Not both in one row, where they read as one sentence, if there is room above the box.
        """
        text, size, box = self.text, self.text.adult, zone.box
        solid = (*zone.slots, *zone.frames, box)
        level = box.y + box.height / 2
        if zone.place > 1 and len(zone.frames) == 1 and len(zone.slots) > 1:
            first, y = zone.frames[0], zone.slots[-1].bottom + 0.9 * size
            off = first.x + (first.width - metrics.width(text.pile, size)) / 2
            start = max(off, zone.rect.x + OFF_LINE)
            below = line(LabelKind.PILE, zone.role, text.pile, size, start, y)
            left = max(box.right + 1, min(box.right + 3, zone.rect.right - 1.5 - below.rect.width))
            beside = line(LabelKind.PILE, zone.role, text.pile, size, left, level)
            ways = ((below,), (beside,), self._in_rows(zone))
            for label in self._first_free(ways, zone, solid):
                solid = (*solid, label.rect)
                yield label
        if zone.place == self.needs.places - 1:
            wide = metrics.width(text.count, size)
            middle, y = box.x + box.width / 2, box.y - 0.7 * size
            before = line(LabelKind.COUNT, zone.role, text.count, size, box.x - 3 - wide, level)
            above = centred(LabelKind.COUNT, zone.role, text.count, size, middle, y)
            spots = [(before,), (above,)]
            if any(rect.x > box.right and rect.bottom > box.y for rect in solid):
                apart = line(LabelKind.COUNT, zone.role, text.count, size, box.right - wide, y)
                spots.insert(0, (apart,))
            yield from self._first_free(spots, zone, solid)

    def _in_rows(self, zone: Zone) -> tuple[Label, ...]:
        """Return how a pile grows in rows at the right of its box, as wide as there is room."""
        text, size, box = self.text, self.text.adult, zone.box
        left, lead = box.right + 3, 1.2 * size
        rows = metrics.wrap(text.pile, size, max(lead, zone.rect.right - 1.5 - left))
        first = box.y + (box.height - lead * (len(rows) - 1)) / 2
        return tuple(
            line(LabelKind.PILE, zone.role, said, size, left, first + lead * row)
            for row, said in enumerate(rows)
        )

    def _first_free(
        self, ways: Sequence[Sequence[Label]], zone: Zone, solid: Sequence[Rect]
    ) -> Sequence[Label]:
        """Return the labels of the first of ``ways`` in ``zone`` clear of what is ``solid``."""
        inside = zone.rect.inset(1)
        for labels in ways:
            if all(
                inside.holds(label.rect)
                and on_one(label.rect, self.grid.tiles)
                and not any(label.rect.overlaps(other) for other in solid)
                for label in labels
            ):
                return labels
        return ()
