"""Drawings of sheets, one at a time, with the correction that a printer needs."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Paper
from kitbuilder.draw.canvas import Drawing, OffPageError
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Sheet
from kitbuilder.press.printing import Press


def draw_pages(
    sheets: Sequence[Sheet], paper: Paper, press: Press, before: int = 0
) -> Iterator[Drawing]:
    """Draw ``sheets`` as the pages after the first ``before``."""
    for page, sheet in enumerate(sheets, before + 1):
        yield draw_page(sheet, page, paper, press)


def draw_page(sheet: Sheet, page: int, paper: Paper, press: Press) -> Drawing:
    """Draw ``sheet`` as page ``page``.

    Raises ``RefusedError`` where something on it would leave the page.
    """
    try:
        drawing = draw_sheet(sheet, page, press.style(paper))
    except OffPageError as error:
        raise RefusedError(
            "page.does-not-fit",
            field="paper",
            page=page,
            title=press.words(f"title.{sheet.kind}"),
            paper=paper.name,
            look=press.look.name,
        ) from error
    drawing = replace(drawing, flip=sheet.flip)
    if press.printer is None:
        return drawing
    turned = sheet.width != paper.width_mm
    correction = press.printer.correction(sheet.width, sheet.height, turned, sheet.flip)
    return replace(drawing, correction=correction)
