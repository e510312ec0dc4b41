"""The pictograms there are, each on a grid of 20 by 20, y down, in the order it is painted.

Tones are roles of the look: ``text``, ``paper``, ``accent``, ``accent_tint``. Angles are degrees
clockwise from the right.
"""

from kitbuilder.draw.parts import shapes
from kitbuilder.draw.primitives import Contour
from kitbuilder.frozen import frozen

SIDE = 20
"""The side of the grid."""

THICK = 1.05
"""The width of a line, in squares of the grid."""


@frozen
class GridShape:
    """One shape on the grid: its contours, and the tones of its fill and its line."""

    contours: tuple[Contour, ...]
    fill: str = ""
    stroke: str = ""
    line: float = THICK
    closed: bool = True


def _box(x: float, y: float, wide: float, high: float, r: float = 0.0) -> GridShape:
    """Return a box filled white, its corners as round as ``r``."""
    right, bottom = x + wide, y + high
    if not r:
        around: Contour = ((x, y), (right, y), (right, bottom), (x, bottom))
    else:
        corners = ((x + r, y + r), (right - r, y + r), (right - r, bottom - r), (x + r, bottom - r))
        ways: list[tuple[float, ...]] = []
        for turn, centre in enumerate(corners):
            start, *rest = shapes.arc(centre, (r, r), (180 + 90 * turn, 270 + 90 * turn))
            ways += [start, *rest]
        around = tuple(ways)
    return GridShape((around,), "paper", "text")


def _line(*points: tuple[float, float], width: float = THICK, tone: str = "text") -> GridShape:
    return GridShape((points,), "", tone, width, closed=False)


def _solid(*points: tuple[float, float], tone: str = "text") -> GridShape:
    return GridShape((points,), tone)


def _disc(x: float, y: float, r: float, tone: str = "text") -> GridShape:
    return GridShape((shapes.arc((x, y), (r, r), (0, 360)),), tone)


def _ring(x: float, y: float, r: float, width: float) -> GridShape:
    return GridShape((shapes.arc((x, y), (r, r), (0, 360)),), "", "text", width)


def _nought(x: float, y: float, across: float, high: float) -> GridShape:
    return GridShape((shapes.arc((x, y), (across, high), (0, 360)),), "paper", "text", 1.4)


def _arc(x: float, y: float, r: float, start: float, end: float) -> GridShape:
    return GridShape((shapes.arc((x, y), (r, r), (start, end)),), "", "text", closed=False)


def _hop(x: float, across: float, high: float) -> GridShape:
    """Return half an ellipse on the line at 12.6, ``across`` to each side of ``x``."""
    return GridShape((shapes.arc((x, 12.6), (across, high), (180, 360)),), "", "text", closed=False)


def _shoulders(
    y: float, outer: tuple[float, float], inner: tuple[float, float]
) -> tuple[GridShape, ...]:
    return tuple(
        GridShape((shapes.arc((10, y), size, (180, 360)),), tone)
        for size, tone in ((outer, "text"), (inner, "paper"))
    )


def _arrow(x1: float, y1: float, x2: float, y2: float, size: float = 3.4) -> tuple[GridShape, ...]:
    """Return an accent arrow along an axis, its head ``size`` long."""
    dx, dy = (x2 > x1) - (x2 < x1), (y2 > y1) - (y2 < y1)
    bx, by = x2 - size * dx, y2 - size * dy
    half = 0.56 * size
    head = _solid(
        (x2, y2), (bx + half * dy, by + half * dx), (bx - half * dy, by - half * dx), tone="accent"
    )
    return _line((x1, y1), (bx, by), width=1.3, tone="accent"), head


def _one(x: float, y: float, side: float, fill: str = "accent_tint") -> GridShape:
    around: Contour = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return GridShape((around,), fill, "text", 0.8)


def _piece(x: float, y: float, wide: float, high: float, fill: str = "accent_tint") -> GridShape:
    around: Contour = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    return GridShape((around,), fill, "text", 0.8)


def _mirrored(*points: tuple[float, float]) -> tuple[GridShape, GridShape]:
    return _solid(*points), _solid(*((x, 20 - y) for x, y in points))


