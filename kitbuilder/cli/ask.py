"""Asks one child sum after sum, each chosen for what it tells, until it is sure what is wrong."""

import click

from kitbuilder.cli.told.marks_said import asks_said, verdict_said
from kitbuilder.cli.voice import tell
from kitbuilder.design.load import Words
from kitbuilder.errors import RefusedError
from kitbuilder.kit.class_marks import Cell
from kitbuilder.number.course.next_sums import hand
from kitbuilder.number.mistakes.asking import next_asked, settled
from kitbuilder.number.mistakes.one_out import OUT_BY
from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.reading import Verdict, read
from kitbuilder.number.sums import Sum
from kitbuilder.request.answer_cells import read_answer

MOST = 12
"""Sums after which asking on tells little more."""

FIRST = {2: Sum(60, 2), 3: Sum(300, 28), 4: Sum(4600, 797)}
"""The sum that tells most before any answer, by its places: nobody waits for it."""


def ask(places: int, words: Words) -> tuple[Cell, ...]:
    """Ask for the answers of one child until it is sure, and return them.

    An empty line leaves a sum out.
    """
    answered: list[Answered] = []
    cells: list[Cell] = []
    reading = read(answered)
    click.echo(words("marks.asking"))
    while len(cells) < MOST and not settled(reading):
        asked = [cell.sum for cell in cells]
        sum_ = next_asked(reading, hand(places), asked) if asked else FIRST[places]
        answer = _typed(sum_)
        if answer is _STOP:
            break
        cells.append(Cell(sum_, answer if isinstance(answer, int) else None))
        if isinstance(answer, int):
            answered.append(Answered(sum_, answer, len(cells)))
        reading = read(answered)
    click.echo("")
    click.echo(verdict_said(reading, words))
    if reading.verdict is Verdict.HABIT:
        shown = next(r for r in reading.reads if r.key)
        if reading.named[0] in OUT_BY:
            click.echo(words("marks.facts_found"))
        click.echo(asks_said(reading.named, shown.answered.sum, words))
    elif reading.verdict not in (Verdict.RIGHT, Verdict.UNTRIED):
        click.echo(words("marks.watch", first=words("mistakes.first")))
    return tuple(cells)


_STOP = "stop"


def _typed(sum_: Sum) -> int | str | None:
    """Return the answer typed, None for an empty line, ``_STOP`` where nothing more comes."""
    while True:
        try:
            typed = click.prompt(f"{sum_} =", default="", show_default=False, prompt_suffix=" ")
        except click.Abort:
            return _STOP
        try:
            return read_answer(typed, sum_)
        except RefusedError as error:
            tell(error.whole, err=True)
