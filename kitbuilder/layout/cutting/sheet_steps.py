"""How one sheet of pieces is cut with scissors: the lines in order, and pictures of its parts."""

from collections.abc import Iterable

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.cutting.cut_marks import CutMark, lettered_cuts, with_cut_marks
from kitbuilder.layout.cutting.cut_tree import CutNode, CutSheet
from kitbuilder.layout.cutting.exploded import (
    GAP,
    PictureScale,
    Run,
    column_picture,
    foot_and_columns,
    foot_picture,
    lengthways_picture,
    runs,
)
from kitbuilder.layout.model import Item
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import line
from kitbuilder.layout.printable import Page

LARGEST = 0.176
"""How large columns are pictured at most, as a part of the true size."""


@frozen
class SheetSteps:
    """A sheet, the letters printed on it, and what is left when its foot is off.

    ``foot`` is the letter of the line that takes off a foot, None where there is no foot.
    ``names`` are those of the lines lengthways, empty for one beside which no letter stands.
    """

    one: CutSheet
    upper: CutNode
    foot: str | None
    names: tuple[str, ...]

    @property
    def long(self) -> tuple[CutNode, ...]:
        """The parts that lines lengthways leave, what falls off among them."""
        return tuple(self.upper.after(Step.LENGTHWAYS))

    def columns(self) -> list[list[CutNode]]:
        """Return the columns that are cut across, those that are alike together."""
        found: dict[tuple[Run, ...], list[CutNode]] = {}
        for column in self.long:
            if not column.falls:
                found.setdefault(runs(column), []).append(column)
        return list(found.values())


def sheet_steps(one: CutSheet, style: Style) -> SheetSteps:
    """Return how the sheet ``one`` is cut."""
    printed = one.printed
    inside, least = Page.upright(style.paper).inside, style.look.type_mm.least
    marks = (item.content for item in with_cut_marks(printed, inside, least).items)
    shown = {mark.letter for mark in marks if isinstance(mark, CutMark)}
    names = [letter if letter in shown else "" for letter, _ in lettered_cuts(printed)]
    if one.root.number == Step.FOOT:
        return SheetSteps(one, one.root.halves[0], names[0], tuple(names[1:]))
    return SheetSteps(one, one.root, None, tuple(names))


def keeping(kept: Iterable[Item]) -> str:
    """Return which sentence tells what is ``kept`` of that which falls off."""
    held = [item.what for item in kept]
    if "label" not in held:
        return "card"
    cards = len(held) - held.count("label")
    return "both" if cards > 1 else "both_one" if cards else "label"


def foot_said(steps: SheetSteps, style: Style) -> str:
    """Return the sentence on the line of the foot, empty where there is none."""
    return style.words("scissors.foot", letter=steps.foot) if steps.foot else ""


def long_said(steps: SheetSteps, style: Style) -> str:
    """Return the sentence on the lines lengthways, empty where there are none."""
    names, words = steps.names, style.words
    if not names:
        return ""
    if not all(names):
        return words("scissors.long_lines")
    if len(names) == 1:
        return words("scissors.line", letters=names[0])
    return words("scissors.lines", letters=phrases.joined(words, names))


def foot_shown(steps: SheetSteps, room: tuple[float, float], style: Style) -> Block:
    """Return the whole sheet and its foot, no larger than ``room`` (width and height, mm)."""
    root = steps.one.root
    return foot_picture(root, steps.foot or "", _scale(steps, root, room, style), style)


def long_shown(steps: SheetSteps, room: tuple[float, float], style: Style) -> Block:
    """Return the long parts of a sheet side by side."""
    scale = _scale(steps, steps.upper, (room[0] - GAP * len(steps.long), room[1]), style)
    return lengthways_picture(steps.upper, steps.names, scale, style)


def sheet_shown(steps: SheetSteps, room: tuple[float, float], style: Style) -> tuple[Block, ...]:
    """Return a sheet's first cuts in pictures, in one where its columns stand over a foot."""
    root, (wide, high) = steps.one.root, room
    if steps.foot is not None and steps.names and not root.down:
        scale = _scale(steps, root, (wide - GAP * len(steps.long), high), style)
        return (foot_and_columns(root, steps.foot, steps.names, scale, style),)
    shown = []
    if steps.foot is not None:
        shown.append(foot_shown(steps, (0.44 * wide, high), style))
    if steps.names:
        shown.append(long_shown(steps, (0.56 * wide, high), style))
    return tuple(shown)


def columns_shown(
    steps: SheetSteps, widest: float, high: float, size: float, style: Style
) -> list[Block]:
    """Return every different column cut across, in ``widest`` mm each, ``high`` mm at most.

    ``size`` makes the pictures smaller than looks best.
    """
    pictures = []
    for same in steps.columns():
        sides = sorted((same[0].rect.width, same[0].rect.height))
        times = size * min(LARGEST, high / sides[1], 0.4 * widest / sides[0])
        scale = PictureScale(times, times * style.unit)
        picture = column_picture(same[0], scale, widest, style)
        if len(same) > 1:
            text = style.words("cutting.parts", count=len(same))
            picture = stack((line(text, settings(style.look).text), picture), 1.5)
        pictures.append(picture)
    return pictures


def _scale(
    steps: SheetSteps, node: CutNode, room: tuple[float, float], style: Style
) -> PictureScale:
    times = min(room[0] / node.rect.width, room[1] / node.rect.height)
    return PictureScale(times, times * style.unit, kept=tuple(item.rect for item in steps.one.kept))
