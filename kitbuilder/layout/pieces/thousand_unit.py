"""The unit at which thousands are printed, where nobody asked for one."""

from dataclasses import replace

from kitbuilder.design.load import LEAST_UNIT, Paper
from kitbuilder.layout.packing.grid import largest_unit
from kitbuilder.layout.packing.thousands_held import FLAT
from kitbuilder.layout.pieces.thousand_margin import most_unit
from kitbuilder.layout.printable import Page

USUAL = 10.0
"""The width of a one in mm where nothing makes it smaller."""

_PAIR = (2 * FLAT[0], FLAT[1])


def for_thousands(paper: Paper) -> Paper:
    """Return ``paper`` with a unit at which a thousand fits it, in half millimetres.

    That is its own where it does; else the largest at which two stand side by side, or one where
    two would be too small. A paper that holds none is returned as it is, for the layout to refuse.
    """
    page = Page.upright(paper)
    if most_unit(page) >= paper.unit_mm:
        return paper
    for most in (largest_unit(page, _PAIR), most_unit(page)):
        unit = int(2 * most) / 2
        if unit >= LEAST_UNIT:
            return replace(paper, unit_mm=unit)
    return paper


def small_for_thousands(paper: Paper) -> bool:
    """Say whether ones are as small as they are on ``paper`` for thousands to fit it."""
    return for_thousands(replace(paper, unit_mm=USUAL)).unit_mm == paper.unit_mm < USUAL
