"""Paper too small, or a look too large, for a page: refused in one sentence that names the page."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Literal

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import NoRoomError, SheetKind
from kitbuilder.layout.printable import Page

HOLDS_ALL = 148.0, 210.0
"""Width and height in mm of the least paper on which every page has room: A5 (ISO 216)."""

_MARGIN = 10.0
# The most margin in mm at which it has.


@contextmanager
def on_small_paper(kind: SheetKind | Literal["kit"], style: Style) -> Iterator[None]:
    """Refuse a page of ``kind``, or of some in a kit, for which paper smaller than A5 has no room.

    So is one that a look of someone's own leaves no room for. Else a page without room is a fault
    of its layout, and stays one.
    """
    try:
        yield
    except NoRoomError as error:
        inside, (width, height) = Page.upright(style.paper).inside, HOLDS_ALL
        if inside.width >= width - 2 * _MARGIN and inside.height >= height - 2 * _MARGIN:
            if any(style.look == designs.look(name) for name in designs.names("looks")):
                raise
            title, look = style.words(f"title.{kind}"), style.look.name
            raise RefusedError(
                "page.own-look", field="look", title=title, paper=style.paper.name, look=look
            ) from error
        raise RefusedError(
            "page.small-paper",
            field="paper",
            title=style.words(f"title.{kind}"),
            paper=style.paper.name,
            across=inside.width,
            down=inside.height,
            width=width,
            height=height,
            margin=_MARGIN,
        ) from error
