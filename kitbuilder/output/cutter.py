"""Files for cutters: SVG with letters outlined and lines in order, and DXF.

The three layers of a drawing stay: ``print``, ``fold`` and ``cut``. The lines to cut are given
anew: every one once, a path for each, so that nothing comes loose before its inside is cut.
"""

from collections.abc import Iterable
from dataclasses import replace
from importlib import import_module
from typing import Any

from kitbuilder.counting import thousandth
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import (
    LAYERS,
    Box,
    Layer,
    Mark,
    OwnPicture,
    Placed,
    Shape,
    Strokes,
    Words,
)
from kitbuilder.errors import RefusedError
from kitbuilder.layout.cutting.line_segments import Segment, check_once, outline
from kitbuilder.layout.cutting.machine_order import cutting_order
from kitbuilder.output.svg import page_svg


def svg(drawing: Drawing) -> bytes:
    """Return ``drawing`` as SVG 1.1 in true millimetres, for a cutter or a laser.

    Raises ``ValueError`` where a line would be cut twice.
    """
    marks = [mark for mark in drawing.marks if mark.layer != "cut"]
    lines, curves = _to_cut(drawing)
    check_once(lines)
    for line in lines:
        marks.append(replace(_style(drawing), lines=(line,)))
    return page_svg(replace(drawing, marks=(*marks, *curves))).encode()


def dxf(drawing: Drawing) -> bytes:
    """Return the straight lines of ``drawing`` as DXF (R2010, mm, y up), a layer for each of ours.

    Words are left out: a machine that takes nothing but DXF only cuts. Raises ``RefusedError``
    where the library that writes DXF is not installed.
    """
    try:
        ezdxf: Any = import_module("ezdxf")
    except ImportError:
        raise RefusedError("output.no-dxf", field="dxf") from None
    from io import StringIO

    ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock: the same input, same bytes
    document = ezdxf.new("R2010", units=ezdxf.units.MM)
    space = document.modelspace()
    cut, curves = _to_cut(drawing)
    if curves:
        raise ValueError("a curve to cut cannot be written as DXF")
    layers = {name: cut if name == "cut" else _straight(drawing, name)[0] for name in LAYERS}
    for name in ("cut", "fold", "print"):
        document.layers.add(name.upper())
        for x1, y1, x2, y2 in layers[name]:
            ends = ((x1, drawing.height - y1), (x2, drawing.height - y2))
            space.add_line(*ends, dxfattribs={"layer": name.upper()})
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)  # in this order, not that of the hashes
    output = StringIO()
    document.write(output)
    return output.getvalue().encode()


def _to_cut(drawing: Drawing) -> tuple[tuple[Segment, ...], list[Mark]]:
    """Return the straight lines to cut in cutting order, and the marks to cut that have curves."""
    lines, curves = _straight(drawing, "cut")
    return cutting_order(lines, (drawing.width, drawing.height)), curves


def _style(drawing: Drawing) -> Strokes:
    """Return lines as wide, dark and dashed as the first to cut."""
    for mark in drawing.marks:
        if mark.layer == "cut" and isinstance(mark, Strokes):
            return replace(mark, lines=())
        if mark.layer == "cut" and isinstance(mark, Box) and mark.stroke:
            return Strokes((), mark.line, mark.stroke, "cut")
    raise ValueError("there is nothing to cut")


def _straight(drawing: Drawing, layer: Layer) -> tuple[list[Segment], list[Mark]]:
    """Return the straight lines of a layer, and its marks that are not all straight."""
    lines: list[Segment] = []
    others: list[Mark] = []
    for mark in drawing.marks:
        match mark:
            case _ if mark.layer != layer:
                continue
            case Strokes():
                lines += mark.lines
            case Placed():
                lines += (
                    line
                    for part in mark.marks()
                    if isinstance(part, Strokes)
                    for line in part.lines
                )
            case Box(radius=0):
                right, bottom = mark.x + mark.width, mark.y + mark.height
                lines += outline(mark.x, mark.y, right, bottom) if mark.stroke else ()
            case Words() | Shape() | OwnPicture():
                continue
            case _:
                others.append(mark)
    return _rounded(lines), others


def _rounded(lines: Iterable[Segment]) -> list[Segment]:
    """Return ``lines`` to a thousandth of a millimetre, as they are written."""
    return [
        (thousandth(x1) + 0.0, thousandth(y1) + 0.0, thousandth(x2) + 0.0, thousandth(y2) + 0.0)
        for x1, y1, x2, y2 in lines
    ]
