"""Turns a drawing into files for cutters: SVG with letters outlined and lines in order, and DXF.

The three groups of a drawing stay: ``print``, ``fold`` and ``cut``. The cut group is written
anew: every line once, a path for each, so that nothing comes loose before its inside is cut.
"""

import re
from dataclasses import dataclass
from importlib import import_module
from typing import Any
from xml.etree import ElementTree as ET

from kitbuilder.design.metrics import FAMILY
from kitbuilder.draw.canvas import Drawing
from kitbuilder.errors import RefusedError
from kitbuilder.layout.cutting.cut_lines import Segment, check_once, cutting_order, outline
from kitbuilder.output.outlines import outlined
from kitbuilder.output.svg import page_svg

_SVG = "http://www.w3.org/2000/svg"
_STEP = re.compile(r"([MLHVZ])|(-?\d+(?:\.\d+)?)")
_STYLE = ("stroke", "stroke-width", "stroke-dasharray")


@dataclass(frozen=True, slots=True)
class CutLines:
    """The straight lines of a drawing's cut group in cutting order, and the curves left over."""

    lines: tuple[Segment, ...]
    curves: tuple[ET.Element, ...]
    style: dict[str, str]


def svg(drawing: Drawing) -> bytes:
    """Return ``drawing`` as SVG 1.1 in true millimetres, for a cutter or a laser.

    Raises ``ValueError`` where a line would be cut twice.
    """
    ET.register_namespace("", _SVG)
    root = ET.fromstring(page_svg(drawing))
    _title(root, drawing.title)
    for parent in list(root.iter()):
        for index, child in enumerate(list(parent)):
            if child.tag == f"{{{_SVG}}}text":
                parent[index] = _letters(child)
    group = _group(root, "cut")
    cut = _cut_lines(group, drawing)
    check_once(cut.lines)
    for child in list(group):
        group.remove(child)
    group.extend(cut.curves)
    for x1, y1, x2, y2 in cut.lines:
        path = {"d": f"M{x1:g} {y1:g}L{x2:g} {y2:g}", **cut.style}
        ET.SubElement(group, f"{{{_SVG}}}path", path)
    return bytes(ET.tostring(root, "utf-8", xml_declaration=True))


def dxf(drawing: Drawing) -> bytes:
    """Return the straight lines of ``drawing`` as DXF (R2010, mm, y up), a layer for each group.

    Words are left out: a machine that takes nothing but DXF only cuts. Raises ``RefusedError``
    where the library that writes DXF is not installed.
    """
    try:
        ezdxf: Any = import_module("ezdxf")
    except ImportError:
        raise RefusedError("output.no-dxf", field="dxf") from None
    from io import StringIO

    root = ET.fromstring(page_svg(drawing))
    ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock: the same input, same bytes
    document = ezdxf.new("R2010", units=ezdxf.units.MM)
    space = document.modelspace()
    cut = _cut_lines(_group(root, "cut"), drawing)
    if cut.curves:
        raise ValueError("a curve to cut cannot be written as DXF")
    groups = {"cut": cut.lines, "fold": _straight(_group(root, "fold"))[0]}
    groups["print"] = _straight(_group(root, "print"))[0]
    for name, lines in groups.items():
        document.layers.add(name.upper())
        for x1, y1, x2, y2 in lines:
            ends = ((x1, drawing.height - y1), (x2, drawing.height - y2))
            space.add_line(*ends, dxfattribs={"layer": name.upper()})
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)  # in this order, not that of the hashes
    output = StringIO()
    document.write(output)
    return output.getvalue().encode()


def _title(root: ET.Element, text: str) -> None:
    title = ET.Element(f"{{{_SVG}}}title")
    title.text = text
    root.insert(0, title)


def _group(root: ET.Element, name: str) -> ET.Element:
    group = root.find(f".//{{{_SVG}}}g[@id='{name}']")
    if group is None:
        raise ValueError(f"the drawing has no group {name}")
    return group


def _letters(text: ET.Element) -> ET.Element:
    """Return a line of words as one path of the letters' outlines, named by the words."""
    x, y, size = (float(text.get(key, "0")) for key in ("x", "y", "font-size"))
    kept = {key: value for key in ("fill", "transform") if (value := text.get(key))}
    words, family = text.text or "", text.get("font-family", FAMILY)
    path = ET.Element(f"{{{_SVG}}}path", {"d": outlined(words, x, y, size, family), **kept})
    ET.SubElement(path, f"{{{_SVG}}}title").text = words
    return path


def _cut_lines(group: ET.Element, drawing: Drawing) -> CutLines:
    lines, curves = _straight(group)
    first = next(iter(group), None)
    style = {} if first is None else {k: v for k in _STYLE if (v := first.get(k))}
    page = (drawing.width, drawing.height)
    return CutLines(cutting_order(lines, page), tuple(curves), style)


def _straight(group: ET.Element) -> tuple[list[Segment], list[ET.Element]]:
    """Return the straight lines of a group, and the elements that are not all straight."""
    lines: list[Segment] = []
    others: list[ET.Element] = []
    for element in group.iter():
        found: list[Segment] | None = None
        if element.tag == f"{{{_SVG}}}path":
            found = _path_lines(element.get("d", ""))
        elif element.tag == f"{{{_SVG}}}rect" and not element.get("rx"):
            x, y, width, height = (float(element.get(k, 0)) for k in ("x", "y", "width", "height"))
            found = list(outline(x, y, x + width, y + height))
        elif element.tag in (f"{{{_SVG}}}g", f"{{{_SVG}}}text"):
            continue
        if found is None:
            others.append(element)
        elif element.get("stroke") not in (None, "none"):
            lines += found
    return lines, others


def _path_lines(d: str) -> list[Segment] | None:
    """Return the lines of a path of M, L, H, V and Z; None where it has anything else."""
    if _STEP.sub("", d).strip(" ,"):
        return None
    lines: list[Segment] = []
    x = y = start_x = start_y = 0.0
    command, numbers = "", list[float]()
    for letter, number in _STEP.findall(d):
        if letter:
            command = letter
            if command == "Z":
                lines.append((x, y, start_x, start_y))
                x, y = start_x, start_y
            continue
        numbers.append(float(number))
        if command in "ML" and len(numbers) < 2:
            continue
        to_x = numbers[0] if command != "V" else x
        to_y = numbers[-1] if command != "H" else y
        if command == "M":
            start_x, start_y, command = to_x, to_y, "L"
        else:
            lines.append((x, y, to_x, to_y))
        x, y, numbers = to_x, to_y, []
    return lines
