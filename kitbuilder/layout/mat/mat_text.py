"""The words of a mat and the sizes they are printed in."""

from kitbuilder.design import metrics
from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Arrangement, Headings, Role, roles
from kitbuilder.layout.mat.mat_records import Label, LabelKind, MatTile
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.number import PLACES

NAME = 1.24
"""Size of a zone's name, as a multiple of the child's type: 12 mm in the plain look."""

ICONS: dict[Role, str] = {
    "whole": "build",
    "part": "take",
    "rest": "left",
    "first": "build",
    "second": "build",
    "together": "push",
}
"""The pictogram of each zone; a task card's lines bear the same."""


@frozen
class MatText:
    """The words of a mat; ``name``, ``child`` and ``adult`` are sizes of type, mm.

    ``headings`` are one for each place, ones first; ``names`` and ``hints`` follow
    ``kit.mat_needs.roles``. ``point`` stands after the ones where they have tenths and hundredths,
    else it is empty. ``bank`` stands at the edge of the first zone, with ``back`` and
    ``fetch`` beside its arrows.
    """

    headings: tuple[str, ...]
    names: tuple[str, ...]
    hints: tuple[str, ...]
    point: str
    bank: str
    back: str
    fetch: str
    count: str
    pile: str
    name: float
    child: float
    adult: float


def mat_text(arrangement: Arrangement, places: int, headings: Headings, style: Style) -> MatText:
    """Return the words of a mat with headings in words, numbers or letters."""
    words, sizes = style.words, style.look.type_mm
    return MatText(
        headings=tuple(words(f"mat.headings.{headings}.{place}") for place in PLACES[:places]),
        names=tuple(words(f"mat.{arrangement}.{role}") for role in roles(arrangement)),
        hints=tuple(words(f"mat.{arrangement}.{role}_hint") for role in roles(arrangement)),
        point=words.scale.point if words.scale.decimals else "",
        bank=words("mat.bank"),
        back=words("mat.back"),
        fetch=words("mat.fetch"),
        count=words("mat.count"),
        pile=words("mat.pile"),
        name=NAME * sizes.child,
        child=sizes.child,
        adult=sizes.adult,
    )


def sheet_name(sheet: Sheet, words: Words) -> str:
    """Return what a sheet is; of two mats the later one is told apart by its largest pieces."""
    tile = sheet.items[0].content if sheet.items else None
    if not (sheet.later and sheet.kind is SheetKind.MAT and isinstance(tile, MatTile)):
        return words(f"title.{sheet.kind}")
    largest = max(zone.place for zone in tile.mat.zones)
    return words("cover.mat_with", place=words(f"place.{PLACES[largest]}"))


def line(kind: LabelKind, role: Role, text: str, size: float, x: float, middle: float) -> Label:
    """Return one line of words that begins at ``x``, its digits centred on ``middle``, mm."""
    above = metrics.digit_height(size)
    rect = Rect(x, middle - above / 2, max(metrics.width(text, size), 0.01), above + 0.25 * size)
    quiet = kind not in (LabelKind.NAME, LabelKind.HEADING)
    return Label(kind, role, rect, text, size, quiet)


def centred(kind: LabelKind, role: Role, text: str, size: float, x: float, middle: float) -> Label:
    """Return one line of words centred on ``x`` and ``middle``, mm."""
    return line(kind, role, text, size, x - metrics.width(text, size) / 2, middle)
