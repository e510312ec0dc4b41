"""A paper's check sheet, and the printer measured on it."""

import math
from collections.abc import Iterable
from pathlib import Path

from kitbuilder.design.load import Margins, Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.layout.cover.size_check import CORNER
from kitbuilder.layout.pages.check_sheet import bars, check_sheets
from kitbuilder.layout.parts.furniture import TRUE_TEN as BAR
from kitbuilder.output.pdf.document import pdf
from kitbuilder.output.store.folder import write, write_new
from kitbuilder.press import printer as printers
from kitbuilder.press.printer import LEAST, MOST, MOST_CROP, MOST_SHIFT, Pair, Printer
from kitbuilder.press.printing import Press


def write_check_sheet(paper: Paper, press: Press, out: Path) -> None:
    """Write the check sheet for ``paper`` to ``out``."""
    sheets = check_sheets(press.style(paper))
    write_new(out, check_pdf(draw_pages(sheets, paper, press), press), "out")


def check_pdf(pages: Iterable[Drawing], press: Press) -> bytes:
    """Return the drawn ``pages`` of a check sheet as a PDF."""
    title = press.words("title.check_print")
    return pdf(pages, title, press.words.language, press.made)


@frozen
class Saved:
    """The file of a saved printer, and whether it replaced another of that name."""

    path: Path
    replaced: bool


def save_printer(printer: Printer) -> Saved:
    """Save ``printer`` as a profile under its name."""
    file = f"{printer.name}.toml"
    replaced = (printers.folder() / file).exists()
    files = [(file, printers.profile(printer).encode())]
    (path,) = write(printers.folder(), files, advice=Said("advice.make-folder")).files
    return Saved(path, replaced)


def measured_printer(
    name: str,
    paper: Paper,
    measured: tuple[float, float],
    crop: tuple[float, float, float, float] | None,
    back_shift: tuple[float, float] | None,
) -> Printer:
    """Return the printer measured on a check sheet of ``paper``.

    ``measured`` are the bars across and down, ``crop`` is top, right, bottom, left and
    ``back_shift`` right and down, all in mm. Raises ``RefusedError`` for what cannot be.
    """
    top, right, bottom, left = crop = crop or (0.0, 0.0, 0.0, 0.0)
    shift = back_shift or (0.0, 0.0)
    _check_options(paper, measured, crop, shift)
    printer = Printer(
        name,
        paper.name,
        Pair(*map(float, bars(paper))),
        Pair(*measured),
        Margins(left, right, top, bottom),
        Pair(*shift),
    )
    _check_printed(printer, paper)
    return printer


def _check_options(
    paper: Paper,
    measured: tuple[float, float],
    crop: tuple[float, ...],
    shift: tuple[float, ...],
) -> None:
    """Refuse a measurement that cannot be, by the option that gave it."""
    for option, bar, mm in zip(
        ("measured-across", "measured-down"), bars(paper), measured, strict=True
    ):
        if not LEAST * bar <= mm <= MOST * bar:
            least, most = LEAST * bar, MOST * bar
            raise RefusedError(
                "printer.measured", option=option, given=mm, bar=bar, least=least, most=most
            )
    for option, values, least, most in (
        ("crop", crop, 0.0, MOST_CROP),
        ("back-shift", shift, -MOST_SHIFT, MOST_SHIFT),
    ):
        for mm in values:
            if not least <= mm <= most:
                raise RefusedError(
                    "printer.each-number", option=option, given=mm, least=least, most=most
                )


def _check_printed(printer: Printer, paper: Paper) -> None:
    """Refuse a printer that leaves too little of ``paper`` for the first page of a kit."""
    m = printer.margins(paper)
    across = paper.width_mm - m.left - m.right
    down = paper.height_mm - m.top - m.bottom
    least = BAR + 2 * CORNER
    if min(across, down) < least:
        raise RefusedError(
            "printer.prints-too-little",
            printer=printer.name,
            across=round(max(across, 0)),
            down=round(max(down, 0)),
            paper=paper.name,
            least=least,
            wide=math.ceil(paper.width_mm + max(0.0, least - across)),
            high=math.ceil(paper.height_mm + max(0.0, least - down)),
            option="crop",
        )
