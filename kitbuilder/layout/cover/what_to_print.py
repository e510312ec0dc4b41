"""The third step of a cover: what to print on card and on paper, now and later."""

from collections.abc import Iterator, Sequence
from itertools import chain

from kitbuilder.layout.blank_backs import is_blank
from kitbuilder.layout.cover.cover import INDENT, Cover
from kitbuilder.layout.cover.print_lists import Row, by_edge, edges, printed, weekly
from kitbuilder.layout.mat.mat_text import sheet_name
from kitbuilder.layout.model import Flip, Item, Rect, Stock
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Panel
from kitbuilder.layout.parts.furniture import labelled, pictogram, wrapped
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.words import line, lines, placed_line, wide

_PAD = 2.6
# The clear space beside the words in a frame, in mm.


def lists(cover: Cover) -> list[Block]:
    """Return the two lists, of card and of paper, with the pages to type.

    On a narrow page what comes later is a block of its own. Of one of many kits it says
    what the whole set's print run is for.
    """
    if cover.before is None:
        run = cover.step(3, "run", cover.width, "printer")
        piled = [cover.words("cover.run_piled")] if cover.cutting.piled else []
        return [cover.below(run, piled, cover.width)]
    rows = printed(cover.sheets, cover.before + 1, cover.words)
    if not rows:
        return []
    held = [own for s in ("card", "paper") if (own := [one for one in rows if one.stock == s])]
    across = len(held) if cover.wide else 1
    room = cover.width - INDENT if cover.wide else cover.width
    width = (room - GUTTER * (across - 1)) / across
    later = _later(cover, width)
    name = "now" if later.height else "rest"
    heading = _typing(cover, name) if held[1:] else cover.heading(3, name, cover.width)
    if across == 1:
        return [stack((heading, _narrow(cover, held, room)), 1.4), later]
    below = later.height + 2.0 if later.height else 0.0
    card, paper = (_list(cover, own, width).height for own in held)
    high = max(card + below, paper)  # what comes later stands under the list of card
    left, right = (
        _list(cover, own, width, high - low) for own, low in zip(held, (below, 0.0), strict=True)
    )
    both = row((stack((left, later), 2.0), right), GUTTER)
    return [stack((heading, both.moved(INDENT, 0)), 1.4)]


def _narrow(cover: Cover, held: Sequence[Sequence[Row]], room: float) -> Block:
    """Return the lists of a narrow page side by side where words have room, else stacked."""
    text, half = cover.sets.text, (room - GUTTER) / 2
    rows = list(chain(*held))
    widest = max(wide(word, text) for one in rows for word in one.said.split())
    numbers = max(wide(one.pages, text) for one in rows)
    if len(held) == 1 or widest + numbers + 3 + 2 * _PAD > half:
        return stack([_list(cover, own, room) for own in held], 2.0)
    high = max(_list(cover, own, half).height for own in held)
    return row([_list(cover, own, half, high) for own in held], GUTTER)


def _typing(cover: Cover, name: str) -> Block:
    """Return the heading of what is printed, that card goes first beside it or below."""
    told, text, width = cover.words("cover.rest_told"), cover.sets.text, cover.width
    heading = cover.heading(3, name, width)
    used = wide(cover.words(f"cover.{name}"), cover.sets.heading) + INDENT + 6
    if used + wide(told, text) > width:
        return cover.below(heading, [told], width)
    said = placed_line(told, text, width, heading.height / 2, "right")
    return Block((*heading.items, said), width, heading.height)


def _list(cover: Cover, rows: Sequence[Row], width: float, high: float = 0.0) -> Block:
    """Return one list in its frame, at least ``high`` mm high.

    Pages too many to stand before the words stand below them.
    """
    text, inner, stock = cover.sets.text, width - 2 * _PAD, rows[0].stock
    most = inner - 3 - max(wide(word, text) for one in rows for word in one.said.split())
    before = [one for one in rows if wide(one.pages, text) <= most]
    left = max((wide(one.pages, text) + 3 for one in before), default=0.0)
    name = labelled(pictogram(stock, 7.0), cover.words(f"cover.on_{stock}"), cover.sets.heading)
    listed = []
    for one in rows:
        said = lines(one.said, text, inner - left)
        if one in before:
            number = placed_line(one.pages, text, left - 3, text.lead / 2, "right")
            listed.append(Block((number, *said.at(left, 0)), inner, said.height))
        else:
            listed.append(stack((said, lines(one.pages, text, inner - left))).moved(left, 0))
    content = stack((_typed(cover, name, rows, inner), stack(listed, 0.3)), 1.0)
    return _framed(content, width, max(high, content.height + 2 * _PAD - 0.6), _PAD - 0.6)


