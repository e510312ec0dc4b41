"""Layouts of a demand on its sheets that few strokes cut, K parts at a time.

Sheets are taken in stacks of K, every sheet of a stack alike: such a
stack is cut without loss, each stroke through K parts. The demand over K, rounded up, is
spread over one sheet of each stack (``packing.distribute``). Fewer than K sheets are
left; they are divided into congruent panels (``packing.panels``), which make up
stacks of K again, and a last stack of fewer. Ways to divide, and what the last stack holds,
are ranked by what they would cost if no offcut were left over; the best are built and counted
exactly, until none that is left could be better. At the end narrow strips are cut off one by one
(``packing.narrow_strips``) where that takes no more strokes.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.column_block import best_block
from kitbuilder.layout.packing.distribute import Spread, spread
from kitbuilder.layout.packing.grid import Counts, Grid, holds, least_sheets
from kitbuilder.layout.packing.guillotine import Part, cut_types, merged, strokes_needed, trimmed
from kitbuilder.layout.packing.narrow_strips import peeled
from kitbuilder.layout.packing.panels import Division, divisions, panelled

Sheets = list[tuple[int, Part]]
"""Pairs of copies and the tree of a sheet."""

BUILT = 12  # candidates built in full

WHOLE = Division(False, False, 1, 1)


@frozen
class Choice:
    """One way: stacks of K sheets, the rest in panels, and what a last small stack holds."""

    stacks: int  # of K whole sheets
    rest: int  # sheets that are divided
    division: Division
    panel_stacks: int  # of K panels
    short: int  # panels in the last stack
    short_counts: Counts = (0, 0, 0)
    counts: Counts = (0, 0, 0)  # what the stacks of K hold, for one sheet or panel of each
    cost: int = 0  # strokes if no inner offcut is left over


@frozen
class Ranked:
    """Sheets built, with their rank: lower is better."""

    rank: tuple[int, int, int]  # strokes, different sheets, length
    sheets: Sheets


def stack_up(demand: Counts, grid: Grid, sheets: int, layers: int) -> Sheets:
    """Return trees for ``demand`` on exactly ``sheets`` sheets, cut in few strokes."""
    builder = Builder(grid.unit)
    plain = spread(demand, sheets, grid.across, grid.down)
    if plain is None:
        raise ValueError(f"stack_up: {demand} cannot be spread over {sheets} sheets")
    trees = [(copies, whole_sheet(builder, grid, counts)) for copies, counts in plain.layouts]
    if layers == 1:
        return trees
    best = ranked(trees, layers)
    choices = sorted(_choices(demand, grid, sheets, layers), key=lambda one: one.cost)
    for built, choice in enumerate(choices):
        if built >= BUILT or choice.cost > best.rank[0]:
            break
        made = _build(choice, grid, layers, builder)
        if made:
            one = ranked(made, layers)
            best = min(best, one, key=lambda made: made.rank)
    strips = ranked([(copies, peeled(tree)) for copies, tree in best.sheets], layers)
    return merged((strips if strips.rank[0] <= best.rank[0] else best).sheets)


def ranked(sheets: Sheets, layers: int) -> Ranked:
    """Return ``sheets`` with their strokes, different sheets and length of cut."""
    types = cut_types(sheets)
    strokes = strokes_needed(types, layers)
    length = sum(-(-count // layers) * type_[0] for type_, count in types.items())
    return Ranked((strokes, len(sheets), length), sheets)


def _choices(demand: Counts, grid: Grid, sheets: int, layers: int) -> Iterator[Choice]:
    stacks, rest = divmod(sheets, layers)
    if rest == 0:
        yield from _filled(demand, grid, layers, Choice(stacks, 0, WHOLE, 0, 0))
        stacks, rest = stacks - 1, layers
    for division in divisions(rest, layers):
        room = division.room(grid)
        if min(room) < 1:
            continue
        panels = rest * division.panels
        for short in range(panels % layers + 1):
            if panels >= layers or short == panels:
                choice = Choice(stacks, rest, division, panels // layers, short)
                yield from _filled(demand, grid, layers, choice)


def _filled(demand: Counts, grid: Grid, layers: int, choice: Choice) -> Iterator[Choice]:
    """Yield ``choice`` with ways to share ``demand`` between its stacks of K and its last."""
    panel = holds(*choice.division.room(grid))
    sheet = holds(grid.across, grid.down)
    room = [choice.stacks * s + choice.panel_stacks * p for s, p in zip(sheet, panel, strict=True)]
    whole, strips = demand[0], 10 * demand[0] + demand[1]
    for need, stacked, one in zip(
        (whole, strips, 10 * strips + demand[2]), room, panel, strict=True
    ):
        if need > layers * stacked + choice.short * one:
            return
    seen: dict[Counts, None] = {}
    for down in range(12 if choice.short else 1):
        h = min(-(-demand[0] // layers) - down // 4, room[0])
        t = min(-(-demand[1] // layers) - down // 2 % 2, room[1] - 10 * h)
        o = min(-(-demand[2] // layers) - down % 2, room[2] - 100 * h - 10 * t)
        counts = (h, t, o)
        if min(counts) < 0 or counts in seen:
            continue
        seen[counts] = None
        short: Counts = (0, 0, 0)
        if choice.short:
            short = tuple(  # type: ignore[assignment]
                max(0, -(-(have - layers * got) // choice.short))
                for have, got in zip(demand, counts, strict=True)
            )
        elif any(have > layers * got for have, got in zip(demand, counts, strict=True)):
            continue
        if any(short) and (least_sheets_or_none(short, choice.division.room(grid)) or 2) > 1:
            continue
        yield _priced(choice, grid, layers, counts, short)


def least_sheets_or_none(counts: Counts, room: tuple[int, int]) -> int | None:
    """Return the least sheets, or None if a piece fits on none."""
    try:
        return least_sheets(counts, *room)
    except ValueError:
        return None


def _priced(choice: Choice, grid: Grid, layers: int, counts: Counts, short: Counts) -> Choice:
    sides = sum(grid.trims)
    cost = choice.stacks * (sides - 1)
    cost += choice.division.strokes(choice.rest, layers) if choice.rest else 0
    cost += sum(counts) - choice.panel_stacks
    if any(short):
        cost += max(
            -(-choice.short * (sum(short) - 1) // layers),
            growth(choice.short, choice.short * sum(short), layers),
        )
    last = choice.short if any(short) else 0
    return replace(choice, short=last, short_counts=short, counts=counts, cost=cost)


def growth(parts: int, pieces: int, layers: int) -> int:
    """Return the strokes that make at least ``pieces`` of ``parts``."""
    strokes = 0
    while parts < pieces:
        parts += min(parts, layers)
        strokes += 1
    return strokes


def whole_sheet(builder: Builder, grid: Grid, counts: Counts) -> Part:
    """Return the tree of a sheet whose ``counts`` lie in one block."""
    block = best_block(counts, grid.across, grid.down)
    if block is None:
        raise ValueError(f"{counts} do not fit on a sheet")
    core = builder.block(block)
    return trimmed(core, grid.width, grid.height, *grid.corner(core.width, core.height))


def _build(choice: Choice, grid: Grid, layers: int, builder: Builder) -> Sheets | None:
    """Return the sheets of ``choice``, or None if its panels cannot hold their share."""
    room = choice.division.room(grid)
    shares = _panel_shares(choice, grid, room)
    if shares is None:
        return None
    panels, left = shares
    sheets: Sheets = []
    if choice.stacks:
        if not any(left) or least_sheets(left, grid.across, grid.down) > choice.stacks:
            return None
        found = _spread(left, choice.stacks, grid.across, grid.down)
        if found is None:
            return None
        for copies, counts in found.layouts:
            sheets.append((copies * layers, whole_sheet(builder, grid, counts)))
    rest = _divided(choice, panels, grid, layers, builder) if choice.rest else []
    return None if rest is None else sheets + rest


def _divided(
    choice: Choice, panels: list[Counts], grid: Grid, layers: int, builder: Builder
) -> Sheets | None:
    """Return the sheets that fall into panels; None if one of them would hold nothing."""
    made = _panel_parts(panels, choice.short_counts, choice.division.room(grid), builder)
    if made is None:
        return None
    size, mains, last = made
    queue: list[Part | None] = [part for part in mains for _ in range(layers)]
    if last:
        queue += [last] * choice.short
    per_sheet = choice.division.panels
    queue += [None] * (choice.rest * per_sheet - len(queue))
    sheets: Sheets = []
    before: list[Part | None] = []
    for i in range(choice.rest):
        mine = queue[i * per_sheet : (i + 1) * per_sheet]
        if not any(mine):
            return None
        if mine == before:
            sheets[-1] = (sheets[-1][0] + 1, sheets[-1][1])
        else:
            sheets.append((1, panelled(grid, choice.division, *size, mine)))
        before = mine
    return sheets


@lru_cache(maxsize=4096)
def _spread(counts: Counts, sheets: int, across: int, down: int) -> Spread | None:
    return spread(counts, sheets, across, down)


def _panel_shares(
    choice: Choice, grid: Grid, room: tuple[int, int]
) -> tuple[list[Counts], Counts] | None:
    """Return what each stack of panels holds, and what is left for the whole sheets."""
    many, counts = choice.panel_stacks, choice.counts
    if not many:
        return [], counts
    if not choice.stacks:
        if (least_sheets_or_none(counts, room) or many + 1) > many or sum(counts) < many:
            return None
        found = _spread(counts, many, *room)
        if found is None:
            return None
        return [one for copies, one in found.layouts for _ in range(copies)], (0, 0, 0)
    sheet, panel = holds(grid.across, grid.down), holds(*room)
    shares: list[Counts] = []
    left = counts
    for i in range(many):
        # As little as the whole sheets and the panels still to come cannot take.
        later = many - 1 - i
        caps = [choice.stacks * s + later * p for s, p in zip(sheet, panel, strict=True)]
        h = max(0, left[0] - caps[0])
        strips = 10 * left[0] + left[1] - caps[1]
        t = max(0, min(left[1], strips - 10 * h))
        area = 100 * left[0] + 10 * left[1] + left[2] - caps[2]
        o = max(0, min(left[2], area - 100 * h - 10 * t))
        share = (h, t, o)
        if not any(share):
            return None
        shares.append(share)
        left = (left[0] - h, left[1] - t, left[2] - o)
    return shares, left


def _panel_parts(
    panels: list[Counts], short: Counts, room: tuple[int, int], builder: Builder
) -> tuple[tuple[int, int], list[Part], Part | None] | None:
    """Return the size all panels share, a part for each stack of panels, and the last's."""
    wanted = [*panels, short] if any(short) else list(panels)
    blocks = [best_block(counts, *room) for counts in wanted]
    if not blocks or any(block is None for block in blocks):
        return None
    across = max(block.across for block in blocks if block)
    down = max(block.down for block in blocks if block)
    fixed = [best_block(counts, across, down, True) for counts in wanted]
    parts = [builder.panel(block, across, down) for block in fixed if block]
    if any(short):
        return (across, down), parts[:-1], parts[-1]
    return (across, down), parts, None
