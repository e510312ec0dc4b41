"""The guards over a page, each with a page that makes it speak."""

from itertools import combinations, pairwise, product

import guards
import pytest
from grids import some
from peek import picture
from PIL import Image, ImageFilter

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.pictograms import draw_pictogram
from kitbuilder.draw.parts.small_pieces import draw_small_pieces
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Bubble, Rule, SmallPieces, State
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import placed_line

LOOK = designs.look()
STATES: tuple[State, ...] = ("here", "new", "gone", "needed")


def canvas(look: str = "plain") -> Canvas:
    return Canvas("page", 100, 100, designs.look(look))


def test_words_on_words_are_found() -> None:
    page = canvas()
    page.text(10, 20, "ones", 5)
    assert guards.words_apart(page.drawing()) == []
    page.text(14, 21, "tens", 5)
    assert guards.words_apart(page.drawing()) == ["'ones' stands on 'tens'"]


def test_words_at_the_edge_are_found() -> None:
    page = canvas()
    page.text(2, 20, "ones", 5)
    assert guards.words_inside(page.drawing()) == ["'ones' leaves the page"]


def test_words_out_of_their_bubble_are_found() -> None:
    style = Style(designs.paper("a5"))
    words = placed_line("Enough ones?", settings(style.look).speech, 22, 25)
    bubbles = (Item("bubble", Rect(20, 20, wide, 10), Bubble("adult")) for wide in (40, 20))
    sheets = [Sheet(SheetKind.GUIDE, 1, "paper", 148, 210, (each, words)) for each in bubbles]
    assert guards.words_in_boxes(sheets[0]) == []
    assert guards.words_in_boxes(sheets[1]) == ["'Enough ones?' leaves its box"]
    assert guards.unreadable(sheets, style) == ["page 2: 'Enough ones?' leaves its box"]


def test_rules_through_words_and_bubbles_on_them_are_found() -> None:
    bubble = Item("bubble", Rect(20, 20, 40, 10), Bubble("adult"))
    said = placed_line("step 3", settings(LOOK).least, 22, 25)
    rules = (Item("rule", Rect(10, y, 90, 0.01), Rule("rule")) for y in (30.4, 30.1, 25))
    apart, touching, through = (guards.cut_through([bubble, said, rule]) for rule in rules)
    assert apart == [] and touching == ["a rule runs through bubble"]
    assert through == ["a rule runs through bubble", "a rule runs through 'step 3'"]
    outside = placed_line("step 3", settings(LOOK).least, 12, 25)
    assert guards.cut_through([bubble, outside]) == ["a bubble stands on 'step 3'"]


def test_small_and_faint_words_are_found() -> None:
    page = canvas()
    page.text(10, 20, "small", 3.0)
    page.text(10, 40, "faint", 5, colour="#999999")
    page.box(Rect(9, 50, 60, 12), fill="#222222")
    page.text(10, 58, "dark", 5)
    assert guards.small_type(page.drawing()) == ["'small' is 3.00 mm"]
    assert [said.split()[0] for said in guards.faint_words(page.drawing())] == ["'faint'", "'dark'"]


def test_small_ones_and_empty_bands_are_found() -> None:
    one = Item("small_pieces", Rect(10, 10, 2, 2), SmallPieces((Rect(0, 0, 2, 2),), 2.0))
    assert guards.small_ones([one], 2.0) == []
    assert guards.small_ones([one], 2.2) == ["a one is 2.00 mm wide"]
    page = canvas()
    page.text(10, 20, "top", 5)
    page.text(10, 45, "middle", 5)
    assert guards.blank_bands(page.drawing()) == []
    page.text(10, 95, "foot", 5)
    assert guards.blank_bands(page.drawing()) == ["nothing stands from 46 to 92 mm"]


def test_ink_is_measured() -> None:
    page = canvas()
    page.box(Rect(10, 10, 50, 20), fill="#000000")
    assert abs(guards.ink(page.drawing()) - 0.1) < 0.002
    assert guards.is_light(page.drawing(), 0.102) and not guards.is_light(page.drawing(), 0.098)