def _framed(content: Block, width: float, high: float, top: float) -> Block:
    frame = Item("panel", Rect(0, 0, width, high), Panel("none", "frame", 2.2))
    return Block((frame, *content.at(_PAD, top)), width, high)


def _typed(cover: Cover, name: Block, rows: Sequence[Row], inner: float) -> Block:
    """Return a list's ``name`` with the pages to type beside it or below, and their sides."""
    accent, found = cover.accent, [name]
    goes = list(_goes(cover, rows))
    for number, (typed, edge) in enumerate(goes):
        beside = number == 0 and (edge or len(goes) == 1)  # of several, all stand below
        if beside and name.width + 4 + wide(typed, accent) <= inner:
            at = placed_line(typed, accent, inner, name.height / 2, "right")
            found = [Block((*name.items, at), inner, name.height)]
        else:
            found.append(lines(typed, accent, inner))
        if edge:
            found.append(_turned(cover, edge, inner, later=False))
    return stack(found, 0.6)


def _goes(cover: Cover, rows: Sequence[Row]) -> Iterator[tuple[str, Flip | None]]:
    """Yield what is typed in one go each, with its copies, and the edge it is turned over on."""
    for copies in dict.fromkeys(one.copies for one in rows):
        numbered = [(n, one.flip) for one in rows if one.copies == copies for n in one.numbers]
        yield from _in_one_go(cover, numbered, copies)


def _in_one_go(
    cover: Cover, numbered: Sequence[tuple[int, Flip | None]], copies: int
) -> Iterator[tuple[str, Flip | None]]:
    """Yield what is typed for pages of so many ``copies``, and the edge they are turned over on."""
    key = "cover.type" if copies == 1 else "cover.type_copies"
    for pages, edge in by_edge(numbered):
        yield cover.words(key, pages=pages, count=copies), edge


def _turned(cover: Cover, edge: Flip, width: float, *, later: bool) -> Block:
    """Return that pages are printed on both sides, and that some backs stay empty if any do."""
    said = cover.words(f"cover.sides_{edge}")
    if any(is_blank(sheet) and sheet.later == later for sheet in cover.sheets):
        said = f"{said} {cover.words('cover.empty_backs')}"
    return lines(said, cover.accent, width)


def _later(cover: Cover, width: float) -> Block:
    """Return what is printed only later: its pages to type, card first, and their copies."""
    pages: dict[tuple[Stock, int], list[tuple[int, Flip | None]]] = {}
    numbered = zip(cover.sheets, edges(cover.sheets), strict=True)
    for number, (sheet, edge) in enumerate(numbered, (cover.before or 0) + 1):
        if sheet.later:
            pages.setdefault((sheet.stock, sheet.copies), []).append((number, edge))
    if not pages:
        return EMPTY
    inner = width - 2 * _PAD
    name = labelled(pictogram("time", 7.0), cover.words("cover.later"), cover.sets.heading)
    told = lines(_later_told(cover, inner), cover.sets.text.quiet(), inner)
    single, double = list[Block](), list[Block]()
    for (stock, copies), own in sorted(pages.items(), key=lambda item: item[0][0]):
        for typed, edge in _in_one_go(cover, own, copies):
            one = labelled(pictogram(stock, 6.0), typed, cover.accent)
            if edge:
                double += (one, _turned(cover, edge, inner, later=True))
            else:
                single.append(one)
    all_ = wrapped(single, inner, 3.0, 0.4)
    content = stack((name, told, *double, all_, _weekly(cover, inner)), 0.4)
    return _framed(content, width, content.height + 2 * _PAD - 1.6, _PAD - 0.8)


def _weekly(cover: Cover, inner: float) -> Block:
    """Return which of the later pages are printed for which week, where that is told."""
    if not cover.by_week:
        return EMPTY
    text = cover.sets.text
    told = [
        cover.words("cover.of_week", week=name, pages=pages)
        for name, pages in weekly(cover.sheets, (cover.before or 0) + 1)
    ]
    if max(wide(one, text) for one in told) > inner:
        return stack([lines(one, text, inner) for one in told])
    return wrapped([line(one, text) for one in told], inner, 4.0, 0.0)


def _later_told(cover: Cover, inner: float) -> str:
    """Return when the later pages are printed and what they are, as much as a line holds.

    Where each week's pages are listed below, the line is over all of them.
    """
    if cover.by_week:
        return cover.words("cover.all_later")
    words, when = cover.words, cover.words("cover.later_told")
    later = (sheet for sheet in cover.sheets if sheet.later)
    kinds = list(dict.fromkeys(sheet_name(sheet, words) for sheet in later))
    for count in range(len(kinds), 0, -1):
        listed = ", ".join(kinds[:count])
        said = listed if count == len(kinds) else words("cover.and_more", what=listed)
        if wide(f"{when}: {said}", cover.sets.text) <= inner:
            return f"{when}: {said}"
    return when
