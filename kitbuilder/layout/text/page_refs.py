"""Turns pointers to the guide into words, once every page has its number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design import metrics
from kitbuilder.design.load import Words
from kitbuilder.layout.model import Item, Sheet, SheetKind
from kitbuilder.layout.text.flow import LEADING, Figure, TextBlock

PAGE = "{page}"
"""Stands in a pointer's text for the number of the page."""

_WIDEST = "8888"


@dataclass(frozen=True, slots=True)
class Pointer:
    """A paragraph that names the guide's page on wrong answers as ``PAGE``; ``size`` in mm."""

    text: str
    size: float

    def block(self, page: str, width: float) -> TextBlock:
        """Return the paragraph with ``page`` as the page's number, in lines of ``width`` mm."""
        return TextBlock(metrics.wrap(self.text.replace(PAGE, page), self.size, width), self.size)


def pointer_figure(text: str, size: float, width: float) -> Figure:
    """Return ``text``, in which ``PAGE`` stands, as a figure with room for any number."""
    pointer = Pointer(text, size)
    high = len(pointer.block(_WIDEST, width).lines) * LEADING * size
    return Figure("pointer", width, high, pointer, gap=1.5)


def guide_page(sheets: Sequence[Sheet], before: int) -> int | None:
    """Return the page on which the guide begins, ``sheets`` being those after the first ``before``.

    None where there is no guide.
    """
    return next((n for n, s in enumerate(sheets, before + 1) if s.kind == SheetKind.GUIDE), None)


def pointed(sheets: Sequence[Sheet], before: int, words: Words) -> Iterator[Sheet]:
    """Yield ``sheets``, the pages after the first ``before``, their pointers filled in.

    Raises ``ValueError`` where there is a pointer and no page it could name.
    """
    page = next((n for n, s in enumerate(sheets, before + 1) if _helps(s, words)), None)
    for sheet in sheets:
        if any(isinstance(item.content, Pointer) for item in sheet.items):
            if page is None:
                raise ValueError("a page points to the guide, and there is none")
            yield replace(sheet, items=tuple(_filled(item, str(page)) for item in sheet.items))
        else:
            yield sheet


def _helps(sheet: Sheet, words: Words) -> bool:
    """Say whether ``sheet`` is where the guide begins to tell of wrong answers."""
    first = sheet.items[0].content if sheet.kind == SheetKind.GUIDE and sheet.items else None
    return isinstance(first, TextBlock) and " ".join(first.lines) == words("advice.title")


def _filled(item: Item, page: str) -> Item:
    if not isinstance(item.content, Pointer):
        return item
    return Item("text", item.rect, item.content.block(page, item.rect.width))
