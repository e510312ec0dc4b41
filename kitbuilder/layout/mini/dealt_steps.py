"""Deals the steps of a lesson in little onto pages, each with as many as it has room for."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.layout.mini.tonight_steps import LEAST_ONE, Form, Way, least_one, way
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.settings import growth
from kitbuilder.layout.picture.frame_records import Manner

_FORMS: tuple[Form, ...] = (
    ("full", 2, 2),
    ("full", 2, 1),
    ("bare", 2, 3),
    ("bare", 2, 2),
    ("full", 1, 2),
    ("full", 1, 1),
    ("bare", 1, 2),
    ("bare", 1, 1),
)
"""How zones are drawn, and how many steps stand across and down at most."""

_UNLIKE: dict[Manner, int] = {"full": 0, "bare": 3}
"""How many pages it is worth that pictures are the mat: numbers under columns, zones as there."""

Rooms = Callable[[bool, range], Rect | None]
"""The room, if any, on a page by whether it is the first and which of what helps it tells."""

_Ways = Callable[[int, int, bool, range, Form, float], Way | None]
# How so many steps from one on stand on a page that is the first or not, with some help told.


@frozen
class StepPage:
    """One page: its steps, how many stand before them, how they stand, and which help it tells.

    A first page may have no steps (``how`` is None).
    """

    steps: tuple[LessonStep, ...]
    before: int
    how: Way | None
    helped: range = range(0)


def dealt_steps(
    steps: Sequence[LessonStep], rooms: Rooms, helps: int, style: Style
) -> tuple[StepPage, ...] | None:
    """Return ``steps`` on few pages with large pictures and all of ``helps``, if that can be.

    Where a first page has no room for a step, as much of what helps as it holds stands there;
    the rest stands on the last.
    """
    for helped in range(helps, 0, -1):
        if found := _told(steps, rooms, helped, style):
            return found
    return None


def _told(
    steps: Sequence[LessonStep], rooms: Rooms, helped: int, style: Style
) -> tuple[StepPage, ...] | None:
    """Return ``steps`` on the pages that cost least of those that tell so much help."""

    @lru_cache(1024)  # asked again for an even number of steps a page
    def ways(at: int, end: int, first: bool, told: range, form: Form, least: float) -> Way | None:
        room = rooms(first, told)
        return way(steps[at:end], steps, room, form, least, style) if room else None

    alone = (range(count) for count in range(helped, -1, -1))
    told = range(helped), next((some for some in alone if rooms(True, some)), None)
    best: tuple[StepPage, ...] | None = None
    leasts = dict.fromkeys((least_one(style), LEAST_ONE))
    for least, form in product(leasts, _FORMS):
        fewest = -(-len(steps) // (form[1] * form[2])) + _UNLIKE[form[0]]
        if best and fewest > _cost(best, style)[0]:
            continue
        pages = _dealt(steps, ways, told, form, least)
        if pages:
            across = form[1]
            each = -(-len(steps) // len(pages))
            level: Form = (form[0], across, -(-each // across))
            even = _dealt(steps, ways, told, level, least)
            found = _alike(even if even and len(even) <= len(pages) else pages)
            if best is None or _cost(found, style) < _cost(best, style):
                best = found
    return best


def _dealt(
    steps: Sequence[LessonStep],
    ways: _Ways,
    helped: tuple[range, range | None],
    form: Form,
    least: float,
) -> list[StepPage] | None:
    """Return pages that each take as many steps as they hold; None if one holds none.

    They have been ``helped`` by all of that; a page without steps holds the other, if any.
    """
    (every, alone), (manner, across, down) = helped, form
    pages: list[StepPage] = []
    at = 0
    while at < len(steps):
        left = steps[at:]
        untold = every[sum(len(page.helped) for page in pages) :]
        for count in range(min(across * down, len(left)), 0, -1):
            told = untold if count == len(left) else range(0)
            here = ((manner, k, -(-count // k)) for k in range(min(across, count), 0, -1))
            each = (ways(at, at + count, not pages, told, some, least) for some in here)
            how = max(filter(None, each), key=lambda some: some.frame.unit, default=None)
            if how is not None:
                pages.append(StepPage(tuple(left[:count]), at, how, told))
                at += count
                break
        else:
            if pages or alone is None:
                return None
            pages.append(StepPage((), 0, None, alone))
    return pages


def _alike(pages: Sequence[StepPage]) -> tuple[StepPage, ...]:
    """Return ``pages`` with the smallest frame of those on which steps stand alike."""
    least: dict[tuple[int, int], Way] = {}
    for how in (page.how for page in pages if page.how):
        kept = least.get((how.across, how.down), how)
        least[how.across, how.down] = min(kept, how, key=lambda some: some.frame.unit)
    alike = (page.how and least[page.how.across, page.how.down] for page in pages)
    return tuple(replace(page, how=how) for page, how in zip(pages, alike, strict=True))


def _cost(pages: Sequence[StepPage], style: Style) -> tuple[int, float]:
    """Return how many pages these are and are worth less than the best, and their ones.

    A one that is a twelfth smaller than it should be costs a page; so do arrows of exchanges that
    lie on pieces, in large type.
    """
    frames = [page.how.frame for page in pages if page.how]
    unit = min(frame.unit for frame in frames)
    small = math.ceil(12 * max(0.0, 1 - unit / least_one(style)) - 1e-6)
    shut = growth(style.look) > 1 and not all(frame.opened for frame in frames)
    return len(pages) + _UNLIKE[frames[0].manner] + small + shut, -unit
