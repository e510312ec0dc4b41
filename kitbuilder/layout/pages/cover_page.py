"""The cover: what the kit is, what is needed, and five steps from printing to the first sum."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.blank_backs import is_blank
from kitbuilder.layout.estimate import Estimate, printed_now
from kitbuilder.layout.model import Flip, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.print_lists import Row, by_edge, edges, printed
from kitbuilder.layout.parts.block import EMPTY, Block, alike, row, stack
from kitbuilder.layout.parts.contents import Line, Panel, Pictogram, Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    foot,
    labelled,
    pictogram,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import line, lines, placed_line, wide
from kitbuilder.layout.pieces.sturdy import FOLDED
from kitbuilder.layout.pieces.thousand import Thousands
from kitbuilder.number import Pieces

BANK_CARD = (85.6, 53.98)
"""Width and height in mm of an ID-1 card (ISO/IEC 7810, from memory)."""

CORNER = 6.0
"""Length in mm of the two strokes of a corner mark."""

LISTED = 4
"""Sums named on the cover before it says how many more there are."""

LEAST = 1.4
"""The least space between two blocks, in mm."""

_WIDE = 150.0
_SCENE = 1.66
_SMALL_SCENE = 0.31
_INDENT = 10.0
_PAD = 2.6
# In mm: from what width on steps stand side by side; the scene's width in parts of its height,
# and of the page's where it is small;
# how far a step's words stand in, and the clear space in a panel.


@frozen
class CornerMarks:
    """Marks in the four corners of what must print; strokes ``length`` mm long."""

    length: float = CORNER


def cover_sheets(
    kit: Kit, sheets: Sequence[Sheet], style: Style, cutting: CutWish
) -> tuple[Sheet, ...]:
    """Return the cover of a kit whose other sheets are ``sheets``; one page on A4 and Letter.

    It says what to print, but for one of many kits, where a print run does.
    """
    area = SheetArea.upright(style.paper)
    pages: tuple[tuple[Item, ...], ...] = ((),)
    for _ in range(4):  # the lists' page numbers depend on how many pages come before
        before = len(pages)
        listed = before if cutting.kits == 1 else None
        cover = _Cover(kit, sheets, style, area, listed, cutting)
        pages = _paged(*cover.blocks(), area, style, small=any(sheet.cuts for sheet in sheets))
        if len(pages) == before:
            break
    page = area.page
    marks = Item("corner_marks", page.inside, CornerMarks())
    return tuple(
        Sheet(SheetKind.COVER, number, "paper", page.width, page.height, (marks, *items))
        for number, items in enumerate(pages, 1)
    )


def _paged(
    first: Sequence[Block], rest: Sequence[Block], area: SheetArea, style: Style, *, small: bool
) -> tuple[tuple[Item, ...], ...]:
    """Return the blocks on as few pages as hold them in their order, air shared between them.

    The ``first`` stand on one page: its size is checked on it before anything else is printed.
    """
    body = area.body(area.whole.y)
    after = [block for block in rest if block.height]
    kept, *runs = alike([stack(first, LEAST), *after], body.height, LEAST)
    found = []
    for run in ([*first, *kept[1:]], *runs):
        spare = body.height - sum(block.height for block in run)
        gap = min(36.0, spare / len(run)) if len(run) > 1 else 0.0
        placed = stack(run, max(1.0, gap)).at(body.x, body.y)
        note = style.words("cover.small") if small else ""
        found.append((*placed, *foot(Foot(note), area, style)))
    return tuple(found)


class _Cover:
    """The parts of one cover of ``before`` pages; None where nothing is listed.

    ``cutting`` says how many kits are cut, of how much card at a time, and whether a file holds
    every copy.
    """

    def __init__(
        self,
        kit: Kit,
        sheets: Sequence[Sheet],
        style: Style,
        area: SheetArea,
        before: int | None,
        cutting: CutWish,
    ) -> None:
        self.kit, self.sheets, self.style, self.before = kit, sheets, style, before
        self.words, self.sets = style.words, settings(style.look)
        self.layers, self.piled = cutting.layers, cutting.piled
        self.kits, self.bank = cutting.kits, Bank.of(kit.pieces, cutting)
        self.area, self.width = area, area.whole.width
        self.wide = self.width >= _WIDE * style.look.type_mm.adult / 3.9

    def blocks(self) -> tuple[list[Block], list[Block]]:
        """Return the blocks of the page that is printed first, and those that follow."""
        rest = self._print_rest() if self.before is not None else [self._print_run()]
        room = self.area.body(self.area.whole.y).height
        first = [self._hero(), self._print_alone(), self._check()]
        tight = _high(first) > room
        if tight:  # the size is checked on the page that is printed alone
            first, told = self._tight(room)
            rest = [*told, *rest]
        last = self._last()
        if tight:
            last[-1:] = [stack((*last[-1:], self._tags(self.width - _INDENT).moved(_INDENT, 0)), 3)]
        if self.before is None:  # the print run tells what a whole set takes
            return first, [*rest, *last]
        needs = self._needs()
        between = [first[0], needs, *first[1:]]
        if self.wide and _high(between) <= room:
            return between, [*rest, *last]
        return first, [needs, *rest, *last]

    def _tight(self, room: float) -> tuple[list[Block], list[Block]]:
        """Return a small page's first blocks, and what of its lead stands on a later page."""
        about = self._about()
        for count in range(len(about), -1, -1):
            first = [self._small_hero(about[:count]), self._print_alone(), self._small_check()]
            if _high(first) <= room:
                break
        return first, [lines(said, self.sets.text, self.width) for said in about[count:]]

    def _hero(self) -> Block:
        if self.wide:
            scene = self._scene(0.48 * self.width)
            left = self.width - scene.width - 4
            about = stack((lines(said, self.sets.text, left) for said in self._about()), 1.6)
            title = self._title(left, self.sets.cover)
            text = stack((*title, about, self._tags(left)), 2.0)
            return row((Block(text.items, left, text.height), scene), 4)
        top = self._top(0.4, self.sets.cover, self._about())
        return stack((top, self._tags(self.width)), 2.0)

    def _small_hero(self, about: Sequence[str]) -> Block:
        """Return the title, a small scene, as high as two of its lines, and what it is for."""
        scene = self._scene(_SMALL_SCENE * self.width)
        size = min(self.sets.cover.size, scene.height / 2)
        return self._top(_SMALL_SCENE, self.sets.cover.sized(size), about)

    def _top(self, part: float, setting: Setting, about: Sequence[str]) -> Block:
        """Return the title beside the scene, that ``part`` of the page wide; the lead below."""
        scene = self._scene(part * self.width)
        left = self.width - scene.width - 4
        title = stack(self._title(left, setting))
        top = row((Block(title.items, left, title.height), scene), 4)
        told = (lines(said, self.sets.text, self.width) for said in about)
        return stack((top, stack(told, 1.0)), 2.0)

    def _scene(self, side: float) -> Block:
        """Return the picture of two people at the mat, with hundreds where the kit has some."""
        name = "together-hundreds" if self.kit.pieces.hundreds else "together"
        high = side / _SCENE
        return Block((Item("pictogram", Rect(0, 0, side, high), Pictogram(name)),), side, high)

    def _title(self, room: float, usual: Setting) -> list[Block]:
        """Return the title's lines, smaller where a word of it is wider than ``room`` mm."""
        said = self.words("cover.title")
        widest = max(wide(word, usual) for word in said.split())
        setting = usual if widest <= room else usual.sized(usual.size * room / widest - 0.01)
        parts = (item.content for item in lines(said, setting, room).items)
        return [line(part.text, setting) for part in parts if isinstance(part, Line)]

    def _about(self) -> list[str]:
        """Return what the kit is for."""
        said = [self.words("cover.lead")]
        if self.kit.limit:
            said.append(self.words("cover.made_for_within", limit=self.kit.limit))
        names = [pack.name for pack in self.kit.packs if pack.name]
        if len(names) == 1:
            said.append(self.words("cover.pack", name=names[0]))
        elif names:
            count = self.words("cover.packs", count=len(names))
            named = any(pack.tasks for pack in self.kit.packs)
            said.append(f"{count} {self.words('cover.named')}" if named else count)
        return said

    def _tags(self, room: float) -> Block:
        """Return the kit's sums in frames, the first few and how many more."""
        if not (self.kit.sums and _serves_sums(self.kit)):
            return EMPTY
        named = [str(s) for s in self.kit.sums[:LISTED]]
        more = len(self.kit.sums) - len(named)
        setting = Setting(1.35 * self.sets.text.size, 2.1 * self.sets.text.size)
        tags = [_framed(text, setting) for text in named]
        if more:
            tags.append(line(self.words("cover.more_sums", count=more), self.sets.text.quiet()))
        return wrapped(tags, room, 2.4, 2.0, most=2.4)

    def _needs(self) -> Block:
        """Return the strip of what is needed now, between two lines."""
        takes = printed_now(self.sheets, self.layers).with_paper(self.before or 0)
        words = self.words
        needs = []
        if takes.card:
            needs.append(("card", words.count("cover.card_sheets", takes.card)))
        needs.append(("paper", words.count("cover.paper_sheets", takes.paper)))
        if takes.cuts:
            needs.append(("scissors", words("cover.scissors")))
        if self.kit.mats:
            needs.append(("glue", words("cover.glue")))
        if self.kit.pieces.value:
            kinds = sum(1 for n in self.kit.pieces.counts if n)
            needs.append(("envelope", words.count("cover.envelopes", kinds)))
        if takes.cuts:
            needs.append(("time", self._time(takes)))
        marks = [self._need(name, said) for name, said in needs]
        strip = wrapped(marks, self.width, 2.4, 1.6)
        without = lines(self._without(), self.sets.least, self.width)
        ruled = Item("rule", Rect(0, 0, self.width, 0.01), Rule("rule"))
        inside = stack((strip, without) if takes.card else (strip,), 1.4)
        high = inside.height + 4.4
        under = ruled._replace(rect=ruled.rect.moved(0, high))
        return Block((ruled, *inside.at(0, 2.2), under), self.width, high + 0.01)

    def _time(self, takes: Estimate) -> str:
        """Return how long cutting takes, and folding where there are thousands."""
        if takes.folded:
            cut, fold = takes.whole_minutes, takes.fold_minutes
            return self.words("cover.cut_and_fold", cut=cut, fold=fold)
        return self.words("cover.minutes", count=takes.whole_minutes)

    def _without(self) -> str:
        """Return what will do in place of card and, where pieces are packed, of envelopes."""
        said = ("without", "cups") if self.kit.pieces.value else ("without",)
        return " ".join(self.words(f"cover.{key}") for key in said)

    def _need(self, name: str, said: str) -> Block:
        """Return one thing that is needed: its pictogram, its words at the right in two lines."""
        text, side = self.sets.text, 8.0
        words = said.split(" ")
        halves = [(" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words))]
        room = min((max(wide(one, text) for one in two) for two in halves), default=0.0)
        broken = lines(said, text, max(room, *(wide(word, text) for word in words)) + 0.01)
        used = max(item.rect.right for item in broken.items)
        high = max(side, broken.height)
        items = (
            *pictogram(name, side).at(0, (high - side) / 2),
            *broken.at(side + 1.8, (high - broken.height) / 2),
        )
        return Block(items, side + 1.8 + used, high)

    def _step(
        self, number: int, name: str, width: float, picture: str = "", told: str = ""
    ) -> Block:
        """Return a step's heading with its words below and its pictogram at the right.

        ``told`` is the key of other words than the step's own.
        """
        side = 11.0 if picture else 0.0
        room = width - side - (3 if side else 0)
        heading = step_heading(number, self.words(f"cover.{name}"), room, self.style)
        below = lines(self.words(told or f"cover.{name}_told"), self.sets.text, room - _INDENT)
        said = stack((heading, below.moved(_INDENT, 0)), 0.4)
        if not picture:
            return Block(said.items, width, said.height)
        return Block(
            (*said.items, *pictogram(picture, side).at(width - side, 0)),
            width,
            max(side, said.height),
        )

    def _print_alone(self) -> Block:
        return self._step(1, "alone", self.width, "printer")

    def _check(self) -> Block:
        """Return the size check: a bank card's frame beside what to tick, or below it."""
        card_wide, _ = BANK_CARD
        room = self.width - card_wide - 6 if self.wide else self.width
        heading = step_heading(2, self.words("cover.check"), room, self.style)
        ticks = self._ticks(room - _INDENT).moved(_INDENT, 0)
        said = stack((heading, ticks, self._unless(room)), 0.8)
        room_in = card_wide - 2 * _PAD
        inside = lines(self.words("cover.bank_card"), self.sets.least, room_in, "centre")
        if self.wide:
            return row((Block(said.items, room, said.height), _card(inside)), 6)
        return stack((said, self._centred(_card(inside))), 1.5)

    def _small_check(self) -> Block:
        """Return the size check with what to tick inside the bank card's frame."""
        heading = step_heading(2, self.words("cover.check"), self.width, self.style)
        card = _card(self._ticks(BANK_CARD[0] - 2 * _PAD))
        return stack((heading, self._centred(card), self._unless(self.width)), 1.5)

    def _centred(self, block: Block) -> Block:
        return block.moved(max(0.0, (self.width - block.width) / 2), 0)

    def _unless(self, room: float) -> Block:
        """Return what to do where the size is wrong."""
        said = lines(self.words("cover.unless"), self.sets.least, room - _INDENT)
        return said.moved(_INDENT, 0)

    def _ticks(self, room: float) -> Block:
        """Return what is ticked in the size check."""
        said = self.words.lines("cover.checks")
        return stack((tick(one, room, self.style) for one in said), 0.8)

    def _print_run(self) -> Block:
        run = self._step(3, "run", self.width, "printer")
        if not self.piled:
            return run
        told = lines(self.words("cover.run_piled"), self.sets.text, self.width - _INDENT)
        return stack((run, told.moved(_INDENT, 0)), 0.4)

    def _print_rest(self) -> list[Block]:
        """Return the two lists: what is printed on card and on paper, with the pages to type.

        On a narrow page what comes later is a block of its own.
        """
        rows = printed(self.sheets, (self.before or 0) + 1, self.words)
        if not rows:
            return []
        stocks = [s for s in ("card", "paper") if any(r.stock == s for r in rows)]
        across = len(stocks) if self.wide else 1
        room = self.width - _INDENT if self.wide else self.width
        width = (room - GUTTER * (across - 1)) / across
        later = self._later(width)
        heading = self._typing("now" if later.height else "rest")
        held = [[r for r in rows if r.stock == s] for s in stocks]
        if across == 1:
            return [stack((heading, self._lists(stocks, held, room)), 1.4), later]
        below = later.height + 2.0 if later.height else 0.0
        lows = (below, 0.0)  # what comes later stands under the list of card
        each = list(zip(stocks, held, lows, strict=True))
        high = max(self._list(s, own, width).height + low for s, own, low in each)
        left, right = (self._list(s, own, width, high - low) for s, own, low in each)
        both = row((stack((left, later), 2.0), right), GUTTER)
        return [stack((heading, both.moved(_INDENT, 0)), 1.4)]

    def _lists(self, stocks: Sequence[str], held: Sequence[Sequence[Row]], room: float) -> Block:
        """Return the lists of a narrow page side by side where words have room, else stacked."""
        both = list(zip(stocks, held, strict=True))
        half = (room - GUTTER) / 2
        words = (word for own in held for one in own for word in one.said.split())
        widest = max(wide(word, self.sets.text) for word in words)
        numbers = max(wide(one.pages, self.sets.text) for own in held for one in own)
        if len(both) == 1 or widest + numbers + 3 + 2 * _PAD > half:
            return stack([self._list(stock, own, room) for stock, own in both], 2.0)
        high = max(self._list(stock, own, half).height for stock, own in both)
        return row([self._list(stock, own, half, high) for stock, own in both], GUTTER)

    def _typing(self, name: str) -> Block:
        """Return the heading of what is printed, how it is done beside it or below."""
        title, told = self.words(f"cover.{name}"), self.words("cover.rest_told")
        used = wide(title, self.sets.heading) + _INDENT + 6
        heading = step_heading(3, title, self.width, self.style)
        if used + wide(told, self.sets.text) <= self.width:
            said = placed_line(told, self.sets.text, self.width, heading.height / 2, "right")
            return Block((*heading.items, said), self.width, heading.height)
        below = lines(told, self.sets.text, self.width - _INDENT)
        return stack((heading, below.moved(_INDENT, 0)), 0.4)

    def _later(self, width: float) -> Block:
        """Return what is printed only later: its pages to type, card apart from paper."""
        pages: dict[str, list[tuple[int, Flip | None]]] = {"card": [], "paper": []}
        numbered = zip(self.sheets, edges(self.sheets), strict=True)
        for number, (sheet, edge) in enumerate(numbered, (self.before or 0) + 1):
            if sheet.later:
                pages[sheet.stock].append((number, edge))
        if not any(pages.values()):
            return EMPTY
        accent = replace(self.sets.text, tone="accent")
        name = labelled(pictogram("time", 7.0), self.words("cover.later"), self.sets.heading)
        text = self.sets.text.quiet()
        inner = width - 2 * _PAD
        told = lines(self._later_told(text, inner), text, inner)
        single, double = list[Block](), list[Block]()
        for stock, own in pages.items():
            for held, edge in by_edge(own):
                typed = self.words("cover.type", pages=held)
                one = labelled(pictogram(stock, 6.0), typed, accent)
                if edge:
                    double += (one, self._turned(edge, inner, later=True))
                else:
                    single.append(one)
        typed_in = (*double, wrapped(single, inner, 3.0, 0.4) if single else EMPTY)
        content = stack((name, told, *typed_in), 0.4)
        high = content.height + 2 * _PAD - 1.6
        frame = Item("panel", Rect(0, 0, width, high), Panel("none", "frame", 2.2))
        return Block((frame, *content.at(_PAD, _PAD - 0.8)), width, high)

    def _later_told(self, text: Setting, inner: float) -> str:
        """Return when the later pages are printed and what they are, as much as a line holds."""
        when = self.words("cover.later_told")
        kinds = list(dict.fromkeys(self.words(f"title.{s.kind}") for s in self.sheets if s.later))
        for count in range(len(kinds), 0, -1):
            listed = ", ".join(kinds[:count])
            every = count == len(kinds)
            said = f"{when}: {listed if every else self.words('cover.and_more', what=listed)}"
            if wide(said, text) <= inner:
                return said
        return when

    def _list(self, stock: str, rows: Sequence[Row], width: float, high: float = 0.0) -> Block:
        """Return one list in its frame, at least ``high`` mm high."""
        text, inner = self.sets.text, width - 2 * _PAD
        numbers = max(wide(one.pages, text) for one in rows)
        name = labelled(pictogram(stock, 7.0), self.words(f"cover.on_{stock}"), self.sets.heading)
        top = self._typed(name, rows, inner)
        listed = []
        for one in rows:
            said = lines(one.said, text, inner - numbers - 3)
            number = placed_line(one.pages, text, numbers, text.lead / 2, "right")
            listed.append(Block((number, *said.at(numbers + 3, 0)), inner, said.height))
        content = stack((top, stack(listed, 0.3)), 1.0)
        tall = max(high, content.height + 2 * _PAD - 0.6)
        frame = Item("panel", Rect(0, 0, width, tall), Panel("none", "frame", 2.2))
        return Block((frame, *content.at(_PAD, _PAD - 0.6)), width, tall)

    def _typed(self, name: Block, rows: Sequence[Row], inner: float) -> Block:
        """Return a list's ``name`` with the pages to type beside it or below, and their sides."""
        accent = replace(self.sets.text, tone="accent")
        found = [name]
        for pages, edge in by_edge([(n, one.flip) for one in rows for n in one.numbers]):
            typed = self.words("cover.type", pages=pages)
            if len(found) == 1 and name.width + 4 + wide(typed, accent) <= inner:
                at = placed_line(typed, accent, inner, name.height / 2, "right")
                found = [Block((*name.items, at), inner, name.height)]
            else:
                found.append(lines(typed, accent, inner))
            if edge:
                found.append(self._turned(edge, inner, later=False))
        return stack(found, 0.6)

    def _turned(self, edge: Flip, width: float, *, later: bool) -> Block:
        """Return that pages are printed on both sides, and that some backs stay empty if any do."""
        said = self.words(f"cover.sides_{edge}")
        if any(is_blank(sheet) and sheet.later == later for sheet in self.sheets):
            said = f"{said} {self.words('cover.empty_backs')}"
        return lines(said, replace(self.sets.text, tone="accent"), width)

    def _last(self) -> list[Block]:
        """Return the last steps: cut, and begin."""
        width = (self.width - GUTTER) / 2 if self.wide else self.width
        steps: list[Callable[[int], Block]] = []
        if any(sheet.cuts for sheet in self.sheets):
            steps.append(lambda n: self._cut(n, width))
        if any(sheet.kind is SheetKind.LESSON for sheet in self.sheets):
            steps.append(lambda n: self._begin(n, width))
        made = [step(number) for number, step in enumerate(steps, 4)]
        return [row(made, GUTTER)] if self.wide and made else made

    def _cut(self, number: int, width: float) -> Block:
        shown = any(sheet.kind is SheetKind.CUTTING for sheet in self.sheets)
        own = "" if shown else "cover.cut_marked"
        heading = self._step(number, "cut", width, "scissors", own)
        said = []
        held = _to_cut(self.sheets) if self.before is not None else self.bank.in_bag
        if held.value:
            key = "cover.pieces_made" if self.before is not None else "cover.pieces_each"
            said.append(self.words(key, pieces=phrases.pieces(self.words, held)))
        if self.bank.at_once:
            said.append(self.bank.told(self.words, self.kits))
        pieces = [sheet for sheet in self.sheets if sheet.kind is SheetKind.PIECES]
        if any(item.what in FOLDED for sheet in pieces for item in sheet.items):
            said.append(self.words("cover.sturdy_fold"))
        told = stack((lines(one, self.sets.text, width - _INDENT) for one in said), 0.4)
        return stack((heading, told.moved(_INDENT, 0) if said else EMPTY), 0.4)

    def _begin(self, number: int, width: float) -> Block:
        side = 10.0
        heading = self._step(number, "begin", width - 2 * side, "")
        if self.before is not None:
            first = next(
                n for n, s in enumerate(self.sheets, self.before + 1) if s.kind is SheetKind.LESSON
            )
            told = lines(
                self.words("cover.begin_page", page=first),
                self.sets.text,
                width - 2 * side - _INDENT,
            )
            heading = stack((heading, told.moved(_INDENT, 0)), 0.2)
        faces = row((pictogram("adult", side), pictogram("child", side)))
        at = faces.at(width - 2 * side, 0)
        return Block((*heading.items, *at), width, max(heading.height, side))


def _high(blocks: Sequence[Block]) -> float:
    """Return how high ``blocks`` are with the least space between them, in mm."""
    return sum(block.height for block in blocks) + LEAST * (len(blocks) - 1)


def _card(inside: Block) -> Block:
    """Return a bank card's frame with ``inside`` in its middle."""
    card_wide, card_high = BANK_CARD
    frame = Item("panel", Rect(0, 0, card_wide, card_high), Panel("none", "frame", 3.18))
    placed = inside.at(_PAD, (card_high - inside.height) / 2)
    return Block((frame, *placed), card_wide, card_high)


def _framed(text: str, setting: Setting) -> Block:
    across = wide(text, setting) + 6
    frame = Item("panel", Rect(0, 0, across, setting.lead), Panel("none", "bubble", 2.2))
    said = placed_line(text, setting, across / 2, setting.lead / 2, "centre")
    return Block((frame, said), across, setting.lead)


def _to_cut(sheets: Sequence[Sheet]) -> Pieces:
    """Return all pieces on all copies of ``sheets``, spares among them."""
    found = Counter[str]()
    for sheet in sheets:
        for item in sheet.items:
            if sheet.kind is SheetKind.PIECES and not sheet.flip:
                found[item.what.removeprefix("folded_")] += sheet.copies
            elif isinstance(item.content, Thousands):
                found["thousands"] += len(item.content.outlines) * sheet.copies
    return Pieces(found["ones"], found["tens"], found["hundreds"], found["thousands"])


def _serves_sums(kit: Kit) -> bool:
    """Say whether anything printed is for the kit's own sums; small facts and arrows are not."""
    asked = any(pack.tasks for pack in kit.packs)
    return bool(asked or kit.pieces.value or kit.mats or kit.guide or kit.course.weeks)
