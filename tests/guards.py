"""Guards over a drawing: what must be true of every printed page, whatever is on it.

Each returns what is wrong, in words, and nothing where all is well.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from peek import photocopied, picture
from PIL import Image, ImageChops

from kitbuilder.design import metrics
from kitbuilder.design.look import WHITE, contrast
from kitbuilder.design.style import Style
from kitbuilder.design.typefaces import HEADING_FAMILY
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.ink import flattened
from kitbuilder.draw.primitives import Box, Mark, Path, Placed, Shape, Strokes, Words
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.contents import Arrow, Disc, Line, SmallPieces
from kitbuilder.layout.picture.aside import letters
from kitbuilder.layout.picture.frame_records import MatFrame, ZoneFrame
from kitbuilder.layout.picture.ground import covered

LEAST_TYPE = 10 * 25.4 / 72
"""Ten points, in mm."""


def unreadable(sheets: Sequence[Sheet], style: Style, least_one: float = 0.0) -> list[str]:
    """Return what cannot be read well on pages for people, whatever stands on them, by page.

    ``least_one`` is the least width in mm of a one in their pictures.
    """
    found = []
    for page, sheet in enumerate(sheets, 1):
        drawing = draw_sheet(sheet, page, style)
        faults = [
            *words_apart(drawing),
            *words_inside(drawing),
            *words_in_boxes(sheet),
            *cut_through(sheet.items),
            *small_type(drawing),
            *faint_words(drawing, style.look.text_contrast),
            *blank_bands(drawing),
            *small_ones(sheet.items, least_one),
            *hiding_numbers(sheet.items),
            *counts_on_pieces(sheet.items),
        ]
        found += [f"page {page}: {fault}" for fault in faults]
    return found


def word_box(words: Words) -> Rect:
    """Return the box of a run of words: capitals above, the depth of a g below."""
    text = words.text.rstrip() or " "
    across = max(0.01, metrics.width(text, words.size, words.family))
    above = metrics.digit_height(words.size, words.family)
    return Rect(words.x, words.y - above, across, above + 0.2 * words.size)


def words_apart(drawing: Drawing) -> list[str]:
    """Return the words that stand on other words."""
    words = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.text.strip()]
    boxes = [(mark.text, word_box(mark)) for mark in words]
    return [
        f"{one!r} stands on {other!r}"
        for (one, a), (other, b) in combinations(boxes, 2)
        if a.overlaps(b, 0.4)
    ]


def number_apart(drawing: Drawing, page: int, least: float = 0.5) -> list[str]:
    """Return what comes nearer to the number of ``page`` than ``least`` mm: words and lines."""
    words = [mark for mark in drawing.marks if isinstance(mark, Words)]
    numbers = [w for w in words if w.text == str(page) and w.family == HEADING_FAMILY]
    if not numbers:
        return [f"page {page} has no number"]
    number = max(numbers, key=lambda w: w.y)
    box = word_box(number)
    box = Rect(box.x, box.y, box.width, box.height - 0.2 * number.size)  # digits hang no tail
    near = box.inset(-least)
    said = [f"{w.text!r}" for w in words if w is not number and word_box(w).overlaps(near)]
    drawn = (mark for mark in _spread(drawing) if isinstance(mark, Box | Strokes | Path))
    said += ["a line" for mark in drawn if any(r.overlaps(near) for r in _inked(mark))]
    return [f"page {page}: {what} at its number" for what in said]


def _inked(mark: Box | Strokes | Path) -> Iterator[Rect]:
    """Yield the lines of ``mark`` as thin rectangles, and a box that it fills but for white."""
    ends: tuple[tuple[float, float, float, float], ...]
    if isinstance(mark, Strokes):
        ends, half = mark.lines, mark.width / 2
    elif isinstance(mark, Path):
        contours = [flattened(contour) for contour in mark.contours]
        ends = tuple((*a, *b) for points in contours for a, b in pairwise(points))
        half = max(0.01, mark.line / 2)
    else:
        x, y, right, bottom = mark.x, mark.y, mark.x + mark.width, mark.y + mark.height
        ends = ((x, y, right, y), (right, y, right, bottom), (x, bottom, right, bottom))
        ends = (*ends, (x, y, x, bottom)) if mark.stroke else ()
        half = mark.line / 2
        if mark.fill not in ("", "none", WHITE):
            yield Rect(x, y, mark.width, mark.height)
    for x1, y1, x2, y2 in ends:
        across, down = abs(x2 - x1) + 2 * half, abs(y2 - y1) + 2 * half
        yield Rect(min(x1, x2) - half, min(y1, y2) - half, across, down)


def words_inside(drawing: Drawing, margin: float = 4.0) -> list[str]:
    """Return the words that come nearer than ``margin`` mm to the edge of the page."""
    inside = Rect(0, 0, drawing.width, drawing.height).inset(margin)
    words = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.text.strip()]
    return [f"{w.text!r} leaves the page" for w in words if not inside.holds(word_box(w), 0.05)]


def words_in_boxes(sheet: Sheet) -> list[str]:
    """Return the lines that begin in a panel or bubble and do not end in it."""
    frames = [i.rect for i in sheet.items if i.what in ("bubble", "digit_box", "panel", "zone")]
    found = []
    for item in sheet.items:
        if not isinstance(item.content, Line):
            continue
        middle = Rect(item.rect.x, item.rect.y + item.rect.height / 2, 0.01, 0.01)
        for frame in frames:
            if frame.holds(middle) and item.rect.right > frame.right + 0.05:
                found.append(f"{item.content.text!r} leaves its box")
    return found


_OFF = {"bubble": -0.3, "step_number": -0.3, "zone": -0.3, "pictogram": 0.5, "line": 0.05}
"""How deep in mm a rule may run into what stands on a page, or how far off it is at least."""


def cut_through(items: Sequence[Item]) -> list[str]:
    """Return what a rule of the page runs through, and what stands on a bubble and not in it."""
    solid = [
        (repr(i.content.text), letters(i), i.what)
        if isinstance(i.content, Line)
        else (i.what, i.rect, i.what)
        for i in items
        if i.what in _OFF
    ]
    rules = [i.rect for i in items if i.what == "rule"]
    found = [
        f"a rule runs through {name}"
        for name, rect, what in solid
        if any(rule.overlaps(rect, _OFF[what]) for rule in rules)
    ]
    bubbles = [rect for _, rect, what in solid if what == "bubble"]
    return found + [
        f"a bubble stands on {name}"
        for bubble in bubbles
        for name, rect, _ in solid
        if bubble.overlaps(rect, 0.05) and not bubble.holds(rect._replace(width=0.01), 0.3)
    ]


def astray_arrows(scene: MatScene, frame: MatFrame, items: Sequence[Item]) -> list[str]:
    """Return the arrows in a mat's picture that do not run from their move's zone into its other.

    What is taken out of the whole must also end in its own column.
    """
    arrows = [item for item in items if isinstance(item.content, Arrow)]
    if len(arrows) != len(scene.moves):
        return [f"{len(arrows)} arrows for {len(scene.moves)} moves"]
    found = []
    for move, item in zip(scene.moves, arrows, strict=True):
        assert isinstance(item.content, Arrow)
        points = [(item.rect.x + x, item.rect.y + y) for x, y in item.content.points]
        first, last = frame.zone(move.source[0]), frame.zone(move.target[0])
        if not _within(first, points[0]):
            found.append(f"the arrow from {first.role} begins elsewhere")
        column = last.columns[move.target[1]]
        apart = not column.x <= points[-1][0] <= column.x + column.width
        if not _within(last, points[-1]) or (first.role == "whole" and apart):
            found.append(f"the arrow into {last.role} ends elsewhere")
    return found


def _within(zone: ZoneFrame, point: tuple[float, float]) -> bool:
    x, y = point
    return zone.x <= x <= zone.x + zone.width and zone.y <= y <= zone.y + zone.height


def arrows_under_words(items: Sequence[Item]) -> list[str]:
    """Return the words and numbers that an arrow's shaft or head runs over, or that cut it."""
    found = []
    for item in items:
        if not isinstance(item.content, Arrow):
            continue
        arrow = item.content
        points = [(item.rect.x + x, item.rect.y + y) for x, y in arrow.points]
        gap = arrow.gap.moved(item.rect.x, item.rect.y) if arrow.gap else None
        boxes = covered(points, 1.1 * arrow.size)  # as in the look with the finest arrows
        for other in items:
            if isinstance(other.content, Line) and other.what == "line":
                rect = letters(other)
                if not (gap and gap.overlaps(rect)) and any(box.overlaps(rect) for box in boxes):
                    found.append(f"an arrow runs over {other.content.text!r}")
        if gap and boxes[-1].overlaps(gap):
            found.append("a question stands on an arrow's head")
    return found


