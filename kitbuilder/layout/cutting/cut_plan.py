"""Turns trees of cuts into a plan: sheets with numbered cuts, steps, strokes and totals."""

from collections import Counter
from dataclasses import dataclass

from kitbuilder.layout.model import Cut, Item, Rect
from kitbuilder.layout.packing.grid import Page, hundredths
from kitbuilder.layout.packing.guillotine import OFFCUT, CutType, Part, walk


@dataclass(frozen=True, slots=True)
class SheetLayout:
    """One different sheet, printed in ``copies``; all measures in mm from the page's top left.

    ``cuts`` are in order: each runs from edge to edge of a part that the cuts before it left.
    ``steps[i]`` is the number (from 1) of the plan's step that ``cuts[i]`` belongs to; it is
    the number to print beside the line. ``offcuts`` fall off. ``spare[i]`` tells on how many
    of the copies ``items[i]`` is a spare (not needed for the kits).
    """

    copies: int
    items: tuple[Item, ...]
    cuts: tuple[Cut, ...]
    steps: tuple[int, ...]
    offcuts: tuple[Rect, ...]
    spare: tuple[int, ...]

    def __post_init__(self) -> None:
        if self.copies < 1:
            raise ValueError(f"SheetLayout.copies is {self.copies}; it must be 1 or more")
        if len(self.cuts) != len(self.steps) or len(self.items) != len(self.spare):
            raise ValueError("SheetLayout: cuts and steps, items and spare must be as many")
        if any(not 0 <= spare <= self.copies for spare in self.spare):
            raise ValueError("SheetLayout.spare must be 0 to copies")


@dataclass(frozen=True, slots=True)
class CutRef:
    """A cut of a plan: ``layouts[layout].cuts[cut]``."""

    layout: int
    cut: int


@dataclass(frozen=True, slots=True)
class Step:
    """All cuts of one kind: set the stop once, stack, cut.

    Every part in this step has the outline ``length_mm`` × ``span_mm``; the cut is
    ``length_mm`` long and ``distance_mm`` from the nearer parallel edge. ``members`` are the
    lines (each on every copy of its layout): parts of all of them may lie in one stack.
    ``parts`` is how many parts are cut, ``strokes`` how many strokes that takes.
    """

    number: int
    length_mm: float
    span_mm: float
    distance_mm: float
    members: tuple[CutRef, ...]
    parts: int
    strokes: int


@dataclass(frozen=True, slots=True)
class StrokePart:
    """One part in a stack: cut ``cut`` of copy ``copy`` (from 1) of layout ``layout``."""

    layout: int
    copy: int
    cut: int


