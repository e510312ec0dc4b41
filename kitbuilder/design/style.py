"""What is printed on, in which words and with which look: the style of everything laid out."""

from dataclasses import dataclass, field

from kitbuilder.design import load as designs
from kitbuilder.design.look import Look


@dataclass(frozen=True, slots=True)
class Style:
    """The paper, the words and the look of one document; they travel together."""

    paper: designs.Paper
    words: designs.Words = field(default_factory=designs.words)
    look: Look = field(default_factory=designs.look)

    @property
    def unit(self) -> float:
        """The width of a one in mm."""
        return self.paper.unit_mm
