"""Turns the least kit for one sum into the fewest sheets: pieces, card and steps, then the mat.

The pieces take the least sheets that can hold them. Card and steps go into the room beside and
below the pieces of the last sheet where they fit, else onto a sheet of their own.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Kit, Say, Shown
from kitbuilder.sheet.assemble import LaidOut
from kitbuilder.sheet.bound import least_strokes
from kitbuilder.sheet.building import Builder
from kitbuilder.sheet.checks import check_plan
from kitbuilder.sheet.dealt import CardFace
from kitbuilder.sheet.faces import front
from kitbuilder.sheet.grid import Grid, Page, grid_for, least_sheets
from kitbuilder.sheet.guide import steps_in
from kitbuilder.sheet.mat_set import MatSet, mat_set
from kitbuilder.sheet.mini_ways import PAD, PIECES, Room, ways
from kitbuilder.sheet.parts import Part
from kitbuilder.sheet.plan import Count, CutPlan, Wish, make_plan
from kitbuilder.sheet.records import Item, Rect, Sheet

LEAST = 10 * 25.4 / 72
"""Least size in mm of words for an adult: 10 points."""


@dataclass(frozen=True, slots=True)
class Edge:
    """The outline of a card to cut out."""


@dataclass(frozen=True, slots=True)
class _Ask:
    """All that is laid out."""

    kit: Kit
    paper: Paper
    words: Words
    room: Room


def mini_sheets(kit: Kit, paper: Paper, words: Words, look: Look) -> LaidOut:
    """Return ``kit``, a mini kit, on the fewest sheets of ``paper``; its first page says why.

    Raises ``RefusedError`` where something does not fit the page.
    """
    mats = mat_set(kit.sums, None, kit.mats, paper, words, look) if kit.mats else MatSet((), ())
    m = paper.margins_mm
    page = Page(paper.width_mm, paper.height_mm, m.left, m.right, m.top, m.bottom)
    counts = (kit.pieces.hundreds, kit.pieces.tens, kit.pieces.ones)
    grid = grid_for(page, paper.unit_mm, counts)
    small = _smaller(look)
    card, steps = kit.packs[0].tasks[0], _least(kit, grid, small)
    ask = _Ask(kit, paper, words, Room(grid, Builder(grid.unit), card, small, paper.unit_mm, steps))
    least = least_sheets(counts, grid.across, grid.down)
    for full, apart in ((least - 1, False), (least - 1, True), (least, False)):
        more = apart or full == least
        head = _head(ask, least, more, len(mats.sheets))
        for trees in ways(ask.room, counts, full, apart):
            plan = _plan(ask, page, trees)
            sheets = _sheets(ask, plan, head)
            if sheets:
                check_plan(plan)
                return LaidOut((*sheets, *mats.sheets), plan, mats)
    raise RefusedError(
        f"The card and the steps for {kit.sums[0]} do not fit one page of {paper.name}; choose a "
        "larger paper."
    )


def _smaller(look: Look) -> Look:
    """Return ``look`` with smaller words for the adult, of 10 points at least."""
    sizes = look.type_mm
    part = max(LEAST, 0.84 * sizes.adult) / sizes.adult
    smaller = replace(
        sizes,
        title=part * part * sizes.title,
        heading=part * sizes.heading,
        adult=part * sizes.adult,
        least=min(sizes.least, part * sizes.adult),
    )
    return replace(look, type_mm=smaller)


def _steps(kit: Kit) -> list[Shown]:
    return [block for block in kit.guide[0] if isinstance(block, Shown)]


def _least(kit: Kit, grid: Grid, look: Look) -> int:
    """Return the least height of the steps over the page's full width, hundredths of a mm."""
    width = (grid.width - grid.x - grid.right) / 100 - 2 * PAD
    high = grid.height / 100
    low, enough = 1.0, high
    while enough - low > 1:
        middle = (low + enough) / 2
        fits = steps_in(Rect(0, 0, width, middle), (), _steps(kit), look)
        low, enough = (low, middle) if fits else (middle, enough)
    return round(100 * (low + 2 * PAD))


def _head(ask: _Ask, pieces: int, more: bool, mats: int) -> tuple[Say, ...]:
    words, kit, total = ask.words, ask.kit, pieces + more + mats
    length = phrases.number(words, 10 * ask.paper.unit_mm)
    held = phrases.pieces(words, kit.pieces)
    why = words("mini.why_more" if more else "mini.why", total=total, sheets=pieces, mat=mats)
    return (
        Say("title", words("mini.title", sum=kit.sums[0])),
        *(Say("step", line, "–") for line in words.lines("mini.how", length=length, pieces=held)),
        Say("step", why, "–"),
    )


def _plan(ask: _Ask, page: Page, trees: Sequence[Part]) -> CutPlan:
    pieces = ask.kit.pieces
    bag = [Count(what, getattr(pieces, what)) for what in PIECES]
    others = {name for tree in trees for name in _names(tree)}
    bag += [Count(what, 1) for what in ("task_card", "head", "steps") if what in others]
    made = sum(count.count for count in bag)
    bound = least_strokes(made, len(trees), 1, ask.room.grid.trims)
    wish = Wish(page, 0, 1, 1, tuple(bag))
    return make_plan(wish, [(1, tree) for tree in trees], bound, len(trees))


def _names(part: Part) -> Iterator[str]:
    if halves := part.halves:
        for half in halves:
            yield from _names(half)
    else:
        yield part.what


def _sheets(ask: _Ask, plan: CutPlan, head: Sequence[Say]) -> tuple[Sheet, ...] | None:
    """Return the sheets of ``plan``, that with the card first; None where words do not fit."""
    held = [{item.what for item in layout.items} for layout in plan.layouts]
    heads = "head" if any("head" in whats for whats in held) else "steps"
    order = sorted(
        range(len(held)), key=lambda k: ("task_card" not in held[k], "steps" not in held[k])
    )
    found: list[Sheet] = []
    for index in order:
        layout = plan.layouts[index]
        items = _items(ask, layout.items, head, heads)
        if items is None:
            return None
        own = held[index] - set(PIECES)
        same = sum(sheet.title == ("mini" if own else "pieces") for sheet in found)
        found.append(
            Sheet(
                "mini" if own else "pieces",
                same + 1,
                "card" if held[index] - {"steps"} else "paper",
                plan.page.width,
                plan.page.height,
                items,
                layout.cuts if held[index] - {"steps"} else (),
                layout.copies,
            )
        )
    return tuple(found)


def _items(
    ask: _Ask, items: Sequence[Item], head: Sequence[Say], heads: str
) -> tuple[Item, ...] | None:
    """Return what lies on a sheet; the head stands in the part called ``heads``."""
    found: list[Item] = []
    steps = _steps(ask.kit)
    for item in items:
        if item.what in PIECES:
            found.append(item)
            continue
        if min(item.rect.width, item.rect.height) < 2 * PAD + 10:
            return None
        inner = item.rect.inset(PAD)
        laid: Sequence[Item] | None
        if item.what == "task_card":
            laid = _card(ask, item.rect, inner)
        else:
            said = head if item.what == heads else ()
            laid = steps_in(inner, said, steps if item.what == "steps" else (), ask.room.look)
        if laid is None:
            return None
        found += laid
    return tuple(found)


def _card(ask: _Ask, rect: Rect, ink: Rect) -> tuple[Item, ...] | None:
    room = ask.room
    if front(room.card, ink, room.look, room.unit_mm) is None:
        return None
    return Item("edge", rect, Edge()), Item(
        "task_card", rect, CardFace(room.card, ink, room.unit_mm)
    )
