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
from kitbuilder.sheet.assemble import lay_out
from kitbuilder.sheet.records import Sheet


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, its sheets, and the files written."""

    kit: Kit
    sheets: tuple[Sheet, ...]
    files: tuple[Path, ...]


def build(request: Request, folder: Path) -> Built:
    """Build the kit that ``request`` asks for and write it into ``folder``."""
    press, paper = request.press, request.paper
    words, look = press.words, press.look
    example = first_wishes().sums[0]
    kit = contents(request.sums, request.within, request.extra, request.parts, example, words)
    sheets = lay_out(kit, paper, words, look)
    drawings = [_drawn(sheet, page, paper, press) for page, sheet in enumerate(sheets, 1)]
    files = {"kit.pdf": pdf(drawings, words("title.kit"), words.language)}
    files["kit.json"] = record(kit, sheets, paper, words, files).encode()
    return Built(kit, sheets, write(folder, files))


def _drawn(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet``, with the correction that its printer needs."""
    drawing = draw_sheet(sheet, page, paper, press.words, press.look)
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
