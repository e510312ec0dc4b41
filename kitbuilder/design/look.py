"""A checked look: line widths, colours and heights of type.

A look promises that what it prints can be seen: the contrast of words and lines against
their ground, white or the look's tint, is reckoned by the formula of the Web Content
Accessibility Guidelines (WCAG 2.2, "contrast ratio" and "relative luminance").
"""

import re
from dataclasses import fields

from kitbuilder.design.bounds import bounds, readable
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen

_COLOUR = re.compile(r"#[0-9a-f]{6}")

WHITE = "#ffffff"
"""The colour of paper."""

_LINES = ("cut", "frame", "guide", "zone", "slash")

LINE_CONTRAST = 3.0
"""The least contrast of a line that must be seen (WCAG 2.2, 1.4.11, second-hand)."""


def luminance(colour: str) -> float:
    """Return the relative luminance of ``colour`` (#rrggbb): black is 0, white is 1.

    WCAG 2.2, "relative luminance".
    """
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours (#rrggbb), from 1 to 21.

    WCAG 2.2, "contrast ratio".
    """
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@frozen
class Lines:
    """Widths of lines in millimetres: what each is for stands in designs/looks/plain.toml."""

    cut: float
    grid: float
    fine: float
    frame: float
    guide: float
    piece: float
    new: float
    zone: float
    divider: float
    rule: float
    write: float
    loop: float
    arrow: float

    def __post_init__(self) -> None:
        bounds(self, 0.05, 3, "mm")


FILLS = ("tint", "gone", "accent_tint", "number")
"""Colours that fill an area; ``none`` in a look that fills nothing."""


@frozen
class Ink:
    """Colours, written #rrggbb: what each is for stands in designs/looks/plain.toml."""

    cut: str
    grid: str
    frame: str
    guide: str
    zone: str
    text: str
    quiet: str
    slash: str
    accent: str
    tint: str
    gone: str
    accent_tint: str
    number: str

    def __post_init__(self) -> None:
        for field in fields(self):
            if field.name in FILLS and getattr(self, field.name) == "none":
                continue
            if not _COLOUR.fullmatch(getattr(self, field.name)):
                raise RefusedError("look.colour", name=field.name)

    @property
    def grounds(self) -> tuple[str, ...]:
        """The colours that words and lines may stand on."""
        return (WHITE,) if self.tint == "none" else (WHITE, self.tint)


@frozen
class Type:
    """Heights of type: millimetres of the em.

    ``least`` is the smallest of a kit: notes and the marks of an exchange. Only where a thing
    must be one page, a check sheet or a mini kit, words may be as small as 10 points.
    """

    cover: float
    title: float
    heading: float
    speech: float
    adult: float
    least: float
    child: float
    numeral: float
    digits: float

    def __post_init__(self) -> None:
        bounds(self, 2, 60, "mm")
        if self.least > self.adult:
            raise RefusedError("look.least", given=self.least, most=self.adult)


@frozen
class Look:
    """How everything printed looks.

    ``text_contrast`` is the least contrast of words that the look promises; at least 4.5, or 7
    for low vision (WCAG 2.2, 1.4.3 and 1.4.6, second-hand). The fine grid inside a piece is
    exempt: the piece is told by its outline.
    """

    name: str
    text_contrast: float
    lines_mm: Lines
    ink: Ink
    type_mm: Type

    def __hash__(self) -> int:
        return hash(self.name)  # what is kept for each look is looked up thousands of times

    def __post_init__(self) -> None:
        readable("name", self.name)
        bounds(self, 4.5, 21, "to 1", ("text_contrast",))
        seen = [
            *((n, g, self.text_contrast) for n in ("text", "quiet") for g in self.ink.grounds),
            *((n, g, LINE_CONTRAST) for n in _LINES for g in self.ink.grounds),
            ("accent", WHITE, self.text_contrast),
        ]
        for fill in {self.ink.accent_tint, self.ink.gone} - {"none"}:
            seen += [("text", fill, self.text_contrast), ("accent", fill, LINE_CONTRAST)]
        for name, ground, wanted in seen:
            colour = getattr(self.ink, name)
            found = contrast(colour, ground)
            if found < wanted:
                raise RefusedError(
                    "look.contrast",
                    name=name,
                    colour=colour,
                    ground=ground,
                    found=f"{found:.2f}",
                    least=wanted,
                )
