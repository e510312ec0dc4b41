"""Turns drawings into the files of a kit: the PDF, and all that was asked for beside it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.design.load import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.drawings import draw_pages
from kitbuilder.layout.model import Sheet
from kitbuilder.output.pdf import About, Pages, document, pdf
from kitbuilder.output.piles import piles
from kitbuilder.output.png import check_pictures, inked, pictures
from kitbuilder.output.watch import Watch
from kitbuilder.press.printing import Press

File = tuple[str, bytes]
"""A file's name in its folder and its content."""


@dataclass(frozen=True, slots=True)
class Bound:
    """The files of a kit, and the ink on each page.

    ``inks`` are areas in mm², as drawn; ``inked`` is the covered part of each page in per
    cent, as rendered, where it was asked for.
    """

    files: tuple[File, ...]
    inks: tuple[float, ...]
    inked: tuple[float, ...] = ()


def bind(
    drawings: Iterable[Drawing],
    sheets: Sequence[Sheet],
    name: str,
    press: Press,
    collated: bool,
    watch: Watch,
) -> Bound:
    """Return the files of ``drawings``, which show ``sheets``: the PDF ``name`` comes first.

    With ``collated`` the whole pile of a class set is there too, a PDF a paper.
    """
    if press.dpi is not None:
        check_pictures(sheets, press.dpi)
    title = press.words(f"title.{name}")
    beside: list[File] = []
    inks: list[float] = []
    noted = _noted(watch(drawings, len(sheets), "pages"), press, beside, inks)
    pages, about = Pages(noted), About(title, press.words.language, press.made)
    whole = document(pages, about)
    if press.dpi is not None:
        beside += watch(pictures(whole, press.dpi), len(sheets) + 1, "pictures")
    if collated:
        beside += piles(pages, sheets, about)
    covered = inked(whole) if press.ink else ()
    return Bound(((f"{name}.pdf", whole), *beside), tuple(inks), covered)


def apart(sheets: Sequence[Sheet], paper: Paper, press: Press, watch: Watch) -> Iterator[File]:
    """Yield a PDF for each section of ``sheets``: each pupil's own pages."""
    sections: dict[str, list[Sheet]] = {}
    for sheet in sheets:
        if sheet.section:
            sections.setdefault(sheet.section, []).append(sheet)
    packs = watch(sections.items(), len(sections), "packs")
    for number, (section, group) in enumerate(packs, 1):
        pages = draw_pages(group, paper, press)
        whole = pdf(pages, section, press.words.language, press.made)
        yield f"each/pupil-{number:04}.pdf", whole


def _noted(
    drawings: Iterable[Drawing], press: Press, beside: list[File], inks: list[float]
) -> Iterator[Drawing]:
    """Pass ``drawings`` on, adding their ink and their files for machines to the lists."""
    if press.svg or press.dxf:
        from kitbuilder.output.cutter import dxf, svg
    for page, drawing in enumerate(drawings, 1):
        inks.append(drawing.ink_mm2)
        if press.svg:
            beside.append((f"sheet-{page:02}.svg", svg(drawing)))
        if press.dxf:
            beside.append((f"sheet-{page:02}.dxf", dxf(drawing)))
        yield drawing
