"""Turns the least kit for one sum into the fewest sheets: pieces, card and steps, then the mat.

The pieces take the least sheets that can hold them. Card and steps go into the room beside and
below the pieces of the last sheet where they fit, else onto a sheet of their own.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from kitbuilder.design import load as designs
from kitbuilder.design.load import Look, Paper, Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.records import CutWish, Kit, Say, Shown
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, make_plan
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.mat.mat_set import MatSet, mat_set
from kitbuilder.layout.mini.mini_card import mini_front
from kitbuilder.layout.mini.mini_ways import PAD, PIECES, Room, ways
from kitbuilder.layout.mini.step_words import Heads, Spoken, heads, with_help
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind, Stock
from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.grid import Grid, grid_for, least_sheets
from kitbuilder.layout.packing.guillotine import Part
from kitbuilder.layout.page import Page
from kitbuilder.layout.pages.guide_pages import steps_in
from kitbuilder.layout.pieces.cut_marks import Edge
from kitbuilder.layout.text.flow import TextBlock

LEAST = 10 * 25.4 / 72
"""Least size in mm of words for an adult: 10 points."""

TRIED = 8
"""Ways to lay everything out of which the one that leaves least out is taken."""


@dataclass(frozen=True, slots=True)
class _Ask:
    """All that is laid out."""

    kit: Kit
    paper: Paper
    words: Words
    room: Room


def mini_sheets(kit: Kit, style: Style) -> LaidOut:
    """Return ``kit``, a mini kit, on the fewest sheets of ``paper``; its first page says why.

    Raises ``RefusedError`` where something does not fit the page, naming what would help.
    """
    found = _laid(kit, style)
    if found is not None:
        return found
    ways = []
    if _works(kit, Style(style.paper, style.words, designs.look())):
        ways.append(Said("option.with", option="look", value="plain"))
    papers = map(designs.paper, designs.names("paper"))
    kin = sorted(papers, key=lambda p: (p.name[0] != style.paper.name[0], p.width_mm))
    for other in kin:
        grows = other.width_mm > style.paper.width_mm and other.height_mm > style.paper.height_mm
        if grows and _works(kit, Style(other, style.words, style.look)):
            ways.append(Said("option.with", option="paper", value=other.name.lower()))
            break
    raise RefusedError(
        "mini.too-large",
        field="paper",
        sum=kit.sums[0],
        paper=style.paper.name,
        look=style.look.name,
        ways=ways or [Said("way.larger-paper")],
    )


def _works(kit: Kit, style: Style) -> bool:
    try:
        return _laid(kit, style) is not None
    except RefusedError:
        return False


def _laid(kit: Kit, style: Style) -> LaidOut | None:
    """Return ``kit`` on the fewest sheets, or None where card and steps do not fit a page."""
    mats = mat_set(kit.sums, None, kit.mats, style) if kit.mats else MatSet((), ())
    page = Page.upright(style.paper)
    counts = (kit.pieces.hundreds, kit.pieces.tens, kit.pieces.ones)
    grid = grid_for(page, style.paper.unit_mm, counts)
    small = _smaller(style.look)
    card, steps = kit.packs[0].tasks[0], _least(kit, grid, small)
    ask = _Ask(
        kit,
        style.paper,
        style.words,
        Room(grid, Builder(grid.unit), card, replace(style, look=small), steps),
    )
    least = least_sheets(counts, grid.across, grid.down)
    for full, apart in ((least - 1, False), (least - 1, True), (least, False)):
        more = apart or full == least
        said = heads(kit, style.words, style.paper.unit_mm, least, more, len(mats.sheets))
        plans = (_plan(ask, page, trees) for trees in ways(ask.room, counts, full, apart))
        best = _best(way for way in (_way(ask, plan, said) for plan in plans) if way)
        if best:
            check_plan(best.plan)
            return LaidOut((*best.sheets, *mats.sheets), best.plan, mats)
    return None


def _smaller(look: Look) -> Look:
    """Return ``look`` with smaller words for the adult, of 10 points at least."""
    sizes = look.type_mm
    part = max(LEAST, 0.84 * sizes.adult) / sizes.adult
    smaller = replace(
        sizes,
        title=0.65 * sizes.title,
        heading=0.84 * sizes.heading,
        adult=part * sizes.adult,
        least=min(sizes.least, part * sizes.adult),
    )
    return replace(look, type_mm=smaller)


def _steps(kit: Kit) -> list[Shown]:
    return [block for block in kit.guide[0] if isinstance(block, Shown)]


def _help(kit: Kit) -> tuple[Say, ...]:
    return tuple(block for block in kit.guide[1] if isinstance(block, Say))


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


def _plan(ask: _Ask, page: Page, trees: Sequence[Part]) -> CutPlan:
    pieces = ask.kit.pieces
    bag = [Count(what, getattr(pieces, what)) for what in PIECES]
    others = {name for tree in trees for name in _names(tree)}
    bag += [Count(what, 1) for what in ("task_card", "head", "steps") if what in others]
    return make_plan(page, 0, [(1, tree) for tree in trees], bag, CutWish())


def _names(part: Part) -> Iterator[str]:
    if halves := part.halves:
        for half in halves:
            yield from _names(half)
    else:
        yield part.what


@dataclass(frozen=True, slots=True)
class _Way:
    """A plan of cuts, its sheets, and how much found no room: the order of cutting counts 1.

    Each line of help counts 2.
    """

    plan: CutPlan
    sheets: tuple[Sheet, ...]
    left: int


def _best(ways_: Iterator[_Way]) -> _Way | None:
    """Return the first of a few ways that leaves least out; none is looked at after a full one."""
    best: _Way | None = None
    for way in islice(ways_, TRIED):
        if best is None or way.left < best.left:
            best = way
        if not best.left:
            break
    return best


def _way(ask: _Ask, plan: CutPlan, heads: Heads) -> _Way | None:
    """Return the sheets of ``plan``, that with the card first; None where words do not fit.

    What to do when something goes wrong stands below the steps, or else below the head.
    """
    laid = [(sheet.items, sheet.cuts) for sheet in plan.printed]
    if not any(item.what == "steps" for items, _ in laid for item in items):
        laid.append(((Item("steps", _inside(ask.room)),), ()))  # apart, on a page that is not cut
    held = [{item.what for item in items} for items, _ in laid]
    where = "head" if any("head" in whats for whats in held) else "steps"
    items: dict[int, tuple[Item, ...]] = {}
    left = _help(ask.kit)
    for index in sorted(range(len(held)), key=lambda k: "steps" not in held[k]):
        spoken = _items(ask, laid[index][0], heads, where, left)
        if spoken is None:
            return None
        items[index], left = spoken.items, spoken.left
    order = sorted(items, key=lambda k: ("task_card" not in held[k], "steps" not in held[k], k))
    found: list[Sheet] = []
    for index in order:
        title = SheetKind.MINI if held[index] - set(PIECES) else SheetKind.PIECES
        same = sum(sheet.kind == title for sheet in found)
        stock: Stock = "card" if held[index] & set(PIECES) else "paper"
        page, cuts = plan.page, laid[index][1]
        found.append(Sheet(title, same + 1, stock, page.width, page.height, items[index], cuts))
    texts = [item.content for sheet in found for item in sheet.items]
    sentence = ask.words("mini.order")
    said = any(isinstance(text, TextBlock) and " ".join(text.lines) == sentence for text in texts)
    return _Way(plan, tuple(found), 2 * len(left) + 9 * (not said))


def _inside(room: Room) -> Rect:
    """Return what prints of a page, in mm."""
    width, height = room.inside
    return Rect(room.grid.x / 100, room.grid.y / 100, width / 100, height / 100)


def _items(
    ask: _Ask, items: Sequence[Item], heads: Heads, where: str, said: Sequence[Say]
) -> Spoken | None:
    """Return what lies on a sheet; the head stands in the part called ``where``."""
    found: list[Item] = []
    left = tuple(said)
    for item in sorted(items, key=lambda item: item.what != "steps"):
        if item.what in PIECES:
            found.append(item)
            continue
        if min(item.rect.width, item.rect.height) < 2 * PAD + 10:
            return None
        inner = item.rect.inset(PAD)
        if item.what == "task_card":
            card = _card(ask, item.rect, inner)
            if card is None:
                return None
            found += card
            continue
        steps = _steps(ask.kit) if item.what == "steps" else ()
        heard: Heads = heads if item.what == where else (((), 0),)
        fits = [
            (2 * len(spoken.left) + lost, rank, spoken)
            for rank, (first, lost) in enumerate(heard)
            if (spoken := with_help(inner, first, steps, left, ask.room.style.look)) is not None
        ]
        if not fits:
            return None
        spoken = min(fits)[2]
        found += spoken.items
        left = spoken.left
    return Spoken(tuple(found), left)


def _card(ask: _Ask, rect: Rect, ink: Rect) -> tuple[Item, ...] | None:
    room = ask.room
    face = mini_front(room.card, ink, room.style)
    if face is None:
        return None
    return Item("edge", rect, Edge()), Item("task_card", rect, CardFace(room.card, ink, face))
