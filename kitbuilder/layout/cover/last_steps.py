"""The last steps of a cover: cut, and begin."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.layout.cover.cover import Cover
from kitbuilder.layout.cutting.folded_pieces import FOLDED
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.pieces.thousand import Thousands
from kitbuilder.layout.pieces.thousand_unit import small_for_thousands
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
    paper = cover.style.paper
    if cover.kit.pieces.thousands and small_for_thousands(paper):
        said.append(words("cover.thousand", unit=phrases.number(words, paper.unit_mm)))
    if bank.at_once:
        said.append(bank.told(words, cover.cutting.kits))
    pieces = [sheet for sheet in cover.sheets if sheet.kind is SheetKind.PIECES]
    if any(item.what in FOLDED for sheet in pieces for item in sheet.items):
        said.append(words("cover.sturdy_fold"))
    if pieces and not cover.kit.mats and all(s.kind is not SheetKind.LESSON for s in cover.sheets):
        said.append(words("cover.pieces_alone"))
    own = {0: "cover.cut_marked", 1: ""}.get(shown, "cover.cut_pages")
    picture = "scissors"
    if pieces and all(sheet.kerf for sheet in pieces):
        own, picture = "cover.cut_machine", "cutter"
        said = [*_machine_files(cover), *said]
    return cover.below(cover.step(number, "cut", width, picture, own), said, width)


def _machine_files(cover: Cover) -> Iterator[str]:
    """Yield the files that a machine cuts from, if there are any, and what is cut by hand."""
    numbered = [*enumerate(cover.sheets, (cover.before or 0) + 1)]
    cut = [(page, sheet) for page, sheet in numbered if sheet.kerf]
    if cover.file and cover.before is not None:
        runs = [[n for _, n in run] for _, run in groupby(enumerate(n for n, _ in cut), _step)]
        ends = (dict.fromkeys((run[0], run[-1])) for run in runs)
        names = (" – ".join(f"sheet-{n:02}.{cover.file}" for n in two) for two in ends)
        yield cover.words("cover.machine_file", file=", ".join(names))
        if any(sheet.folds for _, sheet in cut):
            yield cover.words("cover.machine_folds")
        yield cover.words("cover.machine_laid")
    for stock in sorted({sheet.stock for _, sheet in numbered if sheet.cuts and not sheet.kerf}):
        yield cover.words(f"cover.by_hand_{stock}")


def _step(numbered: tuple[int, int]) -> int:
    """Return what pages in a row have alike: how far each is from its place among them."""
    at, page = numbered
    return page - at


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
