"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from dataclasses import dataclass, replace
from pathlib import Path

from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.record import record
from kitbuilder.designs import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.printing import Press
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import LaidOut, lay_out
from kitbuilder.sheet.records import Sheet


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, and the files written."""

    kit: Kit
    laid: LaidOut
    files: tuple[Path, ...]


def build(request: Request, folder: Path) -> Built:
    """Build the kit that ``request`` asks for and write it into ``folder``."""
    press, paper, words = request.press, request.paper, request.press.words
    example = first_wishes().sums[0]
    kit = contents(
        request.sums, request.within, request.extra, request.mats, request.parts, example, words
    )
    laid = lay_out(kit, request.cutting, paper, words, press.look)
    drawings = [drawn(sheet, page, paper, press) for page, sheet in enumerate(laid.sheets, 1)]
    files = {"kit.pdf": pdf(drawings, words("title.kit"), words.language)}
    files["kit.json"] = record(kit, laid, paper, words, files).encode()
    return Built(kit, laid, write(folder, files))


def drawn(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet`` as page ``page``, with the correction that its printer needs."""
    drawing = draw_sheet(sheet, page, paper, press.words, press.look)
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
