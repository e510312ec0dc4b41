"""What cannot be met, as the screen is told it: a field, a row, a code with slots, a repair."""

import re
from collections.abc import Collection, Iterator, Sequence
from typing import Any

from kitbuilder.design.saying import language_of, say, shortened
from kitbuilder.errors import RefusedError, Said, Slot
from kitbuilder.kit.card_records import Pupil
from kitbuilder.kit.phrases import capital
from kitbuilder.page.screen_words import screen_words

LEFT_OUT = (
    "screen.day-or-sum",
    "screen.name-answer",
    "table.no-row",
    "pupil.no-sum",
    "pupil.no-name",
)
"""Refusals of a row of a table that may be no child's at all."""

_MINUS = re.compile(r"(?<=\d )-(?= \d)|(?<![\w-])-(?=\d)")
"""A hyphen between numbers or before one, as it is typed for a minus sign."""


class RefusedRowsError(Exception):
    """Several refusals at once, each with its field and row; ``rows`` are all that are refused.

    ``others`` are the pupils in the other rows of a table, ``astray`` tells whether its rows do not
    fit its first.
    """

    def __init__(
        self, refusals: Sequence[RefusedError], rows: Collection[int] = (), *, astray: bool = False
    ) -> None:
        super().__init__("; ".join(error.code for error in refusals))
        self.refusals, self.rows, self.astray = tuple(refusals), rows, astray
        self.others: tuple[Pupil, ...] = ()


def told(error: RefusedError, language: str) -> dict[str, Any]:
    """Return ``error`` as JSON.

    ``says`` is its sentence in ``language``, for codes that the screen has no shorter words for.
    """
    words = screen_words(language_of(language))
    repair = error.repair
    if error.row and error.code in LEFT_OUT:
        repair = repair or Said("repair.row", line=error.row)

    def label(option: str) -> str:
        return words.get(f"field.{option}") or words.get(f"more.{option}", option)

    return {
        "field": error.field or "",
        "row": error.row or 0,
        "code": error.code,
        "slots": _slots(error.said, language),
        "repair": None if repair is None else {"code": repair.code, **_slots(repair, language)},
        "says": _signs(capital(say(error.said, language, label)), error.said, words["quote"]),
    }


def note_told(note: Said, language: str) -> str:
    """Return what is noted beside a table, in ``language``."""
    quote = screen_words(language_of(language))["quote"]
    return _signs(say(note, language), note, quote)


def _signs(sentence: str, said: Said, quote: str) -> str:
    """Return ``sentence`` with the language's marks around what was typed, and minus signs."""
    for typed in map(shortened, _typed(said)):
        sentence = sentence.replace(repr(typed), quote.replace("{words}", typed))
    return _MINUS.sub("−", sentence)


def _typed(slot: Slot) -> Iterator[str]:
    """Yield the texts in a slot."""
    if isinstance(slot, str):
        yield slot
    elif isinstance(slot, Said | tuple):
        for one in slot.slots.values() if isinstance(slot, Said) else slot:
            yield from _typed(one)


def _slots(said: Said, language: str) -> dict[str, Any]:
    return {name: _slot(slot, language) for name, slot in said.slots.items()}


def _slot(slot: Slot, language: str) -> Any:  # noqa: ANN401  (whatever JSON holds)
    """Return a slot as JSON: what is said in a list, as how many more there are, in words."""
    if isinstance(slot, Said):
        return {"code": slot.code, "slots": _slots(slot, language)}
    if isinstance(slot, tuple):
        return [say(k, language) if isinstance(k, Said) else _slot(k, language) for k in slot]
    return slot if isinstance(slot, str | int | float) else str(slot)