def hiding_numbers(items: Sequence[Item]) -> list[str]:
    """Return which numbers of arrows touch a piece or a count, or are read as one more digit."""
    pieces = [p.moved(i.rect.x, i.rect.y) for i in items for p in _pieces(i)]
    boxes = [i.rect for i in items if i.what == "digit_box"]
    counts = [
        (letters(i), 0.6 * i.content.size)
        for i in items
        if i.what == "line" and isinstance(i.content, Line) and i.content.text.isdigit()
    ]
    found = []
    for disc in (i.rect for i in items if i.what == "order" and isinstance(i.content, Disc)):
        where = f"the number of an arrow at {disc.x:.0f}, {disc.y:.0f}"
        if any(disc.inset(-0.1).overlaps(piece) for piece in pieces):
            found.append(f"{where} touches a piece")
        if any(disc.inset(0.05).overlaps(box) for box in boxes):
            found.append(f"{where} hides what is counted")
        for count, digit in counts:
            level = min(disc.bottom, count.bottom) - max(disc.y, count.y) > 0.35 * disc.height
            if level and max(count.x - disc.right, disc.x - count.right) < digit - 0.01:
                found.append(f"{where} is read as a digit of a count")
    return found


def counts_on_pieces(items: Sequence[Item]) -> list[str]:
    """Return the counts, and their boxes, that lie on a piece or touch one."""
    pieces = [p.moved(i.rect.x, i.rect.y) for i in items for p in _pieces(i)]
    counts = [
        (f"the count {i.content.text}", letters(i))
        for i in items
        if i.what == "line" and isinstance(i.content, Line) and i.content.text.isdigit()
    ]
    counts += [("the box of a count", i.rect) for i in items if i.what == "digit_box"]
    return [
        f"{said} lies on a piece at {rect.x:.0f}, {rect.y:.0f}"
        for said, rect in counts
        if any(rect.inset(-0.1).overlaps(piece) for piece in pieces)
    ]


