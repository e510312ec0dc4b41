"""What was built, told in the terminal: what was written, what to print, what to cut."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING

from kitbuilder.cli.voice import tell
from kitbuilder.counting import nearest
from kitbuilder.errors import Said, named
from kitbuilder.layout.model import SheetKind

if TYPE_CHECKING:
    from kitbuilder.design.load import Words
    from kitbuilder.layout.cutting.cut_plan import CutPlan
    from kitbuilder.layout.estimate import Estimate
    from kitbuilder.number import Sum
    from kitbuilder.pipeline import Built
    from kitbuilder.request.request import Request

NOTES = 5
"""Sums that are noted one by one before the rest are counted."""


def report(built: "Built", request: "Request", asked: Iterable[tuple[Said, "Sum"]] = ()) -> None:
    """Say what was written and what to print, why some sums teach little, and what is in vain.

    Besides the kit's own sums those ``asked`` are noted, each under the name it comes with.
    """
    from kitbuilder.cli.idle import idle
    from kitbuilder.cli.told.outcome import found_there, wrote
    from kitbuilder.cli.typed import typed

    in_vain = idle(request, built.takes, typed())
    for note in (*_on_sums(built, asked, request.press.words), *in_vain):
        tell(note, err=True)
    if request.storyless:
        tell(Said("note.no-story", sums=named(request.storyless)), err=True)
    if _without_card(built, request):
        tell(Said("note.no-exchange-card", unit=request.paper.unit_mm), err=True)
    for line in _on_mats(built, request):
        tell(line)
    for note in found_there(built.written):
        tell(note, err=True)
    tell(wrote(built.written.files))
    if request.each:
        tell(Said("told.each"))
    for line in _on_pages(built):
        tell(line)
    for line in (*estimate_said(built.takes), *cutting_said(built.laid.cutting)):
        tell(line)


def _without_card(built: "Built", request: "Request") -> bool:
    """Say whether the exchange card was left out since the pieces are too large for it."""
    from kitbuilder.number.choice.patterns import pattern

    wished = "cards" in request.parts and "exchange" in request.cards.kinds
    exchanged = any(pattern(sum_).receives for sum_ in built.kit.sums)
    return wished and exchanged and not (request.mini or built.kit.exchange_cards)


def _on_sums(built: "Built", asked: Iterable[tuple[Said, "Sum"]], words: "Words") -> Iterator[Said]:
    from kitbuilder.kit.card_packs import noted

    sums = chain(((str(sum_), sum_) for sum_ in built.kit.sums), asked)
    told = [(name, why) for name, sum_ in sums if (why := noted(sum_, words))]
    for name, why in told[:NOTES]:
        yield Said("note.on-sum", sum=name, why=why)
    if more := len(told[NOTES:]):
        yield Said("note.more-sums", count=more)


def _on_mats(built: "Built", request: "Request") -> Iterator[Said]:
    from kitbuilder.cli.told.mat_lines import mat_said
    from kitbuilder.kit.bank import Bank

    for plan in built.laid.mats.plans:
        yield mat_said(plan)
    if built.kit.pieces.thousands:
        yield _on_thousands(request)
        shared = Bank.of(built.kit.pieces, replace(request.cutting, home=False))
        if request.cutting.home and shared.at_once:
            count = built.kit.pieces.thousands * request.cutting.kits
            yield Said("told.bank", count=count, option="home", shared=shared.thousands)
    boards = sum(sheet.kind == SheetKind.EXCHANGE_BOARD for sheet in built.laid.sheets)
    if boards:
        yield Said("told.board", count=boards)


def _on_thousands(request: "Request") -> Said:
    from kitbuilder.layout.pieces.thousand_margin import most_unit
    from kitbuilder.layout.printable import Page
    from kitbuilder.pipeline import paper_of

    paper = paper_of(request)
    most = most_unit(Page.upright(paper), request.press.kerf_mm)
    return Said("told.thousands", unit=paper.unit_mm, paper=paper.name, option="unit", most=most)


def _on_pages(built: "Built") -> Iterator[Said]:
    for page, share in enumerate(built.inked, 1):
        yield Said("told.inked", page=page, share=share)
    if built.inked:
        area, share = round(built.takes.ink_mm2 / 100), built.takes.ink_per_cent
        yield Said("told.ink", area=area, share=share)
    sheets = built.laid.sheets
    count, card = len(sheets), sum(sheet.stock == "card" for sheet in sheets)
    if card == count:
        yield Said("told.pages-card", count=count)
    elif card:
        yield Said("told.pages", count=count, card=card, paper=count - card)
    else:
        yield Said("told.pages-paper", count=count)
    covered = any(sheet.kind == SheetKind.COVER for sheet in sheets)
    yield Said("told.cover-says") if covered else Said("told.actual-size")
    if any(sheet.copies > 1 for sheet in sheets):
        yield Said("told.print", card=built.takes.card, paper=built.takes.paper)


def estimate_said(takes: "Estimate") -> list[Said]:
    """Return what cutting everything takes, its weight and its price."""
    said: list[Said] = []
    if takes.cuts:  # none where a machine cuts
        minutes, pace = minutes_said(takes.minutes), takes.wish.cuts_per_minute
        said.append(Said("told.cut", count=takes.cuts, minutes=minutes, pace=pace))
    if takes.folded:
        minutes = minutes_said(takes.fold_minutes)
        said.append(Said("told.fold", count=takes.folded, minutes=minutes))
    if takes.card_grams is not None:
        grams, grammage = round(takes.card_grams), takes.wish.grammage
        said.append(Said("told.weight", grams=grams, grammage=grammage))
    if takes.cost is not None:
        said.append(Said("told.cost", cost=takes.cost, each=takes.wish.per_sheet))
    return said


def minutes_said(minutes: float) -> Said:
    """Return "less than a minute", "about 1 minute" or "about 12 minutes"."""
    whole = nearest(minutes)
    return Said("told.minutes", count=whole) if whole else Said("told.under-a-minute")


def cutting_said(plan: "CutPlan | None") -> list[Said]:
    """Return what to know of stacks."""
    if plan is None:
        return []
    if plan.layers > 1:
        return [Said("told.stack")]
    return [Said("told.guillotine", option="layers")] if plan.kits > 1 else []
