"""The adult's guide for a kit's sums: a page a stage, every picture from the steps."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.lesson.following import following
from kitbuilder.kit.lesson.script import NOTHING, Beside, Kind, Taught, taught
from kitbuilder.kit.lesson.strips import Strips, strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.kit.phrases import joined
from kitbuilder.kit.records import Lesson
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.exchange import exchanges


def guide(
    sums: Sequence[Sum],
    words: Words,
    arrangement: Arrangement = "two",
    beside: Beside = NOTHING,
) -> tuple[Lesson, ...]:
    """Return the guide: each of them begins a page; the first lesson is the first sum's.

    Each further kind of sum with an exchange has a lesson at the end, for when it is ready.
    Pictures show a mat of that ``arrangement``; words name what lies ``beside``.
    """
    first = sums[0]
    opening = taught(first, words("guide_pages.first", sum=first), words, arrangement, beside)
    return (
        replace(opening, lead=_set_up(first, opening.lead, beside, words)),
        writing(
            sums,
            words,
            arrangement,
            week=beside.week,
            places=beside.most,
            every=beside.every,
        ),
        wrong_page(sums, words, arrangement, beside.asked),
        *_further(sums, words, arrangement, beside),
    )


def _set_up(first: Sum, lead: str, beside: Beside, words: Words) -> str:
    """Return what is said first: where the exchange card lies, what stays empty on the mat.

    That are the places above those of the ``first`` sum, and decimal places that it is without.
    """
    said = [lead]
    if beside.cards and exchanges(first):
        said.append(words("guide_pages.bank_card"))
    below = first.scale.decimals - first.short().scale.decimals if beside.places else 0
    names = (*PLACES[:below], *PLACES[first.places : beside.places])
    if names:
        empty = [words(f"place.{name}") for name in names[::-1]]
        said.append(words("guide_pages.mat_more", places=joined(words, empty)))
    return " ".join(said)


def _further(
    sums: Sequence[Sum], words: Words, arrangement: Arrangement, beside: Beside
) -> Iterator[Taught | Strips]:
    """Yield what teaches the first sum of each kind after that of the first sum.

    An exchange across a zero has a lesson of its own; the other kinds are strips together. Where
    those are a lesson, the one across a zero shows what is new in it.
    """
    seen = {_kind(sums[0])}
    shown: list[tuple[Sum, str]] = []
    lessons: list[Taught] = []
    for sum_ in sums[1:]:
        kind = _kind(sum_)
        if kind in seen or not pattern(sum_).receives:
            continue
        seen.add(kind)
        three = kind[1] == "both" and len(pattern(sum_).receives) > 2
        title = words(f"guide_pages.kind_{'three' if three else kind[1]}", sum=sum_)
        if kind[1] == "across-zero":
            lesson = taught(sum_, title, words, arrangement, beside)
            lessons.append(replace(lesson, end=beside.end(sum_, words), kinds=(kind,)))
        else:
            shown.append((sum_, title))
    before = strips(shown, words, arrangement, beside) if shown else None
    if before:
        yield replace(before, kinds=tuple(_kind(sum_) for sum_, _ in shown))
    for lesson in lessons:
        yield following(lesson, before, words) if isinstance(before, Taught) else lesson


def _kind(sum_: Sum) -> Kind:
    return sum_.places, pattern(sum_).name


def taught_in(lessons: Sequence[Lesson]) -> dict[Kind, str]:
    """Return the title of the lesson in which each kind of sum after the first is taught."""
    further = (lesson for lesson in lessons if isinstance(lesson, Taught | Strips))
    return {kind: lesson.title for lesson in further for kind in lesson.kinds}
