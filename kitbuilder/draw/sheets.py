"""Turns a sheet into the drawing of one page."""

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.draw.canvas import Canvas, Drawing
from kitbuilder.draw.cards import draw_answer, draw_exchange_card, draw_task_card
from kitbuilder.draw.check import check_words
from kitbuilder.draw.check_print import draw_bar, draw_card_outline, draw_register, draw_stairs
from kitbuilder.draw.cutting import draw_panel
from kitbuilder.draw.front import draw_corner_marks, draw_size_check
from kitbuilder.draw.guide import draw_blank_table, draw_scene, draw_written_figure
from kitbuilder.draw.labels import draw_label
from kitbuilder.draw.mats import draw_board, draw_mat_tile
from kitbuilder.draw.pieces import draw_pieces, merged
from kitbuilder.draw.text import draw_table, draw_text
from kitbuilder.kit.records import Answer
from kitbuilder.number import PLACES
from kitbuilder.sheet.cards import CardFace, ExchangeFrames
from kitbuilder.sheet.check_print import Bar, CardOutline, Register, Stairs
from kitbuilder.sheet.flow import TextBlock
from kitbuilder.sheet.front import CornerMarks, SizeCheck, Table
from kitbuilder.sheet.guide import BlankTable, WrittenFigure
from kitbuilder.sheet.labels import LabelFace
from kitbuilder.sheet.map import PanelFigure
from kitbuilder.sheet.mat_board import Board
from kitbuilder.sheet.mat_records import MatTile
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.records import Item, Rect, Sheet
from kitbuilder.sheet.scene import SceneDrawing


def draw_sheet(sheet: Sheet, number: int, paper: Paper, words: Words, look: Look) -> Drawing:
    """Draw ``sheet`` as page ``number`` of its document."""
    turned = sheet.width != paper.width_mm
    page = Page.turned(paper) if turned else Page.upright(paper)
    canvas = Canvas(words(f"title.{sheet.title}"), sheet.width, sheet.height, look)
    pieces = [item.rect for item in sheet.items if item.what in PLACES]
    draw_pieces(canvas, pieces, paper.unit_mm)
    for item in sheet.items:
        if item.what not in PLACES:
            _draw_item(canvas, item, paper.unit_mm)
    if sheet.title in ("task_cards", "labels"):
        _draw_cuts(canvas, sheet, page.inside)
    _footer(canvas, sheet, number, page.inside, words)
    to_the_edge = any(isinstance(item.content, Stairs) for item in sheet.items)
    check_words(canvas, canvas.page if to_the_edge else page.inside)
    return canvas.drawing()


def _draw_item(canvas: Canvas, item: Item, unit: float) -> None:
    match item.content:
        case TextBlock():
            draw_text(canvas, item.content, item.rect)
        case MatTile():
            draw_mat_tile(canvas, item.content, item.rect)
        case Board():
            draw_board(canvas, item.content, unit)
        case Table():
            draw_table(canvas, item.content, item.rect)
        case SizeCheck():
            draw_size_check(canvas, item.content, item.rect)
        case CornerMarks():
            draw_corner_marks(canvas, item.content, item.rect)
        case CardFace():
            draw_task_card(canvas, item.content)
        case ExchangeFrames():
            draw_exchange_card(canvas, item.content, item.rect, unit)
        case PanelFigure():
            draw_panel(canvas, item.content, item.rect)
        case Bar():
            draw_bar(canvas, item.content, item.rect)
        case Stairs():
            draw_stairs(canvas, item.content, item.rect)
        case Register():
            draw_register(canvas, item.content, item.rect)
        case CardOutline():
            draw_card_outline(canvas, item.rect)
        case Answer():
            draw_answer(canvas, item.content, item.rect)
        case SceneDrawing():
            draw_scene(canvas, item.content, item.rect)
        case WrittenFigure():
            draw_written_figure(canvas, item.content, item.rect)
        case LabelFace():
            draw_label(canvas, item.content)
        case BlankTable():
            draw_blank_table(canvas, item.content, item.rect)
        case _:
            raise TypeError(f"no drawing for {item.what}")


def _draw_cuts(canvas: Canvas, sheet: Sheet, inside: Rect) -> None:
    """Draw the cuts of a sheet whose items reach the paper's edge, as far as it prints."""
    lines = []
    for cut in sheet.cuts:
        x1, x2 = max(cut.x1, inside.x), min(cut.x2, inside.right)
        y1, y2 = max(cut.y1, inside.y), min(cut.y2, inside.bottom)
        lines.append((x1, y1, x2, y2))
    look = canvas.look
    canvas.lines(merged(lines), look.lines_mm.cut, look.ink.cut, layer="cut")


def _footer(canvas: Canvas, sheet: Sheet, number: int, inside: Rect, words: Words) -> None:
    """Write the page's number at its foot, where nothing else stands."""
    size = canvas.look.type_mm.adult
    key = "pieces" if sheet.title == "pieces" else "page"
    strip = Rect(inside.x, inside.bottom - 1.3 * size, inside.width, 1.3 * size)
    fixed = [i.rect for i in sheet.items if i.what != "corner_marks"]
    if any(strip.overlaps(rect) for rect in fixed):
        return
    text = words(f"footer.{key}", page=number)
    canvas.text(strip.x + 8, strip.bottom - 0.3 * size, text, size, colour=canvas.look.ink.quiet)
