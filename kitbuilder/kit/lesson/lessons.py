"""Turns a kit's sums into the adult's guide: a page a stage, every picture from the steps."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.lesson.scenes import scenes, short_scene
from kitbuilder.kit.lesson.script import Taught, taught
from kitbuilder.kit.lesson.strips import Strips, strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.kit.records import Blanks, Block, Say, Scene, Shown
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.steps import Act, Step, short_place, steps
from kitbuilder.number.written import columns_after

PROGRESS_ROWS = 20
"""Rows of the progress page."""

_IN_THREE = (Act.TAKE, Act.PARTS, Act.TOGETHER)
"""What is done otherwise on a mat with a zone for what is left."""


def guide(
    sums: Sequence[Sum], words: Words, arrangement: Arrangement = "two"
) -> tuple[tuple[Block, ...], ...]:
    """Return the guide's stages, each of which begins a page; the first lesson is the first sum's.

    Each further kind of sum with an exchange has a lesson at the end, for when it is ready.
    Pictures show a mat of that ``arrangement``.
    """
    first = sums[0]
    return (
        (taught(first, words("guide_pages.first", sum=first), words, arrangement),),
        (writing(sums, words, arrangement),),
        (wrong_page(sums, words, arrangement),),
        *((lesson,) for lesson in _further(sums, words, arrangement)),
    )


def _further(
    sums: Sequence[Sum], words: Words, arrangement: Arrangement
) -> Iterator[Taught | Strips]:
    """Yield what teaches the first sum of each kind after that of the first sum.

    An exchange across a zero has a lesson of its own; the other kinds are strips together.
    """
    seen = {(sums[0].places, pattern(sums[0]).name)}
    shown: list[tuple[Sum, str]] = []
    lessons: list[Taught] = []
    for sum_ in sums[1:]:
        kind = (sum_.places, pattern(sum_).name)
        if kind in seen or not pattern(sum_).receives:
            continue
        seen.add(kind)
        title = words(f"guide_pages.kind_{kind[1]}", sum=sum_)
        if kind[1] == "across-zero":
            lessons.append(taught(sum_, title, words, arrangement))
        else:
            shown.append((sum_, title))
    if shown:
        yield strips(shown, words, arrangement)
    yield from lessons


def progress(words: Words) -> tuple[Block, ...]:
    """Return the page on which an adult notes how it goes."""
    keys = ("date", "stage", "right", "of", "counted", "note")
    headings = tuple(words(f"progress.{key}") for key in keys)
    return (
        Say("title", words("title.progress")),
        *(Say("step", line, "–") for line in words.lines("progress.how")),
        Blanks(headings, PROGRESS_ROWS),
    )


def lesson_steps(sum_: Sum, words: Words, arrangement: Arrangement = "two") -> tuple[Shown, ...]:
    """Return the first lesson with ``sum_``, step by step, with pictures."""
    found = list(_lesson_steps(sum_, words, arrangement))
    return tuple(replace(shown, marker=f"{n}.") for n, shown in enumerate(found, 1))


def _writing(sum_: Sum, words: Words, arrangement: Arrangement) -> tuple[Block, ...]:
    return (
        Say("title", words("guide.write", sum=sum_)),
        Say("body", words("guide.write_lead")),
        *_writing_steps(sum_, words, arrangement),
    )


def _lesson_steps(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[Shown]:
    done = steps(sum_)
    drawn = scenes(done, arrangement)
    looked: set[int] = set()
    for position, (step, scene) in enumerate(zip(done, drawn, strict=True)):
        if step.act is Act.EXCHANGE:
            short = short_place(done[position:])
            if short not in looked:
                looked.add(short)
                yield _look(sum_, drawn[position - 1], short, words)
        act, in_three = step.act.value, arrangement != "two" and step.act in _IN_THREE
        key = f"lesson.{act}_three" if in_three else f"lesson.{act}"
        said = words.lines(key, **_slots(step, sum_, words))
        yield Shown(_labelled(scene, step.act, words), said)


def _look(sum_: Sum, before: Scene, place: int, words: Words) -> Shown:
    needed = digits(sum_.part, sum_.places)[place]
    said = words.lines(
        "lesson.look",
        count=phrases.count(words, place, needed),
        held=phrases.count(words, place, before.whole.counts[place]),
        place=words(f"place.{PLACES[place]}"),
    )
    return Shown(short_scene(before, place, needed), said)


def _labelled(scene: Scene, act: Act, words: Words) -> Scene:
    whole, part, left = (words(f"scene.{key}") for key in ("whole", "part", "left"))
    if scene.arrangement != "two" and act in (Act.BUILD, Act.PARTS):
        return replace(scene, whole_label=whole, part_label=part, rest_label=left)
    if act is Act.BUILD:
        return replace(scene, whole_label=whole, part_label=part)
    if act is Act.PARTS:
        return replace(scene, whole_label=left, part_label=part)
    if act is Act.CHECK:
        return replace(scene, whole_label=whole)
    return scene


def _writing_steps(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[Shown]:
    done = steps(sum_)
    drawn, written = scenes(done, arrangement), columns_after(sum_, done)
    number = 0
    for position, step in enumerate(done):
        if step.act not in (Act.BUILD, Act.EXCHANGE, Act.TAKE, Act.PARTS):
            continue
        number += 1
        now = written[position]
        slots, act = _slots(step, sum_, words), step.act.value
        if step.place is not None:
            slots["place"] = words(f"place.{PLACES[step.place]}")
            slots["digit"] = now[step.place].answer
            slots["left"] = phrases.count(words, step.place, step.table.whole.counts[step.place])
        if step.act is Act.EXCHANGE and step.place is not None:
            slots["source_mark"] = now[step.place + 1].marks[-1]
            slots["target_mark"] = now[step.place].marks[-1]
            slots["source_place"] = words(f"place.{PLACES[step.place + 1]}")
        if step.act is Act.TAKE and slots["digit"] is None:
            act = "take_none"
        said = words.lines(f"writing.{act}", **slots)
        yield Shown(_labelled(drawn[position], step.act, words), said, f"{number}.", now)


def _slots(step: Step, sum_: Sum, words: Words) -> dict[str, object]:
    slots: dict[str, object] = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    slots["pieces"] = phrases.pieces(words, step.table.whole)
    if step.place is not None:
        slots["count"] = phrases.count(words, step.place, step.count)
        slots["place"] = words(f"place.{PLACES[step.place]}")
        slots |= phrases.swap(words, step.place + 1)
    return slots
