"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from pathlib import Path

from kitbuilder.bind.cutter import dxf, svg
from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.pictures import inked, pictures
from kitbuilder.bind.piles import piles
from kitbuilder.bind.record import record
from kitbuilder.designs import Paper
from kitbuilder.draw.canvas import Drawing, OffPageError
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.contents import contents
from kitbuilder.kit.mini import mini_contents
from kitbuilder.kit.records import Kit
from kitbuilder.printers import Pair
from kitbuilder.printing import Press
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import LaidOut, lay_out
from kitbuilder.sheet.estimate import Estimate, estimate
from kitbuilder.sheet.making import Making
from kitbuilder.sheet.mini import mini_sheets
from kitbuilder.sheet.print_run import run_sheets
from kitbuilder.sheet.records import Sheet
from kitbuilder.sheet.units import UnitCost, unit_costs


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, what it takes, and the files written.

    ``inked`` is the covered part of each page in per cent, where it was asked for.
    """

    kit: Kit
    laid: LaidOut
    takes: Estimate
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
    kit, laid = laid_out(request)
    ready: tuple[Drawing, ...] | None = None
    if request.cutting.kits > 1:
        laid, ready = _with_run(kit, laid, request)
    inks: list[float] = []
    covered: tuple[float, ...] = ()

    def files() -> Iterator[tuple[str, bytes]]:
        nonlocal covered
        beside: dict[str, bytes] = {}
        pages = watch(ready or _drawings(laid.sheets, request), len(laid.sheets))
        name, title = f"{request.name}.pdf", words(f"title.{request.name}")
        whole = pdf(_noted(pages, press, beside, inks), title, words.language)
        yield name, whole
        if press.dpi is not None:
            beside |= pictures(whole, press.dpi)
        if request.collated:
            beside |= piles(whole, laid.sheets, title)
        yield from beside.items()
        for number, (pupil, sheets) in enumerate(_sections(laid.sheets, request), 1):
            yield (
                f"each/pupil-{number:04}.pdf",
                pdf(_drawings(sheets, request), pupil, words.language),
            )
        covered = inked(whole) if press.ink else ()
        if not request.pupils:
            hashed, takes = {name: whole, **beside}, _takes(laid, inks, request)
            text = record(kit, laid, paper, words, hashed, inks, takes, covered)
            yield f"{request.name}.json", text.encode()

    written = write(folder, files())
    return Built(kit, laid, _takes(laid, inks, request), written, covered)


def laid_out(request: Request) -> tuple[Kit, LaidOut]:
    """Return what the kit holds, and all of it on sheets."""
    press, paper, words = request.press, request.paper, request.press.words
    if request.mini:
        kit = mini_contents(request.sums[0], request.mats, request.cards, words)
        return kit, mini_sheets(kit, paper, words, press.look)
    kit = held(request)
    return kit, lay_out(kit, request.cutting, paper, words, press.look, making(press))


def _takes(laid: LaidOut, inks: Sequence[float], request: Request) -> Estimate:
    layers = request.cutting.layers
    return estimate(laid.sheets, inks, laid.cutting, layers, request.estimate)


def _with_run(kit: Kit, laid: LaidOut, request: Request) -> tuple[LaidOut, tuple[Drawing, ...]]:
    """Put a class set's print run in front, and return it with the drawings of all sheets.

    The run tells the ink of all other pages, whose numbers count on from its own.
    """
    press, paper, cutting = request.press, request.paper, request.cutting
    body, run = laid.sheets, laid.sheets[:1]
    drawings: list[Drawing] = []
    before = 0
    while len(run) != before:
        before = len(run)
        drawings = [drawn(s, page, paper, press) for page, s in enumerate(body, before + 1)]
        takes = _takes(laid, [drawing.ink_mm2 for drawing in drawings], request)
        run = run_sheets(kit, body, laid.cutting, cutting, takes, paper, press.words, press.look)
    first = [drawn(sheet, page, paper, press) for page, sheet in enumerate(run, 1)]
    return replace(laid, sheets=(*run, *body)), (*first, *drawings)


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
        request.plan,
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
    drawings: Iterable[Drawing], press: Press, beside: dict[str, bytes], inks: list[float]
) -> Iterator[Drawing]:
    """Pass ``drawings`` on, noting their ink.

    The files for machines that were asked for are added to ``beside``.
    """
    for page, drawing in enumerate(drawings, 1):
        inks.append(drawing.ink_mm2)
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
