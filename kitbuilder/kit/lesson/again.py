"""A wrong sum done again with pieces: its steps, and which of them show where it went wrong."""

from dataclasses import replace
from itertools import pairwise

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.mistaken import ACROSS_ZERO, HANDED_IN, READ
from kitbuilder.kit.lesson.moments import Mat, taking
from kitbuilder.kit.lesson.script import LessonStep, script
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.one_out import OUT_BY
from kitbuilder.number.steps import Act, Step, steps


@frozen
class Again:
    """The steps of a sum from the first look to what is left; ``at`` is the one to look at.

    There the mistake shows: the exchange or the taking of the mistaken column. What comes ``later``
    is to push both parts together and to exchange back: a slip shows there, and whether all was
    right. The first also tells what to build, which no picture shows.
    """

    steps: tuple[LessonStep, ...]
    at: int
    later: tuple[LessonStep, ...] = ()

    def window(self, count: int) -> tuple[LessonStep, ...]:
        """Return so many steps in a row, to what is left where the mistake is among them.

        Else as many as can be before what follows the mistake.
        """
        end = len(self.steps) - 1
        last = end if end - self.at < count else self.at + 1
        start = max(0, last - count + 1)
        return self.steps[start : start + count]

    def moved(self) -> "Again":
        """Return this with the last step among what comes later, if nothing moves in it."""
        *others, last = self.steps
        if last.scene.moves or self.at == len(others):
            return self
        return replace(self, steps=tuple(others), later=(last, *self.later))


def again(sum_: Sum, answer: int, key: str, place: int | None, words: Words) -> Again:
    """Return ``sum_``, answered ``answer``, with pieces; ``place`` is the column of ``key``."""
    found = list(script(sum_, words))
    end = next(k for k, step in enumerate(found) if "push" in step.cues)
    done = steps(sum_)
    acts = [done[a.done : b.done] for a, b in pairwise(found[:end])]
    shown = [replace(s, title=s.move) if {"take", "read"} <= {*s.cues} else s for s in found]
    kept = _joined(shown[1:end], acts, sum_, words)
    *pushed, last = found[end:]
    asks = words("child_page.whole_again", whole=sum_.whole)
    later = (*pushed, replace(last, move=f"{last.title} {asks}"))
    first, *others = (step for step, _ in kept)
    opening = replace(
        first,
        title=f"{found[0].title} {first.move or first.title}",
        scene=_just_built(first.scene),
        move="",
    )
    told = Again((opening, *others), len(kept) - 1, later)
    for act, column in _wanted(sum_, answer, key, place):
        for k, (_, made) in enumerate(kept):
            if any(step.act is act and column in (step.place, None) for step in made):
                return replace(told, at=k)
    return told


def _just_built(scene: MatScene) -> MatScene:
    """Return ``scene`` with the whole as it was just laid, if nothing moves yet."""
    if not all(move.asks for move in scene.moves):
        return scene
    zones = (
        replace(z, piles=tuple(replace(p, here=0, new=p.here) for p in z.piles))
        if z.role == "whole"
        else z
        for z in scene.zones
    )
    return replace(scene, zones=tuple(zones))


def _joined(
    shown: list[LessonStep], acts: list[tuple[Step, ...]], sum_: Sum, words: Words
) -> list[tuple[LessonStep, tuple[Step, ...]]]:
    """Return ``shown`` with their ``acts``; the takings, where all stand in a row, as one."""
    kept = list(zip(shown, acts, strict=True))
    done = steps(sum_)
    takes = [k for k, step in enumerate(done) if step.act is Act.TAKE]
    if len(takes) < 2 or takes != list(range(takes[0], takes[-1] + 1)):
        return kept
    made = done[takes[0] : takes[-1] + 1]
    scene = taking(done[takes[0] - 1], made, Mat.of(sum_, "two", words))
    title = words("script.take", count=sum_.part)
    at = next(k for k, (_, some) in enumerate(kept) if any(s.act is Act.TAKE for s in some))
    after = [pair for pair in kept[at:] if not any(s.act is Act.TAKE for s in pair[1])]
    return [*kept[:at], (LessonStep(title, scene, "", ()), made), *after]


def _wanted(
    sum_: Sum, answer: int, key: str, place: int | None
) -> tuple[tuple[Act, int | None], ...]:
    """Return the acts at which the mistake may show, the likeliest first.

    What went wrong in handing in shows at the exchange into the column before the wrong digit;
    across a zero at the exchange that opens it; in reading at what is left; all else where the
    wrong column is filled, or taken from.
    """
    wrong = next((k for k in range(5) if _digit(answer, k) != _digit(sum_.rest, k)), 0)
    short = place if place is not None else wrong
    if key in READ:
        return ((Act.PARTS, None),)
    if key == "slip" or key in OUT_BY:
        return (Act.TAKE, short), (Act.EXCHANGE, short), (Act.EXCHANGE, short - 1)
    if key == "zero-skipped":
        return (Act.EXCHANGE, wrong), (Act.EXCHANGE, None)
    if key in ACROSS_ZERO or (key in HANDED_IN and place is None and key != "handed-no-fetch"):
        return (Act.EXCHANGE, wrong - 1), (Act.EXCHANGE, wrong), (Act.TAKE, wrong)
    return (Act.EXCHANGE, short), (Act.EXCHANGE, short - 1), (Act.TAKE, short)


def _digit(number: int, place: int) -> int:
    digit: int = int(number) // 10**place % 10
    return digit
