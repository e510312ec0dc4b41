"""What a person has in the end who cuts a sheet by its dark lines and letters alone.

Only what is printed is known: the dark lines, the letters and where they stand, and the grey
grids. A line is cut where dark ink runs from edge to edge of the part in the hand.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import Strokes, Words

Box = tuple[float, float, float, float]
"""Left, top, right, bottom, mm."""

Line = tuple[float, float, float, float]

NEAR = 0.02
"""What lies closer, in mm, is the same place."""


class StrandedError(Exception):
    """A letter that stands beside no line that can be cut."""


@dataclass
class Followed:
    """Parts left in the end, and cuts made for each letter and after the letters."""

    parts: list[Box]
    lettered: list[str] = field(default_factory=list)
    cuts: int = 0


def follow_sheet(drawing: Drawing) -> Followed:
    """Cut ``drawing``: its letters in order, then every dark line that crosses a part."""
    dark = _lines(drawing, True)
    found = Followed([(0.0, 0.0, drawing.width, drawing.height)])
    for letter, x, y in _letters(drawing):
        _cut_beside(found, dark, letter, x, y)
    waiting, found.parts = found.parts, []
    while waiting:
        part = waiting.pop()
        lines = _crossing(part, dark)
        if not lines:
            found.parts.append(part)
            continue
        waiting += _halves(part, lines[0])
        found.cuts += 1
    return found


def grids(drawing: Drawing) -> list[Line]:
    """Return the grey lines that are never cut."""
    return _lines(drawing, False)


def _lines(drawing: Drawing, dark: bool) -> list[Line]:
    """Return the lines as dark and wide as those of a blade, joined, or all others."""
    strokes = [m for m in drawing.marks if isinstance(m, Strokes)]
    blade = {(m.colour, m.width) for m in strokes if m.layer == "cut"}
    if not dark:
        return [line for m in strokes if (m.colour, m.width) not in blade for line in m.lines]
    spans: dict[tuple[bool, float], list[tuple[float, float]]] = {}
    for x1, y1, x2, y2 in (
        line for m in strokes if (m.colour, m.width) in blade for line in m.lines
    ):
        across = y1 == y2
        key = (across, round(y1 if across else x1, 3))
        low, high = sorted((x1, x2) if across else (y1, y2))
        spans.setdefault(key, []).append((low, high))
    joined: list[Line] = []
    for (across, at), found in spans.items():
        whole: list[list[float]] = []
        for low, high in sorted(found):
            if whole and low <= whole[-1][1] + NEAR:
                whole[-1][1] = max(whole[-1][1], high)
            else:
                whole.append([low, high])
        joined += [(a, at, b, at) if across else (at, a, at, b) for a, b in whole]
    return joined


def _letters(drawing: Drawing) -> list[tuple[str, float, float]]:
    words = [
        m for m in drawing.marks if isinstance(m, Words) and len(m.text) == 1 and m.text.isupper()
    ]
    return sorted((m.text, m.x, m.y) for m in words)


def _cut_beside(found: Followed, dark: Sequence[Line], letter: str, x: float, y: float) -> None:
    """Cut the nearest line that crosses the part on which the letter stands."""
    part = next(p for p in found.parts if p[0] <= x <= p[2] and p[1] <= y <= p[3])
    lines = sorted((_apart(line, x, y), line) for line in _crossing(part, dark))
    if not lines or lines[0][0] > 20:
        raise StrandedError(f"{letter} at {x:.0f}, {y:.0f} stands beside no line")
    found.parts.remove(part)
    found.parts += _halves(part, lines[0][1])
    found.lettered.append(letter)
    found.cuts += 1


def _apart(line: Line, x: float, y: float) -> float:
    return abs(line[0] - x) if line[0] == line[2] else abs(line[1] - y)


def _crossing(part: Box, dark: Sequence[Line]) -> list[Line]:
    """Return the lines whose dark ink runs from edge to edge of ``part``, through its inside."""
    left, top, right, bottom = part
    return [
        (x1, y1, x2, y2)
        for x1, y1, x2, y2 in dark
        if (
            x1 == x2
            and left + NEAR < x1 < right - NEAR
            and min(y1, y2) <= top + NEAR
            and max(y1, y2) >= bottom - NEAR
        )
        or (
            y1 == y2
            and top + NEAR < y1 < bottom - NEAR
            and min(x1, x2) <= left + NEAR
            and max(x1, x2) >= right - NEAR
        )
    ]


def _halves(part: Box, line: Line) -> list[Box]:
    left, top, right, bottom = part
    if line[0] == line[2]:
        return [(left, top, line[0], bottom), (line[0], top, right, bottom)]
    return [(left, top, right, line[1]), (left, line[1], right, bottom)]
