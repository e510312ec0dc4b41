"""Tables of which it is known what they say: none is read otherwise, nearly all are read."""

from collections.abc import Callable, Mapping

import pytest
from true_tables import ANSWERS, PACKS, Answers, Shape, Table, tables

from kitbuilder.errors import RefusedError
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.page.table.pasted import pasted_answers, read_pupils

Read = Mapping[str, list[tuple[str, int | None]]]
"""What each child wrote for each sum, in the order of these."""

TABLES = 150
"""Tables of a shape."""


def _answers(text: str) -> Read:
    papers = pasted_answers(text)
    return {one.name: sorted((str(c.sum), c.answer) for c in one.cells) for one in papers}


def _packs(text: str) -> Read:
    pupils = read_pupils(text, "pieces")
    return {one.name: sorted((str(task.sum), None) for task in one.tasks) for one in pupils}


def _said(truth: Answers) -> Read:
    return {
        name: sorted((f"{whole} − {part}", answer) for (whole, part), answer in given.items())
        for name, given in truth.items()
    }


def _without_blanks(read: Read) -> Read:
    """Return what is read without what was not tried, which may stand or not."""
    tried = {name: [one for one in given if one[1] is not None] for name, given in read.items()}
    return {name: given for name, given in tried.items() if given}


def misread(table: Table, read: Callable[[str], Read]) -> bool | None:
    """Say whether ``read`` finds other than a table says; None where it refuses the table."""
    try:
        found = read(table.text)
    except (RefusedError, RefusedRowsError):
        return None
    said = _said(table.truth)
    same = found == said if read is _packs else _without_blanks(found) == _without_blanks(said)
    return not same


@pytest.mark.parametrize(
    ("shape", "read"),
    [*((one, _answers) for one in dict.fromkeys(ANSWERS)), *((one, _packs) for one in PACKS)],
    ids=lambda one: one.__name__.strip("_"),
)
def test_no_table_is_read_otherwise_than_it_says(shape: Shape, read: Callable[[str], Read]) -> None:
    found = [(misread(table, read), table.text) for table in tables(1, TABLES, [shape])]
    assert [text for wrong, text in found if wrong] == []
    refused = [text for wrong, text in found if wrong is None]
    assert len(refused) < TABLES / 10, refused[0]


def test_a_table_that_says_other_is_found() -> None:
    (table,) = tables(1, 1, ANSWERS[:1])
    (name, given), *others = table.truth.items()
    changed = {one: 1 if answer is None else answer + 1 for one, answer in given.items()}
    assert not misread(table, _answers)
    assert misread(Table(table.text, {name: changed, **dict(others)}), _answers)
    assert misread(Table("what", {}), _answers) is None
