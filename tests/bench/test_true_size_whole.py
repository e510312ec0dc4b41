"""Proof of size, whole: every paper and look, every piece and frame, rendered at 600 dpi.

Run by hand: pytest tests/bench/test_true_size_whole.py -s
"""

from dataclasses import replace
from pathlib import Path

import pytest
from output.test_true_size import true_rects
from pixels import printed, rendered, size_of

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins
from kitbuilder.pipeline import build
from kitbuilder.press.printer import Pair, Printer
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request

SHRINKS = (0.963, 0.971)


def largest_error(folder: Path, name: str, press: Press, stretch: tuple[float, float]) -> float:
    """Build the ready-made kit and return the largest error of a side, mm over 100 mm."""
    paper = fitted_paper(name, printer=press.printer)
    built = build(Request(first_wishes().sums, paper, press=press), folder)
    worst = 0.0
    for page, sheet in enumerate(built.laid.sheets, 1):
        rects = list(true_rects(sheet))
        if not rects:
            continue
        across, down = stretch if sheet.width == paper.width_mm else stretch[::-1]
        picture = rendered(folder / "kit.pdf", page)
        if stretch != (1.0, 1.0):
            picture = printed(picture, across, down)
        for rect in rects:
            for found, true in zip(
                size_of(picture, rect, paper.unit_mm), (rect.width, rect.height), strict=True
            ):
                worst = max(worst, abs(found - true) * max(1.0, true / 100))
    return worst


BOTH = [(name, look) for name in designs.names("paper") for look in designs.names("looks")]


@pytest.mark.parametrize(("name", "look"), BOTH)
def test_every_piece_is_within_a_tenth_of_a_millimetre(
    tmp_path: Path, name: str, look: str
) -> None:
    press = replace(Press(), look=designs.look(look))
    worst = largest_error(tmp_path, name, press, (1.0, 1.0))
    print(f"{name:8} {look:8} largest error {worst:.3f} mm")
    assert worst < 0.1


@pytest.mark.parametrize("name", ["a4", "letter", "a3"])
def test_a_calibrated_kit_is_within_two_tenths(tmp_path: Path, name: str) -> None:
    across, down = SHRINKS
    printer = Printer(
        "shrinks",
        name,
        Pair(150, 150),
        Pair(150 * across, 150 * down),
        Margins(0, 0, 0, 0),
        Pair(0, 0),
    )
    worst = largest_error(tmp_path, name, replace(Press(), printer=printer), SHRINKS)
    print(f"{name:8} shrunk to 96.3 and 97.1 %, corrected: largest error {worst:.3f} mm")
    assert worst < 0.2
