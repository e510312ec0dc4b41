"""Turns a person's words into a request, and results into plain words."""

import sys
from typing import Any

import click

from kitbuilder import __version__
from kitbuilder.cli.kit import kit
from kitbuilder.cli.papers import papers
from kitbuilder.cli.pieces import pieces
from kitbuilder.cli.show import show
from kitbuilder.errors import RefusedError


class Commands(click.Group):
    """The commands; what they refuse is said in one sentence, with exit status 2."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401  (as click declares it)
        """Run the command asked for."""
        try:
            return super().invoke(ctx)
        except RefusedError as error:
            click.echo(str(error), err=True)
            sys.exit(2)


@click.group(cls=Commands)
@click.version_option(__version__, message="kitbuilder %(version)s")
def main() -> None:
    """Print base-ten pieces, mats and cards at true size, for column subtraction by hand."""


for command in (kit, pieces, show, papers):
    main.add_command(command)
