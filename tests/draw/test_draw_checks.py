"""The checkers at the end of drawing and binding, each with something that makes it fail."""

import pypdfium2 as pdfium
import pytest
from PIL import ImageChops

from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.pages.verify_words import check_words
from kitbuilder.draw.parts.pictogram_shapes import PICTOGRAMS, GridShape
from kitbuilder.draw.piece_grids import merged
from kitbuilder.draw.primitives import Figure, Strokes
from kitbuilder.layout.model import Rect
from kitbuilder.number import Sum
from kitbuilder.output.cutter import svg
from kitbuilder.output.pdf.document import pdf

INSIDE = Rect(5, 5, 90, 90)

BAR = Figure((Strokes(((0, 0, 2, 0), (0, 0, 0, 20), (2, 0, 2, 20)), 0.1, "#333333"),), 2, 20)


def canvas() -> Canvas:
    return Canvas("page", 100, 100, designs.look())


def test_words_apart_and_inside_pass() -> None:
    page = canvas()
    page.text(10, 20, "ones", 5)
    page.text(10, 27, "tens", 5)
    check_words(page, INSIDE)


def test_words_in_the_margin_are_found() -> None:
    page = canvas()
    page.text(2, 20, "ones", 5)
    with pytest.raises(ValueError, match=r"'ones' .* leave"):
        check_words(page, INSIDE)


def test_words_on_words_are_found() -> None:
    page = canvas()
    page.text(10, 20, "ones", 5)
    page.text(14, 21, "tens", 5)
    with pytest.raises(ValueError, match="'ones' and 'tens' run together"):
        check_words(page, INSIDE)


def test_marks_off_the_page_are_found() -> None:
    page = canvas()
    with pytest.raises(ValueError, match="leaves the page"):
        page.text(90, 20, "hundreds", 5)
    with pytest.raises(ValueError, match="leaves the page"):
        page.lines([(10, 10, 110, 10)], 0.3, "#000000")
    with pytest.raises(ValueError, match=r"cannot be drawn|leaves the page"):
        page.lines([(10, 10, float("nan"), 10)], 0.3, "#000000")


def test_lines_that_touch_are_drawn_once() -> None:
    # two tens side by side share the side at x = 10
    left = [(0, 0, 10, 0), (10, 0, 10, 100), (0, 100, 10, 100), (0, 0, 0, 100)]
    right = [(10, 0, 20, 0), (20, 0, 20, 100), (10, 100, 20, 100), (10, 0, 10, 100)]
    assert merged([*left, *right]) == (
        (0, 0, 20, 0),
        (0, 100, 20, 100),
        (0, 0, 0, 100),
        (10, 0, 10, 100),
        (20, 0, 20, 100),
    )


def test_marks_look_as_another_program_draws_their_svg() -> None:
    # CairoSVG reads the SVG by rules of its own: the two renderings differ by smoothing alone.
    page = canvas()
    page.lines([(5, 5, 95, 5.5), (5, 20, 60, 20), (-0.0, 0.0, 0, 50)], 0.8, "#d55e00")
    page.lines([(10.125, 30, 10.125, 90)], 0.12, "#000000", layer="cut", dash="4 3")
    page.box(Rect(20, 30, 30, 12), fill="#ffcc00", stroke="#0000aa", width=0.6, radius=3)
    page.box(Rect(60, 30, 30, 12), stroke="#0000aa", width=0.6)
    page.shape([(20, 60), (40, 60), (30, 75)], "#007744")
    page.text(50, 80, "Ada 604 − 167", 7)
    page.figure(BAR, 82, 50)
    drawing = page.drawing()
    ours = pdf([drawing], "page", "en-GB")
    from cairosvg import svg2pdf  # slow to come by

    theirs = svg2pdf(bytestring=svg(drawing))  # its letters are outlines: no typeface is asked for
    one, other = (
        pdfium.PdfDocument(data)[0].render(scale=4).to_pil().convert("L") for data in (ours, theirs)
    )
    assert one.size == other.size
    apart = ImageChops.difference(one, other).histogram()
    assert sum(apart[64:]) < 0.001 * one.width * one.height


def test_a_title_of_any_letters_stands_in_the_document() -> None:
    # The title goes into the file as it is: nothing in it ends a string or begins a name.
    for title in ("/Root (x) \\) >> endobj", "Žofie 百 ½"):
        written = pdf([canvas().drawing()], title, "en-GB", 0)
        about = pdfium.PdfDocument(written).get_metadata_dict()
        assert about["Title"] == title
        assert about["CreationDate"] == "D:19700101000000Z"


def test_lines_that_are_no_numbers_are_found() -> None:
    with pytest.raises(ValueError, match="cannot be drawn"):
        canvas().lines([(1, 1, float("nan"), 1)], 0.1, "#000000")
    with pytest.raises(ValueError, match="leaves the page"):
        canvas().lines([(1, 1, 2, 1), (1, 1, 101, 1)], 0.1, "#000000")


@pytest.mark.parametrize(
    ("name", "sum_"), [("together", Sum(43, 17)), ("together-hundreds", Sum(254, 38))]
)
def test_the_mat_of_the_cover_is_true_for_a_sum(name: str, sum_: Sum) -> None:
    # of 43 were left four ones, and seven came out
    def is_one(shape: GridShape) -> bool:
        spans = (max(at) - min(at) for at in zip(*shape.contours[0], strict=True))
        return shape.fill in ("paper", "accent_tint") and all(span < 1.1 for span in spans)

    ones = [shape for shape in PICTOGRAMS[name] if is_one(shape)]
    out = sum(shape.fill == "accent_tint" for shape in ones)
    assert (out, len(ones) - out) == (sum_.part % 10, sum_.rest % 10)


@pytest.mark.parametrize("name", ["together", "together-hundreds"])
def test_the_mat_of_the_cover_has_the_part_below_the_whole(name: str) -> None:
    zones = [shape.contours[0] for shape in PICTOGRAMS[name] if shape.fill == "tint"]
    assert len(zones) == 2
    whole, part = ([point[1] for point in zone] for zone in zones)
    assert max(whole) < min(part)
    new = [s.contours[0] for s in PICTOGRAMS[name] if s.fill == "accent_tint"]
    assert new and all(min(part) < y < max(part) for one in new for _, y in one)
