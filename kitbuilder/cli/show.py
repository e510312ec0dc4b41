"""Turns the words after ``kitbuilder show`` into a sum worked in plain text."""

import click

from kitbuilder.cli.options import SUMS_SETTINGS, sum_words


@click.command(context_settings=SUMS_SETTINGS)
@click.argument("sum_", metavar="SUM")
def show(sum_: str) -> None:
    """Show the steps of a sum with pieces, and its written columns."""
    from kitbuilder import designs
    from kitbuilder.draw.characters import shown
    from kitbuilder.request import read_sum

    click.echo(shown(read_sum(sum_words((sum_,))[0]), designs.words()), nl=False)
