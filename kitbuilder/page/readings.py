"""What was typed on the screen, read: text into numbers, rows of sums; refusals gathered."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.card_records import Pupil
from kitbuilder.page.refusal import RefusedRowsError

Read = TypeVar("Read")

Wished = Mapping[str, Any]
"""Wishes as the screen writes them: JSON, whatever a person typed being text."""


@dataclass(slots=True)
class Typed:
    """Readings of what was typed; what cannot be read is gathered, not raised.

    ``apart`` says which of two kinds of packs these are, where they stand apart; ``notes`` what was
    passed over, ``pupils`` who stands in a table of packs.
    """

    refusals: list[RefusedError] = field(default_factory=list)
    apart: str = ""
    notes: list[Said] = field(default_factory=list)
    pupils: tuple[Pupil, ...] = ()

    def read(
        self, name: str, reading: Callable[[], Read], usual: Read, row: int | None = None
    ) -> Read:
        """Return what ``reading`` returns, or ``usual`` after noting why it was refused."""
        try:
            return reading()
        except RefusedError as error:
            self.refusals.append(error.at(row=row, field=name))
            return usual

    def done(self) -> None:
        """Raise what was gathered, if anything was."""
        if self.refusals:
            raise RefusedRowsError(self.refusals)


def number(typed: object, name: str) -> float | None:
    """Return the number typed in the field called ``name``, None where it is empty.

    It may have the unit that stands beside its field.
    """
    text = str("" if typed is None else typed).strip().replace(",", ".").replace("−", "-")
    text = text.removesuffix("mm").removesuffix("%").strip()
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not abs(value) < 1e6:
        raise RefusedError("option.number", option=name, given=str(typed))
    return value


def whole_number(typed: object, name: str) -> int | None:
    """Return the whole number typed in the field called ``name``, None where it is empty."""
    value = number(typed, name)
    if value is not None and value != int(value):
        raise RefusedError("option.whole-number", option=name, given=str(typed))
    return None if value is None else int(value)


def words_name(wishes: Wished) -> str:
    """Return the language of the pages."""
    return str(wishes.get("page_words") or wishes.get("lang") or "en-GB")


def rows(wishes: Wished) -> list[tuple[int, str, str]]:
    """Return the rows of sums that hold something: number from 1, whole and part as typed."""
    typed = wishes.get("sums") or []
    cells = [
        (number, str(row[0]).strip(), str(row[1]).strip()) for number, row in enumerate(typed, 1)
    ]
    return [row for row in cells if row[1] or row[2]]


def point_of(wishes: Wished) -> str:
    """Return the decimal point of the language of the pages, as the command line reads sums."""
    return designs.words(words_name(wishes))("number.point")