def _scissors() -> tuple[GridShape, ...]:
    blade = ((6.2, 12.6), (7.4, 14.2), (19.8, 6.5), (17.6, 5.9))
    return (
        *_mirrored(*blade),
        _ring(3.9, 15.1, 2.7, 1.7),
        _ring(3.9, 4.9, 2.7, 1.7),
        _disc(10, 10, 0.75, "paper"),
    )


def _adult(line: float = 1.0) -> tuple[GridShape, ...]:
    """Return a head and shoulders, their outline ``line`` wide."""
    hair = (*shapes.arc((10, 7.6), (5.5, 5.5), (196, 340)), (12.6, 5.2), (8.4, 6.1))
    return (
        *_shoulders(20, (8, 6.6), (8 - 0.95 * line, 6.6 - 0.9 * line)),
        _disc(10, 7.6, 5.8),
        _disc(10, 7.6 + 0.25 * line, 5.8 - line, "paper"),
        GridShape((hair,), "text"),
        _disc(8.1, 8.3, 0.75),
        _disc(11.9, 8.3, 0.75),
        _arc(10, 9, 2.2, 25, 155),
    )


def _child(line: float = 1.0) -> tuple[GridShape, ...]:
    """Return a smaller one, its hair in tufts."""
    tufts = tuple(
        _line((10.2, 6.8), end, width=1.3 * line) for end in ((9.1, 2.6), (11.6, 2.3), (13.6, 3.7))
    )
    return (
        *_shoulders(20, (6.6, 4.6), (6.6 - 0.95 * line, 4.6 - 0.9 * line)),
        *tufts,
        _disc(10, 10.6, 5.4),
        _disc(10, 10.6, 5.4 - line, "paper"),
        _disc(8.3, 10.4, 0.8),
        _disc(11.7, 10.4, 0.8),
        _arc(10, 11.1, 2.4, 15, 165),
    )


def _exchange() -> tuple[GridShape, ...]:
    ticks = tuple(
        _line((0.7, 1.2 + 1.76 * k), (2.2, 1.2 + 1.76 * k), width=0.6) for k in range(1, 10)
    )
    ones = tuple(_one(13 + 3.7 * c, 1.2 + 3.7 * r, 2.8) for c in (0, 1) for r in range(5))
    return (_piece(0.7, 1.2, 3.3, 17.6, "paper"), *ticks, *_arrow(4.8, 10, 12.2, 10), *ones)


def _question(x: float, y: float, size: float) -> tuple[GridShape, ...]:
    """Return a question mark whose middle is at (x, y), ``size`` high."""
    r, bow = size * 0.21, y - 0.24 * size
    hook = shapes.arc((x, bow), (r, r), (190, 400))
    tail = (*hook, (x, y + 0.05 * size, x, y + 0.05 * size, x, y + 0.18 * size))
    width = 0.15 * size
    return GridShape((tail,), "", "text", width, closed=False), _disc(
        x, y + 0.42 * size, 0.6 * width
    )


def _pencil() -> tuple[GridShape, ...]:
    return (
        GridShape((((3.2, 12.9), (13.6, 2.5), (17.5, 6.4), (7.1, 16.8)),), "paper", "text"),
        _solid((3.2, 12.9), (7.1, 16.8), (1.6, 18.4)),
        _line((11.6, 4.5), (15.5, 8.4)),
        _line((5.3, 14.8), (13.4, 6.7), width=0.7),
    )


def _small_pencil() -> tuple[GridShape, ...]:
    def at(x: float, y: float) -> tuple[float, float]:
        return 9.5 + 0.5 * x, 9 + 0.5 * y

    body = (at(3.2, 12.9), at(13.6, 2.5), at(17.5, 6.4), at(7.1, 16.8))
    return (
        GridShape((body,), "paper", "text"),
        _solid(at(3.2, 12.9), at(7.1, 16.8), at(1.6, 18.4)),
    )


def _bars(*bars: tuple[float, float, float, str]) -> tuple[GridShape, ...]:
    return tuple(_piece(x, y, wide, 4.2, fill) for x, y, wide, fill in bars)


