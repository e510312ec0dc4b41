"""Turns how someone wishes to print into a paper, a look, words and the files to write."""

from dataclasses import dataclass, field, fields, replace
from typing import Self

from kitbuilder import designs
from kitbuilder.designs import Look, Paper, Words
from kitbuilder.errors import RefusedError


@dataclass(frozen=True, slots=True)
class Press:
    """How sheets are drawn: their look and their words."""

    look: Look = field(default_factory=designs.look)
    words: Words = field(default_factory=designs.words)


@dataclass(frozen=True, slots=True)
class Printing:
    """How someone wishes to print, as typed; None where nothing was said."""

    paper: str | None = None
    margin: float | None = None
    unit: float | None = None
    look: str | None = None
    words: str | None = None

    def over(self, other: Self) -> Self:
        """Return these wishes, and those of ``other`` where nothing was said here."""
        said = {
            f.name: getattr(self, f.name)
            for f in fields(self)
            if getattr(self, f.name) is not None
        }
        return replace(other, **said)

    def fitted(self) -> Paper:
        """Return the paper with the margins and the unit asked for."""
        return fitted_paper(self.paper or "a4", self.margin, self.unit)

    def press(self) -> Press:
        """Return the look and the words asked for."""
        return Press(designs.look(self.look or "plain"), designs.words(self.words or "en-GB"))


def fitted_paper(name: str, margin: float | None = None, unit: float | None = None) -> Paper:
    """Return the paper called ``name`` with all margins and the unit in mm as asked for."""
    paper = designs.paper(name)
    try:
        if margin is not None:
            same = designs.Margins(margin, margin, margin, margin)
            paper = replace(paper, margins_mm=same)
        if unit is not None:
            paper = replace(paper, unit_mm=unit)
    except ValueError as error:
        asked = " and ".join(
            f"--{option} {value:g}"
            for option, value in (("margin", margin), ("unit", unit))
            if value is not None
        )
        raise RefusedError(f"{paper.name} with {asked} cannot be used: {error}.") from None
    return paper
