"""Turns what was built into plain lines: what was written, what to print, what to cut."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from kitbuilder.counting import counted, minutes_said
from kitbuilder.layout.model import SheetKind

if TYPE_CHECKING:
    from kitbuilder.layout.cutting.cut_plan import CutPlan
    from kitbuilder.layout.estimate import Estimate
    from kitbuilder.number import Sum
    from kitbuilder.pipeline import Built
    from kitbuilder.request.request import Request

NOTES = 5
"""Sums that are noted one by one before the rest are counted."""


def report(built: "Built", request: "Request", asked: Sequence[tuple[str, "Sum"]] = ()) -> None:
    """Say what was written and what to print, why some sums teach little, and what is in vain.

    Besides the kit's own sums those ``asked`` are noted, each under the name it comes with.
    """
    from kitbuilder.cli.idle import idle
    from kitbuilder.cli.mat_lines import said, said_board
    from kitbuilder.cli.outcome import found_there, wrote
    from kitbuilder.design import load as designs
    from kitbuilder.kit.card_packs import note

    words = designs.words()
    sums = (*((str(sum_), sum_) for sum_ in built.kit.sums), *asked)
    noted = [(name, key) for name, sum_ in sums if (key := note(sum_))]
    for name, key in noted[:NOTES]:
        click.echo(f"Note on {name}: {words(key)}", err=True)
    if noted[NOTES:]:
        more = len(noted) - NOTES
        said_more = "1 more sum teaches" if more == 1 else f"{more} more sums teach"
        click.echo(f"{said_more} little in the same ways.", err=True)
    for line in idle(request, built.takes):
        click.echo(line, err=True)
    for plan in built.laid.mats.plans:
        click.echo(said(plan))
    sheets = built.laid.sheets
    if boards := sum(sheet.kind == SheetKind.EXCHANGE_BOARD for sheet in sheets):
        click.echo(said_board(boards))
    pages = len(sheets)
    card = sum(sheet.stock == "card" for sheet in sheets)
    for line in found_there(built.written):
        click.echo(line, err=True)
    click.echo(wrote(built.written.files))
    for page, share in enumerate(built.inked, 1):
        click.echo(f"Page {page}: {share:.1f} % inked.")
    click.echo(
        f"{counted(pages, 'page')}: {card} on card, {pages - card} on paper. "
        "Print at actual size; page 1 says how."
    )
    for line in (*estimate_said(built.takes), *cutting_said(built.laid.cutting)):
        click.echo(line)


def estimate_said(takes: "Estimate") -> list[str]:
    """Return what printing and cutting everything takes, in plain lines."""
    said = [
        f"To print: {counted(takes.card, 'sheet')} of card, {takes.paper} of paper; "
        f"ink covers {takes.ink_mm2 / 100:.0f} cm² ({takes.ink_per_cent:.1f} %).",
    ]
    if takes.cuts:  # none where a machine cuts
        said.append(
            f"To cut: {counted(takes.cuts, 'straight cut')}, "
            f"{minutes_said(takes.minutes)} at {takes.wish.cuts_per_minute:g} a minute."
        )
    if takes.card_grams is not None:
        said.append(f"The card weighs {takes.card_grams:.0f} g at {takes.wish.grammage:g} g/m².")
    if takes.cost is not None:
        said.append(f"The sheets cost {takes.cost:.2f} at {takes.wish.per_sheet:g} each.")
    return said


def cutting_said(plan: "CutPlan | None") -> list[str]:
    """Return how many cuts the pieces take, and what to know of stacks."""
    if plan is None:
        return []
    said = [f"The pieces take {counted(plan.strokes, 'cut')}."]
    if plan.layers > 1:
        said.append(
            "In a stack only the top lines guide the cut, so sizes are as good as the "
            "printer places each sheet."
        )
    elif plan.kits > 1:
        said.append(
            "With a guillotine, --layers 3 cuts stacks of three at once, in far fewer "
            "cuts; in a stack only the top lines guide."
        )
    return said
