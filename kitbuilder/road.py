"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from dataclasses import dataclass, replace
from pathlib import Path

from kitbuilder import printers
from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.record import record
from kitbuilder.designs import Margins, Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.printers import Pair, Printer
from kitbuilder.printing import Press
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import lay_out
from kitbuilder.sheet.check_print import bars, check_sheets
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


def write_check_sheet(typed: str, paper: Paper, press: Press, out: Path) -> None:
    """Write the check sheet for ``paper``, called ``typed`` on the command line, to ``out``."""
    sheets = check_sheets(paper, typed, press.words, press.look)
    drawings = [_drawn(sheet, page, paper, press) for page, sheet in enumerate(sheets, 1)]
    title = press.words("title.check_print")
    write(out.parent, {out.name: pdf(drawings, title, press.words.language)})


def save_printer(
    name: str,
    paper: Paper,
    measured: tuple[float, float],
    crop: tuple[float, float, float, float] | None,
    back_shift: tuple[float, float] | None,
) -> tuple[Printer, Path]:
    """Save the printer measured on a check sheet of ``paper`` and return it with its file.

    ``measured`` are the bars across and down, ``crop`` is top, right, bottom, left and
    ``back_shift`` right and down, all in mm. Raises ``RefusedError`` for what cannot be.
    """
    top, right, bottom, left = crop or (0.0, 0.0, 0.0, 0.0)
    try:
        printer = Printer(
            name,
            paper.name,
            Pair(*map(float, bars(paper))),
            Pair(*measured),
            Margins(left, right, top, bottom),
            Pair(*(back_shift or (0.0, 0.0))),
        )
        replace(paper, margins_mm=printer.margins(paper))
    except ValueError as error:
        raise RefusedError(f"The printer {name} cannot be saved: {error}.") from None
    files = {f"{name}.toml": printers.profile(printer).encode()}
    return printer, write(printers.folder(), files, "see that it can be made")[0]
