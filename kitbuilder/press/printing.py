"""How someone wishes to print: paper, look, words, printer, and files to write."""

import re
from collections.abc import Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, get_args

from kitbuilder.design import load as designs
from kitbuilder.design.load import Look, Paper, Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.press import printer as printers
from kitbuilder.press.printer import Printer

if TYPE_CHECKING:
    from kitbuilder.press.own_drawing import OwnDrawing

Sturdy = Literal["fold", "backs"]

Piled = Literal["sheets", "sets"]
"""The order of a pile: all copies of a sheet together, or a set after the other."""

MOST_KERF = 2.0
"""Millimetres that a cutting tool may take away."""

_KERF = re.compile(r"\d{1,4}(\.\d{1,4})?", re.ASCII)

LAST_SECOND = 253_402_300_799
"""The last second of the year 9999, counted from the start of 1970."""


@frozen
class Press:
    """How sheets are made and drawn, and which files are written beside the PDF.

    ``kerf_mm`` is the width that a cutting tool takes away; ``dpi`` is that of the pictures,
    None for no pictures. With ``ink`` the covered area of each page is reckoned. ``made`` is the
    date in the PDF, in seconds since the start of 1970 (UTC); None for no date. ``unit_asked`` is
    whether the paper has its unit because someone asked for that.
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
    unit_asked: bool = False

    def __post_init__(self) -> None:
        if not 0 <= self.kerf_mm <= MOST_KERF or round(self.kerf_mm, 2) != self.kerf_mm:
            raise RefusedError("press.kerf", option="kerf", given=self.kerf_mm, most=MOST_KERF)
        if self.dpi is not None and not 20 <= self.dpi <= 600:
            raise RefusedError("press.dpi", option="png", given=self.dpi, least=20, most=600)
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


Printing = Mapping[str, Any]
"""How someone wishes to print, as typed, under the options' names; None where nothing was said.

``made`` is the date in the PDF, in seconds since the start of 1970 (UTC).
"""

PRINTING = (
    *("paper", "margin", "unit", "printer", "look", "words"),
    *("sturdy", "cutter", "png", "ink", "picture"),
)
"""What a person may say about printing."""


def over(said: Printing, other: Printing) -> Printing:
    """Return what was ``said``, and what ``other`` says where nothing was said."""
    return {**other, **{name: value for name, value in said.items() if value is not None}}


def paper_name(said: Printing) -> str:
    """Return the paper as it was typed; the one usual with the words where nothing was said."""
    return said.get("paper") or designs.words(_or("en-GB", said.get("words"))).paper


def fitted(said: Printing) -> Paper:
    """Return the paper with the margins and the unit asked for, as far as the printer goes."""
    return fitted_paper(paper_name(said), said.get("margin"), said.get("unit"), _printer(said))


def press_for(said: Printing) -> Press:
    """Return the look, the words and all else that was asked for. Raises ``RefusedError``."""
    sturdy, picture = said.get("sturdy"), said.get("picture")
    if sturdy is not None and sturdy not in get_args(Sturdy):
        known = get_args(Sturdy)
        raise RefusedError("option.choice", option="sturdy", given=sturdy, known=known)
    files, kerf = read_cutter(said.get("cutter"))
    own = None
    if picture:
        from kitbuilder.press.own_drawing import own_drawing

        own = own_drawing(Path(picture))
    return Press(
        look=designs.look(_or("plain", said.get("look"))),
        words=designs.words(_or("en-GB", said.get("words"))),
        printer=_printer(said),
        sturdy=sturdy,
        kerf_mm=kerf,
        svg="svg" in files,
        dxf="dxf" in files,
        dpi=said.get("png"),
        ink=bool(said.get("ink")),
        made=said.get("made"),
        own=own,
        unit_asked=said.get("unit") is not None,
    )


def read_cutter(typed: str | None) -> tuple[set[str], float]:
    """Return the kinds of files for a cutter, and the width in mm that it takes away.

    They are ``typed`` with commas between: "svg,dxf,0.15". Raises ``RefusedError``.
    """
    files, kerf = set(), 0.0
    for word in typed.split(",") if typed else ():
        if word.strip() in ("svg", "dxf"):
            files.add(word.strip())
        elif not kerf and _KERF.fullmatch(word.strip()):
            kerf = float(word)
        else:
            raise RefusedError("press.cutter", option="cutter", given=word.strip())
    return files, kerf


def _printer(said: Printing) -> Printer | None:
    name = said.get("printer")
    return None if name is None else printers.printer(name)


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


def _small_unit(unit: float) -> RefusedError:
    """Return the refusal of a ``unit`` in mm too small to cut; it names the least.

    The sums are not known yet: the largest that fits is named where pieces meet the page.
    """
    least = designs.LEAST_UNIT
    return RefusedError(
        "paper.small-unit",
        repair=Said("repair.unit", unit=least),
        unit=unit,
        option="unit",
        least=least,
    )


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
    if unit is not None and 0 < unit < designs.LEAST_UNIT:
        raise _small_unit(unit)
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
