"""Strips: what is new in a kind of sum, in a few small pictures beside the first lesson."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.script import NOTHING, Asked, Beside, LessonStep, script
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import Sum


@frozen
class Strip:
    """One kind of sum: its title, and the steps in which pieces are exchanged and taken out."""

    title: str
    steps: tuple[LessonStep, ...]


@frozen
class Strips:
    """The strips of a kit on pages of their own, under a title and what is said of them all."""

    title: str
    lead: str
    strips: tuple[Strip, ...]
    end: str


def strips(
    titled: Sequence[tuple[Sum, str]],
    words: Words,
    arrangement: Arrangement = "two",
    beside: Beside = NOTHING,
) -> Strips:
    """Return a strip for each sum under its title; words name what lies ``beside``."""
    found = tuple(Strip(title, tuple(_moves(s, words, arrangement))) for s, title in titled)
    lead = "strips.lead_cards" if beside.cards else "strips.lead"
    return Strips(words("strips.title"), words(lead), found, words("strips.end"))


def _moves(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[LessonStep]:
    """Yield the exchanges and takings of ``sum_``, each with one question."""
    for step in script(sum_, words, arrangement):
        if "fetch" not in step.cues and "take" not in step.cues:
            continue
        asked = step.asked[-1]
        if asked.asks == words("script.still", whole=sum_.whole):
            asked = replace(asked, says=words("script.back_says"))
        if "read" in step.cues:
            asked = Asked(words("script.take_all_asks"), f"{sum_.rest}.")
        yield replace(step, scene=counted(step.scene), asked=(asked,))
