"""What the marks in pictures mean: said once, where they first stand."""

from collections.abc import Iterable
from typing import Literal

from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, SmallPieces, State
from kitbuilder.layout.parts.furniture import labelled, pictogram, wrapped
from kitbuilder.layout.parts.settings import growth, settings

_UNIT = 4.2


Mark = Literal["new", "gone", "needed", "exchanged", "bank"]
MARKS: tuple[Mark, ...] = ("new", "gone", "needed", "exchanged", "bank")


def legend(width: float, style: Style, marks: Iterable[Mark] = MARKS) -> Block:
    """Return what ``marks`` mean, all if none are named, in rows of ``width`` mm."""
    return wrapped([legend_row(mark, style) for mark in marks], width, 3.0, 1.2)


def marks_of(scenes: Iterable[MatScene]) -> tuple[Mark, ...]:
    """Return the marks of pieces in the pictures of ``scenes``."""
    piles = [pile for scene in scenes for zone in scene.zones for pile in zone.piles]
    shown = {
        "new": any(pile.new for pile in piles),
        "gone": any(pile.gone for pile in piles),
        "needed": any(pile.needed for pile in piles),
        "exchanged": any(pile.looped for pile in piles),
    }
    return tuple(mark for mark in MARKS if shown.get(mark))


def legend_row(mark: Mark, style: Style) -> Block:
    """Return one mark with what it means."""
    grown = growth(style.look)
    match mark:
        case "exchanged":
            drawn = _looped(grown)
        case "bank":
            drawn = pictogram("bank", 5.6 * grown)
        case _:
            drawn = _state(mark, _UNIT * grown)
    return labelled(drawn, style.words(f"legend.{mark}"), settings(style.look).text)


def _state(state: State, unit: float) -> Block:
    one = Rect(0, 0, unit, unit)
    return Block((Item("small_pieces", one, SmallPieces((one,), unit, state)),), unit, unit)


def _looped(grown: float) -> Block:
    side, unit = 5.5 * grown, 2.8 * grown
    inner = Rect((side - unit) / 2, (side - unit) / 2, unit, unit)
    piece = SmallPieces((Rect(0, 0, unit, unit),), unit, "here")
    loop = Item("loop", Rect(0.1, 0.1, side - 0.2, side - 0.2), Panel(line="loop", radius=1.5))
    return Block((Item("small_pieces", inner, piece), loop), side, side)
