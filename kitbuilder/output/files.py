"""The files of a kit, made from its drawings one after the other: the PDF, and all beside it.

Nothing is held longer than it takes to write it, but for the pages of the PDF, deflated.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from functools import partial
from io import BytesIO

from kitbuilder.design.load import Paper
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Sheet
from kitbuilder.output.pdf.document import About, Pages, write_pdf
from kitbuilder.output.pdf.print_piles import piles
from kitbuilder.output.png import check_libraries, check_pictures, inked, pictures
from kitbuilder.output.store.folder import Content
from kitbuilder.output.store.folder import File as File
from kitbuilder.output.watch import Watch
from kitbuilder.press.printing import Piled, Press


@frozen
class Piling:
    """How the pile of a class set is ordered, and how many kits the set has."""

    how: Piled
    kits: int


@frozen
class Bound:
    """The files of a kit, to be taken once, and the ink on each page, known when all are taken.

    ``inks`` are areas in mm², as drawn; ``inked`` is the covered part of each page in per
    cent, as rendered, where it was asked for.
    """

    files: Iterator[File]
    inks: list[float] = field(default_factory=list)
    inked: list[float] = field(default_factory=list)


def bind(
    drawings: Iterable[Drawing],
    sheets: Sequence[Sheet],
    name: str,
    press: Press,
    piled: Piling | None,
    watch: Watch,
) -> Bound:
    """Return the files of ``drawings``, which show ``sheets``, the PDF being ``name``.

    With ``piled`` the whole pile of a class set is there too, a PDF for each paper.
    """
    if press.dpi is not None or press.ink:
        check_libraries()
    if press.dpi is not None:
        check_pictures(sheets, press.dpi)
    about = About(press.words(f"title.{name}"), press.words.language, press.made)
    inks, covered = list[float](), list[float]()

    def files() -> Iterator[File]:
        pages = Pages(own=press.own)
        for number, drawing in enumerate(watch(drawings, len(sheets), "pages"), 1):
            inks.append(drawing.ink_mm2)
            pages.add(drawing)
            yield from _for_machines(drawing, number, press)
        if press.dpi is None and not press.ink:
            yield f"{name}.pdf", partial(write_pdf, pages=pages, about=about)
        else:
            whole = content_bytes(partial(write_pdf, pages=pages, about=about))
            yield f"{name}.pdf", whole
            if press.dpi is not None:
                yield from watch(pictures(whole, press.dpi), len(sheets) + 1, "pictures")
            if press.ink:
                covered.extend(inked(whole))
        for pile in piles(sheets, piled.how, piled.kits) if piled else ():
            yield pile.name, partial(write_pdf, pages=pages, about=about, pile=pile)

    return Bound(files(), inks, covered)


def apart(
    groups: Iterable[tuple[str, Sequence[Sheet]]], paper: Paper, press: Press
) -> Iterator[File]:
    """Yield a PDF for each of ``groups``: a pupil's name and own sheets."""
    for number, (name, sheets) in enumerate(groups, 1):
        about = About(name, press.words.language, press.made)
        pages = Pages(draw_pages(sheets, paper, press), press.own)
        yield f"each/pupil-{number:04}.pdf", partial(write_pdf, pages=pages, about=about)


def content_bytes(content: Content) -> bytes:
    """Return what a file holds."""
    if isinstance(content, bytes):
        return content
    output = BytesIO()
    content(output)
    return output.getvalue()


def _for_machines(drawing: Drawing, page: int, press: Press) -> Iterator[File]:
    """Yield the files for cutters of one page, as far as they are asked for."""
    if press.svg or press.dxf:
        from kitbuilder.output.cutter import dxf, svg

        if press.svg:
            yield f"sheet-{page:02}.svg", svg(drawing)
        if press.dxf:
            yield f"sheet-{page:02}.dxf", dxf(drawing)
