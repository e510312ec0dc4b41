"""What falls off in the pictures of a stack: hatched, so that it is seen on a poor copy too."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from peek import photocopied, picture

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import cut_map
from kitbuilder.layout.cutting.line_segments import slanting
from kitbuilder.layout.cutting.stack_page import stack_pages
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.layout.pieces.piece_sheets import piece_plan
from kitbuilder.number import Pieces
from kitbuilder.press.printing import fitted_paper


def test_strokes_of_a_hatch_reach_from_side_to_side_at_one_slant() -> None:
    for wide, high in ((30.0, 1.0), (1.0, 30.0), (20.0, 12.0)):
        strokes = slanting(wide, high, 2.0)
        assert len(strokes) >= (wide + high) / 2 - 1
        for x1, y1, x2, y2 in strokes:
            assert x2 - x1 == pytest.approx(y1 - y2)
            assert x1 == 0 or y1 == pytest.approx(high)
            assert y2 == 0 or x2 == pytest.approx(wide)


def fallen(page: Sheet) -> Iterator[Rect]:
    """Yield what falls off on ``page`` and is more than a hem."""
    for item in page.items:
        if item.what == "falls" and min(item.rect.width, item.rect.height) > 3:
            yield item.rect


@pytest.mark.parametrize("look", ["plain", "spare"])
def test_what_falls_off_is_seen_on_a_poor_copy(look: str) -> None:
    style = Style(fitted_paper("a4"), look=designs.look(look))
    plan = piece_plan(Pieces(10, 6, 5), style.paper, CutWish(6, 5))
    pages = stack_pages(cut_map(plan, (), 5), Bag(), style)
    sheet, falls = next((page, some) for page in pages if (some := list(fallen(page))))
    alone = tuple(item for item in sheet.items if item.what in ("falls", "hatch"))
    copy = photocopied(picture(draw_sheet(replace(sheet, items=alone), 1, style), 200))
    for rect in falls:
        x, y, right, low = (
            round(v * 200 / 25.4) for v in (rect.x, rect.y, rect.right, rect.bottom)
        )
        assert copy.crop((x + 4, y + 4, right - 4, low - 4)).getextrema()[0] == 0