def _dashed(x: float, y: float, wide: float, high: float) -> tuple[GridShape, ...]:
    """Return a dashed outline: four sides of short strokes."""
    right, bottom = x + wide, y + high
    across = [(at, min(at + 1.3, right)) for at in (x + 2.4 * k for k in range(round(wide / 2.4)))]
    down = [(at, min(at + 1.2, bottom)) for at in (y + 2.1 * k for k in range(round(high / 2.1)))]
    return (
        *(_line((a, side), (b, side), width=0.8) for a, b in across for side in (y, bottom)),
        *(_line((side, a), (side, b), width=0.8) for a, b in down for side in (x, right)),
    )


def _scaled(shapes_: tuple[GridShape, ...], by: float, x: float, y: float) -> tuple[GridShape, ...]:
    """Return shapes ``by`` times as large, their top left moved to (x, y)."""
    return tuple(
        GridShape(
            tuple(
                tuple(
                    tuple((y if k % 2 else x) + v * by for k, v in enumerate(way))
                    for way in contour
                )
                for contour in shape.contours
            ),
            shape.fill,
            shape.stroke,
            shape.line * by,
            shape.closed,
        )
        for shape in shapes_
    )


def _flat(*points: tuple[float, float], fill: str = "paper", width: float = 0.3) -> GridShape:
    return GridShape((points,), fill, "text", width)


def _face(mouth: tuple[float, float], middle: float) -> tuple[GridShape, ...]:
    """Return a face whose mouth is an arc round (10, middle), from angle to angle."""
    arc = GridShape((shapes.arc((10, middle), (4.6, 4.6), mouth),), "", "text", THICK, closed=False)
    return (
        _ring(10, 10, 8.4, THICK),
        _disc(7.2, 7.8, 1.05),
        _disc(12.8, 7.8, 1.05),
        *((arc,) if mouth[0] != mouth[1] else ()),
    )


def _on_table(u: float, y: float) -> tuple[float, float]:
    """Return the point of the mat on the table, ``u`` from its left side, 0, to its right, 1."""
    down = (y - 10.2) / 8.0
    left, right = 4.4 - 2.3 * down, 28.8 + 2.4 * down
    return left + u * (right - left), y


def _lying(
    u: float, y: float, wide: float, high: float, fill: str = "paper", width: float = 0.16
) -> GridShape:
    """Return a piece or a zone that lies on the mat."""
    corners = ((u, y), (u + wide, y), (u + wide, y + high), (u, y + high))
    return _flat(*(_on_table(*corner) for corner in corners), fill=fill, width=width)


