"""What the parts of a page hold: records that draw paints where their item's rectangle lies.

Nothing here is measured: ``layout.parts`` places everything, ``draw.parts`` only paints.
"""

from typing import Literal, NamedTuple

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect

Face = Literal["text", "heading"]
Tone = Literal["text", "quiet", "accent", "paper"]
Fill = Literal["none", "paper", "tint", "accent_tint", "gone"]
Point = tuple[float, float]


class Line(NamedTuple):
    """One line of words from the left of its rectangle, ``base`` mm from the top to the baseline.

    ``size`` is the em in mm. The rectangle is as wide as the words. With ``over`` it stands on
    a white ground, over what passes below. ``struck`` words have a stroke through them.
    """

    text: str
    size: float
    base: float
    face: Face = "text"
    tone: Tone = "text"
    over: bool = False
    struck: bool = False


@frozen
class Pictogram:
    """A pictogram by its name, as large as its square; ``turn`` counts quarters clockwise."""

    name: str
    turn: int = 0


@frozen
class NumberSquare:
    """The square behind a step's number, which is a line of its own."""


@frozen
class Disc:
    """The disc behind a cut's letter, which is a line of its own."""


@frozen
class Panel:
    """A frame with round corners. ``line`` names the width and colour of a role of the look."""

    fill: Fill = "none"
    line: Literal["none", "zone", "divider", "write", "bubble", "frame", "loop", "digit"] = "frame"
    radius: float = 2.2


@frozen
class Bubble:
    """A bubble of speech; its tail goes to a face at the left (an adult) or the right (a child)."""

    who: Literal["adult", "child"]


@frozen
class Rule:
    """A straight line along its rectangle's longer side."""

    line: Literal[
        "rule",
        "divider",
        "fold",
        "to",
        "away",
        "slit",
        "cut",
        "snip",
        "write",
        "dashed",
        "sum",
        "grid",
    ] = "rule"


@frozen
class Hatch:
    """Slanting strokes over what falls off, each from one point to another from its top left.

    Unlike a tint they outlast a poor copy, and are in looks without tints.
    """

    strokes: tuple[tuple[float, float, float, float], ...]


@frozen
class Strike:
    """A stroke over its rectangle, rising to the right as over pieces that go.

    ``falling`` over a number that another replaces: it would run along the slant of a 4 or a 7.
    """

    falling: bool = False


@frozen
class Dots:
    """``of`` dots in a row, ``filled`` of them filled: how hard a sum is."""

    filled: int
    of: int


@frozen
class Outline:
    """A closed line through ``corners`` in mm from its rectangle's top left, white inside.

    With ``cells`` its four sides are ruled into so many squares along the first and the second.
    """

    corners: tuple[Point, ...]
    cells: tuple[int, int] | None = None


@frozen
class Loop:
    """A loop through ``corners`` in mm from its rectangle's top left, each of them round."""

    corners: tuple[Point, ...]
    radius: float


@frozen
class Ruler:
    """A bar of true size, lying or standing: a tick every 10 mm, a full line in its middle."""


@frozen
class PageNumber:
    """The number of the page, at the right of its rectangle; known when the page is drawn."""

    size: float


@frozen
class PagesOf:
    """The pages where ``kind`` of sheets is found, at the left of its rectangle.

    They are counted on from the page that it stands on, ``first`` to ``last``; the number of
    that is known when it is drawn. Some are those ``titled`` in one of these ways, or of these the
    ones with ``steps``: they end a sentence.
    """

    kind: str
    size: float
    first: int = 0
    last: int = 0
    titled: tuple[str, ...] = ()
    steps: tuple[int, ...] = ()


ARROW, HEAD_LONG, HEAD_WIDE = 1.1, 3.4, 3.8
"""In mm, how wide an arrow is, and how long and wide its head then is; they grow together."""


@frozen
class Arrow:
    """An arrow through ``points`` in mm from its rectangle's top left, its head at the last.

    ``size`` is its width in parts of the look's. ``gap`` is the box left free for what stands
    on the arrow, a "?" or an order's number.
    """

    points: tuple[Point, ...]
    gap: Rect | None = None
    size: float = 1.0


State = Literal["here", "new", "gone", "needed"]


@frozen
class SmallPieces:
    """Pieces of one state in a picture, ``unit`` mm the width of a one.

    ``rects`` count from the item's top left, in the order they are laid: a later hundred lies
    over an earlier one. ``slashes`` are the boxes struck where a gone piece is partly hidden;
    none for all of each piece. The last ``passing`` of those gone are new too.
    """

    rects: tuple[Rect, ...]
    unit: float
    state: State = "here"
    slashes: tuple[Rect, ...] = ()
    passing: int = 0
