"""The page that says how a demonstration is laid out: a picture, measures, steps, counts."""

import math

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.demonstration import Demonstration
from kitbuilder.layout.demonstration.demo_sheets import demo_sheets, name_sheets
from kitbuilder.layout.demonstration.large_unit import TensBoard, board
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, alike, row, shared, stack
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import lines
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

HALF, AIR = 0.5, 2.0
"""In units: how far a pile of hundreds steps aside, and the air in a column."""

LEAST = 2.0
"""The least space in mm between two parts of the page."""

_SCENE = 50.0
"""Least height in mm of each of two pictures."""

_CAPTION = 0.8
"""Space in mm between a caption and its picture."""

_BAR, _FRAMES, _HIGH = 1.3, 4.5, 13.0
# In units: a ten with the gap beside it, two frames of ten ones, and the height of a zone.


def demonstration_sheets(shown: Demonstration, style: Style) -> tuple[Sheet, ...]:
    """Return how a demonstration is laid out, its large pieces, and the names on its mat.

    Raises ``RefusedError`` where the page holds no ten of 20 mm ones.
    """
    size = board(style)
    large = demo_sheets(shown.pieces, size, style)
    return *plan_pages(shown, size, style), *large, *name_sheets(shown, style)


def plan_pages(shown: Demonstration, size: TensBoard, style: Style) -> tuple[Sheet, ...]:
    """Return what the adult reads who lays the demonstration out: one page where it fits one."""
    words, sets = style.words, settings(style.look)
    area = SheetArea.upright(style.paper)
    note = words("demonstration.note")
    heading = Heading("build", words("title.demo_plan"), ("adult",), note)
    items, top = header(heading, area, style)
    body = area.body(top)
    unit = phrases.number(words, size.unit)
    said = lines(words("demonstration.lead", unit=unit), sets.text, body.width)
    steps = _steps(shown, size, body.width, style)
    high = body.height - said.height - sum(step.height + LEAST for step in steps) - LEAST
    picture = _pictures(shown, body.width, high, style)
    runs = alike((said, *picture, *steps), body.height, LEAST)
    feet = foot(Foot(words("foot.paper")), area, style)
    pages = ((*items, *shared(run, body, LEAST).items, *feet) for run in runs)
    width, height = area.page.width, area.page.height
    return tuple(
        Sheet(SheetKind.DEMO_PLAN, number, "paper", width, height, page)
        for number, page in enumerate(pages, 1)
    )


def _pictures(shown: Demonstration, width: float, high: float, style: Style) -> list[Block]:
    """Return pictures under their captions, ``high`` mm together: both scenes, the last, none."""
    for first in (0, 1):
        scenes = shown.scenes[first:]
        captions = [lines(c, settings(style.look).text, width) for c in shown.captions[first:]]
        each = high / len(scenes) - LEAST - _CAPTION - max(caption.height for caption in captions)
        least = _SCENE if len(scenes) > 1 else 0.0
        frame = mat_frame(scenes, width, style, high=each) if each > least else None
        if frame:
            pictures = [mat_picture(scene, frame, style) for scene in scenes]
            return [stack(both, _CAPTION) for both in zip(captions, pictures, strict=True)]
    return []


def _steps(shown: Demonstration, size: TensBoard, width: float, style: Style) -> list[Block]:
    """Return rows of steps: cut, join where need be, tape the mat, move; and what is counted."""
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
    return [*(row(pair, GUTTER) for pair in pairs), counts]


def _measures(shown: Demonstration, unit: float, style: Style) -> str:
    """Return how wide and high the columns are taped, in whole centimetres or inches."""
    pieces = shown.pieces
    wide = [_FRAMES + AIR, pieces.tens * _BAR + AIR, 10 + HALF * max(0, pieces.hundreds - 1) + AIR]
    columns = [
        style.words("demonstration.column", place=name, **_long(wide[k] * unit))
        for k, name in reversed(list(enumerate(reversed(shown.columns))))
    ]
    return style.words("demonstration.tape_told", columns=", ".join(columns), **_long(_HIGH * unit))


def _long(mm: float) -> dict[str, int]:
    """Return a length in whole centimetres and in whole inches, no shorter than ``mm``."""
    return {"cm": math.ceil(mm / 10), "inches": math.ceil(mm / phrases.INCH)}
