"""Turns one sum into the least kit that can teach it tonight."""

from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.card_packs import task_card
from kitbuilder.kit.card_records import CardWishes, Pack, Task
from kitbuilder.kit.lesson.lessons import lesson_steps
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import Kit, Say, Shown
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.stock import stock


def mini_contents(sum_: Sum, mats: MatWish, cards: CardWishes, words: Words) -> Kit:
    """Return the pieces, the mats, the card and the steps of the lesson for ``sum_`` alone.

    The guide's second stage is what to do about a wrong answer, and when to go on.
    """
    card = task_card(Task(sum_, cards.stage), replace(cards, backs="separate"), words)
    return Kit(
        sums=(sum_,),
        limit=None,
        pieces=stock([sum_]),
        mats=mats,
        exchange_cards=(),
        packs=(Pack(tasks=(card,)),),
        cards=cards,
        guide=(_steps(sum_, mats, words), _help(sum_, words)),
        progress=(),
    )


def _steps(sum_: Sum, mats: MatWish, words: Words) -> tuple[Shown, ...]:
    """Return the lesson's steps; what the last one says is said with the one before."""
    *found, before, last = lesson_steps(sum_, words, mats.arrangement)
    return (*found, replace(before, said=(*before.said, *last.said)))


def _help(sum_: Sum, words: Words) -> tuple[Say, ...]:
    """Return what to do about turned digits and wrong answers, and when to go on.

    The most needed comes first: the last is left out first where there is no room.
    """
    said = [words("mini.wrong"), words("mini.on")]
    turned = dict(shown(sum_.whole, sum_.part)).get("turned")
    if turned is not None:
        place = pattern(sum_).short[0]
        count = phrases.count(words, place, digits(sum_.part, sum_.places)[place])
        name = words(f"place.{PLACES[place]}")
        slots = {"answer": turned, "whole": sum_.whole, "count": count, "place": name}
        said.insert(0, words("mini.turned", **slots))
    return tuple(Say("step", one, "–") for one in said)
