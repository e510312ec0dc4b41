"""``kitbuilder papers``: the paper profiles as a table."""

from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import words_option
from kitbuilder.cli.told.columns import table
from kitbuilder.cli.voice import speak
from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.design.load import Paper


@click.command()
@click.argument("paper", nargs=-1, metavar="[PAPER]...")
@words_option
def papers(paper: tuple[str, ...], words: object) -> None:
    """List the papers, their margins, the default unit, and how many hundreds fit.

    PAPER names one to show instead: a name, a size such as 215x330mm, or a profile file.
    """
    from kitbuilder.design import load as designs

    heads = (
        Said("papers.paper"),
        Said("papers.size"),
        Said("papers.margins"),
        Said("papers.unit"),
        Said("papers.hundreds"),
    )
    rows: list[tuple[str, ...]] = [tuple(speak(head) for head in heads)]
    rows += [_row(name, designs.paper(name)) for name in paper or designs.names("paper")]
    for line in table(rows):
        click.echo(line)


def _row(name: str, paper: "Paper") -> tuple[str, ...]:
    from kitbuilder.layout.page import Page

    m = paper.margins_mm
    sides = (m.left, m.right, m.top, m.bottom)
    margins = f"{sides[0]:g}" if len(set(sides)) == 1 else " ".join(f"{s:g}" for s in sides)
    across, down = Page.upright(paper).units(paper.unit_mm)
    size = f"{paper.width_mm:g} x {paper.height_mm:g}"
    return name, size, margins, f"{paper.unit_mm:g}", str(across // 10 * (down // 10))
