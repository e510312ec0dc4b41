"""A lesson that follows another: its pictures show what is new, words what is known."""

from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit.lesson.script import Asked, LessonStep, Seen, Taught
from kitbuilder.number import Sum

_NEW = 4
# The moves that a page shows between building and the check.


def following(lesson: Taught, sum_: Sum, before: Taught, words: Words) -> Taught:
    """Return ``lesson`` with ``sum_`` without pictures of what goes as in the one ``before``.

    That is building, pushing together and exchanging back. Returned whole where it is longer, or
    goes back another way.
    """
    build, *moves, read, push, back = lesson.steps
    alike = lesson.places == before.places and back.cues == before.steps[-1].cues
    if not alike or len(moves) != _NEW or read.cues != ("read",):
        return lesson
    look, opened, exchanged, take = moves
    asks = (Asked(words("script.build_asks", part=sum_.part)),)
    build = replace(build, asked=asks, cues=("build",))
    title = words("strips.read", take=take.title)
    last = replace(take, title=title, asked=read.asked[:1], cues=take.cues + read.cues)
    steps = (look, opened, exchanged, last)
    closes = _closing(push, back, before, words)
    note = words("guide_pages.pieces_alone")
    return replace(lesson, note=note, steps=steps, opens=build, closes=closes)


def _closing(push: LessonStep, back: LessonStep, before: Taught, words: Words) -> LessonStep:
    """Return the check in one step: it goes as ``before``, and what comes of it."""
    last = len(before.steps)
    known = words("strips.as_in", first=last - 1, last=last, whole=back.scene.outcome)
    title, seen = words("strips.check"), Seen(before.title, (last - 1, last))
    return replace(back, title=title, told=known, asked=(), cues=push.cues + back.cues, seen=seen)