def crowded_numbers(items: Sequence[Item], least: float) -> list[str]:
    """Return the counts closer than ``least`` mm to a ring or an arrow, with their slash."""
    counts = [
        (i.content.text, letters(i).inset(-0.1 * i.content.size if i.content.struck else 0.0))
        for i in items
        if i.what == "line" and isinstance(i.content, Line) and i.content.text.isdigit()
    ]
    counts += [("box", i.rect) for i in items if i.what == "digit_box"]
    near = [("a ring", i.rect) for i in items if i.what == "loop"]
    for item in items:
        if isinstance(item.content, Arrow):
            points = [(item.rect.x + x, item.rect.y + y) for x, y in item.content.points]
            near += [("an arrow", box) for box in covered(points, 1.1 * item.content.size)]
    return [
        f"{name} is at {said!r}"
        for said, rect in counts
        for name, box in near
        if box.inset(-least).overlaps(rect)
    ]


def _pieces(item: Item) -> tuple[Rect, ...]:
    return item.content.rects if isinstance(item.content, SmallPieces) else ()


def small_type(drawing: Drawing, least: float = LEAST_TYPE) -> list[str]:
    """Return the words that are smaller than ``least`` mm."""
    words = [mark for mark in drawing.marks if isinstance(mark, Words) and mark.text.strip()]
    return [f"{w.text!r} is {w.size:.2f} mm" for w in words if w.size < least - 0.01]


def small_ones(items: Sequence[Item], least: float) -> list[str]:
    """Return the units of pictures in which a one is narrower than ``least`` mm."""
    units = {i.content.unit for i in items if isinstance(i.content, SmallPieces)}
    return [f"a one is {unit:.2f} mm wide" for unit in sorted(units) if unit < least - 0.005]


def faint_words(drawing: Drawing, least: float = 4.5) -> list[str]:
    """Return the words whose contrast with what lies under them is less than ``least``."""
    found = []
    grounds: list[tuple[Rect, str]] = []
    for mark in _spread(drawing):
        if isinstance(mark, Words) and mark.text.strip():
            box = word_box(mark)
            under = (fill for rect, fill in reversed(grounds) if rect.holds(box, 0.6))
            ground = next(under, WHITE)
            if contrast(mark.colour, ground) < least:
                found.append(f"{mark.text!r} in {mark.colour} on {ground}")
        elif isinstance(mark, Box) and mark.fill not in ("", "none"):
            grounds.append((Rect(mark.x, mark.y, mark.width, mark.height), mark.fill))
        elif isinstance(mark, Path) and mark.fill not in ("", "none"):
            points = [p for contour in mark.contours for p in flattened(contour)]
            grounds.append((_around(points), mark.fill))
    return found


