"""``kitbuilder mats``: mats without a kit."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.commands.kit import asked_for
from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    WHOLE,
    out_option,
    print_options,
    printed,
    sum_words,
)
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.cli.typed import Typed, filled, mat_options, wished

if TYPE_CHECKING:
    from kitbuilder.press.printing import Printing


@click.command(cls=Grouped, context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM | REQUEST.toml]...")
@click.option("--sums", metavar="FILE", help="File with one sum a line; - is standard input.")
@click.option("--within", type=WHOLE, metavar="LIMIT", help="A mat for any sum below LIMIT.")
@mat_options
@print_options
@out_option("mats")
def mats(
    what: tuple[str, ...],
    sums: str | None,
    within: int | None,
    mat: Typed,
    printing: "Printing",
    out: Path,
) -> None:
    """Print mats without a kit: for the sums given, or for those of the ready-made kit."""
    from kitbuilder.pipeline import build
    from kitbuilder.request.request import Request, mat_wish

    wishes = asked_for(sum_words(what), sums, within)
    paper, press = printed(printing, wishes.printing)
    request = Request(
        sums=wishes.sums,
        paper=paper,
        within=wishes.within if within is None else within,
        mats=mat_wish(**filled(mat, wished(wishes))),
        parts=("mats",),
        press=press,
        name="mats",
    )
    report(build(request, out, progress), request)
