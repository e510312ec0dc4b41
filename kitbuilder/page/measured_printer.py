"""What was measured on a check sheet, as a printer: how it errs, and its profile to keep."""

import re
import unicodedata
from typing import Any

from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError
from kitbuilder.layout.pages.check_sheet import bars
from kitbuilder.output.calibration import measured_printer
from kitbuilder.page.readings import Wished, number
from kitbuilder.page.refusal import told
from kitbuilder.page.screen_words import word
from kitbuilder.page.wishes import printing
from kitbuilder.press.printer import Printer, profile
from kitbuilder.press.printing import fitted

BARS = ("across", "down")
SIDES = ("top", "right", "bottom", "left")
BACK = ("back_right", "back_down")


def measured(wishes: Wished, refusals: list[dict[str, Any]]) -> dict[str, Any]:
    """Return how long the bars should be and, when both were measured, how the printer errs.

    What was measured wrongly is added to ``refusals``.
    """
    language = str(wishes.get("lang") or "en-GB")
    try:
        paper = fitted(printing(wishes))
    except RefusedError:  # said already, where the sheet was asked for
        return {}
    across, down = bars(paper)
    answer: dict[str, Any] = {"bars": [across, down], "profile": ""}
    try:
        found = _printer(wishes, paper, language)
    except RefusedError as error:
        typed = (error.field or "").removeprefix("measured-")
        error.field = typed if typed in (*BARS, *SIDES, *BACK) else "measures"
        refusals.append(told(error, language))
        return answer
    if found:
        answer |= {"across": found.across, "down": found.down, "profile": profile(found)}
    return answer


def _printer(wishes: Wished, paper: Paper, language: str) -> Printer | None:
    typed = wishes.get("measures") or {}
    across, down = (number(typed.get(name), name) for name in BARS)
    top, right, bottom, left = (number(typed.get(side), side) or 0.0 for side in SIDES)
    shift_right, shift_down = (number(typed.get(way), way) or 0.0 for way in BACK)
    if across is None or down is None:
        return None
    name = _name(str(typed.get("name") or "")) or word(language, "printer")
    crop, shift = (top, right, bottom, left), (shift_right, shift_down)
    return measured_printer(name, paper, (across, down), crop, shift)


def _name(typed: str) -> str:
    """Return a name as printers have: small letters without accents, words with ``-`` between."""
    plain = unicodedata.normalize("NFKD", typed.lower()).encode("ascii", "ignore").decode()
    return re.sub("[^a-z0-9_]+", "-", plain).strip("-_")[:40]