MOST_INK, MOST_OF_CARD = 0.06, 0.1
"""How dark a page to read may be in every look, and what is printed on card."""


def most_ink(sheet: Sheet) -> float:
    """Return how dark ``sheet`` may be: what is held, or what is read."""
    return MOST_OF_CARD if sheet.stock == "card" else MOST_INK


def ink(drawing: Drawing, dpi: int = 72, grey: bool = False) -> float:
    """Return how dark the page is on the whole, from 0 to 1.

    Below 300 dots an inch thin lines come out wider than they are printed: more ink, not less.
    """
    page = picture(drawing, dpi, grey).convert("L")
    counts = page.histogram()
    dark = sum((255 - value) * count for value, count in enumerate(counts))
    return dark / (255 * page.width * page.height)


def is_light(drawing: Drawing, most: float) -> bool:
    """Say whether the page is less dark than ``most``; only what is near it is looked at finely.

    The ink reckoned for a page is at least 85 % of what is painted: tests/request/test_class_set.py
    holds that. Painted in grey, which is quick, a page is up to 3 % darker or lighter than in
    colours.
    """
    if drawing.ink_mm2 < 0.85 * most * drawing.width * drawing.height:
        return True
    far = ink(drawing, 100, grey=True) < 0.95 * most
    return far or any(ink(drawing, dpi) < most for dpi in (100, 200, 300))


def blank_bands(drawing: Drawing, most: float = 1 / 3) -> list[str]:
    """Return the empty bands across the page that are higher than ``most`` of it.

    Between the first mark and the last; frames count as marks along their lines alone.
    """
    rows = sorted(_rows(drawing))
    found, reach = [], rows[0][1]
    for (_, _), (top, bottom) in pairwise(rows):
        if top - reach > most * drawing.height:
            found.append(f"nothing stands from {reach:.0f} to {top:.0f} mm")
        reach = max(reach, bottom)
    return found


def _rows(drawing: Drawing) -> Iterator[tuple[float, float]]:
    for mark in drawing.marks:
        match mark:
            case Strokes():
                yield from ((min(y1, y2), max(y1, y2)) for _, y1, _, y2 in mark.lines)
            case Box():
                yield mark.y, mark.y + mark.height
            case Shape():
                yield min(y for _, y in mark.corners), max(y for _, y in mark.corners)
            case Path():
                ys = [y for contour in mark.contours for _, y in flattened(contour)]
                yield min(ys), max(ys)
            case Words():
                box = word_box(mark)
                yield box.y, box.bottom
            case Placed():
                yield mark.y, mark.y + mark.figure.height


def _spread(drawing: Drawing) -> Iterator[Mark]:
    """Yield the marks of a page, those of figures one by one."""
    for mark in drawing.marks:
        if isinstance(mark, Placed):
            yield from mark.marks()
        else:
            yield mark


def _around(points: Sequence[tuple[float, float]]) -> Rect:
    x, y = min(p[0] for p in points), min(p[1] for p in points)
    right, bottom = max(p[0] for p in points), max(p[1] for p in points)
    return Rect(x, y, max(0.01, right - x), max(0.01, bottom - y))


def copied_patches(drawing: Drawing, patches: Sequence[Rect]) -> list[Image.Image]:
    """Return what ``patches`` (mm, all of one size) look like after a poor photocopy."""
    page = photocopied(picture(drawing, 300))
    scale = 300 / 25.4
    wide, high = round(patches[0].width * scale), round(patches[0].height * scale)
    corners = [(round(patch.x * scale), round(patch.y * scale)) for patch in patches]
    return [page.crop((x, y, x + wide, y + high)) for x, y in corners]


def alike(one: Image.Image, other: Image.Image) -> float:
    """Return the part of the pixels in which two patches of a copy agree."""
    apart = ImageChops.difference(one, other).histogram()
    return 1 - sum(apart[128:]) / (one.width * one.height)
