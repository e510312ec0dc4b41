"""What is printed on, in which words and with which look: the style of everything laid out."""

from dataclasses import field, replace

from kitbuilder.design import load as designs
from kitbuilder.design.look import Look
from kitbuilder.frozen import frozen
from kitbuilder.number.scale import Scale


@frozen
class Style:
    """The paper, the words and the look of one document; they travel together.

    ``is_pictured`` tells that a free corner of labels and cards is for someone's own drawing.
    """

    paper: designs.Paper
    words: designs.Words = field(default_factory=designs.words)
    look: Look = field(default_factory=designs.look)
    is_pictured: bool = False

    def counting(self, scale: Scale) -> "Style":
        """Return this style with the words and points of numbers on ``scale``."""
        if scale.decimals == self.words.scale.decimals:
            return self
        return replace(self, words=self.words.counting(scale.decimals))

    @property
    def unit(self) -> float:
        """The width of a one in mm."""
        return self.paper.unit_mm
