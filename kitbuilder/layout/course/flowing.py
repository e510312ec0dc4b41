"""Blocks of a course's page between its header and its foot, on as many pages as they need."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, alike, stack, without_rules
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header
from kitbuilder.layout.parts.sheet_area import SheetArea

APART = 24.0
"""The most space in mm between two blocks where there are several pages: none ends half empty."""

LEAST, MOST = 2.0, 7.0
"""The least space between two blocks, and the most as a rule, in mm."""


def flowing(
    kind: SheetKind,
    heading: Heading,
    blocks: Sequence[Block],
    style: Style,
    most: float = MOST,
    over: tuple[Block, int] = (EMPTY, 0),
) -> Iterator[Sheet]:
    """Yield pages of ``kind`` with ``blocks`` in order, up to ``most`` mm of room between them.

    Twice as much where a quarter of the page would be empty else. What heads columns stands
    ``over`` so many blocks, the first as it comes: it is set again over one of them that begins a
    further page.
    """
    area = SheetArea.upright(style.paper)
    head, top = header(heading, area, style)
    body, page = area.body(top), area.page
    runs = _headed(blocks, over, body.height)
    for number, run in enumerate(runs, 1):
        held = without_rules(run)
        spare = body.height - sum(block.height for block in held)
        gaps = max(1, len(held) - 1)
        wide = 2 * most if spare - most * gaps > body.height / 4 else most
        gap = min(wide if len(runs) == 1 else APART, spare / gaps)
        alone = 0.4 * spare if len(held) == 1 else 0.0  # air on both sides, not all of it below
        items = (*head, *stack(held, gap).at(body.x, body.y + alone), *foot(Foot(), area, style))
        yield Sheet(kind, number, "paper", page.width, page.height, items)


def _headed(blocks: Sequence[Block], over: tuple[Block, int], room: float) -> list[list[Block]]:
    """Return ``blocks`` on pages of ``room`` mm, with ``over`` as ``flowing`` sets it again.

    It is set once where all blocks under it stand on a page, and that takes no page more.
    """
    runs = alike(blocks, room, LEAST)
    heads, count = over
    at = len(runs[0])
    if at >= count:
        return runs
    below = blocks[:count], blocks[count:]
    once = [run for some in below for run in alike(some, room, LEAST) if some]
    if len(once) <= len(runs) and len(once[0]) == count:
        return once
    rest = [stack((heads, blocks[at]), 1.6), *blocks[at + 1 :]]
    return [runs[0], *_headed(rest, (heads, count - at), room)]
