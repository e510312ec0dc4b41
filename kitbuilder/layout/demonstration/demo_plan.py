"""The page that says how a demonstration is laid out: a picture, measures, steps, counts."""

import math

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.demonstration import Demonstration
from kitbuilder.layout.demonstration.board import Board, board
from kitbuilder.layout.demonstration.demo_sheets import demo_sheets, name_sheets
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, shared, stack
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.mat_frame import mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import lines

HALF, AIR = 0.5, 2.0
"""In units: how far a pile of hundreds steps aside, and the air in a column."""

_SCENE = 55.0
"""Least height in mm of each of two pictures."""

_BAR, _FRAMES, _HIGH = 1.3, 4.5, 13.0
# In units: a ten with the gap beside it, two frames of ten ones, and the height of a zone.


def demonstration_sheets(shown: Demonstration, style: Style) -> tuple[Sheet, ...]:
    """Return how a demonstration is laid out, its large pieces, and the names on its mat.

    Raises ``RefusedError`` where the page holds no ten of 20 mm ones.
    """
    size = board(style)
    large = demo_sheets(shown.pieces, size, style)
    return plan_page(shown, size, style), *large, *name_sheets(shown, style)


def plan_page(shown: Demonstration, size: Board, style: Style) -> Sheet:
    """Return the page for the adult who lays the demonstration out."""
    words, sets = style.words, settings(style.look)
    area = SheetArea.upright(style.paper)
    note = words("demonstration.note")
    heading = Heading("build", words("title.demo_plan"), ("adult",), note)
    items, top = header(heading, area, style)
    body = area.body(top)
    said = lines(words("demonstration.lead", unit=f"{size.unit:g}"), sets.text, body.width)
    steps = _steps(shown, size, body.width, style)
    high = body.height - said.height - steps.height - 8.0
    scenes = shown.scenes if high > 2 * _SCENE else shown.scenes[1:]
    each = high / len(scenes)
    frame = mat_frame(scenes, body.width, style, high=each) if each > 0 else None
    picture = [mat_picture(scene, frame, style) for scene in scenes] if frame else []
    held = (*items, *shared((said, *picture, steps), body, 2.0).items)
    feet = foot(Foot(words("foot.paper")), area, style)
    page = area.page
    return Sheet(SheetKind.DEMO_PLAN, 1, "paper", page.width, page.height, (*held, *feet))


def _steps(shown: Demonstration, size: Board, width: float, style: Style) -> Block:
    """Return four steps: cut, join where need be, tape the mat, count."""
    words, text = style.words, settings(style.look).text
    pieces, bands = shown.pieces, size.bands
    told = [("cut", words("demonstration.cut_told"))]
    if len(bands) > 1 and pieces.hundreds:
        told.append(("join", words("demonstration.join_told", count=len(bands))))
    told.append(("tape", _measures(shown, size.unit, style)))
    told.append(("stick", words("demonstration.stick_told")))
    across = (width - GUTTER) / 2 if width > 150 else width
    cells = []
    for n, (key, said) in enumerate(told, 1):
        heading = step_heading(n, words(f"demonstration.{key}"), across, style)
        cells.append(stack((heading, lines(said, text, across)), 0.6))
    in_row = 2 if across < width else 1
    pairs = [cells[k : k + in_row] for k in range(0, len(cells), in_row)]
    held = [phrases.count(words, k, n) for k, n in reversed(list(enumerate(pieces.counts))) if n]
    counts = wrapped([tick(one, width, style) for one in held], width, 6.0, 1.0)
    return stack((*(row(pair, GUTTER) for pair in pairs), counts), 3.0)


def _measures(shown: Demonstration, unit: float, style: Style) -> str:
    """Return how wide and high the columns are taped, in whole centimetres."""
    pieces = shown.pieces
    wide = [_FRAMES + AIR, pieces.tens * _BAR + AIR, 10 + HALF * max(0, pieces.hundreds - 1) + AIR]
    columns = [
        style.words("demonstration.column", place=name, cm=math.ceil(wide[k] * unit / 10))
        for k, name in reversed(list(enumerate(reversed(shown.columns))))
    ]
    high = math.ceil(_HIGH * unit / 10)
    return style.words("demonstration.tape_told", columns=", ".join(columns), cm=high)
