"""Turns a request into a finished kit: the whole pipeline, one room after the other."""

from dataclasses import dataclass
from pathlib import Path

from kitbuilder import designs
from kitbuilder.bind.folder import write
from kitbuilder.bind.pdf import pdf
from kitbuilder.bind.record import record
from kitbuilder.draw.sheets import draw_sheet
from kitbuilder.kit.contents import contents
from kitbuilder.kit.records import Kit
from kitbuilder.request import Request, first_wishes
from kitbuilder.sheet.assemble import LaidOut, lay_out


@dataclass(frozen=True, slots=True)
class Built:
    """A finished kit: what it holds, how it is laid out, and the files written."""

    kit: Kit
    laid: LaidOut
    files: tuple[Path, ...]


def build(request: Request, folder: Path) -> Built:
    """Build the kit that ``request`` asks for and write it into ``folder``."""
    words, look, paper = designs.words(), designs.look(), request.paper
    example = first_wishes().sums[0]
    kit = contents(
        request.sums, request.within, request.extra, request.mats, request.parts, example, words
    )
    laid = lay_out(kit, request.cutting, paper, words, look)
    drawings = [draw_sheet(s, page, paper, words, look) for page, s in enumerate(laid.sheets, 1)]
    files = {"kit.pdf": pdf(drawings, words("title.kit"), words.language)}
    files["kit.json"] = record(kit, laid, paper, words, files).encode()
    return Built(kit, laid, write(folder, files))
