"""How someone wishes to print: paper, look, words, printer, and files to write."""

from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal, Self, cast, get_args

from kitbuilder.design import load as designs
from kitbuilder.design.load import Look, Paper, Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.press import printer as printers
from kitbuilder.press.printer import Printer

if TYPE_CHECKING:
    from kitbuilder.press.drawing import OwnDrawing

Sturdy = Literal["fold", "backs"]

Piled = Literal["sheets", "sets"]
"""The order of a pile: all copies of a sheet together, or a set after the other."""

MOST_KERF = 2.0
"""Millimetres that a cutting tool may take away."""

LAST_SECOND = 253_402_300_799
"""The last second of the year 9999, counted from the start of 1970."""

DPI = 150
"""Dots per inch of a picture, unless asked for otherwise."""


@dataclass(frozen=True, slots=True)
class Press:
    """How sheets are made and drawn, and which files are written beside the PDF.

    ``kerf_mm`` is the width that a cutting tool takes away; ``dpi`` is that of the pictures,
    None for no pictures. With ``ink`` the covered area of each page is reckoned. ``made`` is the
    date in the PDF, in seconds since the start of 1970 (UTC); None for no date.
    """

    look: Look = field(default_factory=designs.look)
    words: Words = field(default_factory=designs.words)
    printer: Printer | None = None
    sturdy: Sturdy | None = None
    kerf_mm: float = 0.0
    svg: bool = False
    dxf: bool = False
    dpi: int | None = None
    ink: bool = False
    made: int | None = None
    own: "OwnDrawing | None" = None

    def __post_init__(self) -> None:
        if not 0 <= self.kerf_mm <= MOST_KERF or round(self.kerf_mm, 2) != self.kerf_mm:
            raise RefusedError("press.kerf", option="kerf", given=self.kerf_mm, most=MOST_KERF)
        if self.dpi is not None and not 20 <= self.dpi <= 600:
            raise RefusedError("press.dpi", option="dpi", given=self.dpi, least=20, most=600)
        if self.kerf_mm and self.sturdy:
            raise RefusedError("press.sturdy-kerf", option="sturdy", other="kerf")

    def style(self, paper: Paper) -> Style:
        """Return the style of what is printed on ``paper``."""
        return Style(paper, self.words, self.look, self.own is not None)

    @property
    def slack_mm(self) -> tuple[float, float]:
        """How far (across, down) a back may have to move into the printer's register."""
        if self.printer is None:
            return 0.0, 0.0
        shift = self.printer.back_shift_mm
        return abs(shift.across), abs(shift.down)


@dataclass(frozen=True, slots=True)
class Printing:
    """How someone wishes to print, as typed; None where nothing was said.

    ``made`` is the date in the PDF, in seconds since the start of 1970 (UTC).
    """

    paper: str | None = None
    margin: float | None = None
    unit: float | None = None
    printer: str | None = None
    look: str | None = None
    words: str | None = None
    sturdy: str | None = None
    kerf: float | None = None
    svg: bool | None = None
    dxf: bool | None = None
    png: bool | None = None
    dpi: int | None = None
    ink: bool | None = None
    made: int | None = None
    picture: str | None = None

    def over(self, other: Self) -> Self:
        """Return these wishes, and those of ``other`` where nothing was said here."""
        said = {
            f.name: getattr(self, f.name) for f in fields(self) if getattr(self, f.name) is not None
        }
        return replace(other, **said)

    @property
    def paper_name(self) -> str:
        """The paper as it was typed; the one usual with the words where nothing was said."""
        return self.paper or designs.words(_or("en-GB", self.words)).paper

    def fitted(self) -> Paper:
        """Return the paper with the margins and the unit asked for, as far as the printer goes."""
        return fitted_paper(self.paper_name, self.margin, self.unit, self._printer())

    def press(self) -> Press:
        """Return the look, the words and all else that was asked for."""
        if self.sturdy is not None and self.sturdy not in get_args(Sturdy):
            known = get_args(Sturdy)
            raise RefusedError("option.choice", option="sturdy", given=self.sturdy, known=known)
        if self.png is False and self.dpi is not None:
            raise RefusedError("press.dpi-without-png", option="dpi", given=self.dpi)
        own, words = None, designs.words(_or("en-GB", self.words))
        if self.words is not None and self.words.lower().endswith(".toml"):
            from kitbuilder.press.words_trial import check_fit

            check_fit(words, Path(self.words))
        if self.picture:
            from kitbuilder.press.drawing import own_drawing

            own = own_drawing(Path(self.picture))
        return Press(
            look=designs.look(_or("plain", self.look)),
            words=words,
            printer=self._printer(),
            sturdy=cast("Sturdy | None", self.sturdy),
            kerf_mm=self.kerf or 0.0,
            svg=bool(self.svg),
            dxf=bool(self.dxf),
            dpi=DPI if self.png and self.dpi is None else self.dpi,
            ink=bool(self.ink),
            made=self.made,
            own=own,
        )

    def _printer(self) -> Printer | None:
        return None if self.printer is None else printers.printer(self.printer)


def _or(usual: str, said: str | None) -> str:
    return usual if said is None else said


def source_date(said: str | None) -> int | None:
    """Return the date that a build is told to bear, by the rule of reproducible builds.

    SOURCE_DATE_EPOCH holds seconds since the start of 1970, UTC (reproducible-builds.org,
    specification 1.1, from memory). Raises ``RefusedError`` for anything else.
    """
    if not said:
        return None
    if not (said.isascii() and said.isdigit() and int(said[:20]) <= LAST_SECOND):
        raise RefusedError("press.source-date", given=said, most=LAST_SECOND)
    return int(said)


def fitted_paper(
    name: str,
    margin: float | None = None,
    unit: float | None = None,
    printer: Printer | None = None,
) -> Paper:
    """Return the paper called ``name`` with all margins and the unit in mm as asked for.

    With a measured ``printer``, margins grow to what it really prints.
    """
    paper = designs.paper(name)
    given = (("margin", margin), ("unit", unit), ("printer", printer and printer.name))
    asked = [
        Said("option.with", option=option, value=value)
        for option, value in given
        if value is not None
    ]
    try:
        if margin is not None:
            same = designs.Margins(margin, margin, margin, margin)
            paper = replace(paper, margins_mm=same)
        if unit is not None:
            paper = replace(paper, unit_mm=unit)
        if printer is not None:
            paper = replace(paper, margins_mm=printer.margins(paper))
    except RefusedError as error:
        asked_for = Said("where.paper-with", paper=paper.name, asked=asked)
        raise error.at(asked_for, field=str(asked[0].slots["option"])) from None
    return paper
