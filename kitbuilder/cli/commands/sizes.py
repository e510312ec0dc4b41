"""``kitbuilder sizes``: the papers as a table, or what sums take at each unit."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    point_of,
    printed,
    printing_options,
    read_words,
    sum_words,
)
from kitbuilder.cli.told.terminal_table import table
from kitbuilder.cli.voice import speak, tell
from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.design.load import Paper
    from kitbuilder.layout.unit_costs import UnitCost
    from kitbuilder.press.printing import Printing

PAPER_HEADS = (
    Said("papers.paper"),
    Said("papers.size"),
    Said("papers.margins"),
    Said("papers.unit"),
    Said("papers.hundreds"),
)
UNIT_HEADS = (
    Said("units.unit"),
    Said("units.hundreds"),
    Said("units.sheets"),
    Said("units.cuts"),
    Said("units.mat"),
    Said("units.mat-sheets"),
    Said("units.why"),
)


@click.command(context_settings=SUMS_SETTINGS)
@click.argument("sums", nargs=-1, metavar="[SUM]...")
@printing_options("paper", "words")
def sizes(sums: tuple[str, ...], printing: "Printing") -> None:
    """List the papers; or, for the sums given, compare units from 5 to 15 mm on one paper.

    The papers come with their margins, the unit and how many hundreds fit. For sums each unit
    comes with the sheets, the cuts and the mat that it takes.
    """
    from kitbuilder.design import load as designs
    from kitbuilder.pipeline import compare_units
    from kitbuilder.request.request import Request

    asked = read_words(sum_words(sums), point_of(printing.get("words")))
    paper, press = printed(printing)
    if asked:
        request = Request(asked, paper, press=press)
        decimals = any(sum_.scale.decimals for sum_ in request.sums)
        _tell_units(compare_units(request), paper, decimals=decimals)
        return
    named = printing.get("paper")
    names = designs.names("paper") if named is None else (str(named),)
    rows = [_paper_row(name, designs.paper(name)) for name in names]
    for line in table([_heads(PAPER_HEADS), *rows]):
        click.echo(line)


def _heads(said: Sequence[Said]) -> tuple[str, ...]:
    return tuple(speak(head) for head in said)


def _paper_row(name: str, paper: "Paper") -> tuple[str, ...]:
    from kitbuilder.layout.printable import Page

    m = paper.margins_mm
    sides = (m.left, m.right, m.top, m.bottom)
    margins = " ".join(_number(side) for side in (sides[:1] if len(set(sides)) == 1 else sides))
    across, down = Page.upright(paper).units(paper.unit_mm)
    size = f"{_number(paper.width_mm)} x {_number(paper.height_mm)}"
    return name, size, margins, _number(paper.unit_mm), str(across // 10 * (down // 10))


def _number(mm: float) -> str:
    return speak(Said("number.said", value=float(mm)))


def _tell_units(costs: "Sequence[UnitCost]", paper: "Paper", *, decimals: bool) -> None:
    from kitbuilder.layout.unit_costs import worth_choosing

    best = worth_choosing(costs)
    heads = list(UNIT_HEADS)
    if decimals:  # a large square is a one
        heads[heads.index(Said("units.hundreds"))] = Said("units.large-squares")
    for line in table([_heads(heads), *(_unit_row(cost, best) for cost in costs)]):
        click.echo(line)
    tell(Said("units.worth"))
    narrow = [cost.unit for cost in costs if not cost.cards_fit]
    if narrow:
        tell(Said("units.cards-too-large", unit=narrow[0], paper=paper.name))
    tell(Said("units.not-with-bought"))


def _unit_row(cost: "UnitCost", best: "Sequence[UnitCost]") -> tuple[str, ...]:
    unit = f"{_number(cost.unit)}{' *' if cost in best else ''}"
    none = speak(Said("units.does-not-fit"))
    mat = f"{cost.mat_width / 10:.0f} x {cost.mat_height / 10:.0f}"
    return (
        unit,
        str(cost.hundreds),
        none if cost.piece_sheets is None else str(cost.piece_sheets),
        "" if cost.strokes is None else str(cost.strokes),
        none if cost.mat_sheets is None else mat if cost.mat_width else "",
        "" if cost.mat_sheets is None else str(cost.mat_sheets),
        speak(_why(cost, best)) if cost in best else "",
    )


def _why(cost: "UnitCost", best: "Sequence[UnitCost]") -> Said:
    """Return what is saved against the next larger unit that is worth choosing."""
    larger = [other for other in best if other.unit > cost.unit]
    if not larger or cost.sheets is None or larger[0].sheets is None:
        return Said("units.largest")
    pieces, mat = (more - less for more, less in zip(larger[0].sheets, cost.sheets, strict=True))
    said = [Said("units.fewer-pieces", count=pieces)] if pieces > 0 else []
    said += [Said("units.fewer-mat", count=mat)] if mat > 0 else []
    return Said("units.saved", what=said, unit=larger[0].unit)
