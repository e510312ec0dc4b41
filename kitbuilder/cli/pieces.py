"""Turns the words after ``kitbuilder pieces`` into sheets with just those pieces."""

from pathlib import Path

import click

from kitbuilder.cli.options import WHOLE, out_option, paper_options, report
from kitbuilder.errors import RefusedError


@click.command()
@click.option("--hundreds", type=WHOLE, default=0, metavar="N", help="How many hundreds.")
@click.option("--tens", type=WHOLE, default=0, metavar="N", help="How many tens.")
@click.option("--ones", type=WHOLE, default=0, metavar="N", help="How many ones.")
@paper_options
@out_option("pieces")
def pieces(
    hundreds: int,
    tens: int,
    ones: int,
    paper: str | None,
    margin: float | None,
    unit: float | None,
    out: Path,
) -> None:
    """Print just the pieces asked for, to replace lost ones."""
    from kitbuilder.number import Pieces
    from kitbuilder.request import MOST_PIECES, Request, fitted_paper
    from kitbuilder.road import build

    counts = {"--hundreds": hundreds, "--tens": tens, "--ones": ones}
    for option, count in counts.items():
        if not 0 <= count <= MOST_PIECES:
            raise RefusedError(f"{option} was {count}; choose a count from 0 to {MOST_PIECES}.")
    if not any(counts.values()):
        raise RefusedError("No pieces were asked for; say how many, as --tens 2 --ones 10.")
    wanted = Pieces(ones, tens, hundreds)
    request = Request((), fitted_paper(paper or "a4", margin, unit), None, wanted, ("pieces",))
    report(build(request, out))
