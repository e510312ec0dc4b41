"""The digits of written columns, worked or to be worked, each in its place."""

from collections.abc import Sequence

from kitbuilder.draw.canvas import Canvas
from kitbuilder.number.written import Column

MARK = 0.62
"""Size of a mark, as a part of the digits' size, unless the look's least type is larger."""


def draw_written(
    canvas: Canvas, columns: Sequence[Column], x: float, y: float, size: float
) -> None:
    """Write the sum from the top left (x, y): two rows for marks, whole, part, line, answer.

    ``columns`` come ones first. A digit or mark that an exchange replaces is struck through.
    """
    pitch = 1.35 * size
    small = max(MARK, canvas.look.type_mm.least / size)
    top, bottom, answer = y + 2.35 * size, y + 3.55 * size, y + 5.0 * size
    strikes = []
    for place, column in enumerate(columns):
        centre = x + (len(columns) - place + 0.5) * pitch
        canvas.text(centre, top, str(column.top), size, align="centre")
        rows = [(top, 1.0), (top - 1.0 * size, small), (top - 1.75 * size, small)]
        for mark, (baseline, part) in zip(column.marks, rows[1:], strict=False):
            canvas.text(centre, baseline, str(mark), part * size, align="centre")
        for (baseline, part), _ in zip(rows, column.marks, strict=False):
            reach = 0.38 * part * size
            strikes.append(
                (
                    centre - reach,
                    baseline + 0.06 * size,
                    centre + reach,
                    baseline - 0.7 * part * size,
                )
            )
        if column.bottom is not None:
            canvas.text(centre, bottom, str(column.bottom), size, align="centre")
        if column.answer is not None:
            canvas.text(centre, answer, str(column.answer), size, align="centre")
    canvas.text(x + 0.5 * pitch, bottom, "−", size, align="centre")
    look = canvas.look
    rule = bottom + 0.35 * size
    canvas.lines(
        [(x, rule, x + (len(columns) + 1) * pitch, rule)], look.lines_mm.frame, look.ink.text
    )
    canvas.lines(strikes, look.lines_mm.guide, look.ink.text)
