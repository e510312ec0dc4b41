"""When to write: what a child can do before, and the marks of one sum, each beside its move."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.drawn_by_hand import Drawn, drawn
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile
from kitbuilder.kit.lesson.moments import settled
from kitbuilder.kit.lesson.script import LessonStep, script
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.scale import WHOLE, Scale
from kitbuilder.number.steps import Act, Step, steps
from kitbuilder.number.written import Column, columns_after

FOUR_PLACES = Sum(1132, 1014)
"""What is drawn for sums of four places: few pieces, a thousand among them."""


@frozen
class Parted:
    """What is left, moved to a zone of its own: what to do, and both parts, counted."""

    told: str
    scene: MatScene


@frozen
class WrittenMove:
    """One move with what is written at once: ``columns`` after it, ``before`` until then.

    Columns are those in which the sum has digits as it is written on ``scale``. After the last
    one both parts are ``parted``, where what is left has a zone; then comes what is ``told``.
    """

    title: str
    scene: MatScene
    columns: tuple[Column, ...]
    before: tuple[Column, ...]
    scale: Scale = WHOLE
    parted: Parted | None = None
    told: str = ""


@frozen
class Writing:
    """The page on when and how to write.

    ``ticks`` are what a child does before; ``moves`` the sum written move by move; at the end
    there are columns to write in, with ``headings``, ones first, and a sum drawn.
    """

    title: str
    lead: str
    ticks: tuple[str, ...]
    rule: str
    told: str
    moves: tuple[WrittenMove, ...]
    now: str
    now_told: str
    marks: str
    headings: tuple[str, ...]
    draw: str
    drawn: str
    drawing: tuple[Drawn, ...]
    draw_told: str


def writing(
    sums: Sequence[Sum],
    words: Words,
    arrangement: Arrangement = "two",
    *,
    week: bool = False,
    places: int = 0,
    every: bool = False,
) -> Writing:
    """Return the page with the first of ``sums``; with a ``week`` there are worksheets.

    The pieces show ``every`` sum that may be thought of, or else some are too large for them.

    Its columns are those of all sums, and at least so many ``places``.
    """
    most = max(2, places, *(sum_.places for sum_ in sums))
    letters = tuple(words(f"column.{place}") for place in PLACES[:most])
    shown = sums[0] if sums[0].places <= 3 else FOUR_PLACES
    asked = "now_sheet" if week else "now_any" if every else "now_card"
    now = words("write.now_told", write=words(f"write.{asked}"))
    if words.scale.decimals:  # nobody has met these letters before
        of = [(words(f"column.{place}"), words(f"place.{place}")) for place in PLACES[:most]]
        heads = ", ".join(f"{letter} {name}" for letter, name in reversed(of))
        now = f"{now} {words('write.heads', heads=heads)}"
    return Writing(
        title=words("write.title"),
        lead=words("write.lead"),
        ticks=words.lines("write.ticks"),
        rule=words("write.rule"),
        told=words("write.told"),
        moves=tuple(_moves(sums[0], words, arrangement)),
        now=words("write.now"),
        now_told=now,
        marks=words("write.marks"),
        headings=letters,
        draw=words("write.draw"),
        drawn=str(shown),
        drawing=drawn(shown),
        draw_told=_draw_told(most, words),
    )


def _draw_told(places: int, words: Words) -> str:
    """Return how numbers of so many ``places`` are drawn, the largest piece first."""
    told = [words("write.draw_told")]
    if places > 2:
        told.insert(0, words("write.draw_hundred"))
    if places > 3 and not words.scale.decimals:
        told.insert(0, words("write.draw_thousand"))
    return " ".join(told)


def _moves(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[WrittenMove]:
    done = steps(sum_)
    after = columns_after(sum_, done)
    before: tuple[Column, ...] = ()
    at, scale = 0, sum_.short().scale
    idle = sum_.scale.decimals - scale.decimals
    last = max((n for n, step in enumerate(done, 1) if step.act is Act.TAKE), default=0)
    lesson = script(sum_, words, arrangement)
    for step in lesson:
        if not {"build", "fetch", "take"} & set(step.cues):
            continue
        now = after[-1 if step.done == last else step.done - 1]
        written = [
            str(column.answer)
            for column, was in zip(now[idle:], (before or after[0])[idle:], strict=True)
            if column.answer is not None and was.answer is None
        ]
        title = _title(sum_, step, done[at : step.done], written, words)
        shown = settled(step.scene), now[idle:], before[idle:], scale
        if step.done >= last:
            back = "back" in lesson[-1].cues
            told = words("write.pushed_back" if back else "write.pushed", whole=sum_.whole)
            yield WrittenMove(title, *shown, _parted(lesson, words), told)
        else:
            yield WrittenMove(title, *shown)
        before, at = now, step.done


def _parted(lesson: Sequence[LessonStep], words: Words) -> Parted | None:
    """Return both parts as they lie in ``lesson`` before they are pushed together."""
    scene = next(step.scene for step in lesson if "read" in step.cues)
    if not scene.apart:
        return None
    zones = (
        replace(zone, piles=tuple(Pile(count=pile.count) for pile in zone.piles))
        for zone in scene.zones
        if zone.role != "whole"
    )
    return Parted(words("write.moved"), replace(scene, zones=tuple(zones)))


def _title(
    sum_: Sum, step: LessonStep, done: Sequence[Step], digits: Sequence[str], words: Words
) -> str:
    """Return what is done in ``step``, and which ``digits`` are written, ones first."""
    if "build" in step.cues:
        short = sum_.short()
        for number in (short.whole, short.part):
            filled = short.aligned(number).strip()
            if short.scale.decimals and filled != str(number):
                return words("write.build_filled", whole=sum_.whole, number=number, filled=filled)
        return words("write.build", whole=sum_.whole)
    if "fetch" in step.cues:
        return words("write.exchange")
    taken = [one for one in done if one.act is Act.TAKE]
    out = sum_.number(sum(one.count * 10 ** (one.place or 0) for one in taken))
    count = phrases.count(words, taken[0].place or 0, taken[0].count)
    slots = {"count": count if len(taken) == 1 else out}
    if not digits:
        return words("write.take_none", **slots)
    written = reduce(lambda first, then: words("write.then", first=first, then=then), digits)
    return words("write.take", **slots, digits=written)  # "7, 2" would be a number
