"""Pages for adults alone: learned differently, a parents' evening, a lesson with a class."""

from collections.abc import Iterator
from random import Random

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Advice
from kitbuilder.kit.lesson.scenes import scenes
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.kit.records import Blanks, Block, Say, Shown
from kitbuilder.number import Sum
from kitbuilder.number.course.fitting import NoSumError, draw
from kitbuilder.number.course.rungs import rung_of
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.steps import Act, steps
from kitbuilder.number.stock import stock
from kitbuilder.number.written import columns_after

WATCHED = 6
"""Rows for names to watch in a lesson with a class."""


def differently(words: Words) -> Advice:
    """Return the page for adults who learned another way.

    Equal adding was found surer (Murray, second-hand) and harder to explain (Brownell & Moser,
    second-hand), so no way is called better.
    """
    blocks: list[Block] = [Say("title", words("differently.title"))]
    blocks += (Say("body", line) for line in words.lines("differently.lead"))
    for key in ("equal", "up", "show", "home"):
        blocks.append(Say("heading", words(f"differently.{key}")))
        blocks += (Say("step", line, "–") for line in words.lines(f"differently.{key}_lines"))
    return Advice("differently", tuple(blocks))


def evening(sum_: Sum, words: Words, arrangement: Arrangement = "two") -> Advice:
    """Return the page for a parents' evening: two minutes, with the pictures of ``sum_``."""
    shown = sum_ if exchanges(sum_) else LESSONS[0]
    blocks: list[Block] = [
        Say("title", words("evening.title")),
        Say("body", words("evening.lead")),
        *_pictures(shown, words, arrangement),
        Say("heading", words("evening.home")),
        *(Say("step", line, "–") for line in words.lines("evening.home_lines")),
    ]
    return Advice("evening", tuple(blocks), when="now")


def _pictures(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[Shown]:
    """Yield four pictures: built, exchanged, both parts with what is written, pushed together."""
    done = steps(sum_)
    drawn, written = scenes(done, arrangement), columns_after(sum_, done)
    slots = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    acts = (Act.BUILD, Act.EXCHANGE, Act.PARTS, Act.TOGETHER)
    for number, act in enumerate(acts, 1):
        at = next(k for k, step in enumerate(done) if step.act is act)
        said = words.lines(f"evening.{act.value}", **slots, **phrases.swap(words, _source(sum_)))
        columns = written[at] if act is Act.PARTS else ()
        yield Shown(drawn[at], said, f"{number}.", columns)


def _source(sum_: Sum) -> int:
    return exchanges(sum_)[0].source


def outline_page(sum_: Sum, words: Words) -> Advice:
    """Return the outline of a lesson with a class on ``sum_``: times, questions, groups."""
    needs = stock([sum_])
    slots = {"sum": sum_, "pieces": phrases.pieces(words, needs)}
    blocks: list[Block] = [Say("title", words("outline.title", sum=sum_))]
    blocks += (Say("body", line) for line in words.lines("outline.aim", **slots))
    blocks.append(Say("heading", words("outline.times")))
    for number, line in enumerate(words.lines("outline.steps", **slots), 1):
        blocks.append(Say("step", line, f"{number}."))
    blocks.append(Say("heading", words("outline.questions")))
    blocks += (Say("step", line, "–") for line in words.lines("outline.question_lines", **slots))
    blocks.append(Say("heading", words("outline.groups")))
    blocks += (
        Say("step", line, "–") for line in words.lines("outline.group_lines", exit=_exit(sum_))
    )
    blocks.append(Blanks(words.lines("outline.watch"), WATCHED))
    return Advice("outline", tuple(blocks), when="now")


def _exit(sum_: Sum) -> Sum:
    """Return a sum of the kind of ``sum_`` to end with, for which its pieces suffice."""
    rung = rung_of(sum_)
    if rung is None:
        return sum_
    try:
        return draw(rung, "both", stock([sum_]), Random(2), lambda s: s.whole != sum_.whole)
    except NoSumError:
        return sum_
