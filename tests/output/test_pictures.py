"""Pictures of pages, the contact sheet, and how much of a page is inked."""

from io import BytesIO

import pytest
from PIL import Image

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Rect
from kitbuilder.output.pdf.document import pdf
from kitbuilder.output.png import inked, pictures


def page(width: float, height: float, black: Rect | None = None, colour: str = "#000000") -> bytes:
    canvas = Canvas("t", width, height, designs.look())
    if black:
        canvas.box(black, fill=colour)
    return pdf([canvas.drawing()] * 3, "t", "en-GB")


def test_a_picture_for_each_page_and_one_of_all() -> None:
    files = dict(pictures(page(210, 297, Rect(10, 10, 50, 50)), 50))
    assert list(files) == ["page-01.png", "page-02.png", "page-03.png", "pages.png"]
    first = Image.open(BytesIO(files["page-01.png"]))
    # 210 mm are 8.27 inches, at 50 dots an inch 413.4: pdfium rounds a page up.
    assert first.size == (414, 585)
    assert first.info["dpi"] == pytest.approx((50, 50), abs=0.1)
    contact = Image.open(BytesIO(files["pages.png"]))
    assert contact.height >= 330
    assert files == dict(pictures(page(210, 297, Rect(10, 10, 50, 50)), 50))


@pytest.mark.parametrize(
    ("rect", "colour", "share"),
    [
        (None, "#000000", 0.0),
        (Rect(0, 0, 100, 50), "#000000", 50.0),
        (Rect(0, 0, 50, 50), "#000000", 25.0),
        # A grey of 0x80 takes half the ink that black does: 50 % × (255 − 128) / 255.
        (Rect(0, 0, 100, 50), "#808080", 24.9),
    ],
)
def test_ink_is_the_covered_area(rect: Rect | None, colour: str, share: float) -> None:
    assert inked(page(100, 100, rect, colour)) == pytest.approx((share,) * 3, abs=0.3)


def test_the_spare_look_takes_less_ink_than_plain_and_bold_more() -> None:
    from kitbuilder.draw.draw_sheet import draw_sheet
    from kitbuilder.kit.records import CutWish
    from kitbuilder.layout.pieces.making import Making
    from kitbuilder.number import Pieces
    from kitbuilder.press.printing import fitted_paper

    paper, making, stock = fitted_paper("a4"), Making(), Pieces(18, 8, 1)
    plan = making.plan(stock, paper, CutWish())
    (sheet,) = making.sheets(plan, stock, Style(paper), CutWish())
    shares = []
    for name in ("spare", "plain", "bold"):
        drawing = draw_sheet(sheet, 2, Style(paper, designs.words(), designs.look(name)))
        shares.append(inked(pdf([drawing], "t", "en-GB"))[0])
        # a plain sheet's grid of 0.12 mm lines is told as drawn: both tell covered area
        drawn = 100 * drawing.ink_mm2 / (drawing.width * drawing.height)
        assert shares[-1] == pytest.approx(drawn, rel=0.03)
    assert shares == sorted(set(shares))
