"""Turns the words after ``kitbuilder show`` into a sum worked in plain text."""

import click


@click.command()
@click.argument("sum_", metavar="SUM")
def show(sum_: str) -> None:
    """Show the steps of a sum with pieces, and its written columns."""
    from kitbuilder import designs
    from kitbuilder.draw.characters import shown
    from kitbuilder.request import read_sum

    click.echo(shown(read_sum(sum_), designs.words()), nl=False)
