"""Turns a words file into the first sentence of it that its place cannot hold, by name.

Most sentences flow and take as many lines as they need. What stands in a box, in a column of a
table or on a card has a width here, in millimetres at the plain look's sizes, at which every
page of a kit on a4 and letter is known to hold it.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Literal

from kitbuilder.design import metrics
from kitbuilder.design.look import Type
from kitbuilder.errors import RefusedError, Where

_SLOT = re.compile(r"\{([a-z_]+)\}")

Entries = Mapping[str, str | tuple[str, ...]]
Size = Literal["title", "heading", "adult", "child"]

WORD = 42.0
"""Width in mm that any one word in an adult's type must fit: beside a picture it has no more."""

WIDE = ("check_print.*", 80.0)
"""Keys of sentences that always have a wider place, and its width in mm."""

NUMBER = "888"
"""Stands in a slot that is not among ``FILLS``: three of the widest digits."""


@dataclass(frozen=True, slots=True)
class Box:
    """A place of ``width`` mm for the sentences whose keys match ``keys``, in ``lines`` lines."""

    keys: str
    size: Size
    width: float
    lines: int = 1


@dataclass(frozen=True, slots=True)
class Fill:
    """What may stand in ``slot`` of the sentences whose keys match ``keys``.

    ``stands`` are the widest of what code writes there, or with ``said`` the keys of the
    sentences of the same file that stand there.
    """

    keys: str
    slot: str
    stands: tuple[str, ...]
    said: bool = False


FILLS = (
    Fill("count.*.one", "count", ("1",)),
    Fill("label.*.one", "count", ("1",)),
    Fill("label.*.many", "count", ("2000",)),  # the most sums there may be
    Fill("count.*.many", "count", ("8888",)),
    Fill("footer.*", "page", ("8888",)),
    Fill("footer.*", "name", ("MM",)),  # a sheet after Z
    Fill("cutting.at_a_time", "parts", ("count.sheet.many", "count.part.many"), said=True),
    Fill("cutting.at_a_time", "layers", ("20",)),
    Fill("cutting.each_line", "cuts", ("count.cut.many",), said=True),
    Fill("cutting.share", "source", ("cutting.sheet", "cutting.of"), said=True),
    Fill("cutting.sheet", "name", ("MM – MM",)),
    Fill("cutting.sheet", "what", ("title.*_cards", "title.labels", "title.mat"), said=True),
    Fill("cutting.of", "name", ("MM – MM",)),
    Fill("mat.join", "letter", ("MM",)),
    Fill("back.*", "*", ("8888",)),  # written cards have four places
    Fill("bag.title", "*", ("200",)),  # the most kits there may be
    Fill("fact.*", "*", ("18",)),
    Fill("plan.day", "weekday", ("plan.weekdays",), said=True),
    Fill("plan.day", "date", ("8888-88-88",)),
    Fill("*", "place", ("place.*",), said=True),
    Fill("*", "source_place", ("place.*",), said=True),
    Fill("*", "target", ("place.*",), said=True),
    Fill("*", "source", ("single.*",), said=True),
    Fill("*", "sum", ("8888 − 8888",)),
    Fill("*", "paper", ("8888.8x8888.8mm",)),
)
"""What fills the slots; the first that matches a key and its slot counts."""

BOXES = (
    Box("title.*", "adult", 62),
    Box("title.*", "title", 184, 2),
    Box("footer.*", "adult", 150),
    Box("cover.bar", "adult", 40),
    Box("cover.bank_card", "adult", 80),
    Box("cover.column_*", "adult", 30),
    Box("cover.stock_*", "adult", 30),
    Box("cover.cut_*", "adult", 30),
    Box("cutting.at_a_time", "adult", 60),
    Box("cutting.each_line", "adult", 60),
    Box("cutting.share", "adult", 90),
    Box("cutting.of", "adult", 60),
    Box("cutting.sheet", "adult", 60),
    Box("cutting.parts", "adult", 60),
    Box("count.sheet.*", "adult", 45),
    Box("count.part.*", "adult", 45),
    Box("count.cut.*", "adult", 45),
    Box("progress.date", "adult", 30),
    Box("progress.stage", "adult", 30),
    Box("progress.right", "adult", 30),
    Box("progress.of", "adult", 30),
    Box("progress.counted", "adult", 36),
    Box("progress.note", "adult", 30),
    Box("bag.title", "heading", 88),
    Box("scene.*", "adult", 45),
    Box("plan.day", "adult", 80),
    Box("column.*", "child", 14),
    Box("mat.headings.*", "child", 62),
    Box("mat.*.whole", "child", 120),
    Box("mat.*.part", "child", 120),
    Box("mat.*.rest", "child", 120),
    Box("mat.*_hint", "adult", 120),
    Box("exchange.*", "child", 190),
    Box("task.build", "child", 84),
    Box("task.take", "child", 84),
    Box("task.exchange", "child", 84, 2),
    Box("task.left", "child", 84),
    Box("task.check", "child", 84, 2),
    Box("back.part", "child", 128),
    Box("back.rest", "child", 128),
    Box("back.check", "child", 120, 2),
    Box("mat.number", "adult", 40),
    Box("mat.join", "adult", 60),
    Box("mat.pages", "adult", 30),
    Box("mat.fan", "adult", 80),
    Box("board.bank", "child", 80),
    Box("board.bank_hint", "adult", 80),
    Box("board.fill_*", "child", 150),
    Box("record.title", "child", 180),
    Box("fact.hint*", "child", 84),
    Box("label.*", "child", 84, 2),
)

