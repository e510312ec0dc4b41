"""The cutting map: every sheet that is cut by hand, lettered, and a guillotine's stops."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan
from kitbuilder.layout.cutting.cut_tree import CutSheet, cut_sheet, useful
from kitbuilder.layout.cutting.stack_order import Stop, number_stops, stack_stops
from kitbuilder.layout.model import Cut, Item, Sheet, SheetKind
from kitbuilder.number import PLACES


@frozen
class CutMap:
    """Everything that is cut by hand, ``layers`` at a time.

    ``plan`` is the pieces' own plan; its sheets come first. ``stops`` are those of a guillotine,
    grouped by kind of sheet, and none where scissors cut. ``others`` are sheets with cuts of
    their own that need no picture of steps: a mat's edges, cut with scissors.
    """

    plan: CutPlan | None
    layers: int
    sheets: tuple[CutSheet, ...]
    stops: tuple[Stop, ...]
    others: tuple[Sheet, ...] = ()


def cut_map(
    plan: CutPlan | None, others: Sequence[Sheet], layers: int, unseen: Sequence[Sheet] = ()
) -> CutMap:
    """Return the map of the pieces in ``plan`` and of ``others``; all sheets are lettered.

    What scissors cut on ``unseen`` sheets is only counted on it. In a stack, all parts that a
    stroke may take together share a number; numbers go on from one kind of sheet to the next.
    """
    sheets: list[CutSheet] = list(plan.cut_sheets if plan else ())
    if layers > 1:
        others, unseen = [*others, *(_trimmed(sheet) for sheet in unseen if sheet.cuts)], ()
    alike = _alike(others)
    if layers > 1:
        used = max((n for one in sheets for n in one.printed.stops), default=0)
        for _, group in groupby(alike, key=lambda one: one.sheet.kind):
            used = number_stops([one.root for one in group], used)
    sheets = [replace(one, name=lettered(i)) for i, one in enumerate((*sheets, *alike))]
    stops: list[Stop] = []
    if layers > 1:
        for _, group in groupby(sheets, key=lambda one: one.sheet.kind):
            stops += stack_stops(list(group), layers)
    return CutMap(plan, layers, tuple(sheets), tuple(stops), tuple(unseen))


def _alike(sheets: Sequence[Sheet]) -> list[CutSheet]:
    """Return each way of cutting a kind of sheet once, in as many copies as are cut so."""
    ways: dict[tuple[SheetKind, tuple[Cut, ...]], Sheet] = {}
    for sheet in sorted(sheets, key=lambda s: [t.kind for t in sheets].index(s.kind)):
        old = ways.get((sheet.kind, sheet.cuts))
        copies = sheet.copies + (old.copies if old else 0)
        ways[sheet.kind, sheet.cuts] = replace(sheet, copies=copies)
    return [_sorted_out(cut_sheet(sheet)) for sheet in ways.values()]


def _sorted_out(one: CutSheet) -> CutSheet:
    """Return ``one``: of what stands on that which falls off only what is of use, as kept."""
    falls = [node.rect for node in one.root.ends() if node.falls]
    items = one.sheet.items
    loose = [item for item in items if any(rect.holds(item.rect) for rect in falls)]
    held = tuple(item for item in items if item not in loose)
    return replace(one, sheet=replace(one.sheet, items=held), kept=useful(loose))


def _trimmed(sheet: Sheet) -> Sheet:
    """Return ``sheet`` with what its cuts leave of it as its one finished thing."""
    kept = next(item.rect for item in sheet.items if item.what == "mat")
    left = next(node.rect for node in cut_sheet(sheet).root.ends() if node.rect.holds(kept))
    return replace(sheet, items=(Item("mat", left),))


def counted(counts: Sequence[Count], words: Words) -> str:
    """Return pieces counted as words: "2 tens and 3 ones"."""
    places = (c.what.removeprefix("folded_") for c in counts)
    held = [
        phrases.count(words, PLACES.index(place), c.count)
        for place, c in zip(places, counts, strict=True)
        if c.count
    ]
    return phrases.joined(words, held)


def lettered(index: int) -> str:
    """Return A to Z, then AA, AB and so on."""
    return (lettered(index // 26 - 1) if index >= 26 else "") + chr(ord("A") + index % 26)
