"""Which glue pages need."""

from collections.abc import Sequence
from typing import Literal

from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.model import Sheet, SheetKind


def glue(sheets: Sequence[Sheet]) -> Literal["glue_stick", "glue", ""]:
    """Return the glue that ``sheets`` need: a stick, any or tape, or none.

    Pieces and cards that are folded need a stick; tiles of a mat, bands of thousands and a metre
    hold with any.
    """
    if any(sheet.stock == "card" and sheet.folds for sheet in sheets):
        return "glue_stick"
    glued = any(
        sheet.kind in (SheetKind.THOUSANDS, SheetKind.METRE)
        or any(isinstance(i.content, MatTile) and i.content.joins for i in sheet.items)
        for sheet in sheets
    )
    return "glue" if glued else ""
