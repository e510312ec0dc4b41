"""The drawing of one page from its sheet."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.draw.canvas import Canvas, Drawing, Segment
from kitbuilder.draw.card_faces import draw_arrow_card, draw_face
from kitbuilder.draw.cut_letters import draw_cut_mark
from kitbuilder.draw.exchange_marks import draw_board, draw_exchange_card
from kitbuilder.draw.mat_tiles import draw_mat_tile
from kitbuilder.draw.pages.check_bars import draw_bar, draw_card_outline, draw_register, draw_stairs
from kitbuilder.draw.pages.corner_marks import draw_corner_marks
from kitbuilder.draw.pages.verify_words import check_words
from kitbuilder.draw.parts.part_marks import draw_part
from kitbuilder.draw.piece_grids import draw_pieces, merged, outline
from kitbuilder.draw.thousands import draw_band, draw_thousands
from kitbuilder.layout.cards.answer_boxes import AnswerBox
from kitbuilder.layout.cards.bag_labels import LabelFace
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cards.exchange_cards import ExchangeFrames
from kitbuilder.layout.cards.small_cards import ArrowCard, LooseCard
from kitbuilder.layout.cover.size_check import CornerMarks
from kitbuilder.layout.cutting.cut_marks import CutMark
from kitbuilder.layout.cutting.folded_pieces import FOLDED
from kitbuilder.layout.cutting.line_segments import beyond
from kitbuilder.layout.mat.exchange_board import Board
from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.check_sheet import Bar, CardOutline, Register, Stairs
from kitbuilder.layout.pieces.thousand import Thousands
from kitbuilder.layout.pieces.thousand_margin import Band
from kitbuilder.layout.printable import Page
from kitbuilder.number import PLACES

CUT_WHOLE = (
    SheetKind.TASK_CARDS,
    SheetKind.FACT_CARDS,
    SheetKind.STORY_CARDS,
    SheetKind.ARROW_CARDS,
    SheetKind.DIGIT_CARDS,
    SheetKind.LABELS,
    SheetKind.DEMO_PIECES,
    SheetKind.DEMO_NAMES,
    SheetKind.METRE,
)
"""Sheets whose cuts are drawn whole, from edge to edge, as a cutter needs them too."""

CUT_BY_HAND = (
    SheetKind.PIECES,
    SheetKind.MINI,
    SheetKind.EXCHANGE_CARDS,
    SheetKind.THOUSANDS,
)
"""Sheets whose cuts are drawn as far as a blade goes beyond what it frees, for a person alone."""


def draw_sheet(sheet: Sheet, number: int, style: Style) -> Drawing:
    """Draw ``sheet`` as page ``number`` of its document."""
    turned = sheet.width != style.paper.width_mm
    page = Page.turned(style.paper) if turned else Page.upright(style.paper)
    canvas = Canvas(
        _title(sheet, style.words), sheet.width, sheet.height, style.look, sheet.section
    )
    canvas.is_pictured = style.is_pictured
    pieces = [item for item in sheet.items if _is_piece(item)]
    by_hand = sheet.kind in CUT_BY_HAND and not sheet.kerf
    draw_pieces(canvas, pieces, style.paper.unit_mm, sheet.kerf, is_back=sheet.flip is not None)
    for item in sheet.items:
        if not _is_piece(item):
            _draw_item(canvas, item, style.paper.unit_mm, number)
    if by_hand:
        framed = [
            item
            for item in sheet.items
            if item.what == "thousand" or isinstance(item.content, ExchangeFrames)
        ]
        _draw_ways(canvas, sheet.cuts, (*pieces, *framed))
    if sheet.kind in CUT_WHOLE:
        _draw_cuts(canvas, sheet.cuts)
        _draw_folds(canvas, sheet.folds, page.inside)
    to_the_edge = any(isinstance(item.content, Stairs) for item in sheet.items)
    check_words(canvas, canvas.page if to_the_edge else page.inside)
    return canvas.drawing()


def _title(sheet: Sheet, words: Words) -> str:
    """Return what an outline calls ``sheet``: its kind, and the week that it is for."""
    if sheet.week and sheet.kind == SheetKind.WEEK:
        return sheet.week
    kind = words(f"title.{sheet.kind}")
    return words("plan.beside", first=sheet.week, then=kind) if sheet.week else kind


def draw_items(items: Iterable[Item], width: float, height: float, style: Style) -> Drawing:
    """Draw ``items`` alone, as a picture ``width`` by ``height`` mm."""
    canvas = Canvas("", width, height, style.look)
    for item in items:
        _draw_item(canvas, item, style.paper.unit_mm, 1)
    return canvas.drawing()


def _is_piece(item: Item) -> bool:
    return not isinstance(item.content, Thousands) and (item.what in PLACES or item.what in FOLDED)


_IN_RECT: dict[type, Callable[[Canvas, Any, Rect], object]] = {
    MatTile: draw_mat_tile,
    CornerMarks: draw_corner_marks,
    ArrowCard: draw_arrow_card,
    Bar: draw_bar,
    Band: draw_band,
    Thousands: draw_thousands,
    Stairs: draw_stairs,
    Register: draw_register,
}
"""What draws a content into its item's rectangle."""


def _draw_item(canvas: Canvas, item: Item, unit: float, page: int) -> None:
    in_rect = _IN_RECT.get(type(item.content))
    if in_rect:
        in_rect(canvas, item.content, item.rect)
        return
    match item.content:
        case Board():
            draw_board(canvas, item.content, unit)
        case CardFace():
            draw_face(canvas, item.content.face)
        case LooseCard(face=face) | AnswerBox(face=face):
            draw_face(canvas, face, item.rect)
        case ExchangeFrames():
            draw_exchange_card(canvas, item.content, item.rect, unit)
        case CutMark():
            draw_cut_mark(canvas, item.content)
        case CardOutline():
            draw_card_outline(canvas, item.rect)
        case LabelFace():
            draw_face(canvas, item.content.items)
        case _ if not draw_part(canvas, item, page):
            raise TypeError(f"no drawing for {item.what}")


def _draw_folds(canvas: Canvas, folds: Sequence[Cut], inside: Rect) -> None:
    look = canvas.look
    lines = _printing(folds, inside)
    canvas.lines(lines, look.lines_mm.guide, look.ink.frame, layer="fold", dash="4 3")


def _draw_cuts(canvas: Canvas, cuts: Sequence[Cut]) -> None:
    """Draw the cuts of a sheet whose items reach the paper's edge, as a cutter needs them."""
    look = canvas.look
    lines = merged((cut.x1, cut.y1, cut.x2, cut.y2) for cut in cuts)
    canvas.lines(lines, look.lines_mm.cut, look.ink.cut, layer="cut")


def _draw_ways(canvas: Canvas, cuts: Sequence[Cut], pieces: Sequence[Item]) -> None:
    """Draw ``cuts`` as far as the blade goes beyond ``pieces``; only a person cuts there."""
    look = canvas.look
    ways = ((cut.x1, cut.y1, cut.x2, cut.y2) for cut in cuts)
    sides = (side for item in pieces for side in outline(item.rect))
    canvas.lines(beyond(ways, sides), look.lines_mm.cut, look.ink.cut)


def _printing(cuts: Sequence[Cut], inside: Rect) -> list[Segment]:
    """Return the parts of ``cuts`` inside the margins."""
    lines = []
    for cut in cuts:
        x1, x2 = max(cut.x1, inside.x), min(cut.x2, inside.right)
        y1, y2 = max(cut.y1, inside.y), min(cut.y2, inside.bottom)
        lines.append((x1, y1, x2, y2))
    return lines
