"""Further kinds of sums: strips of small pictures; of several exchanges alone, a lesson."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.script import (
    NOTHING,
    Asked,
    Beside,
    Kind,
    LessonStep,
    Taught,
    script,
    taught,
)
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.choice.patterns import pattern


@frozen
class Strip:
    """One kind of sum: its title, its pictured steps, and the ``check`` that is told else."""

    title: str
    steps: tuple[LessonStep, ...]
    check: LessonStep | None = None


@frozen
class Strips:
    """The strips of a kit on pages of their own, under a title and what is said of them all.

    They teach the ``kinds`` of sums.
    """

    title: str
    lead: str
    strips: tuple[Strip, ...]
    end: str
    kinds: tuple[Kind, ...] = ()


Titled = tuple[Sum, str]
"""A sum, and the title of its strip."""


def strips(
    titled: Sequence[Titled],
    words: Words,
    arrangement: Arrangement = "two",
    beside: Beside = NOTHING,
) -> Strips | Taught:
    """Return a strip for each sum under its title; words name what lies ``beside``.

    A sum of several exchanges is shown from building to the check; alone it is a lesson. One
    that goes like it but for one exchange is told in a sentence.
    """
    whole = [some for some in titled if len(pattern(some[0]).short) > 1]
    like = {
        some: longer
        for some in titled
        for longer in whole
        if _left_out(some[0], longer[0]) is not None
    }
    ordered = [some for some in titled if some not in like]
    every = {some: tuple(_every_move(some[0], words, arrangement)) for some in whole}
    found = tuple(
        Strip(some[1], every[some]) if some in every else _short(some, words, arrangement)
        for some in ordered
    )
    if len(found) == 1 and every:
        return _alone(ordered[0], tuple(like), words, arrangement, beside)
    told = [_like(some[0], longer[0], every[longer], words) for some, longer in like.items()]
    lead = words("strips.lead_cards" if beside.cards else "strips.lead")
    return Strips(words("strips.title"), " ".join((lead, *told)), found, words("strips.end"))


def _alone(
    titled: Titled,
    like: Sequence[Titled],
    words: Words,
    arrangement: Arrangement,
    beside: Beside,
) -> Taught:
    """Return the lesson of a sum that is alone; sums that go ``like`` it are told."""
    sum_, title = titled
    lesson = taught(sum_, title, words, arrangement, beside)
    said = [lesson.lead]
    if beside.cards:
        said.append(words("guide_pages.bank_card"))
    said += (_like(some, sum_, lesson.steps, words) for some, _ in like)
    return replace(lesson, lead=" ".join(said), end=beside.end(sum_, words))


def _left_out(sum_: Sum, longer: Sum) -> int | None:
    """Return the place of the one exchange that ``longer`` has beside those of ``sum_``, if so."""
    own, other = pattern(sum_).receives, pattern(longer).receives
    if sum_.places != longer.places or not set(own) < set(other):
        return None
    (first, *more) = sorted(set(other) - set(own))
    return None if more else first


def _like(sum_: Sum, longer: Sum, steps: Sequence[LessonStep], words: Words) -> str:
    """Return how ``sum_`` goes: as ``longer`` in its ``steps``, but for one exchange."""
    place = _left_out(sum_, longer)
    assert place is not None
    fetches = [n for n, step in enumerate(steps, 1) if "fetch" in step.cues]
    step = fetches[pattern(longer).receives.index(place)]
    place_name = words(f"place.{PLACES[place]}")
    return words("strips.like", sum=sum_, longer=longer, step=step, place=place_name)


def _short(titled: Titled, words: Words, arrangement: Arrangement) -> Strip:
    """Return the strip of a sum of one exchange: its exchange, what is taken out and moved."""
    sum_, title = titled
    *_, check = _every_move(sum_, words, arrangement)
    return Strip(title, tuple(_moves(sum_, words, arrangement)), check)


def _moves(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[LessonStep]:
    """Yield the exchanges and takings of ``sum_``, each with one question.

    What is left is moved too, where it has a zone of its own.
    """
    for step in script(sum_, words, arrangement):
        moves = "fetch" in step.cues or "take" in step.cues
        if not moves and not ("read" in step.cues and step.scene.apart):
            continue
        asked = _asked(step, sum_, words)
        if "read" in step.cues and "take" in step.cues:
            asked = Asked(words("script.take_all_asks"), f"{sum_.rest}.")
        yield replace(step, asked=(asked,))


def _asked(step: LessonStep, sum_: Sum, words: Words) -> Asked:
    """Return the last question of ``step``; that it is still the whole has a short answer."""
    asked = step.asked[-1]
    if asked.asks in (
        words(f"script.{key}", whole=sum_.whole) for key in ("still", "still_in_all")
    ):
        return replace(asked, says=words("script.back_says"))
    return asked


def _every_move(sum_: Sum, words: Words, arrangement: Arrangement) -> Iterator[LessonStep]:
    """Yield the moves of ``sum_`` from building to the check, each with one question.

    That there is not enough is seen where the exchange is made; the exchanges back are told.
    """
    told = script(sum_, words, arrangement)
    for step in told:
        if step.cues in (("look",), told[-1].cues):
            continue
        asked = _asked(step, sum_, words)
        if "build" in step.cues:
            asked = step.asked[0]
            step = replace(step, cues=("build",))
        if "read" in step.cues and "take" in step.cues:
            both_read = words("strips.read", take=step.title)
            asked = replace(asked, says="")  # the picture has both numbers
            step = replace(step, title=both_read)
        step = replace(step, asked=(asked,))
        if "push" in step.cues:
            cues = (*step.cues, *told[-1].cues)
            asked = replace(asked, says=words("strips.again", whole=sum_.whole))
            step = replace(step, title=words("strips.check"), asked=(asked,), cues=cues)
        yield step
