"""A page as a picture for the screen: SVG from the same drawing as the PDF."""

import re

from kitbuilder.draw.canvas import Drawing
from kitbuilder.output.svg import page_svg

_ID = re.compile(r' id="([^"<>]+)"| (xlink:href|href)="#([^"<>]+)"')


def preview(drawing: Drawing, page: int) -> str:
    """Return ``drawing`` as SVG; its ids begin with the page's number, so that none comes twice."""
    mark = f"p{page}-"

    def named(found: re.Match[str]) -> str:
        own, link, target = found.groups()
        return f' id="{mark}{own}"' if own else f' {link}="#{mark}{target}"'

    return _ID.sub(named, page_svg(drawing))
