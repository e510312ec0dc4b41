"""Empty backs, so that all of a list of pages is printed on both sides in one go."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import zip_longest

from kitbuilder.layout.model import Flip, Sheet, Stock


def with_blank_backs(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return ``sheets``; among those typed into a print window together, each has a back or none.

    Together are those of one stock that are printed now, and those that are printed later. Where
    some of them have backs, the others get an empty one each: nothing is then printed on the back
    of something else.
    """
    ways: dict[tuple[Stock, bool], Flip] = {}
    for sheet in sheets:
        if sheet.flip:
            ways.setdefault(_typed(sheet), sheet.flip)
    return tuple(_backed(sheets, ways))


def _backed(sheets: Sequence[Sheet], ways: Mapping[tuple[Stock, bool], Flip]) -> Iterator[Sheet]:
    for sheet, after in zip_longest(sheets, sheets[1:]):
        yield sheet
        way = ways.get(_typed(sheet))
        if way and not sheet.flip and not (after and after.flip):
            empty = replace(sheet, items=(), cuts=(), folds=(), stops=(), spare=(), snips=0)
            yield replace(empty, flip=way)


def is_blank(sheet: Sheet) -> bool:
    """Say whether ``sheet`` is an empty back."""
    return sheet.flip is not None and not sheet.items


def _typed(sheet: Sheet) -> tuple[Stock, bool]:
    return sheet.stock, sheet.later
