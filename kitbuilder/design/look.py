"""A checked look: line widths, colours and heights of type.

A look promises that what it prints can be seen: the contrast of words and lines against
their ground, white or the look's tint, is reckoned by the formula of the Web Content
Accessibility Guidelines (WCAG 2.2, "contrast ratio" and "relative luminance").
"""

import re
from dataclasses import dataclass, fields

from kitbuilder.design.bounds import bounds, readable
from kitbuilder.errors import RefusedError

_COLOUR = re.compile(r"#[0-9a-f]{6}")

WHITE = "#ffffff"
"""The colour of paper."""

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


@dataclass(frozen=True, slots=True)
class Lines:
    """Widths of lines in millimetres."""

    cut: float
    grid: float
    frame: float
    guide: float

    def __post_init__(self) -> None:
        bounds(self, 0.05, 3, "mm")


@dataclass(frozen=True, slots=True)
class Ink:
    """Colours, written #rrggbb; ``tint`` may be "none", for a look that fills nothing."""

    cut: str
    grid: str
    frame: str
    guide: str
    text: str
    quiet: str
    tint: str

    def __post_init__(self) -> None:
        for field in fields(self):
            if field.name == "tint" and self.tint == "none":
                continue
            if not _COLOUR.fullmatch(getattr(self, field.name)):
                raise RefusedError("look.colour", name=field.name)

    @property
    def grounds(self) -> tuple[str, ...]:
        """The colours that words and lines may stand on."""
        return (WHITE,) if self.tint == "none" else (WHITE, self.tint)


@dataclass(frozen=True, slots=True)
class Type:
    """Heights of type: millimetres of the em.

    ``least`` is the smallest of a kit: notes and the marks of an exchange. Only where a thing
    must be one page, a check sheet or a mini kit, words may be as small as 10 points.
    """

    title: float
    heading: float
    adult: float
    least: float
    child: float
    numeral: float

    def __post_init__(self) -> None:
        bounds(self, 2, 60, "mm")
        if self.least > self.adult:
            raise RefusedError("look.least", given=self.least, most=self.adult)


@dataclass(frozen=True, slots=True)
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

    def __post_init__(self) -> None:
        readable("name", self.name)
        bounds(self, 4.5, 21, "to 1", ("text_contrast",))
        least = {"text": self.text_contrast, "quiet": self.text_contrast}
        least |= dict.fromkeys(("cut", "frame", "guide"), LINE_CONTRAST)
        for name, wanted in least.items():
            colour = getattr(self.ink, name)
            for ground in self.ink.grounds:
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
