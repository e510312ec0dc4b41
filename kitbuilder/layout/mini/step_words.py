"""Turns what a mini kit says into items: head, steps, and what there is room for of help."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kitbuilder.design.load import Look, Words
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Kit, Say, Shown
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pages.guide_pages import steps_in
from kitbuilder.layout.text.flow import paragraph

_BEFORE_HELP = 3.0
"""Space in mm between the steps and what to do when something goes wrong."""


Heads = tuple[tuple[tuple[Say, ...], int], ...]
"""What is said first, and shorter ways to say it, each with what is lost: a line of help is 2."""


def heads(kit: Kit, words: Words, unit_mm: float, pieces: int, more: bool, mats: int) -> Heads:
    """Return the head of ``kit``, with ``pieces`` and ``mats`` sheets and perhaps one ``more``.

    That a kit takes two sheets need not be told; the order of cuts goes last.
    """
    total = pieces + more + mats
    length = phrases.number(words, 10 * unit_mm)
    held = phrases.pieces(words, kit.pieces)
    how = [Say("step", line, "–") for line in words.lines("mini.how", length=length, pieces=held)]
    order = Say("step", words("mini.order"), "–")
    why = words("mini.why_more" if more else "mini.why", total=total, sheets=pieces, mat=mats)
    start = (Say("title", words("mini.title", sum=kit.sums[0])), *how[:2])
    last = Say("step", why, "–")
    why_told = (last,) if total > 2 else ()
    return (
        ((*start, order, *how[2:], last), 0),
        ((*start, order, *how[2:], *why_told), 0),
        ((*start, order, *why_told), 3),  # without how to read the pictures
        ((*start, *why_told), 9),
    )


@dataclass(frozen=True, slots=True)
class Spoken:
    """Items of words and pictures, and what of the help found no room among them."""

    items: tuple[Item, ...]
    left: tuple[Say, ...]


def with_help(
    area: Rect, head: Sequence[Say], steps: Sequence[Shown], said: Sequence[Say], look: Look
) -> Spoken | None:
    """Return ``head`` and ``steps`` with as much of what is ``said`` below as there is room for.

    The last of it is left out first; None where not even head and steps fit.
    """
    try:
        laid = steps_in(area, head, steps, look)
    except RefusedError:  # a word is wider than the part
        laid = None
    if laid is None:
        return None
    kept = list(said)
    while kept:
        foot = [paragraph(say, Rect(area.x, 0, area.width, 1), look) for say in kept]
        high = sum(item.rect.height + after for item, after in foot) + _BEFORE_HELP
        above = None
        if area.height - high > 1:
            above = steps_in(replace(area, height=area.height - high), head, steps, look)
        if above is not None:
            y = max((item.rect.bottom for item in above), default=area.y) + _BEFORE_HELP
            for item, after in foot:
                above += (replace(item, rect=item.rect.moved(0, y)),)
                y += item.rect.height + after
            return Spoken(above, tuple(say for say in said if say not in kept))
        kept.pop()
    return Spoken(laid, tuple(said))