FLOWS = (
    Box("mini.*", "adult", 184, 2),
    Box("lesson.*", "adult", 92, 3),
    Box("progress.how", "adult", 184, 2),
    Box("*", "adult", 184, 5),
)
"""How long sentences may be that flow; the pages grow with them, but none is a page of its own."""


def check_words(entries: Entries, sizes: Type, where: Where) -> None:
    """Raise ``RefusedError`` for a sentence that cannot be printed in its place, naming its key.

    ``where`` names the words file. ``sizes`` are a look's sizes of type.
    """
    for key in entries:
        for said in _lines(entries, key):
            _check_said(said, key, where)
    for key, said in _sentences(entries):
        room = WIDE[1] if fnmatchcase(key, WIDE[0]) else WORD
        for word in said.split(" "):
            width = metrics.width(word, sizes.adult)
            if width > room:
                raise _too_long(where, key, word, width, room)
        for box in (*BOXES, *FLOWS):
            if fnmatchcase(key, box.keys):
                _check_box(box, key, said, sizes, where)


def _check_said(said: str, key: str, where: Where) -> None:
    """Refuse a sentence without words, with a brace that is no slot's, or with strange letters."""
    if not said.strip():
        raise RefusedError("words.nothing", where=where, key=key)
    if set("{}") & set(_SLOT.sub("", said)):
        raise RefusedError("words.brace", where=where, key=key)
    if lacking := metrics.unprintable(said):
        raise RefusedError("words.no-letter", where=where, key=key, given=lacking[:10])


def _check_box(box: Box, key: str, said: str, sizes: Type, where: Where) -> None:
    size = getattr(sizes, box.size)
    lines = metrics.wrap(said, size, box.width)
    widest = max(metrics.width(line, size) for line in lines)
    if widest > box.width:
        raise _too_long(where, key, said, widest, box.width)
    if len(lines) > box.lines:
        raise _too_long(where, key, said, metrics.width(said, size), box.width * box.lines)


def _sentences(entries: Entries) -> Iterator[tuple[str, str]]:
    for key in entries:
        for said in _lines(entries, key):
            yield key, _filled(entries, key, said)


def _lines(entries: Entries, key: str) -> tuple[str, ...]:
    entry = entries[key]
    return (entry,) if isinstance(entry, str) else entry


def _filled(entries: Entries, key: str, said: str) -> str:
    """Return ``said`` with the widest that may stand in each of its slots."""
    return _SLOT.sub(lambda slot: _widest(entries, key, slot[1]), said)


def _widest(entries: Entries, key: str, slot: str) -> str:
    fill = next((f for f in FILLS if fnmatchcase(key, f.keys) and fnmatchcase(slot, f.slot)), None)
    if fill is None:
        return NUMBER
    stands: Iterable[str] = fill.stands
    if fill.said:
        stands = (
            _filled(entries, other, line)
            for other in entries
            if any(fnmatchcase(other, keys) for keys in fill.stands)
            for line in _lines(entries, other)
        )
    return max(stands, key=lambda text: metrics.width(text, 1), default=NUMBER)


def _too_long(where: Where, key: str, said: str, width: float, room: float) -> RefusedError:
    return RefusedError(
        "words.too-long", where=where, key=key, given=said, width=round(width), room=round(room)
    )
