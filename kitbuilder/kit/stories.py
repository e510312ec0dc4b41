"""Sums in words: short stories in which only the whole is ever built."""

from typing import Literal, get_args

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.number import Sum

StoryKind = Literal["take", "missing", "difference"]
STORY_KINDS: tuple[StoryKind, ...] = get_args(StoryKind)
"""Taking away; a part is missing; how many more, where the smaller lies inside the larger."""

RANGES = {
    "books": (40, 9999),
    "seeds": (20, 9999),
    "buttons": (20, 2000),
    "chairs": (20, 600),
    "tiles": (50, 5000),
    "letters": (30, 9999),
    "eggs": (20, 900),
    "apples": (20, 2000),
}
"""What the stories are about, and the wholes that fit each."""

LEAST = 2
"""The least part and rest: words are in the plural."""


@frozen
class Story:
    """A story: its kind, its words, its sum, how that is to be written, and its answer."""

    kind: StoryKind
    text: str
    sum: Sum
    written: str
    answer: int

    @property
    def worked(self) -> Sum:
        """The sum as it is done: what is told is taken from the whole, and leaves the answer."""
        return Sum(self.sum.whole, self.sum.whole - self.answer)


def fitting(sum_: Sum) -> tuple[str, ...]:
    """Return what a story with ``sum_`` may be about, none where a number is too small."""
    if min(sum_.part, sum_.rest) < LEAST:
        return ()
    return tuple(key for key, (low, high) in RANGES.items() if low <= sum_.whole <= high)


def story(sum_: Sum, kind: StoryKind, about: str, words: Words) -> Story:
    """Return the story of ``kind`` with ``sum_`` about one of ``RANGES``.

    The unknown is the rest, but where a part is missing it is the part.
    """
    if about not in fitting(sum_):
        raise ValueError(f"story: {sum_} does not fit {about}")
    text = words(f"stories.{about}.{kind}", whole=sum_.whole, part=sum_.part, rest=sum_.rest)
    written = f"{sum_.whole} − □ = {sum_.rest}" if kind == "missing" else f"{sum_} = □"
    answer = sum_.part if kind == "missing" else sum_.rest
    return Story(kind, text, sum_, written, answer)


def stories(sums: tuple[Sum, ...], words: Words) -> tuple[Story, ...]:
    """Return a story for each of ``sums`` that suits one, kinds and contents in turn."""
    found: list[Story] = []
    for number, sum_ in enumerate(sums):
        known = fitting(sum_)
        if known:
            kind = STORY_KINDS[number % len(STORY_KINDS)]
            found.append(story(sum_, kind, known[number % len(known)], words))
    return tuple(found)
