"""What the program says, as a code with slots, and the refusal of a wish that cannot be met."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from errno import EACCES, EINVAL, EISDIR, ENAMETOOLONG, ENOENT, ENOSPC, ENOTDIR, EPERM, EROFS
from pathlib import PurePath
from typing import Self, TypeAlias

MOST_BESIDE = 4
"""Refusals that are told beside the first."""

NAMED = 4
"""Things of a kind that are named before the rest are counted."""

STOPPED = "Stopped; no file is left half written."
"""What is said after Ctrl-C."""

INTERRUPTED = 130
"""The status after Ctrl-C: 128 and the signal's number, as shells count (practice)."""


class EndedError(KeyboardInterrupt):
    """The system's wish that the program end; ``status`` is what it then ends with."""

    def __init__(self, signal: int) -> None:
        super().__init__()
        self.status = 128 + signal


def status_of(stopped: BaseException | None) -> int:
    """Return the status to end with after ``stopped``, Ctrl-C or the system's wish."""
    return stopped.status if isinstance(stopped, EndedError) else INTERRUPTED


Slot: TypeAlias = "str | int | float | PurePath | tuple[Slot, ...] | Said"
"""What may fill a slot: a number, a name or typed text, a path, a list, or something else said."""


@dataclass(frozen=True, init=False, repr=False)
class Said:
    """Something to say, in no language yet: the code of a sentence and what fills its slots.

    The sentences stand in ``designs/said``, a file a language. ``str`` gives British English.
    """

    code: str
    slots: dict[str, Slot]

    def __init__(self, code: str, /, **slots: object) -> None:
        object.__setattr__(self, "code", code)
        object.__setattr__(self, "slots", {name: _slot(value) for name, value in slots.items()})

    def __str__(self) -> str:
        from kitbuilder.design.saying import say

        return say(self)

    def __repr__(self) -> str:
        return f"Said({self.code!r}, **{self.slots!r})"


Where = str | PurePath | Said
"""A file that something was read from, or how it is called where it has no path."""


class RefusedError(Exception):
    """A wish that cannot be met: a code and its slots, to be said in any language.

    ``field`` names the wish, as the option without its dashes; ``row`` is the line of a table or
    list that it stands in, counted from 1; ``repair`` is what would do, where that is known.
    Its sentence tells a parent what was given, what is allowed and what to do. The command line
    prints it and ends with status 2.
    """

    def __init__(
        self,
        code: str,
        /,
        *,
        field: str | None = None,
        row: int | None = None,
        repair: Said | None = None,
        **slots: object,
    ) -> None:
        self.said = Said(code, **slots)
        self.whole = self.said
        self.row, self.repair = row, repair
        option = self.said.slots.get("option")
        self.field = field or (option if isinstance(option, str) else None)
        super().__init__(code)

    def __str__(self) -> str:
        return str(self.whole)

    @property
    def code(self) -> str:
        """The code of the sentence, without where the fault stands."""
        return self.said.code

    @property
    def slots(self) -> dict[str, Slot]:
        """What fills the sentence's slots."""
        return self.said.slots

    def at(
        self, where: Where | None = None, row: int | None = None, field: str | None = None
    ) -> Self:
        """Return this refusal with the file or list that it concerns, the row in it, or the field.

        Fits ``raise error.at(...) from None``.
        """
        if where is not None and row is not None:
            self.whole = Said("at.file-line", where=where, line=row, why=self.whole)
        elif where is not None:
            self.whole = Said("at.file", where=where, why=self.whole)
        elif row is not None:
            self.whole = Said("at.line", line=row, why=self.whole)
        self.row = self.row if row is None else row
        self.field = self.field or field
        return self

    def with_others(self, others: Sequence[Said]) -> Self:
        """Return this refusal, which tells of the ``others`` as well: the first few, and how many.

        Each stands on a line of its own.
        """
        left = len(others) - MOST_BESIDE
        more = [Said("answers.more", count=left)] if left > 0 else []
        for said in (*others[:MOST_BESIDE], *more):
            self.whole = Said("answers.then", first=self.whole, then=said)
        return self

    def in_table(self, where: Where) -> Self:
        """Return this refusal with the file that the row it names stands in; as it is without."""
        if self.row is not None:
            self.whole = self.said
            return self.at(where, self.row)
        return self


class NameTooWideError(RefusedError):
    """A name that no label card or line holds; ``name`` is the name.

    Shortened it must do: ``fits`` says so of a shorter one.
    """

    def __init__(self, name: str, paper: str, fits: Callable[[str], bool]) -> None:
        most = next((n for n in range(len(name) - 1, 1, -1) if fits(name[:n])), 1)
        super().__init__("pupil.name-too-wide", field="pupils", name=name, paper=paper, most=most)
        self.name = name


def named(things: Sequence[object]) -> tuple[Slot, ...]:
    """Name the first few of ``things`` and count the rest."""
    if len(things) <= NAMED:
        return tuple(map(_slot, things))
    return (*map(_slot, things[:NAMED]), Said("told.more", count=len(things) - NAMED))


def _slot(value: object) -> Slot:
    if isinstance(value, str | int | float | PurePath | Said):
        return value
    if isinstance(value, tuple | list):
        return tuple(_slot(one) for one in value)
    return str(value)  # a sum, a fact, a date: as it is written


def reason(error: OSError) -> Said:
    """Return why the system refused a file, in words of our own where the cause is a usual one."""
    usual = {
        ENOENT: Said("reason.missing"),
        EACCES: Said("reason.forbidden"),
        EPERM: Said("reason.forbidden"),
        EISDIR: Said("reason.a-folder"),
        ENOTDIR: Said("reason.no-folder"),
        EROFS: Said("reason.read-only"),
        ENOSPC: Said("reason.full"),
        ENAMETOOLONG: Said("reason.long-name"),
        EINVAL: Said("reason.not-a-file", name=error.filename or ""),
    }
    found = usual.get(error.errno or 0)
    return found or Said("reason.other", told=(error.strerror or str(error)).lower())


def out_of_range(option: str, given: float, least: float, most: float) -> RefusedError:
    """Return the refusal of a number ``given`` for ``option`` that is not ``least`` to ``most``."""
    return RefusedError("option.range", option=option, given=given, least=least, most=most)
