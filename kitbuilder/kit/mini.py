"""Turns one sum into the least kit that can teach it tonight."""

from dataclasses import replace

from kitbuilder.designs import Words
from kitbuilder.kit.card_records import CardWishes, Pack, Task
from kitbuilder.kit.cards import task_card
from kitbuilder.kit.guide import lesson_steps
from kitbuilder.kit.mats import MatWish
from kitbuilder.kit.records import Kit, Shown
from kitbuilder.number import Sum
from kitbuilder.number.stock import stock


def mini_contents(sum_: Sum, mats: MatWish, cards: CardWishes, words: Words) -> Kit:
    """Return the pieces, the mats, the card and the steps of the lesson for ``sum_`` alone."""
    card = task_card(Task(sum_, cards.stage), replace(cards, backs="separate"), words)
    return Kit(
        sums=(sum_,),
        limit=None,
        pieces=stock([sum_]),
        mats=mats,
        exchange_cards=(),
        packs=(Pack(tasks=(card,)),),
        cards=cards,
        guide=(_steps(sum_, mats, words),),
        progress=(),
    )


def _steps(sum_: Sum, mats: MatWish, words: Words) -> tuple[Shown, ...]:
    """Return the lesson's steps; what the last one says is said with the one before."""
    *found, before, last = lesson_steps(sum_, words, mats.arrangement)
    return (*found, replace(before, said=(*before.said, *last.said)))
