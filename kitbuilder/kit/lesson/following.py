"""A lesson that follows another: its pictures show what is new, words what is known."""

from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit.lesson.script import Asked, LessonStep, Seen, Taught, brief

_NEW = 4
# The moves that a page shows between building and the check.


def following(lesson: Taught, before: Taught, words: Words) -> Taught:
    """Return ``lesson`` without pictures of what goes as in the one ``before``.

    That is building, pushing together and exchanging back. Returned whole where it is longer, or
    goes back another way.
    """
    build, *moves, read, push, back = lesson.steps
    alike = lesson.places == before.places and back.cues == before.steps[-1].cues
    if not alike or len(moves) != _NEW or read.cues != ("read",):
        return lesson
    look, opened, exchanged, take = moves
    known = Asked(build.asked[0].asks)
    build = replace(brief(build), asked=(known,), cues=("build",))
    steps = (brief(look), opened, exchanged, *_parted(take, read, words))
    closes = _closing(push, back, before, words)
    note = words("guide_pages.pieces_alone")
    return replace(lesson, note=note, steps=steps, opens=build, closes=closes)


def _parted(take: LessonStep, read: LessonStep, words: Words) -> tuple[LessonStep, ...]:
    """Return taking out and reading both parts: one step, unless what is left moves between."""
    if read.scene.apart:
        return take, replace(read, asked=read.asked[:1])
    title, cues = words("strips.read", take=take.title), take.cues + read.cues
    return (replace(take, title=title, asked=read.asked[:1], cues=cues),)


def _closing(push: LessonStep, back: LessonStep, before: Taught, words: Words) -> LessonStep:
    """Return the check in one step: it goes as ``before``, and what comes of it."""
    last = len(before.steps)
    known = words("strips.as_in", first=last - 1, last=last, whole=back.scene.outcome)
    title, seen = words("strips.check"), Seen(before.title, (last - 1, last))
    return replace(back, title=title, told=known, asked=(), cues=push.cues + back.cues, seen=seen)
