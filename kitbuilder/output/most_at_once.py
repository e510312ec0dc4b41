"""The most that is made in one go: a minute's work on two cores, told before it begins."""

from collections.abc import Sequence

from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Sheet

MOST_SECONDS = 36.0
"""What a request may take as reckoned here; half as much again on a slow machine is a minute."""

MOST_PILED = 100_000
"""Pages of a pile: each is an entry in the file, whatever it shows."""

PAGE = 0.003
"""Seconds a page takes from its layout to its place in the PDF (measured: cards with backs)."""

CUTTER_PAGE = {"svg": 0.05, "dxf": 0.07}
"""Seconds a page takes as a file for cutters, words as outlines (measured, twice a card's)."""

PICTURE, DOTS = 0.05, 0.06
"""Seconds a picture takes, and a million dots of it (measured)."""

INK = 0.15
"""Seconds it takes to render a page for its ink (measured: 0.04 to 0.13)."""

PACK = 0.06
"""Seconds a file of one pupil takes besides its pages (measured: most of it is its typefaces)."""


@frozen
class Work:
    """What is made of each page besides its place in the PDF."""

    svg: bool = False
    dxf: bool = False
    dpi: int | None = None
    ink: bool = False
    each: bool = False
    piled: bool = False

    def seconds(self, sheets: Sequence[Sheet]) -> float:
        """Return about how long ``sheets`` take on one core."""
        pages = len(sheets)
        found = pages * PAGE * (2 if self.each else 1)
        found += pages * CUTTER_PAGE["svg"] if self.svg else 0
        found += pages * CUTTER_PAGE["dxf"] if self.dxf else 0
        found += pages * INK if self.ink else 0
        if self.dpi is not None:
            dots = sum(s.width * s.height for s in sheets) / 25.4**2 * self.dpi**2 / 1e6
            found += pages * PICTURE + dots * DOTS
        if self.each:
            found += PACK * len({s.section for s in sheets})
        return found

    @property
    def wishes(self) -> tuple[Said, ...]:
        """The options that cost more than the PDF."""
        said = {
            "cutter": self.svg or self.dxf,
            "ink": self.ink,
            "each": self.each,
            "png": self.dpi is not None,
        }
        return tuple(Said("option.name", option=name) for name, wished in said.items() if wished)


def check_work(sheets: Sequence[Sheet], work: Work) -> None:
    """Raise ``RefusedError`` where ``sheets`` take more than a minute, saying how many would do."""
    seconds = work.seconds(sheets)
    if seconds > MOST_SECONDS:
        pages, most = len(sheets), int(len(sheets) * MOST_SECONDS / seconds)
        if not work.wishes:
            raise RefusedError("work.too-much", pages=pages, most=most)
        raise RefusedError("work.too-much-with", pages=pages, most=most, options=work.wishes)
    if work.piled:
        piled = sum(sheet.copies for sheet in sheets)
        if piled > MOST_PILED:
            raise RefusedError("work.pile", pages=piled, most=MOST_PILED, option="piles")
