"""What comes after a week: other sums the pieces can do, the next kind, coming back later."""

from collections.abc import Iterator, Sequence
from random import Random

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Advice
from kitbuilder.kit.course.plan_words import rung_said
from kitbuilder.kit.records import Block, Say
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.course.fitting import NoSumError, Wanted, draw, suits
from kitbuilder.number.course.rungs import LADDER, Rung, rung_of
from kitbuilder.number.course.schedule import LESSONS

EXAMPLES = 6
"""Sums listed of each kind that the pieces can do."""


def onward(done: Sequence[Sum], pieces: Pieces, words: Words, *, checked: bool = False) -> Advice:
    """Return the page for when the sums ``done`` have gone well, with ``pieces`` at hand.

    Where they end in a readiness check (``checked``), it says how that is done.
    """
    rung = rung_of(done[0]) if done else None
    blocks: list[Block] = [
        Say("title", words("onward.title")),
        Say("heading", words("onward.more")),
        *(Say("body", line) for line in reach_said(pieces, words)),
        *_examples(done, pieces, words),
        Say("heading", words("onward.on")),
        *(Say("step", line, "–") for line in words.lines("onward.on_lines")),
        *_next(rung, pieces, words),
        *(_check(words) if checked else ()),
        Say("heading", words("onward.back")),
        *(Say("step", line, "–") for line in words.lines("onward.back_lines")),
    ]
    return Advice("onward", tuple(blocks), reader="kit")


def _check(words: Words) -> Iterator[Block]:
    yield Say("heading", words("plan.check"))
    for number, line in enumerate(words.lines("plan.check_steps"), 1):
        yield Say("step", line, f"{number}.")


def reach_said(pieces: Pieces, words: Words) -> Iterator[str]:
    """Yield in plain words which sums ``pieces`` can do: all those, and no others."""
    plain = Pieces(*(min(9, count) for count in pieces.counts))
    yield words("onward.any", pieces=phrases.pieces(words, plain))
    larger = next((k for k in range(len(PLACES) - 1, 0, -1) if pieces.counts[k]), 0)
    for place in range(larger):
        most = pieces.counts[place] - 10
        if most < 0:
            yield words("onward.never", place=words(f"place.{PLACES[place]}"))
        elif most < 9:
            count = phrases.count(words, place, most)
            yield words("onward.short", place=words(f"place.{PLACES[place]}"), count=count)


def _examples(done: Sequence[Sum], pieces: Pieces, words: Words) -> Iterator[Block]:
    random = Random(1)
    for rung in LADDER:
        found: list[Sum] = []
        while len(found) < EXAMPLES:
            try:
                new = draw(rung, "pieces", pieces, random, _besides((*found, *done)))
            except NoSumError:
                break
            found.append(new)
        if found:
            listed = ", ".join(str(sum_).replace(" ", "\xa0") for sum_ in found)
            said = words("plan.line", kind=rung_said(rung, words), items=listed)
            yield Say("step", said, "–")


def _besides(known: Sequence[Sum]) -> Wanted:
    return lambda sum_: sum_ not in known


def _next(rung: Rung | None, pieces: Pieces, words: Words) -> Iterator[Block]:
    """Yield what the next kind of sum is, with the sum that opens it."""
    if rung is None or rung == LADDER[-1]:
        return
    after = LADDER[LADDER.index(rung) + 1]
    first = next((s for s in LESSONS if rung_of(s) == after), None)
    if first is None or not suits(first, after, "pieces", pieces):
        try:
            first = draw(after, "pieces", pieces, Random(1), lambda _: True)
        except NoSumError:
            yield Say("step", words("onward.next_more", kind=rung_said(after, words)), "–")
            return
    yield Say("step", words("onward.next", kind=rung_said(after, words), sum=first), "–")
