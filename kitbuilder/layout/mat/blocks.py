"""Turns what a mat must hold into blocks of columns and rows: the least room each one takes."""

from dataclasses import dataclass, replace
from itertools import product

from kitbuilder.kit.mat_needs import MatNeeds, Role, roles
from kitbuilder.layout.mat.arrangements import Lying, Tens, lyings
from kitbuilder.layout.mat.mat_records import FINGER, MatText
from kitbuilder.layout.mat.tiling import Segment

PAD = 3.0
"""Clear millimetres round words."""

LEAST_CELL = 20.0
"""A zone that holds nothing keeps at least so many mm."""


@dataclass(frozen=True, slots=True)
class Block:
    """Columns with a line of headings and rows of zones under it.

    ``rows`` lists the roles of each row: one, or two that lie beside each other with columns
    of their own. Columns run hundreds, tens, ones, for each role of a row. ``cells[row]``
    are least heights, ``columns`` least widths, mm. ``heads[row]`` says whether headings
    stand over that row, ``head`` mm high. A role's label and its number, ``number`` mm high,
    share one line or take ``lines`` = 2, in a strip of ``strip`` mm.
    """

    rows: tuple[tuple[Role, ...], ...]
    places: int
    tens: Tens
    columns: tuple[float, ...]
    cells: tuple[float, ...]
    heads: tuple[bool, ...]
    head: float
    strip: float
    number: float
    lines: int
    untidy: int

    @property
    def across(self) -> tuple[Segment, ...]:
        """The columns, left to right."""
        return tuple(
            Segment(width, True, True, 1 if index % self.places else 0)
            for index, width in enumerate(self.columns)
        )

    @property
    def down(self) -> tuple[Segment, ...]:
        """For each row its headings, if it has any, its line of labels and its zones."""
        found = []
        for headed, cell in zip(self.heads, self.cells, strict=True):
            if headed:
                found.append(Segment(self.head, False, False, 0))
            found.append(Segment(self.strip, False, False, 9 if headed else 0))
            found.append(Segment(cell, True, True, 2))
        return tuple(found)

    @property
    def size(self) -> tuple[float, float]:
        """Least width and height, mm."""
        return sum(self.columns), sum(segment.least for segment in self.down)

    def roomier(self, heads: tuple[bool, ...], number: float) -> "Block":
        """Return the same block with headings over more rows and more room for the number."""
        more = max(number, self.number)
        strip = self.strip + more - self.number if self.lines == 2 else max(self.strip, more)
        return replace(self, heads=heads, number=more, strip=strip)


def blocks(
    needs: MatNeeds, unit: float, text: MatText, tens: Tens
) -> tuple[tuple[Block, ...], ...]:
    """Return the shapes of each block of the mat, top to bottom, with tens lying one way.

    There is one block; for ``beside`` two, the whole above and the parts below.
    """
    if needs.arrangement == "beside":
        stacks: tuple[tuple[tuple[Role, ...], ...], ...] = ((("whole",),), (("part", "rest"),))
    else:
        stacks = (tuple((role,) for role in roles(needs.arrangement)),)
    return tuple(
        tuple(x for lines in (1, 2) for x in _shapes(needs, rows, unit, text, tens, lines))
        for rows in stacks
    )


def ways(needs: MatNeeds, role: Role, place: int, unit: float, tens: Tens) -> tuple[Lying, ...]:
    """Return the ways the fullest moment of one zone can lie."""
    return lyings(place, needs.holding(role, place).most, unit, tens)


def _shapes(
    needs: MatNeeds,
    rows: tuple[tuple[Role, ...], ...],
    unit: float,
    text: MatText,
    tens: Tens,
    lines: int,
) -> list[Block]:
    places = range(needs.places - 1, -1, -1)
    every = [role for row in rows for role in row]
    floor, strip = _label_line(needs, every, text, lines)
    widths = [
        sorted({x.width for role in every for x in ways(needs, role, k, unit, tens)})
        for k in places
    ]
    found = []
    for chosen in product(*widths):
        columns = [
            max(w + 2 * FINGER, text.heading_widths[k] + 2 * PAD)
            for w, k in zip(chosen, places, strict=True)
        ]
        cells, untidy = _heights(needs, rows, columns, unit, tens)
        if cells:
            factor = max(1.0, floor / sum(columns))
            found.append(
                Block(
                    rows=rows,
                    places=needs.places,
                    tens=tens,
                    columns=tuple(w * factor for w in columns) * len(rows[0]),
                    cells=cells,
                    heads=(True, *(False,) * (len(rows) - 1)),
                    head=text.heading_height,
                    strip=strip,
                    number=text.number_height,
                    lines=lines,
                    untidy=untidy,
                )
            )
    return _fit(found)


def _label_line(
    needs: MatNeeds, every: list[Role], text: MatText, lines: int
) -> tuple[float, float]:
    """Return the least width and the height of a line of labels, mm."""
    label = max(text.role_widths[roles(needs.arrangement).index(role)] for role in every)
    if lines == 1:
        return label + text.number + 3 * PAD, max(text.role_height, text.number_height)
    return max(label, text.number) + 2 * PAD, text.role_height + text.number_height


def _heights(
    needs: MatNeeds,
    rows: tuple[tuple[Role, ...], ...],
    columns: list[float],
    unit: float,
    tens: Tens,
) -> tuple[tuple[float, ...], int]:
    cells, untidy = [], 0
    places = range(needs.places - 1, -1, -1)
    for row in rows:
        tall = LEAST_CELL
        for role in row:
            for width, place in zip(columns, places, strict=True):
                fits = [
                    x
                    for x in ways(needs, role, place, unit, tens)
                    if x.width + 2 * FINGER <= width + 1e-9
                ]
                if not fits:
                    return (), 0
                low = min(fits, key=lambda x: (x.height, x.untidy))
                tall = max(tall, low.height + 2 * FINGER)
                untidy += low.untidy
        cells.append(tall)
    return tuple(cells), untidy


def _fit(found: list[Block]) -> list[Block]:
    """Leave out blocks that take more room both ways than a tidier one."""
    rows = [(*block.size, block.untidy, index) for index, block in enumerate(found)]
    return [
        found[index]
        for wide, high, untidy, index in rows
        if not any(
            w <= wide + 1e-9 and h <= high + 1e-9 and (u, i) < (untidy, index)
            for w, h, u, i in rows
        )
    ]
