"""``kitbuilder marks``: what children's answers say."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import (
    WHOLE,
    new_file,
    out_option,
    printed,
    printing_options,
    read_input,
    where_from,
)
from kitbuilder.cli.typed import typed
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

if TYPE_CHECKING:
    from kitbuilder.design.load import Paper, Words
    from kitbuilder.kit.class_marks import ClassMarks
    from kitbuilder.press.printing import Press, Printing
    from kitbuilder.request.answer_cells import ChildAnswers


@click.command()
@click.argument("answers", required=False, metavar="[ANSWERS]")
@click.option("--codes", is_flag=True, help="Codes instead of names in what is written.")
@click.option("--next", "following", metavar="FILE", help="Also the next sums: for cards --pupils.")
@click.option("--ask", "asking", is_flag=True, help="Ask one child, one sum at a time.")
@click.option(
    "--places", type=WHOLE, default=3, metavar="N", help="With --ask: places of the sums, 2 to 4."
)
@printing_options("paper", "margin", "printer", "look", "words")
@out_option("marks")
def marks(
    answers: str | None,
    codes: bool,
    following: str | None,
    asking: bool,
    places: int,
    printing: "Printing",
    out: Path,
) -> None:
    """Say what went wrong, child by child, from a table of answers; - is standard input.

    The table has the heads name,sum,answer, or the sums in its first line and then a line a
    child. Nothing is kept but the files that are named here, which only you may read.
    """
    paper, press = printed(printing)
    if asking:
        _ask(answers, places, press.words, following)
        return
    if answers is None:
        raise RefusedError("marks.no-table", field="answers")
    from kitbuilder.cli.told.marks_said import marks_text
    from kitbuilder.kit.class_marks import class_marks

    notes: list[Said] = []
    if "places" in typed():
        reason, idle = Said("idle.table", option="ask"), (Said("option.name", option="places"),)
        notes.append(Said("note.idle-one", options=idle, reason=reason))
    papers, words = _read(answers, press.words, notes)
    press = replace(press, words=words)
    read = class_marks([(one.name, one.cells) for one in papers], codes)
    table = _next_sums(read)
    path = None if following is None else _next_file(Path(following), table, out)
    _write(read, paper, press, out)
    if path is not None:
        _write_next(path, table)
    for note in notes:
        tell(note, err=True)
    click.echo(marks_text(read, press.words))  # last, so that a refusal stands alone


def _read(
    answers: str, words: "Words", notes: list[Said]
) -> "tuple[tuple[ChildAnswers, ...], Words]":
    """Return the children in a table, and the words for their numbers; ``notes`` as it has them."""
    from kitbuilder.request.answers import (
        LARGEST_ANSWERS,
        decimals_of,
        on_one_scale,
        read_answers,
    )

    text = read_input(answers, LARGEST_ANSWERS)
    papers = read_answers(text, where_from(answers), notes, words("number.point"))
    if decimals := decimals_of(papers):
        words = words.counting(decimals)
        papers = on_one_scale(papers, words.scale)
    return papers, words


OWN_FILES = ("marks.pdf", "marks.json")
"""What the command itself writes into its folder."""


def _next_file(path: Path, table: bytes, out: Path) -> Path:
    """Return the file for the next sums.

    Raises ``RefusedError`` where it holds anything but their ``table``, would take the place of the
    pages or the record in ``out``, or cannot be written.
    """
    from kitbuilder.output.store.folder import may_hold, may_write

    folder, file = out.resolve(), new_file(path, "next").resolve()
    own = path.name.lower() in OWN_FILES and file.parent == folder
    if own or file in (folder, *folder.parents):
        raise RefusedError("output.own-file", path=path, option="next")
    may_hold(path, table, "next")
    may_write(path, "next")
    return path


OF_PAGES = ("out", "codes", "paper", "margin", "printer", "look")
"""Options about what is written, which asking one child does not."""


def _ask(answers: str | None, places: int, words: "Words", following: str | None) -> None:
    """Ask one child; the next sums are written where ``following`` names a file for them."""
    from kitbuilder.cli.ask import ask
    from kitbuilder.kit.class_marks import class_marks
    from kitbuilder.output.store.folder import may_hold, may_write

    if answers is not None:
        raise RefusedError("marks.ask-table", option="ask", given=answers)
    if not 2 <= places <= 4:
        raise RefusedError("option.range", option="places", given=places, least=2, most=4)
    path = None if following is None else new_file(Path(following), "next")
    if path is not None:
        may_hold(path, None, "next")
        may_write(path, "next")
    given = typed()
    if idle := tuple(Said("option.name", option=name) for name in OF_PAGES if name in given):
        reason = Said("idle.asking")
        one = Said("note.idle-one", options=idle, reason=reason)
        tell(Said("note.idle", options=idle, reason=reason) if idle[1:] else one, err=True)
    cells = ask(places, words)
    if path is not None:
        _write_next(path, _next_sums(class_marks([(words("marks.asked"), cells)])))


def _write(read: "ClassMarks", paper: "Paper", press: "Press", out: Path) -> None:
    from kitbuilder.cli.progress import progress
    from kitbuilder.cli.told.outcome import found_there, wrote
    from kitbuilder.pipeline import mark

    with private():
        written = mark(read, paper, press, out, progress)
    for line in found_there(written):
        tell(line, err=True)
    tell(wrote(written.files), err=True)


def _next_sums(read: "ClassMarks") -> bytes:
    """Return the table of the next sums."""
    from kitbuilder.formats.next_csv import next_table
    from kitbuilder.kit.child_words import practised

    rows = [
        (child.code if read.coded else child.name, sum_, stage, practised(child))
        for child in read.children
        for stage, sums in (("written", child.next.telling), ("pieces", child.next.practice))
        for sum_ in sums
    ]
    return next_table(rows).encode()


def _write_next(path: Path, table: bytes) -> None:
    """Write the next sums' ``table`` as ``path``."""
    from kitbuilder.output.store.folder import write

    with private():
        write(
            path.parent,
            [(path.name, table)],
            advice=Said("advice.choose-another", option="next"),
        )
    tell(Said("told.wrote-one", path=path), err=True)


@contextmanager
def private() -> Iterator[None]:
    """Let files made meanwhile be read by their owner alone: they hold children's names."""
    before = os.umask(0o077)
    try:
        yield
    finally:
        os.umask(before)