def _together(whole: tuple[GridShape, ...], out: int) -> tuple[GridShape, ...]:
    """Return an adult and a child at the mat, on a grid 33 wide and 20 high.

    Of the ``whole`` in the upper zone a ten was exchanged; the child moved so many ones ``out`` of
    it into the zone of the part.
    """
    new = (
        _lying(0.7 + 0.052 * (k % 3), 15.1 + 1.05 * (k // 3), 0.032, 0.7, "accent_tint", 0.16)
        for k in range(out)
    )
    arm = ((25.9, 8.6), (29.9, 11.6), (27.6, 15.4))
    return (
        *_scaled(_adult(0.7), 0.5, 6.2, -0.4),
        *_scaled(_child(0.75), 0.44, 18.4, 0.9),
        _flat((3.4, 9.6), (29.8, 9.6), (33, 18.7), (0.2, 18.7), width=0.2),
        _flat((0.2, 18.7), (33, 18.7), (33, 19.6), (0.2, 19.6), width=0.2),
        _lying(0.0, 10.2, 1.0, 3.9, "tint", 0.14),
        _lying(0.0, 14.5, 1.0, 3.7, "tint", 0.14),
        *whole,
        *new,
        GridShape(
            (((23.9, 12.5), (24.5, 13.0, 24.6, 13.4, 24.0, 14.0)),), "", "accent", 0.5, closed=False
        ),
        _solid((24.9, 14.0), (23.0, 13.5), (23.1, 15.0), tone="accent"),
        GridShape((arm,), "", "text", 1.2, closed=False),
        GridShape((arm,), "", "paper", 0.76, closed=False),
        GridShape((shapes.arc((27.5, 15.8), (0.85, 0.85), (0, 360)),), "paper", "text", 0.28),
    )


def _ones_on_mat() -> tuple[GridShape, ...]:
    """Return six ones in the zone of the whole, and the lines between its columns and below."""
    ones = (_lying(u, y, 0.03, 0.65) for y in (10.7, 11.6) for u in (0.668, 0.718, 0.768))
    return (
        *ones,
        *(_lying(0.64, y, 0.0, high, width=0.1) for y, high in ((10.2, 3.9), (14.5, 3.7))),
    )


def _tens_on_mat() -> tuple[GridShape, ...]:
    """Return three tens and six ones in the zone of the whole: of 43, 7 came out."""
    return (*(_lying(u, 10.6, 0.034, 3.1) for u in (0.2, 0.26, 0.32)), *_ones_on_mat())


def _hundreds_on_mat() -> tuple[GridShape, ...]:
    """Return two hundreds side by side, four tens and six ones: of 254, 8 came out."""
    lines = (
        way
        for u in (0.02, 0.2)
        for way in (((u + 0.08, 10.6), (u + 0.08, 13.7)), ((u, 12.1), (u + 0.16, 12.1)))
    )
    return (
        *(_lying(u, 10.6, 0.16, 3.1) for u in (0.02, 0.2)),
        *(_line(_on_table(*a), _on_table(*b), width=0.1) for a, b in lines),
        *(_lying(0.4, y, 0.0, high, width=0.1) for y, high in ((10.2, 3.9), (14.5, 3.7))),
        *(_lying(u, 10.6, 0.03, 3.1) for u in (0.437, 0.483, 0.529, 0.575)),
        *_ones_on_mat(),
    )


PICTOGRAMS: dict[str, tuple[GridShape, ...]] = {
    "scissors": _scissors(),
    "cutter": (
        _box(1.2, 13.6, 17.6, 4.6),
        _box(6.6, 1.2, 6.8, 5.2, 0.8),
        _solid((8, 6.4), (12, 6.4), (10, 9.2)),
        _line((10, 9), (10, 18.2), width=1.5, tone="accent"),
    ),
    "card": (
        _solid((3.5, 1), (14.3, 1), (16.8, 3.2), (16.8, 19), (6, 19), (3.5, 16.8)),
        GridShape((((4.4, 1.9), (13.8, 1.9), (13.8, 16.1), (4.4, 16.1)),), "paper"),
    ),
    "paper": (
        GridShape((((4, 1.5), (12.5, 1.5), (16, 5), (16, 18.5), (4, 18.5)),), "paper", "text"),
        _solid((12.2, 1.5), (16, 5.3), (12.2, 5.3)),
        *(_line((7, y), (13, y)) for y in (9, 12, 15)),
    ),
    "printer": (
        _box(5.2, 1.5, 9.6, 6),
        _box(1.5, 6, 17, 8.2, 1.6),
        _disc(15.8, 8.6, 0.8),
        _box(4.2, 10.6, 11.6, 8.2),
        _line((2.9, 10.6), (17.1, 10.6)),
        _line((6.2, 15.8), (13.8, 15.8)),
        *(_line((x, 14.2), (x, 17.4)) for x in (6.2, 13.8)),
    ),
    "adult": _adult(),
    "child": _child(),
    "right": (_solid((1.5, 11), (4.2, 8.2), (8, 12.2), (16.4, 2.6), (19, 5.2), (8.2, 17.6)),),
    "never": (_line((4, 4), (16, 16), width=2.6), _line((16, 4), (4, 16), width=2.6)),
    "envelope": (
        _box(1.5, 4.5, 17, 12, 1),
        _line((2, 5.2), (10, 11.6)),
        _line((18, 5.2), (10, 11.6)),
    ),
    "time": (_ring(10, 10, 8, 1.3), _line((10, 10), (10, 5)), _line((10, 10), (13.6, 12.2))),
    "glue": (
        _box(6, 8.5, 8, 10.5, 1),
        _box(7, 4.6, 6, 3.9),
        _solid((8, 4.6), (8, 2.6), (12, 1.4), (12, 4.6)),
        _line((6, 14.2), (14, 14.2)),
    ),
    "care": (
        _solid((10, 1), (19.4, 18.4), (0.6, 18.4)),
        _solid((10, 4), (16.9, 17), (3.1, 17), tone="paper"),
        _line((10, 8.2), (10, 12.6), width=1.8),
        _disc(10, 15.1, 1.05),
    ),
    "build": (
        _box(1, 8, 18, 11, 2),
        _piece(4, 10.4, 2.6, 6.4),
        _one(9.2, 10.4, 2.8),
        _one(13.4, 10.4, 2.8),
        *_arrow(10, 0.2, 10, 7),
    ),
    "take": (
        _box(0.6, 3.5, 8.6, 13.5, 1.6),
        _box(10.8, 3.5, 8.6, 13.5, 1.6),
        _one(14.4, 6.2, 3),
        _one(14.4, 11.2, 3),
        *_arrow(3, 10.2, 13.6, 10.2),
    ),
    "exchange": _exchange(),
    "left": (_box(1.5, 2.5, 17, 15, 2), *_question(10, 10, 9.5)),
    "push": (
        _piece(7.4, 3.5, 2.4, 13),
        _piece(10.2, 3.5, 2.4, 13),
        *_arrow(0.4, 10, 6.2, 10),
        *_arrow(19.6, 10, 13.8, 10),
    ),
    "bank": (
        _one(4.6, 3.4, 2.8, "paper"),
        _one(8.6, 5.0, 2.8, "paper"),
        _one(12.4, 2.8, 2.8, "paper"),
        GridShape(((*shapes.arc((10, 9.6), (8.2, 8), (0, 180)),),), "paper", "text"),
        _line((1, 9.6), (19, 9.6)),
    ),
    "together": _together(_tens_on_mat(), 7),
    "together-hundreds": _together(_hundreds_on_mat(), 8),
    "pencil": _pencil(),
    # Mistakes, by the key of each.
    "turned": (
        *(_line((3.5, 17), (3.5, 5), width=1.6), _solid((3.5, 1), (6.2, 6), (0.8, 6))),
        _piece(10.2, 1.6, 4.2, 4.2, "paper"),
        _piece(8.6, 8.6, 9.4, 9.4, "paper"),
    ),
    "not-lowered": (
        _piece(2, 1.4, 4, 17.2, "paper"),
        *(_line((2, 1.4 + 1.72 * k), (3.8, 1.4 + 1.72 * k), width=0.6) for k in range(1, 10)),
        _line((9.5, 10), (17.5, 10), width=1.8),
        _line((13.5, 6), (13.5, 14), width=1.8),
    ),
    "zero": (
        GridShape((shapes.arc((10, 10), (6, 8.4), (0, 360)),), "paper", "text", 1.3),
        GridShape((shapes.arc((10, 10), (6, 8.4), (180, 360)),), "text"),
    ),
    "zero-ten": (_line((4, 2.6), (4, 17.4), width=1.9), _nought(13, 10, 5, 7.4)),
    "zero-skipped": (  # leapt over
        GridShape((shapes.arc((9.4, 9), (7, 6.5), (180, 360)),), "", "text", 1.4, closed=False),
        _solid((16.4, 13.4), (13.4, 8.6), (19.4, 8.6)),
        _nought(9.4, 14, 3, 4.4),
    ),
    "zero-below": (_nought(10, 5.6, 3.8, 4.6), *_arrow(10, 11, 10, 19.6)),
    "zero-zero": (
        _nought(10, 4.8, 3.4, 3.8),
        _line((3, 10.2), (17, 10.2), width=1.2),
        _nought(10, 15.6, 3.4, 3.8),
    ),
    "zero-taken": (_line((0.8, 10), (6.4, 10), width=1.8), _nought(13.4, 10, 4.8, 7.4)),
    "not-fetched": (_piece(2, 1.4, 4, 17.2, "paper"), _line((9.5, 10), (17.5, 10), width=1.8)),
    "not-read": (*_dashed(2, 1.4, 4.2, 17), *_arrow(13, 1.6, 13, 19)),  # copied down
    "far-left": (_piece(1.4, 1.4, 4, 17.2, "paper"), *_arrow(7.6, 10, 19.4, 10)),
    "nothing": (  # a nought on the line of the answer
        GridShape((shapes.arc((10, 8), (4.6, 6.8), (0, 360)),), "paper", "text", 1.5),
        _line((2, 18), (18, 18), width=1.6),
    ),
    "order": (
        _line((2, 6.4), (15, 6.4), width=1.4),
        _solid((19, 6.4), (14, 3.4), (14, 9.4)),
        _line((18, 13.6), (5, 13.6), width=1.4),
        _solid((1, 13.6), (6, 10.6), (6, 16.6)),
    ),
    "slip": (
        _line((1.8, 6.4), (9, 6.4), width=1.5),
        _line((5.4, 2.8), (5.4, 10), width=1.5),
        _line((1.8, 14.6), (9, 14.6), width=1.5),
        _line((12.2, 6.8), (15.4, 3.4), (15.4, 17), width=1.7),
    ),
    "facts": (  # back through ten in two steps
        _line((0.6, 16), (19.4, 16)),
        *(_line((x, 14), (x, 18)) for x in (2.4, 7.6, 17.2)),
        _hop(12.4, 4.8, 8.4),
        _hop(5, 2.6, 5.4),
        _solid((0.5, 9.2), (4.5, 9.2), (2.4, 12.8)),
    ),
    "one-more": (
        _line((1.8, 10), (9.4, 10), width=1.5),
        _line((5.6, 6.2), (5.6, 13.8), width=1.5),
        _line((12.2, 6.8), (15.4, 3.4), (15.4, 17), width=1.7),
    ),
    "one-less": (
        _line((1.8, 10), (9.4, 10), width=1.5),
        _line((12.2, 6.8), (15.4, 3.4), (15.4, 17), width=1.7),
    ),
    # How it felt.
    "face-good": _face((25, 155), 9.2),
    "face-middling": (*_face((0, 0), 0), _line((6.4, 13.2), (13.6, 13.2))),
    "face-hard": _face((205, 335), 16.2),
    # Stages.
    "stage-pieces": (
        _piece(3, 2, 3.2, 16, "paper"),
        _piece(8.2, 2, 3.2, 16, "paper"),
        *(_one(13.8, y, 3.2, "paper") for y in (2, 6.6, 11.2)),
    ),
    "stage-both": (
        _piece(1.6, 2, 3, 15, "paper"),
        _piece(6.2, 2, 3, 15, "paper"),
        *_small_pencil(),
    ),
    "stage-drawn": (
        *(_line((x, 2), (x, 13), width=1.3) for x in (2.4, 5.6, 8.8)),
        *(_disc(x, 4, 1.05) for x in (12.4, 15.4, 18.2)),
        *_small_pencil(),
    ),
    "stage-written": (
        _box(2.5, 1.5, 15, 17, 1.4),
        _line((10, 1.5), (10, 18.5), width=0.7),
        _line((2.5, 13), (17.5, 13)),
        *(_line((x, y), (x + 3, y), width=1.3) for x in (4.8, 12.2) for y in (5, 9)),
    ),
    # Kinds of stories.
    "story-take": (
        *_bars((1, 8, 10.5, "paper"), (13.6, 8, 5.4, "accent_tint")),
        *_arrow(13.6, 15.6, 19.2, 15.6, 2.6),
    ),
    "story-missing": (
        *_bars((1, 3, 18, "paper"), (1, 11, 10, "paper")),
        *_dashed(12.2, 11, 6.8, 4.2),
    ),
    "story-difference": (
        *_bars((1, 3, 18, "paper"), (1, 11, 10, "paper")),
        *_arrow(15, 13.1, 11.6, 13.1, 2.2),
        *_arrow(15, 13.1, 19, 13.1, 2.2),
    ),
}
"""The shapes of each pictogram."""
