"""Turns a request into the contents of a kit: how many of each piece, which cards, which guide."""

from kitbuilder.designs import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.class_set import spare_pieces
from kitbuilder.kit.guide import guide, progress
from kitbuilder.kit.mats import MatWish
from kitbuilder.kit.records import Answer, CutWish, ExchangeCard, Kit, TaskCard
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.stock import stock, stock_within
from kitbuilder.number.written import columns


def contents(
    sums: tuple[Sum, ...],
    limit: int | None,
    extra: Pieces,
    mats: MatWish,
    parts: tuple[str, ...],
    example: Sum,
    words: Words,
    cutting: CutWish = CutWish(),
) -> Kit:
    """Return what the kit for ``sums``, and for every sum below ``limit``, holds.

    ``extra`` are pieces wanted whatever the sums. Only the named ``parts`` ("pieces",
    "mats", "cards", "guide") are filled. ``example`` is the guide's sum when there are none.
    ``cutting`` says how many kits there are, and how many pieces are added.
    """
    needed = stock(sums).most(stock_within(limit) if limit else Pieces()).most(extra)
    has_cards = "cards" in parts
    bag = needed if "pieces" in parts else Pieces()
    return Kit(
        sums=sums,
        limit=limit,
        pieces=bag,
        mats=mats if "mats" in parts else None,
        exchange_cards=_exchange_cards(needed, words) if has_cards else (),
        task_cards=tuple(_task_card(s, words) for s in sums) if has_cards else (),
        answers=tuple(_answer(s, words) for s in sums) if has_cards else (),
        guide=guide(sums or (example,), words) if "guide" in parts else (),
        progress=progress(words) if "guide" in parts else (),
        spares=spare_pieces(bag, cutting.kits, cutting.spares),
    )


def note(sum_: Sum) -> str | None:
    """Return the key of the note on why ``sum_`` teaches little, or None if it teaches."""
    if sum_.part == 0:
        return "answers.part_zero_note"
    if sum_.rest == 0:
        return "answers.part_whole_note"
    return None if exchanges(sum_) else "answers.no_exchange_note"


def _exchange_cards(needed: Pieces, words: Words) -> tuple[ExchangeCard, ...]:
    return tuple(
        ExchangeCard(place, words(f"exchange.{PLACES[place]}"))
        for place in (2, 1)
        if needed.counts[place]
    )


def _task_card(sum_: Sum, words: Words) -> TaskCard:
    lines = (
        words("task.build", whole=sum_.whole),
        words("task.take", part=sum_.part),
        words("task.left"),
        words("task.check"),
    )
    return TaskCard(sum_, lines)


def _answer(sum_: Sum, words: Words) -> Answer:
    made = [words("answers.swap", **phrases.swap(words, e.source)) for e in exchanges(sum_)]
    key = ("none", "one", "two", "three")[len(made)]
    slots = dict(zip(("first", "second", "third"), made, strict=False))
    teaches_little = note(sum_)
    lines = [words("answers.rest", rest=sum_.rest), words(f"answers.{key}", **slots)]
    if teaches_little:
        lines[1:] = [words(teaches_little)]
    return Answer(sum_, columns(sum_), tuple(lines))
