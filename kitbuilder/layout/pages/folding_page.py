"""The page that shows how a thousand is folded: four pictures, and a question at the end."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.folding_pictures import banded, booked, cut_out, zigzag
from kitbuilder.layout.parts.block import MOST_SPREAD, Block, level, row, shared, stack
from kitbuilder.layout.parts.furniture import Heading, header, paper_sheets, rule, step_heading
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import lines

_GAP, _UNDER = 2.6, 2.4
_NARROW = 76.0
# Narrower cells than this, in mm, stand one below the other.


def folding_sheets(style: Style) -> tuple[Sheet, ...]:
    """Return the page on folding a thousand; two pages where the paper is small."""
    area, words = SheetArea.upright(style.paper), style.words
    heading = Heading(
        "scissors", words("title.folding"), ("adult", "child"), words("thousand.squares")
    )
    items, top = header(heading, area, style)
    body = area.body(top)
    across = 2 if (body.width - GUTTER) / 2 >= _NARROW else 1
    width = (body.width - GUTTER * (across - 1)) / across
    steps = [_step(number, width, style) for number in range(1, 5)]
    rows = [_beside(steps[k : k + across], width) for k in range(0, 4, across)]
    lead = lines(words("thousand.lead"), settings(style.look).text, body.width)
    blocks = [lead, *rows, _asked(body.width, style)]
    pages = _paged(blocks, body)
    return paper_sheets(SheetKind.FOLDING, items, pages, area, style)


def _paged(blocks: Sequence[Block], body: Rect) -> list[tuple[Item, ...]]:
    """Return the items of each page: as many blocks as it holds, air between them."""
    pages: list[list[Block]] = [[]]
    for block in blocks:
        used = sum(b.height + _GAP for b in pages[-1])
        if pages[-1] and used + block.height > body.height:
            pages.append([])
        pages[-1].append(block)
    return [shared(page, body, _GAP, MOST_SPREAD / 4).items for page in pages]


def _beside(steps: Sequence[tuple[Block, Block]], width: float) -> Block:
    """Return steps side by side: words in line above, pictures in line below."""
    heads = [head.as_wide(width) for head, _ in steps]
    high = max(head.height for head in heads)
    pictures = level([picture.as_wide(width) for _, picture in steps])
    return stack((Block(row(heads, GUTTER).items, width, high), row(pictures, GUTTER)), _UNDER)


def _step(number: int, width: float, style: Style) -> tuple[Block, Block]:
    """Return a step's heading with what is told, and its picture in the middle of ``width``."""
    words, text = style.words, settings(style.look).text
    key = ("cut", "fold", "close", "round")[number - 1]
    heading = step_heading(number, words(f"thousand.{key}"), width, style)
    told = lines(words(f"thousand.{key}_told"), text, width)
    picture = (cut_out, zigzag, booked, banded)[number - 1](width, style)
    spare = max(0.0, (width - picture.width) / 2)
    return stack((heading, told), 1.0), picture.moved(spare, 0)


def _asked(width: float, style: Style) -> Block:
    asks = speech("adult", style.words("thousand.asks"), width, style)
    return stack((rule(width, "rule"), asks), 2.0)
