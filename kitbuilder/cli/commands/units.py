"""``kitbuilder units``: what a kit would take at each unit, as a table."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.commands.kit import asked_for
from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import SUMS_SETTINGS, WHOLE, printed, printing_options, sum_words
from kitbuilder.cli.told.columns import table
from kitbuilder.cli.typed import filled, wished
from kitbuilder.cli.voice import speak, tell
from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.layout.units import UnitCost
    from kitbuilder.press.printing import Printing


HEADS = (
    Said("units.unit"),
    Said("units.hundreds"),
    Said("units.sheets"),
    Said("units.cuts"),
    Said("units.mat"),
    Said("units.mat-sheets"),
    Said("units.why"),
)


@click.command(cls=Grouped, context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM | REQUEST.toml]...")
@click.option("--sums", metavar="FILE", help="File with one sum a line; - is standard input.")
@click.option("--within", type=WHOLE, metavar="LIMIT", help="Pieces for any sum below LIMIT.")
@printing_options("paper", "margin", "printer", "look", "words", "sturdy", "kerf")
def units(
    what: tuple[str, ...], sums: str | None, within: int | None, printing: "Printing"
) -> None:
    """Compare the units from 5 to 15 mm for a kit: sheets, mat and cuts of each."""
    from kitbuilder.layout.units import worth_choosing
    from kitbuilder.pipeline import compare_units
    from kitbuilder.request.request import Request, mat_wish

    wishes = asked_for(sum_words(what), sums, within)
    paper, press = printed(printing, wishes.printing)
    request = Request(
        sums=wishes.sums,
        paper=paper,
        within=wishes.within if within is None else within,
        mats=mat_wish(**filled({"mat": "two", "mats": None, "headings": "words"}, wished(wishes))),
        press=press,
    )
    costs = compare_units(request)
    best = worth_choosing(costs)
    heads = tuple(speak(head) for head in HEADS)
    for line in table([heads, *(_row(cost, best) for cost in costs)]):
        click.echo(line)
    tell(Said("units.worth"))
    narrow = [f"{cost.unit:g}" for cost in costs if not cost.cards_fit]
    if narrow:
        tell(Said("units.cards-too-large", unit=narrow[0], paper=request.paper.name))
    tell(Said("units.not-with-bought"))


def _row(cost: "UnitCost", best: "Sequence[UnitCost]") -> tuple[str, ...]:
    unit = f"{cost.unit:g}{' *' if cost in best else ''}"
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
