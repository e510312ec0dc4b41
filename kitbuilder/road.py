"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from dataclasses import dataclass, replace
from pathlib import Path

from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.piles import piles
from kitbuilder.bind.record import record
from kitbuilder.designs import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.printing import Press
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import LaidOut, lay_out
from kitbuilder.sheet.estimate import Estimate, estimate
from kitbuilder.sheet.print_run import run_sheets
from kitbuilder.sheet.records import Sheet


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, what it takes, and the files written."""

    kit: Kit
    laid: LaidOut
    takes: Estimate
    files: tuple[Path, ...]


def build(request: Request, folder: Path) -> Built:
    """Build the kit that ``request`` asks for and write it into ``folder``."""
    press, paper, words = request.press, request.paper, request.press.words
    example, cutting = first_wishes().sums[0], request.cutting
    kit = contents(
        request.sums,
        request.within,
        request.extra,
        request.mats,
        request.parts,
        example,
        words,
        cutting,
    )
    laid = lay_out(kit, cutting, paper, words, press.look)
    laid, drawings, takes = _drawn(kit, laid, request)
    files = {"kit.pdf": pdf(drawings, words("title.kit"), words.language)}
    if request.collated:
        files |= piles(files["kit.pdf"], laid.sheets, words("title.kit"))
    inks = [drawing.ink_mm2 for drawing in drawings]
    files["kit.json"] = record(kit, laid, paper, words, inks, takes, files).encode()
    return Built(kit, laid, takes, write(folder, files))


def _drawn(
    kit: Kit, laid: LaidOut, request: Request
) -> tuple[LaidOut, tuple[Drawing, ...], Estimate]:
    """Draw every sheet and reckon what they take; put a class set's print run in front.

    The run tells the ink of all other pages, whose numbers count on from its own.
    """
    press, paper, cutting = request.press, request.paper, request.cutting
    run: tuple[Sheet, ...] = ()
    drawings: list[Drawing] = []
    before = -1
    while len(run) != before:
        before = len(run)
        drawings = [drawn(s, page, paper, press) for page, s in enumerate(laid.sheets, before + 1)]
        inks = [drawing.ink_mm2 for drawing in drawings]
        takes = estimate(laid.sheets, inks, laid.cutting, cutting.layers, request.estimate)
        if cutting.kits > 1:
            run = run_sheets(
                kit, laid.sheets, laid.cutting, cutting, takes, paper, press.words, press.look
            )
    first = [drawn(sheet, page, paper, press) for page, sheet in enumerate(run, 1)]
    return replace(laid, sheets=(*run, *laid.sheets)), (*first, *drawings), takes


def drawn(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet`` as page ``page``, with the correction that its printer needs."""
    drawing = draw_sheet(sheet, page, paper, press.words, press.look)
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
