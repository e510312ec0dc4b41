"""What the marks in pictures mean: said once, where they first stand."""

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, SmallPieces, State
from kitbuilder.layout.parts.furniture import labelled, pictogram, wrapped
from kitbuilder.layout.parts.settings import settings

_UNIT = 4.2


def legend(width: float, style: Style) -> Block:
    """Return the four states, the loop of an exchange and the bank, in rows of ``width`` mm."""
    text = settings(style.look).text
    marks: list[tuple[Block, str]] = [
        (_state("new"), style.words("legend.new")),
        (_state("gone"), style.words("legend.gone")),
        (_state("needed"), style.words("legend.needed")),
        (_looped(), style.words("legend.exchanged")),
        (pictogram("bank", 6.4), style.words("legend.bank")),
    ]
    return wrapped([labelled(mark, said, text) for mark, said in marks], width, 3.0, 1.2)


def _state(state: State) -> Block:
    one = Rect(0, 0, _UNIT, _UNIT)
    return Block((Item("small_pieces", one, SmallPieces((one,), _UNIT, state)),), _UNIT, _UNIT)


def _looped() -> Block:
    inner, side = Rect(1.35, 1.35, 2.8, 2.8), 5.5
    piece = SmallPieces((Rect(0, 0, 2.8, 2.8),), 2.8, "here")
    loop = Item("loop", Rect(0.1, 0.1, side - 0.2, side - 0.2), Panel(line="loop", radius=1.5))
    return Block((Item("small_pieces", inner, piece), loop), side, side)
