"""Turns a PDF page into the straight lines drawn on it, read by pdfium, in millimetres."""

import ctypes
import re
from pathlib import Path

import pypdfium2 as pdfium
import pypdfium2.raw as raw

MM = 25.4 / 72

Line = tuple[float, float, float, float]


def page_lines(page: pdfium.PdfPage) -> list[Line]:
    """Return every straight stroke (x1, y1, x2, y2) of ``page``, mm from its top left."""
    height = page.get_height()
    lines: list[Line] = []
    for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=8):
        m = thing.get_matrix()
        x = y = 0.0
        start = (0.0, 0.0)
        for index in range(raw.FPDFPath_CountSegments(thing)):
            segment = raw.FPDFPath_GetPathSegment(thing, index)
            px, py = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, px, py)
            here = m.on_point(px.value, py.value)
            here = (here[0] * MM, (height - here[1]) * MM)
            kind = raw.FPDFPathSegment_GetType(segment)
            if kind == raw.FPDF_SEGMENT_MOVETO:
                start = here
            elif kind == raw.FPDF_SEGMENT_LINETO:
                lines.append((x, y, *here))
            x, y = here
            if raw.FPDFPathSegment_GetClose(segment):
                lines.append((x, y, *start))
                x, y = start
    return lines


def page_texts(path: Path) -> list[str]:
    """Return the text of each page of the PDF at ``path``, as pdfium extracts it.

    Spaces at the ends of lines are left out.
    """
    with pdfium.PdfDocument(path) as document:
        texts = [page.get_textpage().get_text_bounded() for page in document]
    return [re.sub(r" *\r\n", "\n", text).rstrip(" ") for text in texts]


def covered(side: Line, lines: list[Line], slack: float = 0.05) -> bool:
    """Say whether a straight side is drawn over by one of ``lines``, to within ``slack`` mm."""
    x1, y1, x2, y2 = side
    for a, b, c, d in lines:
        along_x = abs(b - d) < slack and abs(y1 - y2) < slack and abs(b - y1) < slack
        along_y = abs(a - c) < slack and abs(x1 - x2) < slack and abs(a - x1) < slack
        if along_x and min(a, c) <= min(x1, x2) + slack and max(a, c) >= max(x1, x2) - slack:
            return True
        if along_y and min(b, d) <= min(y1, y2) + slack and max(b, d) >= max(y1, y2) - slack:
            return True
    return False
