"""``kitbuilder pieces``: sheets with just the pieces asked for."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import WHOLE, out_option, print_options, printed
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from kitbuilder.press.printing import Printing


@click.command(cls=Grouped)
@click.option("--hundreds", type=WHOLE, default=0, metavar="N", help="How many hundreds.")
@click.option("--tens", type=WHOLE, default=0, metavar="N", help="How many tens.")
@click.option("--ones", type=WHOLE, default=0, metavar="N", help="How many ones.")
@print_options
@out_option("pieces")
def pieces(
    hundreds: int,
    tens: int,
    ones: int,
    printing: "Printing",
    out: Path,
) -> None:
    """Print just the pieces asked for, to replace lost ones."""
    from kitbuilder.number import Pieces
    from kitbuilder.pipeline import build
    from kitbuilder.request.request import MOST_PIECES, Request

    counts = {"hundreds": hundreds, "tens": tens, "ones": ones}
    for option, count in counts.items():
        if not 0 <= count <= MOST_PIECES:
            most = MOST_PIECES
            raise RefusedError("option.range", option=option, given=count, least=0, most=most)
    if not any(counts.values()):
        raise RefusedError("pieces.none", field="ones")
    wanted = Pieces(ones, tens, hundreds)
    paper, press = printed(printing)
    request = Request((), paper, extra=wanted, parts=("pieces",), press=press)
    report(build(request, out, progress), request)
