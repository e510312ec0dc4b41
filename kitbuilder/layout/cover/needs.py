"""What is needed now, on a strip across a cover."""

from kitbuilder.kit import phrases
from kitbuilder.kit.card_packs import built
from kitbuilder.kit.card_records import StoryCard
from kitbuilder.layout.cover.cover import Cover
from kitbuilder.layout.estimate import Estimate, printed_now
from kitbuilder.layout.glue import glue
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.block import Block, beside, stack
from kitbuilder.layout.parts.furniture import pictogram, rule, wrapped
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import lines, wide
from kitbuilder.number import Sum
from kitbuilder.number.stock import stock

UNWRITTEN = (
    SheetKind.COVER,
    SheetKind.CUTTING,
    SheetKind.PIECES,
    SheetKind.THOUSANDS,
    SheetKind.FOLDING,
    SheetKind.MAT,
    SheetKind.ADDITION_MAT,
    SheetKind.EXCHANGE_BOARD,
    SheetKind.EXCHANGE_CARDS,
)
"""Sheets that nobody writes on."""

_SIDE = 8.0


def needs(cover: Cover) -> Block:
    """Return the strip of what is needed now, between two lines."""
    takes = printed_now(cover.sheets, cover.cutting.layers).with_paper(cover.before or 0)
    words, kit, text = cover.words, cover.kit, cover.sets.text
    kinds = sum(1 for count in kit.pieces.counts if count)
    held = glue(cover.sheets)
    said = {
        "card": words.count("cover.card_sheets", takes.card) if takes.card else "",
        "paper": words.count("cover.paper_sheets", takes.paper),
        "scissors": _scissors(cover) if takes.cuts else "",
        "glue": words(f"cover.{held}") if held else "",
        "envelope": words.count("cover.envelopes", kinds) if kinds else "",
        "time": _time(cover, takes) if takes.cuts else "",
    }
    strip = wrapped([_need(*one, text) for one in said.items() if one[1]], cover.width, 2.4, 1.6)
    if takes.card:  # what will do in place of card and, where pieces are packed, of envelopes
        without = words("cover.without") + (f" {words('cover.cups')}" if kinds else "")
        besides = _besides(cover)
        if not cover.wide:  # a line less
            without, besides = f"{without} {besides}".strip(), ""
        strip = stack((strip, lines(without, cover.sets.least, cover.width)), 1.4)
        strip = stack((strip, lines(besides, text, cover.width)), 0.6) if besides else strip
    high = strip.height + 4.4
    ruled = rule(cover.width, "rule")
    items = (*ruled.items, *strip.at(0, 2.2), *ruled.at(0, high))
    return Block(items, cover.width, high + 0.01)


def _besides(cover: Cover) -> str:
    """Return what each child needs for cards that ask to lay pieces, where none are in here.

    And which of the sums are only written, as they would need thousands.
    """
    kit, words = cover.kit, cover.words
    if kit.pieces.value:
        return ""
    tasks = [task for pack in kit.packs for task in pack.tasks]
    shown = built(tasks)
    sums = {*shown}
    for pack in kit.packs:
        sums |= {one.sum for one in pack.said if isinstance(one, StoryCard)}
        facts = () if words.scale.decimals else pack.facts  # they are of whole numbers
        sums |= {Sum(one.fact.whole, one.fact.part) for one in facts}
    if not sums:
        return ""
    written = shown and any(task.sum.with_pieces and task.sum not in sums for task in tasks)
    key = "cover.besides_pieces" if kit.mats else "cover.besides"
    said = words(key, pieces=phrases.pieces(words, stock(sums)))
    return f"{said} {words('cover.only_written')}" if written else said


def _scissors(cover: Cover) -> str:
    """Return scissors, and a pencil where a page is written on."""
    written = any(sheet.kind not in UNWRITTEN for sheet in cover.sheets)
    return cover.words("cover.scissors" if written else "cover.scissors_alone")


def _time(cover: Cover, takes: Estimate) -> str:
    """Return how long cutting takes, and folding where there are thousands."""
    cut, fold = takes.whole_minutes, takes.fold_minutes
    if takes.folded:
        return cover.words("cover.cut_and_fold", cut=cut, fold=fold)
    return cover.words("cover.minutes", count=cut)


def _need(name: str, said: str, text: Setting) -> Block:
    """Return one thing that is needed: its pictogram, its words at the right in two lines."""
    words = said.split(" ")
    halves = [(" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words))]
    room = min((max(wide(one, text) for one in two) for two in halves), default=0.0)
    broken = lines(said, text, max(room, *(wide(word, text) for word in words)) + 0.01)
    used = max(item.rect.right for item in broken.items)
    return beside(pictogram(name, _SIDE), broken.as_wide(used), 1.8)
