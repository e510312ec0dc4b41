"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
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
    example = first_wishes().sums[0]
    kit = contents(
        request.sums,
        request.within,
        request.extra,
        request.mats,
        request.parts,
        example,
        words,
        request.cards,
        request.pupils,
    )
    laid = lay_out(kit, request.cutting, paper, words, press.look)

    def bound(sheets: Sequence[Sheet], title: str) -> bytes:
        pages = (drawn(sheet, page, paper, press) for page, sheet in enumerate(sheets, 1))
        return pdf(watch(pages, len(sheets)), title, words.language)

    def files() -> Iterator[tuple[str, bytes]]:
        name = f"{request.name}.pdf"
        whole = bound(laid.sheets, words(f"title.{request.name}"))
        yield name, whole
        if request.each:
            for number, (pupil, sheets) in enumerate(_sections(laid.sheets), 1):
                yield f"each/pupil-{number:04}.pdf", bound(sheets, pupil)
        if not request.pupils:
            table = record(kit, laid, paper, words, {name: whole})
            yield f"{request.name}.json", table.encode()

    return Built(kit, laid, write(folder, files()))


def _sections(sheets: Sequence[Sheet]) -> Iterator[tuple[str, list[Sheet]]]:
    """Yield each pupil's name and sheets."""
    for pupil, group in groupby(sheets, key=lambda sheet: sheet.section):
        if pupil:
            yield pupil, list(group)


def drawn(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet`` as page ``page``, with the correction that its printer needs."""
    drawing = draw_sheet(sheet, page, paper, press.words, press.look)
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
