"""``kitbuilder show``: a sum worked in plain text, or an answer explained."""

from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import SUMS_SETTINGS, sum_words, words_option

if TYPE_CHECKING:
    from kitbuilder.design.load import Words


@click.command(context_settings=SUMS_SETTINGS)
@click.argument("typed", nargs=-1, required=True, metavar="SUM")
@click.option("--answer", metavar="NUMBER", help="A child's answer: which mistake gives it?")
@words_option
def show(typed: tuple[str, ...], answer: str | None, words: "Words") -> None:
    """Show the steps of a sum with pieces, and its written columns; or explain an answer."""
    from kitbuilder.cli.answer import explain_answer, read_answer
    from kitbuilder.draw.plain_text import shown
    from kitbuilder.request.request import read_sum

    asked = read_sum(" ".join(sum_words(typed)), words("number.point"))  # typed with spaces too
    if asked.scale.decimals:
        words = words.counting(asked.scale.decimals)
        asked = asked.on(words.scale)
    if answer is not None:
        click.echo(explain_answer(asked, read_answer(answer, asked.scale), words, answer))
        return
    click.echo(shown(asked, words), nl=False)
