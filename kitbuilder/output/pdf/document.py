"""Drawings as PDF: true size, real text, outlined, numbered, and not to be scaled.

``pydyf`` keeps a file's objects and writes it. Pages are deflated as they are drawn, so few are
held at their full size, and a figure that stands at several places is held once.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any

import pydyf

from kitbuilder import __version__
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import Figure, Strokes
from kitbuilder.frozen import frozen
from kitbuilder.output.pdf.bookmarks import add_outline
from kitbuilder.output.pdf.embedded import Typeface
from kitbuilder.output.pdf.objects import File, Packed, WrittenObject, packed
from kitbuilder.output.pdf.pen import POINTS_PER_MM, Pen
from kitbuilder.output.pdf.print_piles import FilePile
from kitbuilder.output.store.folder import Output

if TYPE_CHECKING:
    from kitbuilder.press.own_drawing import OwnDrawing

_SHORT = 1000
"""A figure of so many bytes is drawn wherever it stands: holding it once would take more."""

OWN = "Own"
"""The name of someone's own drawing on the pages."""


@frozen
class About:
    """What a document says of itself: its title, its language, and a date or none.

    ``made`` is in seconds since the start of 1970, UTC.
    """

    title: str
    language: str
    made: int | None = None


@frozen
class Leaf:
    """One page, drawn: its deflated content, the figures it shows, and what it is called.

    Its size is in points.
    """

    content: bytes
    figures: tuple[str, ...]
    width: float
    height: float
    section: str
    title: str
    flip: str | None


class Pages:
    """Drawn pages, with the figures and letters they share; from them documents are written."""

    def __init__(self, drawings: Iterable[Drawing] = (), own: "OwnDrawing | None" = None) -> None:
        self.own = own
        self._own_size: tuple[float, float] | None = None
        if own:
            from kitbuilder.output.pdf.foreign import page_size

            self._own_size = page_size(own.pdf)
        self.leaves: list[Leaf] = []
        self.forms: dict[str, Form] = {}
        self.typefaces: dict[str, Typeface] = {}
        self._names: dict[bytes, str] = {}
        self._figures: dict[bytes, str] = {}
        for drawing in drawings:
            self.add(drawing)

    def add(self, drawing: Drawing) -> None:
        """Draw the next page."""
        shown: dict[str, None] = {}

        def show(figure: Figure) -> str:
            drawn = self._drawn(figure)
            if len(drawn) <= _SHORT:
                return drawn
            name = self._held(figure, drawn)
            shown[name] = None
            return f"/{name} Do"

        def show_own() -> tuple[str, float, float]:
            shown[OWN] = None
            return (OWN, *(self._own_size or (1.0, 1.0)))

        pen = Pen(self._runs, show, show_own if self.own else None)
        pen.page(drawing)
        leaf = Leaf(
            packed(pen.content),
            tuple(shown),
            drawing.width * POINTS_PER_MM,
            drawing.height * POINTS_PER_MM,
            drawing.section,
            drawing.title,
            drawing.flip,
        )
        self.leaves.append(leaf)

    def _runs(self, family: str, text: str) -> list[tuple[str, str]]:
        """Return ``text`` as names of a family's fonts, each with the codes it shows."""
        typeface = self.typefaces.get(family)
        if typeface is None:
            typeface = self.typefaces[family] = Typeface(family, f"T{len(self.typefaces)}")
        return typeface.runs(text)

    def _drawn(self, figure: Figure) -> str:
        """Return what draws ``figure``, which is written when it is met for the first time."""
        if figure.key not in self._figures:
            pen = Pen(self._runs)
            pen.marks(figure.marks)
            self._figures[figure.key] = pen.content.decode("latin-1")
        return self._figures[figure.key]

    def _held(self, figure: Figure, drawn: str) -> str:
        """Return the name under which ``figure`` is held."""
        name = self._names.setdefault(figure.key, f"F{len(self._names)}")
        if name not in self.forms:
            thick = max(m.width if isinstance(m, Strokes) else m.line for m in figure.marks)
            box = (-thick, -thick, figure.width + thick, figure.height + thick)
            self.forms[name] = Form(packed(drawn.encode("latin-1")), box)
        return name


@frozen
class Form:
    """A figure, drawn: its deflated content and the box (left, top, right, bottom) it fills."""

    content: bytes
    box: tuple[float, float, float, float]


def pdf(drawings: Iterable[Drawing], title: str, language: str, made: int | None = None) -> bytes:
    """Return ``drawings`` as one PDF; see ``document``."""
    return document(Pages(drawings), About(title, language, made))


def document(pages: Pages, about: About, pile: FilePile | None = None) -> bytes:
    """Return what ``write_pdf`` writes."""
    output = BytesIO()
    write_pdf(output, pages, about, pile)
    return output.getvalue()


