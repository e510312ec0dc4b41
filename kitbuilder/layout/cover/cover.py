"""What is on a cover: the kit it tells of, and its numbered steps."""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.furniture import pictogram, step_heading
from kitbuilder.layout.parts.settings import Setting, Settings, settings
from kitbuilder.layout.parts.words import lines

INDENT = 10.0
"""How far a step's words stand in, in mm."""

_WIDE = 150.0
# From what width on steps stand side by side, in mm for type of the usual size.

_PICTURE = 11.0


@frozen
class Cover:
    """A kit and its other ``sheets``, cut as asked, told of on a page ``width`` mm wide.

    The sheets come after ``before`` pages of the cover; None where it does not list them. A
    machine cuts from files of the kind ``file``, if there are any. ``by_week`` tells whether
    what is printed later is listed week by week too.
    """

    kit: Kit
    sheets: Sequence[Sheet]
    style: Style
    width: float
    before: int | None
    cutting: CutWish
    file: str = ""
    by_week: bool = False

    @property
    def words(self) -> Words:
        """The words of its language."""
        return self.style.words

    @property
    def sets(self) -> Settings:
        """The settings of its look."""
        return settings(self.style.look)

    @property
    def accent(self) -> Setting:
        """How pages to type are set."""
        return replace(self.sets.text, tone="accent")

    @property
    def wide(self) -> bool:
        """Whether steps stand side by side."""
        return self.width >= _WIDE * self.style.look.type_mm.adult / 3.9

    def heading(self, number: int, name: str, width: float) -> Block:
        """Return the heading of the step called ``name`` in the words file."""
        return step_heading(number, self.words(f"cover.{name}"), width, self.style)

    def below(self, heading: Block, told: Sequence[str], width: float, gap: float = 0.4) -> Block:
        """Return ``heading`` with what is ``told`` below it, standing in."""
        said = stack((lines(one, self.sets.text, width - INDENT) for one in told), 0.4)
        return stack((heading, said.moved(INDENT, 0)), gap)

    def step(
        self, number: int, name: str, width: float, picture: str, told: str = "", more: str = ""
    ) -> Block:
        """Return a step's heading with its words below and its pictogram at the right.

        ``told`` is the key of other words than the step's own; ``more`` is a sentence after them.
        """
        room = width - _PICTURE - 3
        words = self.words(told or f"cover.{name}_told")
        said = self.below(
            self.heading(number, name, room), [words, more] if more else [words], room
        )
        shown = pictogram(picture, _PICTURE).at(width - _PICTURE, 0)
        return Block((*said.items, *shown), width, max(_PICTURE, said.height))
