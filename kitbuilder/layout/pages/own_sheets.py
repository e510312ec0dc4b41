"""The sheets of each pupil's own file: a cover, what all pupils share on card, and their pack."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.cover.cover_sheets import cover_sheets
from kitbuilder.layout.model import Sheet


def own_sheets(
    kit: Kit, sheets: Sequence[Sheet], style: Style, cutting: CutWish
) -> Iterator[tuple[str, tuple[Sheet, ...]]]:
    """Yield each pupil's name and own sheets, of the ``sheets`` that hold all packs of ``kit``.

    The cover says how these are printed and cut, for whoever is handed that file alone.
    """
    sections: dict[str, list[Sheet]] = {}
    shared = [sheet for sheet in sheets if sheet.stock == "card" and not sheet.section]
    for sheet in sheets:
        if sheet.section:
            sections.setdefault(sheet.section, [*shared]).append(sheet)
    for pack in kit.packs:
        if own := sections.get(pack.name):
            cover = cover_sheets(replace(kit, packs=(pack,)), own, style, cutting)
            yield pack.name, (*cover, *own)