def write_pdf(output: Output, pages: Pages, about: About, pile: FilePile | None = None) -> None:
    """Write a PDF 1.7 of ``pages``, or of those of a ``pile`` of them, in its order.

    It has a title, a language, an outline and page labels, and asks viewers to print it at
    actual size, on one side or both as its pages are meant. The same pages give the same bytes.
    """
    writer = _Writer(pages)
    leaves = pages.leaves if pile is None else list(_piled(pages.leaves, pile))
    for leaf in leaves:
        writer.add(leaf)
    writer.finish(output, about, [leaf.flip for leaf in leaves])


def _piled(leaves: Sequence[Leaf], pile: FilePile) -> Iterator[Leaf]:
    """Yield the pages of ``pile``; an empty back is as large as its front."""
    backs: dict[int, Leaf] = {}
    front = 0
    for index in pile.order:
        if index is not None:
            front = index
            yield leaves[index]
        else:
            if front not in backs:
                back = replace(leaves[front], content=_EMPTY, figures=(), flip=pile.flip)
                backs[front] = back
            yield backs[front]


_EMPTY = packed(b"")


class _Writer:
    """A PDF being written."""

    def __init__(self, pages: Pages) -> None:
        self._pages = pages
        self._pdf = File()
        self._fonts = self._add(pydyf.Dictionary())
        self._figures: dict[str, bytes] = {}
        self._contents: dict[int, bytes] = {}
        self._headings: list[tuple[str, str, bytes]] = []

    def _add(self, thing: Any) -> Any:  # noqa: ANN401  (pydyf ships no types)
        self._pdf.add_object(thing)
        return thing

    def add(self, leaf: Leaf) -> None:
        """Add a page; where it stood before, its content is held once."""
        if id(leaf) not in self._contents:
            self._contents[id(leaf)] = self._add(Packed(leaf.content)).reference
        held = {"Font": self._fonts.reference}
        if leaf.figures:
            held["XObject"] = pydyf.Dictionary({f: self._figure(f) for f in leaf.figures})
        told = {
            "Type": "/Page",
            "Parent": self._pdf.pages.reference,
            "MediaBox": pydyf.Array([0, 0, round(leaf.width, 4), round(leaf.height, 4)]),
            "Resources": pydyf.Dictionary(held),
            "Contents": self._contents[id(leaf)],
        }
        page = WrittenObject(pydyf.Dictionary(told).data)
        self._pdf.add_page(page)
        self._headings.append((leaf.section, leaf.title, page.reference))

    def _figure(self, name: str) -> bytes:
        if name == OWN and self._pages.own and name not in self._figures:
            from kitbuilder.output.pdf.foreign import foreign_form

            self._figures[name] = foreign_form(self._pdf, self._pages.own.pdf)
        if name not in self._figures:
            form = self._pages.forms[name]
            box = pydyf.Array(round(side, 3) for side in form.box)
            extra = {"Type": "/XObject", "Subtype": "/Form", "BBox": box}
            self._figures[name] = self._add(Packed(form.content, extra)).reference
        return self._figures[name]

    def finish(self, output: Output, about: About, flips: Sequence[str | None]) -> None:
        """Write the whole document."""
        for typeface in self._pages.typefaces.values():
            self._fonts |= typeface.add_to(self._pdf)
        self._pdf.catalog |= {
            "Lang": pydyf.String(about.language),
            "Outlines": add_outline(self._pdf, self._headings),
            "PageLabels": "<</Nums [0 <</S /D>>]>>",
            "ViewerPreferences": _wishes(flips),
        }
        made = dates(about.made)
        told = {"Title": about.title, "Producer": f"kitbuilder {__version__}", **made}
        self._pdf.info |= {key: pydyf.String(value) for key, value in told.items()}
        self._pdf.write(output, b"1.7", compress=True)


def _wishes(flips: Sequence[str | None]) -> pydyf.Dictionary:
    """Return how a document wishes to be shown and printed (ISO 32000-1, 12.2, from memory).

    Where every page with an odd number has its back behind it, the paper is turned over; where
    none has one, it is printed on one side. A mixture is left to the person who prints.
    """
    wishes = {"PrintScaling": "/None", "Enforce": "[/PrintScaling]", "DisplayDocTitle": "true"}
    backs = set(flips[1::2])
    if not any(flips):
        wishes["Duplex"] = "/Simplex"
    elif len(backs) == 1 and len(flips) % 2 == 0 and not any(flips[::2]):
        edge = {"long-edge": "LongEdge", "short-edge": "ShortEdge"}[str(*backs)]
        wishes["Duplex"] = f"/DuplexFlip{edge}"
    return pydyf.Dictionary(wishes)


def dates(made: int | None) -> dict[str, str]:
    """Return a PDF's two dates as ISO 32000-1, 7.9.4, writes them (from memory)."""
    if made is None:
        return {}
    day = f"{datetime.fromtimestamp(made, UTC):D:%Y%m%d%H%M%SZ}"
    return {"CreationDate": day, "ModDate": day}
