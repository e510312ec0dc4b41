"""The least kit that can teach one sum tonight."""

from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.lesson.script import Asked, LessonStep, Taught, brief, taught
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import Kit
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.stock import stock


def mini_contents(sum_: Sum, mats: MatWish, cards: CardWishes, words: Words) -> Kit:
    """Return the pieces, the mats and the steps of the lesson for ``sum_`` alone.

    Its help is what to do about a wrong answer, and when to go on.
    """
    return Kit(
        sums=(sum_,),
        limit=None,
        pieces=stock([sum_]),
        mats=mats,
        exchange_cards=(),
        packs=(),
        cards=cards,
        guide=(_lesson(sum_, mats, words),),
        help=_help(sum_, words),
    )


def _lesson(sum_: Sum, mats: MatWish, words: Words) -> Taught:
    """Return the lesson under its short title, with few questions."""
    lesson = taught(sum_, words("mini.title"), words, mats.arrangement)
    return replace(lesson, steps=tuple(_shorter(step, sum_, words) for step in lesson.steps))


def _shorter(step: LessonStep, sum_: Sum, words: Words) -> LessonStep:
    """Return ``step`` without the guess, and told only in which order exchanges go back.

    Where both parts are read, it has one question for both.
    """
    step = brief(step)
    if "build" in step.cues:
        return replace(step, asked=step.asked[:1])
    if step.cues == ("push",):  # the next picture has the answer
        return replace(step, asked=(Asked(step.asked[0].asks),))
    if step.title in (words("script.read"), words("script.read_apart")):
        title = words("mini.read", rest=sum_.rest, part=sum_.part)
        return replace(step, title=title, asked=(Asked(words("mini.read_asks")),))
    return step


def _help(sum_: Sum, words: Words) -> tuple[str, ...]:
    """Return what to do about the likeliest mistake and wrong answers, and when to go on.

    The most needed comes first: the last is left out first where there is no room.
    """
    said = [words("mini.wrong"), words("mini.on")]
    turned = dict(shown(sum_.whole, sum_.part)).get("turned")
    if turned is not None:
        said.insert(0, words("mini.turned", answer=sum_.number(turned), whole=sum_.whole))
    return tuple(said)
