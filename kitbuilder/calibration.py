"""Turns a paper into its check sheet, and what was measured on it into a saved printer."""

from dataclasses import replace
from pathlib import Path

from kitbuilder import printers
from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.designs import Margins, Paper
from kitbuilder.draw.pages import draw_pages
from kitbuilder.errors import RefusedError
from kitbuilder.printers import Pair, Printer
from kitbuilder.printing import Press
from kitbuilder.sheet.check_print import bars, check_sheets


def write_check_sheet(typed: str, paper: Paper, press: Press, out: Path) -> None:
    """Write the check sheet for ``paper``, called ``typed`` on the command line, to ``out``."""
    sheets = check_sheets(paper, typed, press.words, press.look)
    title = press.words("title.check_print")
    whole = pdf(draw_pages(sheets, paper, press), title, press.words.language)
    write(out.parent, [(out.name, whole)])


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
    files = [(f"{name}.toml", printers.profile(printer).encode())]
    return printer, write(printers.folder(), files, "see that it can be made")[0]
