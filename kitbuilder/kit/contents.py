"""Turns a request into the contents of a kit: how many of each piece, which cards, which guide."""

from kitbuilder.design.load import Words
from kitbuilder.kit.card_packs import kit_pack, pupil_packs
from kitbuilder.kit.card_records import CardWishes, Pupil
from kitbuilder.kit.lessons import guide, progress
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.plan_page import plan_pack, plan_page
from kitbuilder.kit.records import ExchangeCard, Kit
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.course.schedule import Task
from kitbuilder.number.stock import stock, stock_within


def contents(
    sums: tuple[Sum, ...],
    limit: int | None,
    extra: Pieces,
    mats: MatWish,
    parts: tuple[str, ...],
    example: Sum,
    words: Words,
    cards: CardWishes = CardWishes(),
    pupils: tuple[Pupil, ...] = (),
    plan: tuple[Task, ...] = (),
) -> Kit:
    """Return what the kit for ``sums``, and for every sum below ``limit``, holds.

    ``extra`` are pieces wanted whatever the sums. Only the named ``parts`` ("pieces",
    "mats", "cards", "guide", "progress") are filled. ``example`` is the guide's sum when
    there are none.
    ``cards`` says what cards are wished for; each of ``pupils`` gets a pack of their own.
    With a ``plan``, whose sums ``sums`` are, the cards are the plan's, and it has
    a page and one to note progress on.
    """
    asked = tuple(task.sum for pupil in pupils for task in pupil.tasks)
    needed = stock((*sums, *asked)).most(stock_within(limit) if limit else Pieces()).most(extra)
    has_cards = "cards" in parts
    has_exchange = has_cards and "exchange" in cards.kinds
    packs = pupil_packs(pupils, cards, words) if pupils else (kit_pack(sums, cards, words),)
    if plan:
        packs = (plan_pack(plan, cards, words),)
    return Kit(
        sums=sums,
        limit=limit,
        pieces=needed if "pieces" in parts else Pieces(),
        mats=mats if "mats" in parts else None,
        exchange_cards=_exchange_cards(needed, words) if has_exchange else (),
        packs=packs if has_cards else (),
        cards=cards,
        guide=guide(sums or (example,), words, mats.arrangement) if "guide" in parts else (),
        progress=progress(words) if "progress" in parts or plan else (),
        plan=plan_page(plan, words) if plan else (),
    )


def _exchange_cards(needed: Pieces, words: Words) -> tuple[ExchangeCard, ...]:
    return tuple(
        ExchangeCard(place, words(f"exchange.{PLACES[place]}"))
        for place in (2, 1)
        if needed.counts[place]
    )
