"""The stages every kind of sum goes through, and the days they take."""

from typing import Literal, get_args

Stage = Literal["pieces", "both", "drawn", "written"]
STAGES: tuple[Stage, ...] = get_args(Stage)
"""In order. ``pieces``: no pencil. ``both``: pieces, and each move written at once. ``drawn``:
squares, strokes and dots beside the columns. ``written``: columns, the pieces in reach.

Sources: pieces and writing joined step by step, Fuson & Briars 1990, Journal for Research in
Mathematics Education 21:180-206 (abstract read); drawing, Flores 2010 (abstract read; pupils in
difficulty only); the length of each stage is this project's own.
"""

Template = tuple[tuple[Stage, ...], ...]
"""The stages of a kind's new sums, day by day."""

_LETTERS: dict[str, Stage] = dict(zip("PJDW", STAGES, strict=True))


def _template(letters: str) -> Template:
    return tuple(tuple(_LETTERS[c] for c in day) for day in letters.split("|"))


TEMPLATES = {
    2: _template("PJ|DW"),
    3: _template("PP|JJ|DW"),
    4: _template("PP|JJ|JD|DW"),
    5: _template("PP|PJ|JJ|JD|DW"),
}
"""By the number of days."""

FIRST_DAYS = 5
"""Days of the first kind that a child meets."""


def template_from(first: Stage) -> Template:
    """Return the days of a first kind begun at stage ``first``, two sums a day.

    Where the sums left come out odd, one more is written.
    """
    begin = STAGES.index(first)
    left = [s for day in TEMPLATES[FIRST_DAYS] for s in day if STAGES.index(s) >= begin]
    if len(left) % 2:
        left.append("written")
    return tuple(zip(left[::2], left[1::2], strict=True))
