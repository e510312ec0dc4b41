"""Exchanges that went wrong: the mat as the child left it, not as it should lie."""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.mat_scenes import Move, Pile
from kitbuilder.kit.lesson.moments import lying
from kitbuilder.kit.lesson.script import LessonStep

STILL_THERE = {
    "not-lowered": "wrong.not-lowered",
    "empty-not-lowered": "wrong.not-lowered",
    "zero-becomes-nine": "wrong.zero-becomes-nine",
}
"""Mistakes in which the piece that was to be handed in still lies there, and what says so."""


def fetched(held: Sequence[int], run: Sequence[int]) -> tuple[tuple[Pile, ...], Move]:
    """Return ten come to each place of ``run``, and nothing gone for them.

    In all but the last one of the ten is opened. ``held`` is what lay there, ones first.
    """
    piles = list(lying(held))
    place = run[0]
    for k in run:
        come = 10 if k == run[-1] else 9
        piles[k] = Pile(here=held[k], new=come, count=held[k] + come)
    if held[place + 1]:
        piles[place + 1] = replace(piles[place + 1], looped=True)
    return tuple(piles), Move(("whole", place + 1), ("whole", place), asks=True)


def mishandled(chain: Sequence[LessonStep], key: str, words: Words) -> LessonStep:
    """Return the first exchange of ``chain`` as the mistake ``key`` has it.

    In a chain each exchange opens a piece that the one before brought.
    """
    step, run = chain[0], [_target(one) for one in chain]
    held = _before(step)
    if key in STILL_THERE:
        piles, move = fetched(held, run)
        come = phrases.count(words, run[0], 10)
        still = phrases.count(words, run[0] + 1, held[run[0] + 1])
        piece = phrases.count(words, run[0] + 1, 1)
        title = words(STILL_THERE[key], come=come, still=still, piece=piece)
    else:
        piles, move = _moved(held, run, key)
        title = words(f"mistakes.{key}.happened")
    zones = tuple(
        replace(zone, piles=piles, note="") if zone.role == "whole" else zone
        for zone in step.scene.zones
    )
    return replace(step, title=title, scene=replace(step.scene, zones=zones, moves=(move,)))


def _moved(held: Sequence[int], run: Sequence[int], key: str) -> tuple[tuple[Pile, ...], Move]:
    """Return a piece handed in, and what came for it where: ``run`` are the places to fill."""
    piles, last = list(lying(held)), run[-1]
    source = len(held) - 1 if key == "from-leftmost" else run[0] + 1
    left = held[source] - 1
    piles[source] = Pile(here=left, gone=1, looped=True, count=left, before=held[source])
    if key != "handed-no-fetch":
        piles[last] = Pile(here=held[last], new=10, count=held[last] + 10)
    if key == "zero-becomes-ten":
        source = run[-2]
        for k in run[:-1]:
            piles[k] = Pile(new=10, looped=True, count=10)
    return tuple(piles), Move(("whole", source), ("whole", last), asks=True)


def _target(step: LessonStep) -> int:
    return step.scene.moves[0].target[1]


def _before(step: LessonStep) -> list[int]:
    """Return what lay in the whole's columns before ``step``."""
    (piles,) = (zone.piles for zone in step.scene.zones if zone.role == "whole")
    return [pile.here + pile.gone for pile in piles]
