"""The last steps of a cover: cut, and begin."""

from collections import Counter
from collections.abc import Sequence

from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.layout.cover.cover import Cover
from kitbuilder.layout.cutting.folded_pieces import FOLDED
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.pieces.thousand import Thousands
from kitbuilder.number import Pieces

_FACE, _CLEAR = 9.0, 2.0
# Side of a face, and what stays clear between it and the words, mm.


def last_steps(cover: Cover) -> list[Block]:
    """Return the last steps, from the fourth, of those that there are; side by side if wide."""
    width = (cover.width - GUTTER) / 2 if cover.wide else cover.width
    made: list[Block] = []
    if any(sheet.cuts for sheet in cover.sheets):
        made.append(_cut(cover, 4, width))
    if any(sheet.kind is SheetKind.LESSON for sheet in cover.sheets):
        made.append(_begin(cover, 4 + len(made), width))
    return [row(made, GUTTER)] if cover.wide and made else made


def _cut(cover: Cover, number: int, width: float) -> Block:
    shown = sum(sheet.kind is SheetKind.CUTTING for sheet in cover.sheets)
    bank, words = Bank.of(cover.kit.pieces, cover.cutting), cover.words
    said = []
    held, key = bank.in_bag, "cover.pieces_each"
    if cover.before is not None:
        held, key = _to_cut(cover.sheets), "cover.pieces_made"
    if held.value:
        said.append(words(key, pieces=phrases.pieces(words, held)))
    if bank.at_once:
        said.append(bank.told(words, cover.cutting.kits))
    pieces = [sheet for sheet in cover.sheets if sheet.kind is SheetKind.PIECES]
    if any(item.what in FOLDED for sheet in pieces for item in sheet.items):
        said.append(words("cover.sturdy_fold"))
    own = {0: "cover.cut_marked", 1: ""}.get(shown, "cover.cut_pages")
    picture = "scissors"
    if pieces and all(sheet.kerf for sheet in pieces):
        own, picture = "cover.cut_machine", "cutter"
        if any(sheet.cuts and not sheet.kerf for sheet in cover.sheets):
            said.insert(0, words("cover.cut_by_hand"))
        if file := _machine_file(cover):
            said.insert(0, words("cover.machine_file", file=file))
    return cover.below(cover.step(number, "cut", width, picture, own), said, width)


def _machine_file(cover: Cover) -> str:
    """Return the file that a machine cuts the first pieces from, and the last; none for none."""
    if not cover.file or cover.before is None:
        return ""
    numbered = enumerate(cover.sheets, cover.before + 1)
    pages = [n for n, sheet in numbered if sheet.kind is SheetKind.PIECES]
    names = [f"sheet-{page:02}.{cover.file}" for page in dict.fromkeys((pages[0], pages[-1]))]
    return " – ".join(names)


def _begin(cover: Cover, number: int, width: float) -> Block:
    room = width - 2 * _FACE - _CLEAR
    words, told = cover.words, [cover.words("cover.begin_told")]
    said = cover.below(cover.heading(number, "begin", room), told, room)
    if cover.before is not None:
        numbered = enumerate(cover.sheets, cover.before + 1)
        first = next(n for n, sheet in numbered if sheet.kind is SheetKind.LESSON)
        said = cover.below(said, [words("cover.begin_page", page=first)], room, 0.2)
    faces = row((pictogram("adult", _FACE), pictogram("child", _FACE))).at(room + _CLEAR, 0)
    return Block((*said.items, *faces), width, max(said.height, _FACE))


def _to_cut(sheets: Sequence[Sheet]) -> Pieces:
    """Return all pieces on all copies of ``sheets``, spares among them."""
    found = Counter[str]()
    for sheet in sheets:
        for item in sheet.items:
            if sheet.kind is SheetKind.PIECES and not sheet.flip:
                found[item.what.removeprefix("folded_")] += sheet.copies
            elif isinstance(item.content, Thousands):
                found["thousands"] += len(item.content.outlines) * sheet.copies
    return Pieces(found["ones"], found["tens"], found["hundreds"], found["thousands"])
