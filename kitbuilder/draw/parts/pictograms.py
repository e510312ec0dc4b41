"""Pictograms in the colours of a look, at a place and in a size."""

from functools import lru_cache

from kitbuilder.counting import thousandth
from kitbuilder.design.look import WHITE, Look
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.pictogram_shapes import PICTOGRAMS, SIDE, GridShape
from kitbuilder.draw.primitives import Contour, Figure, Path
from kitbuilder.layout.model import Rect


@lru_cache(1024)
def pictogram(name: str, look: Look, turn: int = 0) -> tuple[GridShape, ...]:
    """Return the shapes of ``name`` with the colours of ``look``, turned by ``turn`` quarters."""
    colours = {
        "": "",
        "text": look.ink.text,
        "paper": WHITE,
        "accent": look.ink.accent,
        "tint": WHITE if look.ink.tint == "none" else look.ink.tint,
        "accent_tint": WHITE if look.ink.accent_tint == "none" else look.ink.accent_tint,
    }
    return tuple(
        GridShape(
            tuple(_turned(contour, turn) for contour in shape.contours),
            colours[shape.fill],
            colours[shape.stroke],
            shape.line,
            shape.closed,
        )
        for shape in PICTOGRAMS[name]
    )


def _turned(contour: Contour, turn: int) -> Contour:
    for _ in range(turn % 4):
        contour = tuple(
            tuple(v for k in range(0, len(way), 2) for v in (SIDE - way[k + 1], way[k]))
            for way in contour
        )
    return contour


def draw_pictogram(canvas: Canvas, name: str, rect: Rect, turn: int = 0) -> None:
    """Draw pictogram ``name`` as high as ``rect``."""
    figure = _sized(name, canvas.look, turn, thousandth(rect.width), thousandth(rect.height))
    canvas.figure(figure, rect.x, rect.y)


@lru_cache(1024)
def _sized(name: str, look: Look, turn: int, width: float, height: float) -> Figure:
    """Return a pictogram ``height`` mm high; one that is wider than high takes ``width`` mm."""
    scale = height / SIDE
    paths = tuple(
        Path(
            tuple(
                tuple(tuple(value * scale for value in way) for way in contour)
                for contour in shape.contours
            ),
            shape.fill,
            shape.stroke,
            shape.line * scale if shape.stroke else 0.0,
            shape.closed,
        )
        for shape in pictogram(name, look, turn)
    )
    return Figure(paths, width, height)
