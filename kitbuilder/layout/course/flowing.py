"""Blocks of a course's page between its header and its foot, on as many pages as they need."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header
from kitbuilder.layout.parts.sheet_area import SheetArea

LEAST, MOST = 2.0, 7.0
"""The least space between two blocks, and the most as a rule, in mm."""


def flowing(
    kind: SheetKind,
    heading: Heading,
    blocks: Sequence[Block],
    style: Style,
    most: float = MOST,
) -> Iterator[Sheet]:
    """Yield pages of ``kind`` with ``blocks`` in order, up to ``most`` mm of room between them."""
    area = SheetArea.upright(style.paper)
    head, top = header(heading, area, style)
    body, page = area.body(top), area.page
    for number, run in enumerate(_paged(blocks, body.height), 1):
        spare = body.height - sum(block.height for block in run)
        gap = min(most, spare / max(1, len(run) - 1))
        items = (*head, *stack(run, gap).at(body.x, body.y), *foot(Foot(), area, style))
        yield Sheet(kind, number, "paper", page.width, page.height, items)


def _paged(blocks: Sequence[Block], room: float) -> Iterator[list[Block]]:
    run: list[Block] = []
    for block in blocks:
        if run and sum(b.height + LEAST for b in run) + block.height > room:
            yield run
            run = []
        run.append(block)
    if run:
        yield run
