"""The cutting map: what to cut in which order, and what falls off."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from kitbuilder.design.load import Look, Words
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Say
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan
from kitbuilder.layout.cutting.cut_tree import CutSheet, cut_sheet, strokes
from kitbuilder.layout.cutting.map_figures import GAP, stop_figures
from kitbuilder.layout.cutting.stack_order import Stop, number_stops, stack_stops
from kitbuilder.layout.model import Cut, Rect, Sheet, SheetKind
from kitbuilder.layout.text.flow import Figure, flow
from kitbuilder.number import PLACES

SCALES = (0.3, 0.25, 0.22, 0.2, 0.18, 0.16, 0.14)
"""Sizes of the pictures, as parts of the true size: the largest that saves no page is taken."""


@dataclass(frozen=True, slots=True)
class CutMap:
    """Everything that is cut by hand, ``layers`` at a time.

    ``plan`` is the pieces' own plan; its sheets come first. ``stops`` are those of a guillotine,
    grouped by kind of sheet, and none where scissors cut. ``others`` are sheets with cuts of
    their own that need no picture: a mat's edges.
    """

    plan: CutPlan | None
    layers: int
    sheets: tuple[CutSheet, ...]
    stops: tuple[Stop, ...]
    others: tuple[Sheet, ...] = ()

    def strokes(self, kind: str) -> int:
        """Return how many strokes the sheets of a ``kind`` take."""
        found = (*(one.printed for one in self.sheets), *self.others)
        return strokes([sheet for sheet in found if sheet.kind == kind], self.layers)


def cut_map(
    plan: CutPlan | None, others: Sequence[Sheet], layers: int, unseen: Sequence[Sheet] = ()
) -> CutMap:
    """Return the map of the pieces in ``plan`` and of ``others``; all sheets are lettered.

    What is cut on ``unseen`` sheets is only counted on it. In a stack, all parts that a stroke
    may take together share a number; numbers go on from one kind of sheet to the next.
    """
    sheets: list[CutSheet] = list(plan.cut_sheets if plan else ())
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
        ways[sheet.kind, sheet.cuts] = replace(old or sheet, copies=copies)
    return [cut_sheet(sheet) for sheet in ways.values()]


def map_blocks(
    cut: CutMap, bag: Sequence[str], words: Words, look: Look, area: Rect
) -> tuple[Say | Figure, ...]:
    """Return the cutting map as paragraphs and figures for ``area``.

    ``bag`` tells what goes into each bag; it is empty where there is only one kit.
    """
    if not cut.sheets:
        return ()

    def pages(scale: float) -> int:
        return len(flow(_blocks(cut, bag, words, look, area, scale), area, look))

    fewest = pages(SCALES[-1])
    best = bisect_left(SCALES, True, key=lambda scale: pages(scale) <= fewest)
    return _blocks(cut, bag, words, look, area, SCALES[min(best, len(SCALES) - 1)])


def _blocks(
    cut: CutMap, bag: Sequence[str], words: Words, look: Look, area: Rect, scale: float
) -> tuple[Say | Figure, ...]:
    stacked = cut.layers > 1
    said = words.lines("cutting.stacked" if stacked else "cutting.steps", layers=cut.layers)
    figures = stop_figures(cut.stops, cut.layers, words, look, area, scale)
    return (
        Say("title", words("title.cutting")),
        *(Say("step", line, "–") for line in (*said, *_totals(cut, words))),
        *_set_off(figures),
        *_bags(cut, bag, words),
        Say("heading", words("cover.care")),
        *(Say("step", line, "–") for line in words.lines("cutting.cautions")),
    )


def _set_off(figures: Iterable[Figure]) -> Iterator[Figure]:
    """Yield the figures, the first a little away from the words above it."""
    for index, figure in enumerate(figures):
        yield replace(figure, before=GAP / 2) if index == 0 else figure


def _totals(cut: CutMap, words: Words) -> list[str]:
    plan = cut.plan
    said = []
    if plan:
        sheets = words.count("count.sheet", plan.sheets)
        cuts = words.count("count.cut", plan.strokes)
        said.append(words("cutting.totals", sheets=sheets, cuts=cuts))
    others = []
    listed = [one.sheet for one in cut.sheets if one.sheet.kind is not SheetKind.PIECES]
    held: list[tuple[SheetKind, int]] = [(sheet.kind, sheet.copies) for sheet in listed]
    held += [(sheet.kind, sheet.copies) for sheet in cut.others if sheet.cuts]
    for title in dict.fromkeys(title for title, _ in held):
        copies = sum(number for name, number in held if name == title)
        sheets = words.count("count.sheet", copies)
        cuts = words.count("count.cut", cut.strokes(title))
        what = words(f"title.{title}")
        others.append(words("cutting.totals_of", what=what, sheets=sheets, cuts=cuts))
    said += [" ".join(others)] if others else []
    return said


def _bags(cut: CutMap, bag: Sequence[str], words: Words) -> list[Say]:
    said = []
    if bag:
        said += [Say("heading", words("cutting.bag")), Say("body", words("cutting.alike"))]
        said.append(Say("body", words("cutting.in_bag", things=phrases.joined(words, bag))))
    if cut.plan and any(count.count for count in cut.plan.spares):
        spares = counted(cut.plan.spares, words)
        said.append(Say("body", words("cutting.spares", pieces=spares)))
    return said


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
