"""The process that turns an SVG from standard input into a PDF on standard output.

It ends with 3 where CairoSVG or cairo is not installed, with 4 where the SVG cannot be drawn.
"""

import sys

SECONDS = 10
MEMORY = 700_000_000
"""The processor's seconds and the bytes of memory it may take, where the system keeps count."""


LARGEST_SIDE = 14_400
"""Points a side of a page may have (ISO 32000-1, annex C, from memory)."""


def main() -> None:
    """Draw what comes in."""
    svg = sys.stdin.buffer.read()
    try:
        import pypdf  # noqa: F401  (it is needed when the drawing is put on the pages)
        from cairosvg.surface import PDFSurface
    except (ImportError, OSError):
        sys.exit(3)
    _limit()
    try:
        page = PDFSurface.convert(bytestring=svg, url_fetcher=_refuse)
        _check_size(page)
    except BaseException:  # whatever a stranger's file may bring about
        sys.exit(4)
    sys.stdout.buffer.write(page)


def _check_size(page: bytes) -> None:
    """Raise ``ValueError`` for a page of no size, or larger than PDF readers take."""
    from io import BytesIO

    from pypdf import PdfReader

    box = PdfReader(BytesIO(page)).pages[0].mediabox
    if not all(1 <= float(side) <= LARGEST_SIDE for side in (box.width, box.height)):
        raise ValueError("the drawing's size is none that can be printed")


def _limit() -> None:
    try:
        import resource
    except ImportError:  # on Windows the parent's clock is all there is
        return
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _refuse(url: str, resource_type: str) -> bytes:
    if url.startswith("data:"):
        from cairosvg.url import fetch

        return bytes(fetch(url, resource_type))
    raise ValueError("nothing outside the file is fetched")
