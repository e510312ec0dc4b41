"""Turns the words file and a look into a mat's words and the millimetres they need."""

from kitbuilder.design import metrics
from kitbuilder.design.load import Look, Words
from kitbuilder.kit.mat_needs import Arrangement, Headings, roles
from kitbuilder.layout.mat.mat_records import MatText
from kitbuilder.number import PLACES

DIGIT = 18.0
"""Width in mm of the clear space for each digit of a written number."""

NUMBER_HEIGHT = 17.0
"""Height in mm of that space."""

HEADING_LEADING = 1.2
"""Height of the line of headings, as a multiple of the size of type."""

HINT_LEADING = 1.4
"""The same for the hint under a label."""


def mat_text(
    arrangement: Arrangement, places: int, headings: Headings, words: Words, look: Look
) -> MatText:
    """Return the words of a mat: hundreds, tens, ones; 100, 10, 1; or H, T, O, and its labels.

    Children's words have an x-height of 5 mm in the plain look; hints are for the adult.
    """
    child, adult = look.type_mm.child, look.type_mm.adult
    heads = tuple(words(f"mat.headings.{headings}.{place}") for place in PLACES[:places])
    labels = tuple(words(f"mat.{arrangement}.{role}") for role in roles(arrangement))
    hints = tuple(words(f"mat.{arrangement}.{role}_hint") for role in roles(arrangement))
    return MatText(
        headings=heads,
        heading_widths=tuple(metrics.width(text, child) for text in heads),
        roles=labels,
        hints=hints,
        role_widths=tuple(
            max(metrics.width(label, child), metrics.width(hint, adult))
            for label, hint in zip(labels, hints, strict=True)
        ),
        heading_height=HEADING_LEADING * child,
        role_height=1.2 * child + HINT_LEADING * adult,
        number=metrics.width(words("mat.number"), adult) + DIGIT * places,
        number_height=NUMBER_HEIGHT,
        number_hint=words("mat.number"),
        join=words("mat.join", number="{number}"),
        join_width=metrics.width(words("mat.join", number="88"), adult),
        small_roles=tuple(metrics.width(label, adult) for label in labels),
        join_height=HINT_LEADING * adult,
        pages=words("mat.pages"),
        pages_width=metrics.width(words("mat.pages"), adult),
        mark_width=metrics.width("8", adult),
        fan=words("mat.fan"),
        fan_width=metrics.width(words("mat.fan"), adult),
    )
