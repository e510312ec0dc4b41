"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
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
from kitbuilder.sheet.units import UnitCost, unit_costs


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, the files written, and the ink.

    ``inked`` is the covered part of each page in per cent, where it was asked for.
    """

    kit: Kit
    laid: LaidOut
    files: tuple[Path, ...]
    inked: tuple[float, ...] = ()


Watch = Callable[[Iterable[Drawing], int], Iterable[Drawing]]
"""Passes drawings on as they are made, told how many there will be; it may show progress."""


def unwatched(drawings: Iterable[Drawing], total: int) -> Iterable[Drawing]:
    """Pass ``drawings`` on in silence."""
    return drawings


def build(request: Request, folder: Path, watch: Watch = unwatched) -> Built:
    """Build what ``request`` asks for and write it into ``folder``.

    Pages are drawn one at a time. What pupils' packs hold goes into their PDFs alone.
    """
    press, paper, words = request.press, request.paper, request.press.words
    kit = held(request)
    laid = lay_out(kit, request.cutting, paper, words, press.look, making(press))
    covered: tuple[float, ...] = ()

    def files() -> Iterator[tuple[str, bytes]]:
        nonlocal covered
        beside: dict[str, bytes] = {}
        pages = watch(_drawings(laid.sheets, request), len(laid.sheets))
        name = f"{request.name}.pdf"
        whole = pdf(_noted(pages, press, beside), words(f"title.{request.name}"), words.language)
        yield name, whole
        if press.dpi is not None:
            beside |= pictures(whole, press.dpi)
        yield from beside.items()
        for number, (pupil, sheets) in enumerate(_sections(laid.sheets, request), 1):
            yield (
                f"each/pupil-{number:04}.pdf",
                pdf(_drawings(sheets, request), pupil, words.language),
            )
        covered = inked(whole) if press.ink else ()
        if not request.pupils:
            hashed = {name: whole, **beside}
            yield f"{request.name}.json", record(kit, laid, paper, words, hashed, covered).encode()

    return Built(kit, laid, write(folder, files()), covered)


def held(request: Request) -> Kit:
    """Return what the kit that ``request`` asks for holds."""
    return contents(
        request.sums,
        request.within,
        request.extra,
        request.mats,
        request.parts,
        first_wishes().sums[0],
        request.press.words,
        request.cards,
        request.pupils,
    )


def compare_units(request: Request) -> tuple[UnitCost, ...]:
    """Return what the kit that ``request`` asks for would take at units of 5 to 15 mm."""
    press = request.press
    return unit_costs(held(request), request.paper, press.words, press.look, making(press))


def making(press: Press) -> Making:
    """Return how pieces are made; backs have room to be shifted into the printer's register."""
    shift = press.printer.back_shift_mm if press.printer else Pair(0, 0)
    return Making(press.sturdy, press.kerf_mm, (abs(shift.across), abs(shift.down)))


def _drawings(sheets: Sequence[Sheet], request: Request) -> Iterator[Drawing]:
    """Draw ``sheets`` one at a time."""
    for page, sheet in enumerate(sheets, 1):
        yield drawn(sheet, page, request.paper, request.press)


def _noted(
    drawings: Iterable[Drawing], press: Press, beside: dict[str, bytes]
) -> Iterator[Drawing]:
    """Pass ``drawings`` on, adding to ``beside`` the files for machines that were asked for."""
    for page, drawing in enumerate(drawings, 1):
        if press.svg:
            beside[f"sheet-{page:02}.svg"] = svg(drawing)
        if press.dxf:
            beside[f"sheet-{page:02}.dxf"] = dxf(drawing)
        yield drawing


def _sections(sheets: Sequence[Sheet], request: Request) -> Iterator[tuple[str, list[Sheet]]]:
    """Yield each pupil's name and sheets, where each pupil gets a file."""
    for pupil, group in groupby(sheets, key=lambda sheet: sheet.section):
        if pupil and request.each:
            yield pupil, list(group)


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
