"""The outline of a PDF: an entry for each run of pages of one title, below its section if any."""

from collections.abc import Iterable, Sequence
from itertools import groupby, pairwise

import pydyf

Heading = tuple[str, str, bytes]
"""A page's section (or nothing), its title, and the reference of its page."""


def add_outline(document: pydyf.PDF, headings: Iterable[Heading]) -> bytes:
    """Add the outline of pages with these ``headings`` to ``document``; return its reference.

    Every section is closed: a class of forty shows forty names (ISO 32000-1, 12.3.3, from
    memory).
    """
    root = pydyf.Dictionary({"Type": "/Outlines"})
    document.add_object(root)
    entries: list[pydyf.Dictionary] = []
    sections: dict[str, tuple[pydyf.Dictionary, list[pydyf.Dictionary]]] = {}
    for section, title, page in _runs(headings):
        if section and section not in sections:
            entries.append(_entry(document, section, page))
            sections[section] = entries[-1], []
        place = sections[section][1] if section else entries
        place.append(_entry(document, title, page))
    for entry, below in sections.values():
        _join(entry, below, -len(below))
    if entries:
        _join(root, entries, len(entries))
    return bytes(root.reference)


def _runs(headings: Iterable[Heading]) -> Iterable[Heading]:
    """Yield the first page of each run of pages of one section and title."""
    for _, run in groupby(headings, key=lambda heading: heading[:2]):
        yield next(run)


def _entry(document: pydyf.PDF, title: str, page: bytes) -> pydyf.Dictionary:
    where = pydyf.Array([page, "/Fit"])
    entry = pydyf.Dictionary({"Title": pydyf.String(title), "Dest": where})
    document.add_object(entry)
    return entry


def _join(above: pydyf.Dictionary, below: Sequence[pydyf.Dictionary], count: int) -> None:
    """Hang ``below`` in their order under ``above``; a ``count`` below zero keeps them closed."""
    above |= {"First": below[0].reference, "Last": below[-1].reference, "Count": count}
    for entry in below:
        entry["Parent"] = above.reference
    for one, next_ in pairwise(below):
        one["Next"] = next_.reference
        next_["Prev"] = one.reference