def copies(unit: float, look: str = "plain") -> list[Image.Image]:
    """Return a ten in each state, as a poor photocopier leaves it."""
    page = canvas(look)
    patches = []
    for number, state in enumerate(STATES):
        at = Rect(10 + 15 * number, 10, unit, 10 * unit)
        draw_small_pieces(page, SmallPieces((Rect(0, 0, unit, 10 * unit),), unit, state), at)
        patches.append(at.inset(-0.5))
    return guards.copied_patches(page.drawing(), patches)


def test_the_four_states_survive_a_poor_photocopy() -> None:
    for look in designs.names("looks"):
        for unit in (2.2, 2.7, 3.8):
            for one, other in combinations(copies(unit, look), 2):
                assert guards.alike(one, other) < 0.97, (look, unit)
    same = copies(2.2)[0]
    assert guards.alike(same, same) == 1


@pytest.mark.parametrize("unit", [1.9, 2.5, 3.3, 4.2])
@pytest.mark.parametrize("look", designs.names("looks"))
def test_new_neighbours_stay_apart_in_a_poor_photocopy(look: str, unit: float) -> None:
    page, gap = canvas(look), 0.24 * unit  # as ones lie in a picture
    ones = tuple(Rect(0, k * (unit + gap), unit, unit) for k in range(3))
    draw_small_pieces(page, SmallPieces(ones, unit, "new"), Rect(10, 10, unit, 3 * unit + 2 * gap))
    left = Rect(10 + 0.3 * unit, 10 + 0.5 * unit, 0.4 * unit, 2 * (unit + gap))
    copy = guards.copied_patches(page.drawing(), [left])[0]
    column = [copy.getpixel((copy.width // 2, y)) for y in range(copy.height)]
    assert sum(a != 0 and b == 0 for a, b in pairwise(column)) == 4, "four outlines, none merged"


def dots_across(copy: Image.Image) -> list[int]:
    """Return how many black dots the left side of a piece has in each row of ``copy``."""
    rows = []
    for y in range(copy.height):
        row = [copy.getpixel((x, y)) == 0 for x in range(copy.width)]
        first = row.index(True) if any(row) else len(row)
        rows.append(next((n for n, black in enumerate(row[first:]) if not black), len(row) - first))
    return rows


@pytest.mark.parametrize(
    ("look", "unit"), some(product(designs.names("looks"), (1.9, 2.5, 3.3)), 2)
)
def test_sides_hold_and_new_ones_are_thicker_in_a_poor_photocopy(look: str, unit: float) -> None:
    tops: tuple[tuple[State, float], ...] = (("here", 10.0), ("new", 30.0))
    widths: dict[State, list[int]] = {"here": [], "new": []}
    for place in range(8):  # at every place that a side may have among the dots of the copy
        page, left = canvas(look), 10 + 0.011 * place
        sides = []
        for state, top in tops:
            one = Rect(left, top, unit, unit)
            draw_small_pieces(page, SmallPieces((Rect(0, 0, unit, unit),), unit, state), one)
            sides.append(Rect(left - 0.3, top + 0.4 * unit, unit / 2 + 0.3, 0.2 * unit))
        for held, copy in zip(
            widths.values(), guards.copied_patches(page.drawing(), sides), strict=True
        ):
            held += dots_across(copy)
    assert min(widths["here"]) > 0, "a side is lost"
    assert sum(widths["new"]) > 1.2 * sum(widths["here"])


@pytest.mark.parametrize("look", designs.names("looks"))
def test_a_new_ten_is_told_from_one_that_it_touches_in_a_poor_photocopy(look: str) -> None:
    # its sides were five thirds as wide
    unit, widths = 2.2, [0, 0]
    for place in range(8):
        page, left = canvas(look), 10 + 0.011 * place
        tens = [Rect(x, 0, unit, 10 * unit) for x in (0, 1.22 * unit)]
        for ten, state in zip(tens, STATES, strict=False):
            draw_small_pieces(page, SmallPieces((ten,), unit, state), Rect(left, 10, 9, 30))
        sides = [Rect(left + ten.x - 0.15, 10 + 1.3 * unit, 0.5, 0.5) for ten in tens]
        for k, copy in enumerate(guards.copied_patches(page.drawing(), sides)):
            widths[k] += sum(dots_across(copy))
    assert widths[1] > 1.75 * widths[0] > 0


@pytest.mark.parametrize("look", designs.names("looks"))
def test_sides_hold_in_a_pale_photocopy(look: str) -> None:
    page, unit = canvas(look), 1.9
    ten = Rect(10, 10, unit, 10 * unit)
    draw_small_pieces(page, SmallPieces((ten.moved(-10, -10),), unit), ten)
    pale = picture(page.drawing(), 300).convert("L").filter(ImageFilter.GaussianBlur(0.8))
    pale = pale.point(lambda value: 0 if value < 125 else 255)
    scale = 300 / 25.4
    for x in (ten.x, ten.right):
        left, top, right, low = (round(v * scale) for v in (x - 0.4, 11, x + 0.4, 28))
        assert all(dots_across(pale.crop((left, top, right, low)))), x


@pytest.mark.parametrize("look", designs.names("looks"))
def test_cuts_are_thicker_than_the_grid_in_a_poor_photocopy(look: str) -> None:
    page, marks = canvas(look), designs.look(look).lines_mm
    inks, found = designs.look(look).ink, [0, 0]
    sides = [Rect(x - 1, 12, 2, 1) for x in range(10, 90, 5)]
    for k, side in enumerate(sides):  # at every place that a line may have among the dots
        width, ink = ((marks.cut, inks.cut), (marks.grid, inks.grid))[k % 2]
        x = side.x + 1 + 0.011 * (k // 2)
        page.lines([(x, 10, x, 20)], width, ink)
    for k, copy in enumerate(guards.copied_patches(page.drawing(), sides)):
        found[k % 2] += max(dots_across(copy))
    assert found[0] >= 2.7 * found[1], found


def test_the_grid_survives_a_poor_photocopy() -> None:
    unit = 2.7
    page = canvas()
    ten = Rect(10, 10, unit, 10 * unit)
    draw_small_pieces(page, SmallPieces((ten.moved(-10, -10),), unit), ten)
    copy = guards.copied_patches(page.drawing(), [ten])[0]
    middle = copy.width // 2
    column = [copy.getpixel((middle, y)) for y in range(6, copy.height - 6)]
    seen = sum(a != 0 and b == 0 for a, b in pairwise(column))
    assert seen == 9, "nine lines between ten ones"


@pytest.mark.parametrize("unit", [2.2, 2.41, 2.7])
@pytest.mark.parametrize("state", ["here", "new"])
def test_every_line_of_a_hundred_holds_in_a_poor_photocopy(state: State, unit: float) -> None:
    for look in designs.names("looks"):
        page = canvas(look)
        box = Rect(10.03, 10.07, 10 * unit, 10 * unit)
        rects = (box.moved(-box.x, -box.y),)
        draw_small_pieces(page, SmallPieces(rects, unit, state), box)
        copy = poor_copy(page)
        scale, between = 300 / 25.4, round((box.y + 1.5 * unit) * 300 / 25.4)
        start, end = (round(x * scale) for x in (box.x + unit / 2, box.right - unit / 2))
        row = [copy.getpixel((x, between)) for x in range(start, end)]
        assert sum(a != 0 and b == 0 for a, b in pairwise(row)) == 9, look


@pytest.mark.parametrize("look", designs.names("looks"))
def test_grid_and_folds_of_a_sheet_hold_in_a_poor_photocopy(look: str) -> None:
    # at every place that a line may have among the dots of the copy
    page, marks = canvas(look), designs.look(look)
    places = [20 + 3.017 * k for k in range(20)]
    folded = marks.lines_mm.guide, marks.ink.frame
    for y, (width, ink) in ((10, (marks.lines_mm.grid, marks.ink.grid)), (30, folded)):
        page.lines([(x, y, x, y + 10) for x in places], width, ink)
    copy = poor_copy(page)
    for y in (15, 35):
        row = [copy.getpixel((x, round(y * 300 / 25.4))) for x in range(copy.width)]
        assert sum(a != 0 and b == 0 for a, b in pairwise(row)) == len(places), (look, y)


def poor_copy(page: Canvas) -> Image.Image:
    grey = picture(page.drawing(), 300).convert("L").filter(ImageFilter.GaussianBlur(0.945))
    return grey.point(lambda value: 0 if value < 165 else 255)


def test_a_hundred_gone_from_under_others_keeps_its_outline_in_a_poor_copy() -> None:
    page, box = canvas(), Rect(10, 10, 22, 22)
    pieces = SmallPieces((Rect(0, 0, 22, 22),), 2.2, "gone", (Rect(18, 8, 5, 5),))
    draw_small_pieces(page, pieces, box)
    copy = poor_copy(page)
    around = copy.point(lambda value: 255 - value).getbbox()
    assert around is not None
    assert all(around[n + 2] - around[n] > 21 / 25.4 * 300 for n in (0, 1)), "only its strike"


def test_of_a_hundred_under_another_no_grid_is_drawn_and_of_one_beside_it_all() -> None:
    dark = []
    for other in (Rect(1.1, 1.1, 22, 22), Rect(0, 24, 22, 22), Rect(0, -24, 22, 22)):
        page = canvas()
        pieces = SmallPieces((Rect(0, 0, 22, 22), other), 2.2, "here")
        draw_small_pieces(page, pieces, Rect(40, 40, 22, 22))
        left, top, right, low = (round(n / 25.4 * 300) for n in (40.3, 40.3, 61.7, 40.9))
        dark.append(poor_copy(page).crop((left, top, right, low)).histogram()[0])
    assert dark[0] == 0 < dark[1] == dark[2]


def test_a_gone_ten_keeps_its_outline_in_a_poor_copy() -> None:
    page, box = canvas(), Rect(10, 10, 2.3, 23)
    draw_small_pieces(page, SmallPieces((Rect(0, 0, 2.3, 23),), 2.3, "gone"), box)
    around = poor_copy(page).point(lambda value: 255 - value).getbbox()
    assert around is not None
    assert (around[3] - around[1]) / 300 * 25.4 > 22, "a slash alone told of no ten"


@pytest.mark.parametrize("state", ["here", "new"])
def test_a_hundred_keeps_its_cross_in_a_pale_photocopy(state: State) -> None:
    # grey lines vanish there, or leave stripes; four fields of 25 tell a hundred from tens
    unit = 2.2
    page = canvas()
    hundred = Rect(10, 10, 10 * unit, 10 * unit)
    draw_small_pieces(page, SmallPieces((Rect(0, 0, 22, 22),), unit, state), hundred)
    scale = 300 / 25.4
    grey = picture(page.drawing(), 300).convert("L").filter(ImageFilter.GaussianBlur(0.8))
    pale = grey.point(lambda value: 0 if value < 120 else 255)
    middle, start, end = round(21 * scale), round(11 * scale), round(31 * scale)
    for turned in (pale, pale.transpose(Image.Transpose.TRANSPOSE)):
        dark = [
            any(turned.getpixel((x, y)) == 0 for x in range(middle - 3, middle + 4))
            for y in range(start, end)
        ]
        assert sum(dark) > 0.97 * len(dark)


def test_ink_that_is_hidden_is_not_reckoned() -> None:
    # hundreds that lie over each other, and two people whose faces are white discs on black ones
    page = canvas()
    stack = tuple(Rect(k, k, 30, 30) for k in range(4))
    draw_small_pieces(page, SmallPieces(stack, 3.0), Rect(5, 5, 33, 33))
    draw_pictogram(page, "together-hundreds", Rect(5, 50, 66, 40))
    drawing = page.drawing()
    reckoned = drawing.ink_mm2 / (drawing.width * drawing.height)
    assert abs(reckoned - guards.ink(drawing, 300)) < 0.004
