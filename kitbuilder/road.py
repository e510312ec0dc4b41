"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from kitbuilder.bind.cutter import dxf, svg
from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.pictures import inked, pictures
from kitbuilder.bind.record import record
from kitbuilder.designs import Paper
from kitbuilder.draw.canvas import Drawing, OffPageError
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.printers import Pair
from kitbuilder.printing import Press
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import LaidOut, lay_out
from kitbuilder.sheet.making import Making
from kitbuilder.sheet.records import Sheet


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, the files written, and the ink.

    ``inked`` is the covered part of each page in per cent, where it was asked for.
    """

    kit: Kit
    laid: LaidOut
    files: tuple[Path, ...]
    inked: tuple[float, ...] = ()


def build(request: Request, folder: Path) -> Built:
    """Build the kit that ``request`` asks for and write it into ``folder``."""
    press, paper, words = request.press, request.paper, request.press.words
    example = first_wishes().sums[0]
    kit = contents(
        request.sums, request.within, request.extra, request.mats, request.parts, example, words
    )
    laid = lay_out(kit, request.cutting, paper, words, press.look, making(press))
    drawings = [drawn(sheet, page, paper, press) for page, sheet in enumerate(laid.sheets, 1)]
    files = {"kit.pdf": pdf(drawings, words("title.kit"), words.language)}
    files |= _beside(drawings, files["kit.pdf"], press)
    covered = inked(files["kit.pdf"]) if press.ink else ()
    files["kit.json"] = record(kit, laid, paper, words, files, covered).encode()
    return Built(kit, laid, write(folder, files), covered)


def making(press: Press) -> Making:
    """Return how pieces are made; backs have room to be shifted into the printer's register."""
    shift = press.printer.back_shift_mm if press.printer else Pair(0, 0)
    return Making(press.sturdy, press.kerf_mm, (abs(shift.across), abs(shift.down)))


def _beside(drawings: Sequence[Drawing], document: bytes, press: Press) -> dict[str, bytes]:
    """Return the files that were asked for beside the PDF ``document``."""
    files: dict[str, bytes] = {}
    for page, drawing in enumerate(drawings, 1):
        if press.svg:
            files[f"sheet-{page:02}.svg"] = svg(drawing)
        if press.dxf:
            files[f"sheet-{page:02}.dxf"] = dxf(drawing)
    if press.dpi is not None:
        files |= pictures(document, press.dpi)
    return files


def drawn(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet`` as page ``page``, with the correction that its printer needs."""
    try:
        drawing = draw_sheet(sheet, page, paper, press.words, press.look)
    except OffPageError as error:
        raise RefusedError(
            f"Page {page}, {press.words(f'title.{sheet.title}')!r}, does not fit {paper.name} in "
            f"the look {press.look.name}; choose a larger paper or another look."
        ) from error
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