@dataclass(frozen=True, slots=True)
class Stroke:
    """One straight cut through a stack of parts; ``step`` is the number of its step."""

    number: int
    step: int
    parts: tuple[StrokePart, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """How many of the things named ``what``."""

    what: str
    count: int


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How to print and cut: frozen, checked by ``verify_cuts.check_plan``.

    ``unit_mm`` is 0 for cards. ``bag`` goes into each of the ``kits``
    bags; ``spares`` is what is left when all are filled. ``cut_length_mm`` counts each
    stroke's line once.
    """

    page: Page
    unit_mm: float
    kits: int
    layers: int
    layouts: tuple[SheetLayout, ...]
    steps: tuple[Step, ...]
    bag: tuple[Count, ...]
    spares: tuple[Count, ...]

    @property
    def sheets(self) -> int:
        """Sheets to print in all; fewer are impossible with straight cuts."""
        return sum(layout.copies for layout in self.layouts)

    @property
    def strokes(self) -> int:
        """Strokes in all, trims of the margins included."""
        return sum(step.strokes for step in self.steps)

    @property
    def cut_length_mm(self) -> float:
        """The length of all strokes, mm."""
        return round(sum(step.strokes * step.length_mm for step in self.steps), 2)

    def stroke_list(self) -> tuple[Stroke, ...]:
        """Return every stroke with the parts in its stack, in order."""
        strokes: list[Stroke] = []
        for step in self.steps:
            parts = [
                (ref.layout, (copy - 1) // self.layers, ref.cut, copy)
                for ref in step.members
                for copy in range(1, self.layouts[ref.layout].copies + 1)
            ]
            parts.sort()
            for start in range(0, len(parts), self.layers):
                stack = tuple(
                    StrokePart(layout, copy, cut)
                    for layout, _, cut, copy in parts[start : start + self.layers]
                )
                strokes.append(Stroke(len(strokes) + 1, step.number, stack))
        return tuple(strokes)


@dataclass(frozen=True, slots=True)
class _Placed:
    x: int
    y: int
    part: Part


@dataclass(frozen=True, slots=True)
class Wish:
    """What a plan is made for; ``bag`` is for one of the ``kits``."""

    page: Page
    unit_mm: float
    kits: int
    layers: int
    bag: tuple[Count, ...]


def make_plan(wish: Wish, sheets: list[tuple[int, Part]]) -> CutPlan:
    """Return the plan that cuts ``sheets``: pairs of copies and a tree as large as the page."""
    placed = [[_Placed(*spot) for spot in walk(sheet)] for _, sheet in sheets]
    copies = [count for count, _ in sheets]
    members, numbers = _number(placed)
    spares = _spares(wish, placed, copies)
    layouts, cut_at = [], []
    for index, spots in enumerate(placed):
        layout, order = _layout(spots, copies[index], numbers, spares)
        layouts.append(layout)
        cut_at.append(order)
    steps = []
    for type_, refs in members.items():
        parts = sum(copies[layout] for layout, _ in refs)
        steps.append(
            Step(
                numbers[type_],
                type_[0] / 100,
                type_[1] / 100,
                type_[2] / 100,
                tuple(CutRef(layout, cut_at[layout][spot]) for layout, spot in refs),
                parts,
                -(-parts // wish.layers),
            )
        )
    return CutPlan(
        wish.page,
        wish.unit_mm,
        wish.kits,
        wish.layers,
        tuple(layouts),
        tuple(steps),
        wish.bag,
        _counted_spares(wish, layouts),
    )


def _counted_spares(wish: Wish, layouts: list[SheetLayout]) -> tuple[Count, ...]:
    made = Counter[str]()
    for layout in layouts:
        for item, spare in zip(layout.items, layout.spare, strict=True):
            made[item.what] += spare
    return tuple(Count(wanted.what, made[wanted.what]) for wanted in wish.bag)


def _number(
    placed: list[list[_Placed]],
) -> tuple[dict[CutType, list[tuple[int, int]]], dict[CutType, int]]:
    """Return, by falling area, each type's (layout, spot) pairs, and its number."""
    members: dict[CutType, list[tuple[int, int]]] = {}
    for layout, spots in enumerate(placed):
        for spot, at in enumerate(spots):
            if at.part.halves:
                members.setdefault(at.part.type, []).append((layout, spot))
    order = sorted(members, key=lambda t: (-t[0] * t[1], -t[0], t[2]))
    return {t: members[t] for t in order}, {t: n for n, t in enumerate(order, 1)}


def _spares(wish: Wish, placed: list[list[_Placed]], copies: list[int]) -> Counter[str]:
    """Return how many of each thing are made beyond the wish; too few is a ValueError."""
    made = Counter[str]()
    for spots, count in zip(placed, copies, strict=True):
        for spot in spots:
            if not spot.part.halves and spot.part.what != OFFCUT:
                made[spot.part.what] += count
    for wanted in wish.bag:
        made[wanted.what] -= wanted.count * wish.kits
        if made[wanted.what] < 0:
            raise ValueError(f"make_plan: {-made[wanted.what]} {wanted.what} too few")
    return made


def _layout(
    spots: list[_Placed], copies: int, numbers: dict[CutType, int], spares: Counter[str]
) -> tuple[SheetLayout, dict[int, int]]:
    """Return the layout and, for each spot that is cut, the place of its cut in the order.

    Takes what it marks as spare out of ``spares``.
    """
    cuts = sorted(
        (numbers[spot.part.type], spot.y, spot.x, index)
        for index, spot in enumerate(spots)
        if spot.part.halves
    )
    items, spare, offcuts = [], [], []
    for spot in spots:
        if spot.part.halves:
            continue
        rect = Rect(spot.x / 100, spot.y / 100, spot.part.width / 100, spot.part.height / 100)
        if spot.part.what == OFFCUT:
            offcuts.append(rect)
            continue
        here = min(copies, spares[spot.part.what])
        spares[spot.part.what] -= here
        items.append(Item(spot.part.what, rect))
        spare.append(here)
    layout = SheetLayout(
        copies,
        tuple(items),
        tuple(_cut(spots[index]) for *_, index in cuts),
        tuple(number for number, *_ in cuts),
        tuple(offcuts),
        tuple(spare),
    )
    return layout, {index: place for place, (*_, index) in enumerate(cuts)}


def _cut(spot: _Placed) -> Cut:
    part, x, y = spot.part, spot.x, spot.y
    if part.axis == "x":
        x += part.at
        return Cut(x / 100, y / 100, x / 100, (y + part.height) / 100)
    y += part.at
    return Cut(x / 100, y / 100, (x + part.width) / 100, y / 100)


def page_size(page: Page) -> tuple[int, int]:
    """Return the page's width and height in hundredths of a mm."""
    return hundredths(page.width), hundredths(page.height)
